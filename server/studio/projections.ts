/** Which rows of the core lists a stream stands for. */
import { projection, type Row } from '../contract/plugin.ts';
import type { Firing, Lot, Material, Person, Photo, Portion } from '../contract/studio/state.ts';
import type { Studio } from './materials/materials.ts';
import {
  clays,
  firings,
  glazes,
  kilns,
  links,
  people,
  pictures,
  pictureTags,
  schedules,
  standing,
  waiting,
  ware,
  words,
} from './tables.ts';
import { waitsFor } from './waits.ts';

const dayOf = (at: string | undefined): string | null => at?.slice(0, 10) ?? null;

const lastOut = (portion: Portion, role: string) =>
  portion.passages.findLast((p) => p.role === role && (p.state === 'ended' || p.state === 'drawn'));

const glazesOn = (portion: Portion): string[] => [
  ...new Set(portion.glazings.flatMap((g) => g.layers.map((l) => l.glaze))),
];

function wareRow(portion: Portion): Row {
  const bisque = lastOut(portion, 'bisque');
  const glaze = lastOut(portion, 'glaze');
  const coats = glazesOn(portion);
  const { mark, form, clay } = portion;
  return {
    piece: portion.piece,
    mark: mark ?? null,
    count: portion.count,
    stage: portion.stage,
    form: form ?? null,
    clay: clay ?? null,
    owner: portion.owner.kind,
    person: portion.owner.kind === 'own' ? null : portion.owner.person,
    grade: portion.gradings.at(-1)?.grade ?? null,
    glazes: coats.length > 0 ? coats.join(', ') : null,
    inFiring: portion.inFiring ?? null,
    bisqueFiring: bisque?.firing ?? null,
    bisqueSchedule: bisque?.schedule ?? null,
    bisqueKiln: bisque?.kiln ?? null,
    glazeFiring: glaze?.firing ?? null,
    glazeSchedule: glaze?.schedule ?? null,
    glazeKiln: glaze?.kiln ?? null,
    fired: dayOf(glaze?.endedAt),
    price: portion.price?.amount ?? null,
    secondPrice: portion.secondPrice?.amount ?? null,
    currency: portion.price?.currency ?? portion.secondPrice?.currency ?? null,
    leftHow: portion.left?.how ?? null,
    begunAt: portion.begunAt,
    changedAt: portion.changedAt,
    changedSeq: portion.changedSeq,
    words: [mark, form, clay, ...coats].filter(Boolean).join(' ').toLowerCase().replaceAll('-', ' '),
  };
}

function linkRows(portion: Portion): Row[] {
  const tags = new Set([
    ...glazesOn(portion).map((glaze) => `glaze:${glaze}`),
    ...portion.faults.map((fault) => `fault:${fault.kind}`),
    ...portion.passages.map((passage) => `firing:${passage.firing}`),
  ]);
  return [...tags].map((tag) => ({ tag, changedSeq: portion.changedSeq, piece: portion.piece }));
}

const waitingRows = (portion: Portion): Row[] =>
  waitsFor(portion).map(({ does, since }) => ({
    does,
    piece: portion.piece,
    mark: portion.mark ?? null,
    form: portion.form ?? null,
    count: portion.count,
    person: portion.owner.kind === 'own' ? null : portion.owner.person,
    since,
  }));

export const wareList = projection<Lot>({
  version: 2,
  of: 'piece',
  tables: { ware, links, standing, waiting },
  rows: ({ portions }) => {
    return {
      ware: portions.map(wareRow),
      links: portions.flatMap(linkRows),
      waiting: portions.flatMap(waitingRows),
      standing: portions.map((p) => ({ owner: p.owner.kind, stage: p.stage, pieces: p.count, lots: 1 })),
    };
  },
});

