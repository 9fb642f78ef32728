/**
 * Which of the unsent orders a new one rests on: those that changed what it speaks of. A grade rests
 * on the fault noted before it on that piece, and on the end of the firing it names; drawing the kiln
 * does not rest on every grade.
 */
import type { Unsent } from './unsent.ts';

interface Named {
  readonly piece?: unknown;
  readonly pieces?: unknown;
  readonly places?: unknown;
  readonly firing?: unknown;
  readonly person?: unknown;
  readonly owner?: unknown;
  readonly to?: unknown;
  readonly id?: unknown;
  readonly command?: unknown;
}

/** What is split off a lot has its id, a dot and more; it is kept under the lot. */
const lotOf = (piece: string): string => piece.split('.')[0]!;

const texts = (values: readonly unknown[]): string[] =>
  values.filter((value): value is string => typeof value === 'string' && value !== '');

const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

function lotsIn(input: Named): string[] {
  const placed = list(input.places).map((place) => (place as Named | undefined)?.piece);
  return texts([input.piece, ...list(input.pieces), ...placed]).map((piece) => `piece:${lotOf(piece)}`);
}

/** What an order changes. */
export function changes({ command, input }: Pick<Unsent, 'command' | 'input'>): string[] {
  const named = input as Named;
  const prefix = command.slice(0, command.indexOf('.'));
  const own =
    prefix === 'firing'
      ? texts([named.firing]).map((firing) => `firing:${firing}`)
      : texts([named.id, prefix === 'person' ? named.person : undefined]).map((id) => `${prefix}:${id}`);
  return [...new Set([...own, ...lotsIn(named)])];
}

/** What an order speaks of. */
export function mentions({ command, input }: Pick<Unsent, 'command' | 'input'>): string[] {
  const named = input as Named;
  const { person } = (named.owner ?? {}) as Named;
  return [
    ...new Set([
      ...changes({ command, input }),
      ...texts([named.firing]).map((firing) => `firing:${firing}`),
      ...texts([named.person, named.to, person]).map((id) => `person:${id}`),
    ]),
  ];
}

type Asked = Pick<Unsent, 'id' | 'command' | 'input'>;

/** Taking something back changes what that had changed. */
function target(order: Asked, before: readonly Asked[]): Asked {
  if (order.command !== 'entry.strike') return order;
  const undoes = before.find(({ id }) => id === (order.input as Named).command);
  return undoes ? target(undoes, before) : order;
}

/** @param before unsent orders, in the order they were noted; those left out do not count */
export function needsOf(order: Asked, before: readonly (Asked & Partial<Pick<Unsent, 'state'>>)[]): string[] {
  const spoken = new Set(mentions(target(order, before)));
  return before
    .filter((it) => it.state !== 'left-out')
    .filter((it) => changes(target(it, before)).some((subject) => spoken.has(subject)))
    .map((it) => it.id);
}
