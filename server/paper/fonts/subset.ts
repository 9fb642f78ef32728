/** Cuts a font down to the glyphs that are used, at one weight, with HarfBuzz's subsetter. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** hb-subset.h */
const FLAG_NO_HINTING = 0x1;
const FLAG_RETAIN_GIDS = 0x2;
const FLAG_NO_LAYOUT_CLOSURE = 0x200;
const SET_DROP_TABLES = 3;
const WRITABLE = 2;
/** A PDF says itself which glyph stands where, and what it means. */
const UNUSED = [
  'GSUB',
  'GPOS',
  'GDEF',
  'BASE',
  'cmap',
  'name',
  'post',
  'OS/2',
  'STAT',
  'meta',
  'vhea',
  'vmtx',
  'VORG',
];

type Wasm = { memory: WebAssembly.Memory } & Record<string, (...numbers: number[]) => number>;

let loaded: Wasm | undefined;

function hb(): Wasm {
  if (loaded) return loaded;
  const file = createRequire(import.meta.url).resolve('harfbuzzjs/dist/harfbuzz-subset.wasm');
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(readFileSync(file)));
  loaded = exports as unknown as Wasm;
  loaded._initialize!();
  return loaded;
}

const tag = (name: string): number =>
  [...name].reduce((sum, letter) => ((sum << 8) | letter.charCodeAt(0)) >>> 0, 0);

/**
 * @param font TrueType
 * @param glyphs ids to keep; they keep their numbers
 * @param weight place on the axis of weights, for a font that has one
 */
export function subset(font: Uint8Array, glyphs: Iterable<number>, weight: number | undefined): Uint8Array {
  const wasm = hb();
  const memory = () => new Uint8Array(wasm.memory.buffer);
  const at = wasm.malloc!(font.length);
  memory().set(font, at);
  const blob = wasm.hb_blob_create!(at, font.length, WRITABLE, 0, 0);
  const face = wasm.hb_face_create!(blob, 0);
  const input = wasm.hb_subset_input_create_or_fail!();
  try {
    wasm.hb_subset_input_set_flags!(input, FLAG_NO_HINTING | FLAG_RETAIN_GIDS | FLAG_NO_LAYOUT_CLOSURE);
    const wanted = wasm.hb_subset_input_glyph_set!(input);
    for (const glyph of glyphs) wasm.hb_set_add!(wanted, glyph);
    const dropped = wasm.hb_subset_input_set!(input, SET_DROP_TABLES);
    for (const name of UNUSED) wasm.hb_set_add!(dropped, tag(name));
    if (weight !== undefined) wasm.hb_subset_input_pin_axis_location!(input, face, tag('wght'), weight);
    return cut(wasm, face, input);
  } finally {
    wasm.hb_subset_input_destroy!(input);
    wasm.hb_face_destroy!(face);
    wasm.hb_blob_destroy!(blob);
    wasm.free!(at);
  }
}

function cut(wasm: Wasm, face: number, input: number): Uint8Array {
  const made = wasm.hb_subset_or_fail!(face, input);
  if (made === 0) throw new Error('the font could not be cut down to what is used');
  const blob = wasm.hb_face_reference_blob!(made);
  const start = wasm.hb_blob_get_data!(blob, 0);
  const bytes = new Uint8Array(wasm.memory.buffer).slice(start, start + wasm.hb_blob_get_length!(blob));
  wasm.hb_blob_destroy!(blob);
  wasm.hb_face_destroy!(made);
  return bytes;
}
