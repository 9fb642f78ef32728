/**
 * Readers of PDF that a machine may have or not: poppler and qpdf. Nothing is installed for a test; where one is
 * there, it is asked too, and a test tells which were.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { lookAt, type Raster } from './looked-at.ts';

const installed = (program: string, asked: string): boolean =>
  spawnSync(program, [asked], { stdio: 'ignore' }).error === undefined;

type Part = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

export interface OtherReader {
  readonly name: string;
  /** A part of a page (in mm) as grey dots. */
  raster(pdf: Uint8Array, page: number, dpi: number, part: Part): Raster;
}

/** MuPDF always, which comes with the tests; poppler where its pdftoppm is found. */
export function renderers(): OtherReader[] {
  const mupdf: OtherReader = {
    name: 'MuPDF',
    raster: (pdf, page, dpi, part) => lookAt(pdf).raster(page, dpi, part),
  };
  return installed('pdftoppm', '-v') ? [mupdf, { name: 'poppler', raster: byPoppler }] : [mupdf];
}

function inFile<T>(pdf: Uint8Array, work: (file: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'wareboard-pdf-'));
  try {
    const file = join(folder, 'seen.pdf');
    writeFileSync(file, pdf);
    return work(file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function byPoppler(pdf: Uint8Array, page: number, dpi: number, part: Part): Raster {
  const perMm = dpi / 25.4;
  const [left, top] = [Math.round(part.x * perMm), Math.round(part.y * perMm)];
  const width = Math.round((part.x + part.width) * perMm) - left;
  const height = Math.round((part.y + part.height) * perMm) - top;
  const numbers = { f: page + 1, l: page + 1, r: dpi, x: left, y: top, W: width, H: height };
  const asked = Object.entries(numbers).flatMap(([name, value]) => [`-${name}`, String(value)]);
  const { stdout, status, stderr } = inFile(pdf, (file) =>
    spawnSync('pdftoppm', [...asked, '-gray', file], { maxBuffer: 500_000_000 }),
  );
  if (status !== 0) throw new Error(`pdftoppm: ${stderr}`);
  return { ...greyMap(stdout), perMm };
}

/** Portable grey map, P5 with one byte a dot. */
function greyMap(bytes: Buffer): Omit<Raster, 'perMm'> {
  const head = /^P5\s+(?:#.*\n)?(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 200).toString('latin1'))!;
  const [width, height] = [Number(head[1]), Number(head[2])];
  const pixels = new Uint8ClampedArray(bytes.subarray(head[0].length, head[0].length + width * height));
  return { width, height, pixels };
}

/** What qpdf finds wrong with a file; undefined where it is not installed. */
export function wrongByQpdf(pdf: Uint8Array): string | undefined {
  if (!installed('qpdf', '--version')) return undefined;
  const { status, stdout, stderr } = inFile(pdf, (file) =>
    spawnSync('qpdf', ['--check', file], { encoding: 'utf8' }),
  );
  return status === 0 ? '' : `${stdout}${stderr}`;
}
