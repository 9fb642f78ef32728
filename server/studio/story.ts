/** An entry as a sentence of a piece's or firing's story. */
import { moneyInWords } from '../contract/amounts.ts';
import type { Entry } from '../contract/entry.ts';
import type { StudioData, StudioEventName } from '../contract/studio/events.ts';
import type { Layer } from '../contract/studio/values.ts';

/** Names of clays, glazes, schedules and kilns by handle; a handle stands for itself where none is known. */
export type Names = (id: string | undefined) => string;

/** The piece whose story is told, and what it was split from. */
export type Ours = { has(piece: string): boolean };

type Say<Name extends StudioEventName> = (data: StudioData<Name>, name: Names, ours: Ours) => string;

const times = (n: number): string => (n > 1 ? ` × ${n}` : '');
const words = (id: string): string => id.replaceAll('-', ' ');
const of = (count: number): string => (count > 1 ? ` (${count})` : '');

const layersOf = (layers: readonly Layer[], name: Names): string =>
  layers.map((l) => `${name(l.glaze)}${times(l.coats)}${l.method ? `, ${l.method}` : ''}`).join(' under ');

const placed = (place: StudioData<'firing.packed'>['places'][number] | undefined): string => {
  if (!place) return '';
  const parts = [
    place.shelf ? `shelf ${place.shelf}` : '',
    place.position ?? '',
    place.furniture?.length ? `on ${place.furniture.map(words).join(' and ')}` : '',
  ].filter(Boolean);
  return parts.length > 0 ? `: ${parts.join(', ')}` : '';
};

const grades = (d: StudioData<'piece.graded'>): string =>
  (
    [
      ['first', d.first],
      ['second', d.second],
      ['waster', d.waster],
    ] as const
  )
    .filter(([, n]) => n > 0)
    .map(([grade, n]) => `${n} ${grade}${n > 1 ? 's' : ''}`)
    .join(', ');

const LEFT: Readonly<Record<string, string>> = {
  sold: 'Sold',
  collected: 'Collected',
  posted: 'Posted',
  given: 'Given away',
  'broken-up': 'Broken up',
  lost: 'Lost',
};

const SAY: { readonly [Name in StudioEventName]?: Say<Name> } = {
  'piece.begun': (d, name) =>
    `Begun: ${d.count} × ${d.form ?? 'piece'}${d.clay ? ` in ${name(d.clay)}` : ''}${d.how ? `, ${words(d.how)}` : ''}`,
  'piece.moved-on': (d) => `Now ${words(d.stage)}${of(d.count)}`,
  'lot.split': (d, _, ours) => {
    const part = d.into.find((p) => ours.has(p.piece));
    return part
      ? `Split off: ${part.count}`
      : `Lot split: ${d.into.map((p) => p.count).join(' and ')} taken off`;
  },
  'glaze.applied': (d, name) =>
    `Glazed${d.zone ? ` (${words(d.zone)})` : ''}: ${layersOf(d.layers, name)}${d.wipedBack ? ', wiped back' : ''}`,
  'fault.found': (d) =>
    `Fault: ${words(d.kind)}${d.zone ? ` on the ${words(d.zone)}` : ''}${of(d.count)}${d.size ? `, ${d.size} mm` : ''}${d.severity ? `, ${d.severity}` : ''}`,
  'repair.decided': (d) => `To be mended: ${words(d.method)}${d.fault ? ` for ${words(d.fault)}` : ''}`,
  'repair.done': (d) => `Mended: ${words(d.method)}${d.fault ? ` for ${words(d.fault)}` : ''}`,
  'repair.declined': () => 'Nothing is mended: it stays as it is',
  'piece.owner-told': () => 'Its owner was told',
  'piece.graded': (d) => `Graded: ${grades(d)}${d.price ? ` at ${moneyInWords(d.price)}` : ''}`,
  'piece.priced': (d) =>
    `Priced${d.price ? ` at ${moneyInWords(d.price)}` : ''}${d.secondPrice ? `, ${moneyInWords(d.secondPrice)} as a second` : ''}`,
  'piece.left': (d) =>
    `${LEFT[d.how] ?? words(d.how)}${of(d.count)}${d.price ? ` for ${moneyInWords(d.price)}` : ''}`,
  'piece.returned': (d) => `Came back from the ${d.from}${of(d.count)}`,
  'piece.noted': () => 'Note',
  'piece.recounted': (d) => `Count corrected to ${d.count}`,
  'piece.owner-changed': (d) => `Now ${d.owner.kind === 'own' ? 'own stock' : d.owner.kind}`,
  'firing.packed': (d, name, ours) =>
    `${d.afterwards ? 'Went through' : 'Packed in'} ${d.label ?? 'a firing'} (${name(d.kiln)}${d.schedule ? `, ${name(d.schedule)}` : ''})${placed(d.places.find((p) => ours.has(p.piece)))}`,
  'firing.unpacked': () => 'Taken out of the load again',
  'firing.lit': () => 'Kiln lit',
  'firing.read': (d) => `${d.readings.length} temperature${d.readings.length > 1 ? 's' : ''} noted`,
  'firing.abandoned': () => 'Firing given up',
  'firing.ended': (d) => `Firing ended${d.top ? ` at ${d.top} °C` : ''}`,
  'firing.drawn': (d) =>
    `Drawn${d.cones?.length ? `; witness cones: ${d.cones.map((c) => `shelf ${c.shelf} cone ${c.cone} ${c.bend}`).join(', ')}` : ''}`,
  'clay.batch-opened': (d) => `Batch opened: ${d.batch}`,
  'glaze.batch-mixed': (d) => `Batch mixed: ${d.batch}`,
  'file.attached': (d) =>
    d.repair
      ? `Picture${d.shows ? ` ${d.shows}` : ''}: ${words(d.repair)}`
      : `Picture${d.fault ? ` of ${words(d.fault)}` : ' taken'}`,
};

const NOBODY: Ours = { has: () => false };

export function sentenceOf(entry: Entry, name: Names, ours: Ours = NOBODY): string {
  const say = SAY[entry.name as StudioEventName] as Say<StudioEventName> | undefined;
  return say
    ? say(entry.data as StudioData<StudioEventName>, name, ours)
    : words(entry.name.replace('.', ' '));
}