/** A lot's picture is one picture, also where the lot has come apart. */
function pictureRows(portions: readonly Portion[]): { pictures: Row[]; picture_tags: Row[] } {
  const seen = new Set<number>();
  const rows = { pictures: [] as Row[], picture_tags: [] as Row[] };
  for (const portion of portions)
    for (const photo of portion.photos) {
      if (seen.has(photo.seq)) continue;
      seen.add(photo.seq);
      const out = outBy(portion, photo.at);
      const glazes = [...new Set(out?.glazings.flatMap((g) => g.layers.map((layer) => layer.glaze)))];
      rows.pictures.push(pictureRow(portion, photo, out?.firing, glazes));
      const tag = (by: string, key: string) => rows.picture_tags.push({ by, key, seq: photo.seq });
      for (const glaze of glazes) {
        tag('glaze', glaze);
        if (portion.clay) tag('glaze-on-clay', `${glaze}|${portion.clay}`);
      }
      if (out) tag('firing', out.firing);
    }
  return rows;
}

/** The glaze firing that it had come out of by that day: a picture of raw glaze shows no glaze. */
const outBy = (portion: Portion, at: string) =>
  portion.passages.findLast(
    (p) => p.role === 'glaze' && p.endedAt !== undefined && p.endedAt.slice(0, 10) <= at.slice(0, 10),
  );

const pictureRow = (
  portion: Portion,
  photo: Photo,
  firing: string | undefined,
  glazes: readonly string[],
): Row => ({
  seq: photo.seq,
  sha256: photo.sha256,
  at: photo.at,
  piece: portion.piece,
  mark: portion.mark ?? null,
  form: portion.form ?? null,
  count: portion.count,
  clay: portion.clay ?? null,
  glazes: glazes.length > 0 ? glazes.join(', ') : null,
  firing: firing ?? null,
  grade: portion.gradings.at(-1)?.grade ?? null,
  fault: photo.fault ?? null,
  repair: photo.repair ?? null,
  shows: photo.shows ?? null,
  width: photo.width ?? null,
  height: photo.height ?? null,
});

export const pictureList = projection<Lot>({
  version: 1,
  of: 'piece',
  tables: { pictures, picture_tags: pictureTags },
  rows: ({ portions }) => pictureRows(portions),
});

export const firingList = projection<Firing>({
  version: 2,
  of: 'firing',
  tables: { firings },
  rows: (firing) => ({
    firings:
      firing.state === 'none'
        ? []
        : [
            {
              firing: firing.firing,
              label: firing.label ?? null,
              kiln: firing.kiln ?? null,
              schedule: firing.schedule ?? null,
              role: firing.role ?? null,
              state: firing.state,
              pieces: firing.places.reduce((sum, p) => sum + p.count, 0),
              packedAt: firing.packedAt ?? null,
              litAt: firing.litAt ?? null,
              endedAt: firing.endedAt ?? null,
              drawnAt: firing.drawnAt ?? null,
              changedSeq: firing.changedSeq,
              photos: JSON.stringify(firing.photos),
            },
          ],
  }),
});

const materialRow = ({ id, facts, version, batches, photos }: Material): Row[] =>
  facts
    ? [
        {
          id,
          name: facts.name,
          facts: JSON.stringify(facts),
          version,
          batches: JSON.stringify(batches),
          photos: JSON.stringify(photos),
        },
      ]
    : [];

export const clayList = projection<Material>({
  version: 2,
  of: 'clay',
  tables: { clays },
  rows: (m) => ({ clays: materialRow(m) }),
});
export const glazeList = projection<Material>({
  version: 2,
  of: 'glaze',
  tables: { glazes },
  rows: (m) => ({ glazes: materialRow(m) }),
});
export const scheduleList = projection<Material>({
  version: 2,
  of: 'schedule',
  tables: { schedules },
  rows: (m) => ({ schedules: materialRow(m) }),
});
export const kilnList = projection<Material>({
  version: 2,
  of: 'kiln',
  tables: { kilns },
  rows: (m) => ({ kilns: materialRow(m) }),
});

export const wordList = projection<Studio>({
  version: 1,
  of: 'studio',
  tables: { words },
  rows: (studio) => ({
    words: Object.entries(studio.words).flatMap(([kind, own]) =>
      Object.entries(own).map(([id, name]) => ({ kind, id, name })),
    ),
  }),
});

export const peopleList = projection<Person>({
  version: 1,
  of: 'person',
  tables: { people },
  rows: ({ person, name, forgotten }) => ({ people: name ? [{ person, forgotten: forgotten ? 1 : 0 }] : [] }),
});
