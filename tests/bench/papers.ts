/**
 * How long sets of templates take from measures to a finished file, and how large they are; the first of a process apart.
 * The time of the processor is told beside the clock's: on a busy machine the clock tells of the others.
 */
import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { drawTemplate } from '../../plugins/template-sheets/drawing/draw-template.ts';
import { templateFor } from '../../plugins/template-sheets/template.ts';
import { drawPaper } from '../../server/paper/draw.ts';
import { median } from './measure.ts';

export const WORDS = {
  maker: 'Hollin Yard Pottery',
  licence: 'For pots you make by hand.',
  howTo: 'Roll the slab 6 mm thick. Bevel, score and join the seam.',
};
const VASE = {
  form: 'frustum',
  bottom: 120,
  top: 200,
  height: 150,
  shrinkage: 0.12,
  seam: 8,
  base: true,
  name: 'Vase',
};
export const JUG = {
  form: 'polygon',
  sides: 6,
  bottomSide: 60,
  topSide: 45,
  height: 220,
  thickness: 5,
  base: true,
  name: 'Jug',
};
const BOWL = { form: 'bowl', rim: 300, depth: 110, darts: 12, foot: 90, thickness: 6, name: 'Bowl' };
const SETS = [
  ['frustum', VASE, 'A4'],
  ['frustum', VASE, 'Letter'],
  ['frustum', VASE, 'A3'],
  ['six-sided jug', JUG, 'A4'],
  ['bowl with darts', BOWL, 'A4'],
  [
    'three sizes of a jug',
    { ...JUG, sizes: [0.6, 0.8, 1].map((scale) => ({ name: `${scale}`, scale })) },
    'A4',
  ],
] as const;
const TURNS = 15;

export async function once(spec: unknown, paper: string) {
  const [clock, processor] = [performance.now(), process.cpuUsage()];
  const template = templateFor(spec, paper);
  if ('wrong' in template) throw new Error(template.wrong.join(' '));
  const pdf = await drawPaper(drawTemplate(template, WORDS), { studio: WORDS.maker, day: '2026-05-01' });
  const { user, system } = process.cpuUsage(processor);
  const pages = template.sheets.sheets.length + 1;
  return { pages, bytes: pdf.length, clock: performance.now() - clock, processor: (user + system) / 1_000 };
}

const AIM_MS = 300;
const AIM_BYTES = 300_000;

export async function benchPapers(): Promise<{ text: string; reached: boolean }> {
  const lines = [
    '| set of templates | paper | pages | kB | ms (median) | processor, ms | aim |',
    '|---|---|--:|--:|--:|--:|---|',
  ];
  const met: boolean[] = [];
  for (const [name, spec, paper] of SETS) {
    const first = await once(spec, paper);
    const later = [];
    for (let turn = 0; turn < TURNS; turn++) later.push(await once(spec, paper));
    const clock = median(later.map((it) => it.clock));
    const processor = median(later.map((it) => it.processor));
    met.push(clock < AIM_MS && first.bytes < AIM_BYTES);
    const cells = [name, paper, first.pages, (first.bytes / 1_000).toFixed(0), clock.toFixed(0)];
    lines.push(`| ${[...cells, processor.toFixed(0), said(met.at(-1)!)].join(' | ')} |`);
  }
  const firsts = await benchFirst();
  return { text: [...lines, '', ...firsts.lines].join('\n'), reached: firsts.reached && met.every(Boolean) };
}

const said = (reached: boolean): string => (reached ? 'reached' : '**not reached**');

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const run = promisify(execFile);
const STARTS = 3;

/** A process of its own for each: the first jug where nothing was drawn before, after a warm-up, and by the verb. */
async function benchFirst(): Promise<{ lines: string[]; reached: boolean }> {
  const cold = await firsts('cold');
  const warmed = await firsts('warmed');
  const verb = await verbs();
  return {
    lines: [
      '| the first paper of a process | ms (least of 3) | processor, ms | aim |',
      '|---|--:|--:|---|',
      `| nothing drawn before | ${cold.clock.toFixed(0)} | ${cold.processor.toFixed(0)} | |`,
      `| after the server’s warm-up | ${warmed.clock.toFixed(0)} | ${warmed.processor.toFixed(0)} | ${said(warmed.clock < AIM_MS)} |`,
      verb === undefined
        ? '| `template` on the command line | not built | | |'
        : `| \`template\` on the command line, its start counted | ${verb.toFixed(0)} | | |`,
    ],
    reached: warmed.clock < AIM_MS,
  };
}

async function firsts(how: 'cold' | 'warmed') {
  const told = [];
  for (let start = 0; start < STARTS; start++) {
    const { stdout } = await run(
      process.execPath,
      ['--import', 'tsx', join(ROOT, 'tests/bench/first-paper.ts'), how],
      { cwd: ROOT },
    );
    told.push(JSON.parse(stdout) as { clock: number; processor: number });
  }
  return told.reduce((least, it) => (it.clock < least.clock ? it : least));
}

async function verbs(): Promise<number | undefined> {
  const program = join(ROOT, 'dist/server/wareboard.js');
  if (!existsSync(program)) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'wareboard-bench-'));
  try {
    const spec = join(folder, 'jug.json');
    writeFileSync(spec, JSON.stringify(JUG));
    const times = [];
    for (let start = 0; start < STARTS; start++) {
      const from = performance.now();
      await run(process.execPath, [program, 'template', spec, '--to', join(folder, `${start}.pdf`)]);
      times.push(performance.now() - from);
    }
    return Math.min(...times);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
