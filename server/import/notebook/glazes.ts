import type { Reading } from '../../contract/cells/cell.ts';
import { failed, listed, readNamed, unfit, withTimes } from '../../contract/cells/cell.ts';
import type { KnownWords } from './words.ts';
import { readWord } from './words.ts';

export interface RowLayer {
  /** Name of the glaze. */
  readonly glaze: string;
  readonly coats: number;
}

export interface RowGlaze {
  /** Absent when the row does not say where the glaze is. */
  readonly zone?: string;
  /** The first one is on the clay. */
  readonly layers: readonly RowLayer[];
}

const EXPECTED = 'glazes like outside: Marram Green > Cuttle White x2; inside: Gannet Grey';

/** Zone, first layer > second layer, xN coats; zones divided by ; */
export function readGlazes(cell: string, words: KnownWords): Reading<RowGlaze[]> {
  const value: RowGlaze[] = [];
  for (const part of listed(cell)) {
    const glaze = readZone(part, words);
    if (failed(glaze)) return glaze;
    value.push(glaze.value);
  }
  return value.length === 0 ? unfit(cell, EXPECTED) : { value };
}

function readZone(part: string, words: KnownWords): Reading<RowGlaze> {
  const colon = part.indexOf(':');
  const layers: RowLayer[] = [];
  for (const text of part.slice(colon + 1).split('>')) {
    const layer = readLayer(text.trim(), part);
    if (failed(layer)) return layer;
    layers.push(layer.value);
  }
  if (colon < 0) return { value: { layers } };
  const zone = readWord(part.slice(0, colon).trim(), 'zone', words);
  return failed(zone) ? zone : { value: { zone: zone.value, layers } };
}

function readLayer(text: string, part: string): Reading<RowLayer> {
  if (text === '') return unfit(part, EXPECTED);
  const { text: named, times } = withTimes(text);
  const name = readNamed(named);
  if (failed(name)) return unfit(text, name.expected);
  if (times === undefined) return { value: { glaze: name.value, coats: 1 } };
  const coats = /^\d{1,2}$/.test(times) ? Number(times) : 0;
  if (coats < 1 || coats > 20) return unfit(text, 'a number of coats from 1 to 20, like x2');
  return { value: { glaze: name.value, coats } };
}
