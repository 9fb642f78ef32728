/**
 * Answers to what the page asks, from what this device keeps: a firing and a piece are told anew from
 * their entries; lists are as they were last told, with the lines changed that something was noted of.
 */

import { streamKey, streamPrefix } from '../../server/contract/streams.ts';
import type { Firing, Lot, Portion } from '../../server/contract/studio/state.ts';
import { lotOf } from '../../server/contract/studio/values.ts';
import { firingKind } from '../../server/studio/firing/firing.ts';
import { clayKind, glazeKind, kilnKind, scheduleKind } from '../../server/studio/materials/materials.ts';
import { pieceKind } from '../../server/studio/piece/lot.ts';
import { firingPage } from '../../server/studio/reports/firing.ts';
import { piecePage } from '../../server/studio/reports/piece.ts';
import type { Names } from '../../server/studio/story.ts';
import type { Ahead } from './ahead.ts';

type Row = Readonly<Record<string, unknown>>;
interface Answer {
  readonly rows: readonly Row[];
}

export interface Telling {
  readonly ahead: Ahead;
  /** Streams kept on this device. */
  readonly streams: readonly string[];
  readonly names: Readonly<Record<string, string | null>>;
}

const MATERIALS = { glaze: glazeKind, clay: clayKind, schedule: scheduleKind, kiln: kilnKind } as const;

async function materialNames({ ahead, streams }: Telling): Promise<Names> {
  const names = new Map<string, string>();
  for (const stream of streams) {
    const kind = MATERIALS[streamPrefix(stream) as keyof typeof MATERIALS];
    if (!kind) continue;
    const { id, facts } = await ahead.state(kind as typeof glazeKind, streamKey(stream));
    if (facts && !names.has(id)) names.set(id, facts.name);
  }
  return (id) => (id === undefined ? '' : (names.get(id) ?? id.replaceAll('-', ' ')));
}

/** The answer told anew, or undefined where this device does not keep what it takes. */
export async function tellAnew(telling: Telling, address: string): Promise<unknown> {
  const { pathname, searchParams } = new URL(address, 'http://device');
  if (searchParams.has('as-at') || searchParams.has('known-at')) return undefined;
  const { ahead } = telling;
  if (pathname === '/api/reports/studio/firing') {
    const firing = searchParams.get('firing') ?? '';
    if (!ahead.knows(`firing:${firing}`)) return undefined;
    return filled(telling, await firingPage(ahead, await materialNames(telling), { firing }));
  }
  if (pathname === '/api/reports/studio/piece') {
    const piece = searchParams.get('piece') ?? '';
    if (!ahead.knows(`piece:${lotOf(piece)}`)) return undefined;
    return filled(telling, await piecePage(ahead, await materialNames(telling), { piece }));
  }
  return undefined;
}

/** Names of people and texts in the place of their references; what is not kept here is left out. */
function filled({ ahead, names }: Telling, value: unknown): unknown {
  const fill = (it: unknown): unknown => {
    if (Array.isArray(it)) return it.map(fill);
    if (typeof it !== 'object' || it === null) return it;
    const { person, text, hash, ...rest } = it as Record<string, unknown>;
    if (Object.keys(rest).length === 0) {
      if (typeof text === 'string' && typeof hash === 'string') return ahead.textOf(text) ?? null;
      if (typeof person === 'string' && text === undefined) return names[person] ?? null;
    }
    return Object.fromEntries(Object.entries(it).map(([key, inner]) => [key, fill(inner)]));
  };
  return fill(value);
}

/** A list as it was last told, with the lines changed that something was noted of. */
export async function carryOn(telling: Telling, address: string, kept: unknown): Promise<unknown> {
  const { ahead } = telling;
  if (ahead.changed.size === 0) return kept;
  const { pathname, searchParams } = new URL(address, 'http://device');
  const lots = await changedLots(ahead);
  const firings = await changedFirings(ahead);
  if (pathname === '/api/reports/studio/ware')
    return { ...(kept as Answer), rows: wareRows((kept as Answer).rows, lots, searchParams) };
  if (pathname === '/api/reports/studio/firings')
    return { ...(kept as Answer), rows: firingRows((kept as Answer).rows, firings) };
  if (pathname === '/api/waiting') return waitingAnswer(kept as WaitingAnswer, lots, firings);
  return kept;
}

