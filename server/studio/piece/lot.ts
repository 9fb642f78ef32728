/** How the entries of one lot fold into its portions. */
import type { Entry } from '../../contract/entry.ts';
import type { StreamKind } from '../../contract/streams.ts';
import type { StudioData, StudioEventName } from '../../contract/studio/events.ts';
import type { Lot, Portion } from '../../contract/studio/state.ts';
import { lotOf, portionIn } from '../../contract/studio/values.ts';
import { photoOf } from '../photos.ts';
import { fireLot } from './in-the-kiln.ts';
import { legalOnLot } from './legal.ts';
import { splitLot } from './split.ts';

export type Change = (portion: Portion) => Partial<Portion>;
type Fold<Name extends StudioEventName> = (lot: Lot, data: StudioData<Name>, entry: Entry) => Lot;

/** The lot with one portion changed; unknown pieces leave it as it is. */
export function change(lot: Lot, piece: string, entry: Entry, by: Change): Lot {
  const portion = portionIn(lot, piece);
  if (!portion) return lot;
  const next = {
    ...portion,
    ...by(portion),
    changedAt: entry.happenedAt,
    changedSeq: Math.max(entry.seq, portion.changedSeq),
  };
  return { ...lot, portions: lot.portions.map((it) => (it === portion ? next : it)) };
}

/** The glaze firing (or else any) that the piece last came out of. */
export const lastPassage = (portion: Portion) =>
  portion.passages.findLast((p) => p.state === 'ended' || p.state === 'drawn');

/** Every field has its place from the start: portions of one shape are copied several times faster. */
const begun: Fold<'piece.begun'> = (lot, data, entry) => {
  const portion: Portion = {
    piece: data.piece,
    mark: data.mark,
    count: data.count,
    stage: 'made',
    form: data.form,
    clay: data.clay,
    owner: data.owner,
    maker: data.maker,
    how: data.how,
    size: data.size,
    begunAt: entry.happenedAt,
    changedAt: entry.happenedAt,
    changedSeq: entry.seq,
    glazings: [],
    passages: [],
    inFiring: undefined,
    faults: [],
    repairs: [],
    gradings: [],
    price: data.price,
    secondPrice: data.secondPrice,
    left: undefined,
    settled: undefined,
    told: undefined,
    notes: [],
    photos: [],
    from: undefined,
  };
  return { ...lot, portions: [...lot.portions, portion] };
};

const graded: Fold<'piece.graded'> = (lot, data, entry) =>
  change(lot, data.piece, entry, (portion) => {
    const passage = lastPassage(portion);
    const firing = data.firing ?? passage?.firing;
    const grade = data.waster > 0 ? 'waster' : data.second > 0 ? 'second' : 'first';
    return {
      stage: 'graded',
      inFiring: undefined,
      gradings: [
        ...portion.gradings,
        { seq: entry.seq, grade, at: entry.happenedAt, ...(firing ? { firing } : {}) },
      ],
      repairs: portion.repairs.map((r) => (r.state === 'done' && !r.after ? { ...r, after: grade } : r)),
      ...(data.price ? (grade === 'first' ? { price: data.price } : { secondPrice: data.price }) : {}),
    };
  });

const mended =
  <Name extends 'repair.decided' | 'repair.done'>(state: 'decided' | 'done'): Fold<Name> =>
  (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => {
      const open = portion.repairs.findIndex((r) => r.state === 'decided' && r.method === data.method);
      const kept = state === 'done' && open >= 0 ? portion.repairs.toSpliced(open, 1) : portion.repairs;
      const fault = data.fault ?? (open >= 0 ? portion.repairs[open]?.fault : undefined);
      const repair = {
        seq: entry.seq,
        method: data.method,
        state,
        at: entry.happenedAt,
        ...(fault ? { fault } : {}),
      };
      return {
        stage: portion.stage === 'glazed' ? 'glazed' : 'mending',
        inFiring: undefined,
        repairs: [...kept, repair],
      };
    });

const folds: { readonly [Name in StudioEventName]?: Fold<Name> } = {
  'piece.begun': begun,
  'piece.moved-on': (lot, data, entry) => change(lot, data.piece, entry, () => ({ stage: data.stage })),
  'lot.split': splitLot,
  'glaze.applied': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      stage:
        !data.stagesNotNoted && (portion.stage === 'made' || portion.stage === 'leather-hard')
          ? portion.stage
          : 'glazed',
      glazings: [
        ...portion.glazings,
        {
          seq: entry.seq,
          layers: data.layers,
          at: entry.happenedAt,
          ...(data.zone ? { zone: data.zone } : {}),
        },
      ],
    })),
  'fault.found': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => {
      const { piece: _, note: __, ...seen } = data;
      const firing = data.firing ?? lastPassage(portion)?.firing;
      return {
        faults: [
          ...portion.faults,
          { ...seen, seq: entry.seq, at: entry.happenedAt, ...(firing ? { firing } : {}) },
        ],
      };
    }),
  'repair.decided': mended('decided'),
  'repair.done': mended('done'),
  'repair.declined': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      stage:
        portion.stage !== 'mending' ? portion.stage : portion.gradings.length > 0 ? 'graded' : 'glaze-fired',
      repairs: portion.repairs.filter((r) => r.state === 'done'),
      settled: portion.gradings.at(-1)?.seq ?? 0,
    })),
  'piece.owner-told': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({ told: portion.gradings.at(-1)?.seq ?? 0 })),
  'piece.graded': graded,
  'piece.priced': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      price: data.price ?? portion.price,
      secondPrice: data.secondPrice ?? portion.secondPrice,
    })),
  'piece.left': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      stage: 'left',
      inFiring: undefined,
      left: {
        how: data.how,
        at: entry.happenedAt,
        stage: portion.stage,
        ...(data.to ? { to: data.to } : {}),
        ...(data.price ? { price: data.price } : {}),
      },
    })),
  'piece.returned': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      stage: portion.left?.stage ?? 'graded',
      left: undefined,
    })),
  'piece.noted': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      notes: [...portion.notes, { seq: entry.seq, note: data.note, at: entry.happenedAt }],
    })),
  'piece.recounted': (lot, data, entry) =>
    change(lot, data.piece, entry, (portion) => ({
      count: data.count,
      faults: portion.faults.map((f) => ({ ...f, count: Math.min(f.count, data.count) })),
    })),
  'piece.owner-changed': (lot, data, entry) => change(lot, data.piece, entry, () => ({ owner: data.owner })),
  'file.attached': (lot, data, entry) =>
    change(lot, data.to.slice('piece:'.length), entry, (portion) => ({
      photos: [...portion.photos, photoOf(data, entry)],
    })),
};

const noLot = (lot: string): Lot => ({ lot, portions: [] });

export const pieceKind: StreamKind<Lot> = {
  prefix: 'piece',
  initial: noLot,
  evolve: (lot, entry) => {
    if (entry.name.startsWith('firing.')) return fireLot(lot, entry);
    const fold = folds[entry.name as StudioEventName] as Fold<StudioEventName> | undefined;
    return fold ? fold(lot, entry.data as StudioData<StudioEventName>, entry) : lot;
  },
  legal: (lot, entry) => legalOnLot(lot, entry),
};

/** The stream that holds a piece. */
export const pieceStream = (piece: string): string => `piece:${lotOf(piece)}`;
