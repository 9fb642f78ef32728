/** The core's own lists, as tables of the studio's read model. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { cells, facts } from '../contract/tables.ts';

/** A row a piece, or lot of pieces that still go together. */
export const ware = facts(
  'ware',
  {
    piece: text('piece').notNull(),
    mark: text('mark'),
    count: integer('count').notNull(),
    stage: text('stage').notNull(),
    form: text('form'),
    clay: text('clay'),
    owner: text('owner').notNull(),
    person: text('person'),
    grade: text('grade'),
    /** Glaze handles, joined by ', '. */
    glazes: text('glazes'),
    inFiring: text('in_firing'),
    /** The last bisque and glaze firing it came out of, with the day that each ended. */
    bisqueFiring: text('bisque_firing'),
    bisqueSchedule: text('bisque_schedule'),
    bisqueKiln: text('bisque_kiln'),
    glazeFiring: text('glaze_firing'),
    glazeSchedule: text('glaze_schedule'),
    glazeKiln: text('glaze_kiln'),
    fired: text('fired'),
    price: integer('price'),
    secondPrice: integer('second_price'),
    currency: text('currency'),
    leftHow: text('left_how'),
    begunAt: text('begun_at').notNull(),
    changedAt: text('changed_at').notNull(),
    changedSeq: integer('changed_seq').notNull(),
    /** Mark, form, clay and glazes in lower case, for search. */
    words: text('words').notNull(),
  },
  [
    ['piece'],
    ['changedSeq'],
    ['stage', 'changedSeq'],
    ['owner', 'changedSeq'],
    ['clay', 'changedSeq'],
    ['grade', 'changedSeq'],
    ['fired', 'grade'],
  ],
);

/** What a piece has more than one of: 'glaze:…', 'fault:…', 'firing:…'. */
export const links = facts(
  'links',
  {
    tag: text('tag').notNull(),
    changedSeq: integer('changed_seq').notNull(),
    piece: text('piece').notNull(),
  },
  [
    ['tag', 'changedSeq', 'piece'],
    ['piece', 'tag'],
  ],
);

/** Ware that waits for the potter, by what it waits for. */
export const waiting = facts(
  'waiting',
  {
    does: text('does').notNull(),
    piece: text('piece').notNull(),
    mark: text('mark'),
    form: text('form'),
    count: integer('count').notNull(),
    person: text('person'),
    /** Day or moment since when. */
    since: text('since').notNull(),
  },
  [['does', 'since']],
);

/** Pictures of pieces, each with what it shows. */
export const pictures = facts(
  'pictures',
  {
    seq: integer('seq').notNull(),
    sha256: text('sha256').notNull(),
    at: text('at').notNull(),
    piece: text('piece').notNull(),
    mark: text('mark'),
    form: text('form'),
    count: integer('count').notNull(),
    clay: text('clay'),
    /** Handles of the glazes it had come out of a glaze firing with when it was taken, joined by ', '. */
    glazes: text('glazes'),
    firing: text('firing'),
    grade: text('grade'),
    fault: text('fault'),
    repair: text('repair'),
    shows: text('shows'),
    width: integer('width'),
    height: integer('height'),
  },
  [['seq'], ['piece', 'seq']],
);

/** What a picture can be looked for by: 'glaze:…', 'glaze-on-clay:…|…', 'firing:…'. */
export const pictureTags = facts(
  'picture_tags',
  {
    by: text('by').notNull(),
    key: text('key').notNull(),
    seq: integer('seq').notNull(),
  },
  [['by', 'key', 'seq']],
);

/** How many pieces stand at each stage. */
export const standing = cells(
  'standing',
  { owner: text('owner').notNull(), stage: text('stage').notNull() },
  ['pieces', 'lots'],
);

export const firings = facts(
  'firings',
  {
    firing: text('firing').notNull(),
    label: text('label'),
    kiln: text('kiln'),
    schedule: text('schedule'),
    role: text('role'),
    state: text('state').notNull(),
    pieces: integer('pieces').notNull(),
    packedAt: text('packed_at'),
    litAt: text('lit_at'),
    endedAt: text('ended_at'),
    drawnAt: text('drawn_at'),
    changedSeq: integer('changed_seq').notNull(),
    /** As JSON. */
    photos: text('photos').notNull(),
  },
  [['firing'], ['state', 'changedSeq'], ['changedSeq']],
);

/** Handle, name, and the newest facts as JSON. */
const materialTable = <Name extends string>(name: Name) =>
  facts(
    name,
    {
      id: text('id').notNull(),
      name: text('name').notNull(),
      facts: text('facts').notNull(),
      version: integer('version').notNull(),
      batches: text('batches').notNull(),
      /** As JSON. */
      photos: text('photos').notNull(),
    },
    [['id']],
  );

export const clays = materialTable('clays');
export const glazes = materialTable('glazes');
export const schedules = materialTable('schedules');
export const kilns = materialTable('kilns');

export const words = facts('words', {
  kind: text('kind').notNull(),
  id: text('id').notNull(),
  name: text('name').notNull(),
});

export const people = facts(
  'people',
  { person: text('person').notNull(), forgotten: integer('forgotten').notNull() },
  [['person']],
);
