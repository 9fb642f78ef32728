/** One firing's page: the load by shelf and what came out. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import type { Passage, Portion } from '../../contract/studio/state.ts';
import { id, lotOf } from '../../contract/studio/values.ts';
import { firingKind, firingStream } from '../firing/firing.ts';
import { kilnKind } from '../materials/materials.ts';
import { pieceKind } from '../piece/lot.ts';
import { type Names, sentenceOf } from '../story.ts';
import { anyName, namesOf } from './names.ts';

const many = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

/** What became of a place's piece: itself and what was split off it after packing. */
function cameOut(portions: readonly Portion[], firing: string): Portion[] {
  return portions.filter((p) => p.passages.some((passage) => passage.firing === firing));
}

/** The firing before this one: what was seen then, how it was graded, what was mended since. */
function lastTime(portion: Portion, passage: Passage, name: (id?: string) => string) {
  const before = portion.passages[portion.passages.indexOf(passage) - 1];
  if (!before) return null;
  return {
    firing: before.firing,
    label: before.label ?? name(before.kiln),
    role: before.role,
    at: before.endedAt ?? before.packedAt,
    grade: portion.gradings.findLast((g) => g.firing === before.firing)?.grade ?? null,
    faults: portion.faults
      .filter((f) => f.firing === before.firing)
      .map(({ kind, zone }) => ({ kind, zone: zone ?? null })),
    repairs: portion.repairs.filter((r) => r.seq > before.seq && r.seq < passage.seq).map((r) => r.method),
  };
}

function outRow(portion: Portion, firing: string, name: (id?: string) => string) {
  const passage = portion.passages.find((p) => p.firing === firing)!;
  const last = portion.passages.at(-1) === passage;
  return {
    piece: portion.piece,
    mark: portion.mark ?? null,
    form: portion.form ?? null,
    count: portion.count,
    stage: portion.stage,
    shelf: passage.shelf ?? null,
    position: passage.position ?? null,
    furniture: passage.furniture ?? [],
    clayName: portion.clay ? name(portion.clay) : null,
    glazings: passage.glazings.map((g) => ({
      zone: g.zone ?? null,
      layers: g.layers.map((l) => ({ ...l, name: name(l.glaze) })),
    })),
    ownerName: portion.owner.kind === 'own' ? null : { person: portion.owner.person },
    grade: portion.gradings.findLast((g) => g.firing === firing)?.grade ?? null,
    faults: portion.faults
      .filter((f) => f.firing === firing)
      .map(({ kind, zone, count }) => ({ kind, zone: zone ?? null, count })),
    drawn: portion.inFiring !== firing,
    /** What happened to it before: faults and repairs of earlier firings. */
    before: {
      faults: portion.faults
        .filter((f) => f.firing !== firing)
        .map(({ kind, zone }) => ({ kind, zone: zone ?? null })),
      repairs: portion.repairs.map((r) => r.method),
    },
    lastTime: lastTime(portion, passage, name),
    owner: portion.owner.kind,
    size: portion.size ?? null,
    photos: portion.photos,
    packedAt: passage.packedAt,
    latest: last,
    story: `/ware/${encodeURIComponent(portion.piece)}`,
  };
}

/** What the page of a firing asks for: so a device can tell it from what it keeps. */
type Told = Pick<Ask, 'state' | 'story'>;

export async function firingPage(ask: Told, name: Names, input: { firing: string }): Promise<Answered> {
  const firing = await ask.state(firingKind, input.firing);
  if (firing.state === 'none')
    return {
      sentence: 'There is no such firing at that time.',
      rows: [],
      notes: [],
      figures: [],
      more: { firing: null, story: [] },
    };
  const lots = [...new Set(firing.places.map((p) => lotOf(p.piece)))];
  const states = await Promise.all(lots.map((lot) => ask.state(pieceKind, lot)));
  const order = new Map(firing.places.map((p, n) => [p.piece, n]));
  const rows = states
    .flatMap((lot) => cameOut(lot.portions, input.firing))
    .map((portion) => outRow(portion, input.firing, name))
    .sort(
      (a, b) =>
        (a.shelf ?? 99) - (b.shelf ?? 99) ||
        (order.get(a.piece) ?? 1e9) - (order.get(b.piece) ?? 1e9) ||
        a.piece.localeCompare(b.piece),
    );
  const graded = { first: 0, second: 0, waster: 0 };
  for (const row of rows) if (row.grade) graded[row.grade] += row.count;
  const pieces = rows.reduce((sum, row) => sum + row.count, 0);
  const story = (await ask.story(firingStream(input.firing)))
    .filter(({ entry }) => entry.name !== 'entry.struck')
    .map(({ entry, struckBy }) => ({
      seq: entry.seq,
      name: entry.name,
      command: entry.command,
      happenedAt: entry.happenedAt,
      recordedAt: entry.recordedAt,
      sentence: sentenceOf(entry, name),
      note: (entry.data as { note?: unknown }).note ?? null,
      struckBy: struckBy ?? null,
    }))
    .toReversed();
  const out = graded.first + graded.second + graded.waster;
  return {
    sentence: `${firing.label ?? 'Firing'}: ${many(pieces, 'piece')}, ${firing.state}${out > 0 ? `; ${many(graded.first, 'first')}, ${many(graded.second, 'second')}, ${many(graded.waster, 'waster')}` : ''}.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Load by shelf',
        columns: [
          { field: 'shelf', label: 'Shelf', kind: 'count' },
          { field: 'mark', label: 'Mark', kind: 'mark', behind: 'story' },
          { field: 'count', label: 'Pieces', kind: 'count' },
          { field: 'form', label: 'Form', kind: 'text' },
          { field: 'grade', label: 'Grade', kind: 'code' },
        ],
      },
    ],
    more: {
      firing: {
        ...firing,
        readings: firing.readings.slice(-500),
        kilnName: name(firing.kiln),
        scheduleName: firing.schedule ? name(firing.schedule) : null,
        places: undefined,
      },
      /** The kiln's inside, for a drawing to scale; null where it is not known. */
      kiln: firing.kiln ? ((await ask.state(kilnKind, firing.kiln)).facts ?? null) : null,
      graded,
      pieces,
      story,
    },
  };
}

export const firingReport = report({
  title: 'A firing',
  unlisted: true,
  input: z.strictObject({ firing: id }),
  run: async (ask, input) => firingPage(ask, anyName(await namesOf(ask)), input),
});