async function changedLots(ahead: Ahead): Promise<ReadonlyMap<string, Lot>> {
  const keys = [...ahead.changed].filter((stream) => streamPrefix(stream) === 'piece').map(streamKey);
  return new Map(
    await Promise.all(keys.map(async (key) => [key, await ahead.state(pieceKind, key)] as const)),
  );
}

async function changedFirings(ahead: Ahead): Promise<ReadonlyMap<string, Firing>> {
  const keys = [...ahead.changed].filter((stream) => streamPrefix(stream) === 'firing').map(streamKey);
  return new Map(
    await Promise.all(keys.map(async (key) => [key, await ahead.state(firingKind, key)] as const)),
  );
}

const standing = (portion: Portion): Row => ({
  count: portion.count,
  stage: portion.stage,
  grade: portion.gradings.at(-1)?.grade ?? null,
  inFiring: portion.inFiring ?? null,
  changedAt: portion.changedAt,
});

const fresh = (portion: Portion): Row => ({
  piece: portion.piece,
  mark: portion.mark ?? null,
  form: portion.form ?? null,
  clayName: portion.clay?.replaceAll('-', ' ') ?? null,
  owner: portion.owner.kind,
  ownerName: null,
  glazeNames: [
    ...new Set(portion.glazings.flatMap((g) => g.layers.map((l) => l.glaze.replaceAll('-', ' ')))),
  ],
  ...standing(portion),
});

function wareRows(rows: readonly Row[], lots: ReadonlyMap<string, Lot>, filter: URLSearchParams): Row[] {
  const portions = [...lots.values()].flatMap((lot) => lot.portions);
  const stage = filter.get('stage');
  const fits = (row: Row) => !stage || (stage === 'here' ? row.stage !== 'left' : row.stage === stage);
  const changed = rows.flatMap((row) => {
    if (!lots.has(lotOf(String(row.piece)))) return [row];
    const portion = portions.find(({ piece }) => piece === row.piece);
    return portion ? [{ ...row, ...standing(portion) }] : [];
  });
  const known = new Set(rows.map((row) => row.piece));
  // Where it is filtered by more than the stage, only the studio can tell what else would fit.
  const unfiltered = [...filter.keys()].every((key) => key === 'stage' || key === 'limit');
  const added = unfiltered ? portions.filter(({ piece }) => !known.has(piece)).map(fresh) : [];
  return [...added, ...changed].filter(fits);
}

function firingRows(rows: readonly Row[], firings: ReadonlyMap<string, Firing>): Row[] {
  const state = (firing: Firing): Row => ({
    firing: firing.firing,
    label: firing.label ?? null,
    kiln: firing.kiln ?? null,
    role: firing.role ?? null,
    state: firing.state,
    pieces: firing.places.reduce((sum, place) => sum + place.count, 0),
    packedAt: firing.packedAt ?? null,
    litAt: firing.litAt ?? null,
    endedAt: firing.endedAt ?? null,
    drawnAt: firing.drawnAt ?? null,
  });
  const known = new Set(rows.map((row) => row.firing));
  const added = [...firings.values()]
    .filter((it) => it.state !== 'none' && !known.has(it.firing))
    .map((it) => ({
      kilnName: it.kiln?.replaceAll('-', ' ') ?? null,
      scheduleName: it.schedule?.replaceAll('-', ' ') ?? null,
      ...state(it),
    }));
  const changed = rows.map((row) => {
    const firing = firings.get(String(row.firing));
    return firing ? { ...row, ...state(firing) } : row;
  });
  return [...added, ...changed];
}

interface WaitingAnswer {
  readonly told: readonly { readonly rows: readonly Row[] }[];
}

const DOES: Readonly<Record<string, string>> = { packed: 'light', lit: 'end', ended: 'draw' };

/** What something was noted of does not wait as it did. */
function waitingAnswer(
  kept: WaitingAnswer,
  lots: ReadonlyMap<string, Lot>,
  firings: ReadonlyMap<string, Firing>,
): WaitingAnswer {
  const waits = (row: Row): boolean => {
    const [, place, key = ''] = String(row.to).split('/');
    if (place === 'kilns') {
      const firing = firings.get(decodeURIComponent(key));
      return !firing || DOES[firing.state] === row.does;
    }
    return !(place === 'ware' && lots.has(lotOf(decodeURIComponent(key))));
  };
  return { ...kept, told: kept.told.map((told) => ({ ...told, rows: told.rows.filter(waits) })) };
}
