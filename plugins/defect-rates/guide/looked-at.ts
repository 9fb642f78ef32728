/**
 * What the record is looked at by for each fault: what it can come from, as the books have it
 * (server/contract/textbook.ts). A crack has nothing to do with the glaze, so it is not looked at by glaze.
 */
import type { Fault } from '../../../server/contract/textbook.ts';
import type { KindName } from '../kinds.ts';

const ROUND: readonly KindName[] = ['clay', 'bisque-schedule', 'schedule', 'kiln', 'shelf'];
const GLAZED: readonly KindName[] = ['glaze', ...ROUND];
const THICK: readonly KindName[] = [...GLAZED, 'coats'];
const LAYERED: readonly KindName[] = [...THICK, 'layers'];

const LOOKED_AT: Readonly<Record<Exclude<Fault, 'other'>, readonly KindName[]>> = {
  pinholes: THICK,
  blisters: THICK,
  crawling: LAYERED,
  crazing: THICK,
  shivering: GLAZED,
  runs: LAYERED,
  stuck: LAYERED,
  'stilt-marks': GLAZED,
  crack: ROUND,
  dunting: ROUND,
  bloating: ROUND,
  warping: ROUND,
  dry: THICK,
  'colour-off': LAYERED,
  specks: GLAZED,
  'metal-scum': THICK,
  broken: ['kiln', 'shelf'],
};

/** A fault that the books do not know is looked at by everything. */
export const lookedAt = (fault: string): readonly KindName[] =>
  Object.hasOwn(LOOKED_AT, fault) ? LOOKED_AT[fault as Exclude<Fault, 'other'>] : LAYERED;

/** Whether the fault belongs to the body, and so also happens before there is any glaze. */
export const isOfBody = (fault: string): boolean =>
  ['crack', 'dunting', 'bloating', 'warping', 'broken'].includes(fault);
