/** Hollin Yard's materials and a few ways of getting a lot to a stage, for tests. */
import { buildRegistry } from '../../server/host/registry.ts';
import { studio } from '../../server/studio/studio.ts';
import { done, givenIn, type Happening } from './given.ts';

export const registry = buildRegistry([studio]);
export const given = givenIn(registry);

export const TILES = '01980000-0000-7000-8000-0000000000aa';
export const JUG = '01980000-0000-7000-8000-0000000000bb';
export const OWN = { kind: 'own' } as const;
export const pounds = (pence: number) => ({ amount: pence, currency: 'GBP' });

export const materials: readonly Happening[] = [
  done('2026-01-01', 'clay.add', { name: 'Fell White' }),
  done('2026-01-01', 'glaze.add', { name: 'Marram Green' }),
  done('2026-01-01', 'glaze.add', { name: 'Cuttle White' }),
  done('2026-01-01', 'kiln.add', { name: 'Big Round' }),
  done('2026-01-01', 'schedule.write', { name: 'Glaze 6 Plain' }),
];

export const begin = (piece: string, count: number, on = '2026-02-01'): Happening =>
  done(on, 'piece.begin', { piece, count, mark: piece.slice(-2), form: 'tile', clay: 'fell-white' });

export const glaze = (piece: string, on: string, more: object = {}): Happening =>
  done(on, 'glaze.apply', { piece, zone: 'inside', layers: [{ glaze: 'marram-green', coats: 2 }], ...more });

export const packed = (firing: string, role: string, pieces: readonly string[], on: string): Happening =>
  done(on, 'firing.pack', {
    firing,
    label: firing,
    kiln: 'big-round',
    role,
    places: pieces.map((piece) => ({ piece, shelf: 1 })),
  });

/** Packed, lit and ended; not yet drawn. */
export const fired = (
  firing: string,
  role: string,
  pieces: readonly string[],
  on: string,
): readonly Happening[] => [
  packed(firing, role, pieces, on),
  done(on, 'firing.light', { firing }),
  done(on, 'firing.end', { firing }),
];

export const drawn = (
  firing: string,
  role: string,
  pieces: readonly string[],
  on: string,
): readonly Happening[] => [...fired(firing, role, pieces, on), done(on, 'firing.draw', { firing })];

/** Twelve tiles, bisque fired, glazed and glaze fired, still standing in the kiln. */
export const glazeFiredTiles: readonly Happening[] = [
  ...materials,
  begin(TILES, 12),
  ...drawn('B1', 'bisque', [TILES], '2026-02-10'),
  glaze(TILES, '2026-02-12'),
  ...fired('G1', 'glaze', [TILES], '2026-02-14'),
];

/** Beside the fired tiles the jug of a student, which waits in G2 to be drawn. */
export const tilesAndStudentsJug: readonly Happening[] = [
  ...glazeFiredTiles,
  done('2026-01-02', 'person.add', { person: 'student-1', name: 'Ida Fennimore' }),
  begin(JUG, 1, '2026-03-01'),
  done('2026-03-01', 'piece.change-owner', { piece: JUG, owner: { kind: 'student', person: 'student-1' } }),
  ...drawn('B2', 'bisque', [JUG], '2026-03-02'),
  glaze(JUG, '2026-03-03'),
  ...fired('G2', 'glaze', [JUG], '2026-03-04'),
];
