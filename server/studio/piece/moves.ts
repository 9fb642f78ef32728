/**
 * Which moves are legal from which stage: the one table. docs/reference/moves.md
 * is printed from it.
 */
import type { FiringRole, Stage } from '../../contract/trade.ts';

export interface Move {
  /** The event, with its kiln's role where that matters. */
  readonly move: string;
  /** Completes "This can't …": 'be graded'. */
  readonly be: string;
  readonly from: readonly Stage[];
  /** The stage after; 'same' where it stays. */
  readonly to: Stage | 'same';
  /** What is said to a stage that is not in `from`. */
  readonly otherwise: string;
}

const raw: readonly Stage[] = ['made', 'leather-hard', 'bone-dry'];
const fired: readonly Stage[] = ['bisque-fired', 'glazed', 'glaze-fired', 'graded', 'mending'];
const here: readonly Stage[] = [...raw, ...fired];

export const MOVES = {
  leatherHard: {
    move: 'piece.moved-on leather-hard',
    be: 'be leather-hard',
    from: ['made'],
    to: 'leather-hard',
    otherwise: 'only ware that was just made becomes leather-hard',
  },
  boneDry: {
    move: 'piece.moved-on bone-dry',
    be: 'be bone-dry',
    from: ['made', 'leather-hard'],
    to: 'bone-dry',
    otherwise: 'only unfired ware dries',
  },
  glaze: {
    move: 'glaze.applied',
    be: 'be glazed',
    from: ['bone-dry', 'bisque-fired', 'glazed', 'glaze-fired', 'graded', 'mending'],
    to: 'glazed',
    otherwise: 'only ware that is dry or fired takes a glaze',
  },
  slip: {
    move: 'glaze.applied on damp ware (slip or underglaze)',
    be: 'be coated',
    from: ['made', 'leather-hard'],
    to: 'same',
    otherwise: 'slip goes on damp ware',
  },
  packBisque: {
    move: 'firing.packed bisque',
    be: 'go into a bisque firing',
    from: [...raw, 'glazed'],
    to: 'same',
    otherwise: 'it has been fired already; a glaze firing is what comes next',
  },
  packGlaze: {
    move: 'firing.packed glaze',
    be: 'go into a glaze firing',
    from: fired,
    to: 'same',
    otherwise:
      'it is still raw clay and would burst or blister; bisque fire it, or let it dry to bone-dry and glaze it raw',
  },
  packLustre: {
    move: 'firing.packed lustre',
    be: 'go into a lustre firing',
    from: ['glaze-fired', 'graded', 'mending', 'glazed'],
    to: 'same',
    otherwise: 'lustre goes on ware that has been glaze fired',
  },
  packOther: {
    move: 'firing.packed other',
    be: 'go into this firing',
    from: ['bone-dry', ...fired],
    to: 'same',
    otherwise: 'it is still damp; let it dry to bone-dry first',
  },
  fault: {
    move: 'fault.found',
    be: 'have a fault noted',
    from: here,
    to: 'same',
    otherwise: 'it has left; note its return first',
  },
  grade: {
    move: 'piece.graded',
    be: 'be graded',
    from: ['bisque-fired', 'glaze-fired', 'graded', 'mending'],
    to: 'graded',
    otherwise: "it hasn't been fired; fire it first",
  },
  decideRepair: {
    move: 'repair.decided',
    be: 'be put aside for mending',
    from: ['bisque-fired', 'glaze-fired', 'graded', 'mending'],
    to: 'mending',
    otherwise: 'only fired ware is mended',
  },
  doRepair: {
    move: 'repair.done',
    be: 'be mended',
    from: ['bisque-fired', 'glaze-fired', 'graded', 'mending', 'glazed'],
    to: 'mending',
    otherwise: 'only fired ware is mended',
  },
  declineRepair: {
    move: 'repair.declined',
    be: 'be left unmended',
    from: ['graded', 'mending'],
    to: 'graded',
    otherwise: 'grade it first',
  },
  tellOwner: {
    move: 'piece.owner-told',
    be: 'be told of',
    from: here,
    to: 'same',
    otherwise: 'it has left; note its return first',
  },
  sell: {
    move: 'piece.left sold or posted',
    be: 'be sold',
    from: ['bisque-fired', 'glaze-fired', 'graded', 'mending'],
    to: 'left',
    otherwise: "it hasn't been fired; fire and grade it first",
  },
  leave: {
    move: 'piece.left collected, given, broken-up or lost',
    be: 'leave',
    from: here,
    to: 'left',
    otherwise: 'it has left already; note its return first',
  },
  comeBack: {
    move: 'piece.returned',
    be: 'come back',
    from: ['left'],
    to: 'same',
    otherwise: 'it has not left',
  },
} as const satisfies Record<string, Move>;

export const PACKING: Readonly<Record<FiringRole, Move>> = {
  bisque: MOVES.packBisque,
  glaze: MOVES.packGlaze,
  lustre: MOVES.packLustre,
  other: MOVES.packOther,
};

/** The stage in the potter's words, after "it is". */
export const STAGE_WORDS: Readonly<Record<Stage, string>> = {
  made: 'just made',
  'leather-hard': 'leather-hard',
  'bone-dry': 'bone-dry',
  'bisque-fired': 'bisque fired',
  glazed: 'glazed and not yet fired',
  'glaze-fired': 'glaze fired',
  graded: 'graded',
  mending: 'being mended',
  left: 'no longer in the studio',
};

/** Why the move is not legal from this stage; undefined where it is. */
export function refused(move: Move, stage: Stage): string | undefined {
  if (move.from.includes(stage)) return undefined;
  const otherwise =
    stage === 'left' && move !== MOVES.comeBack ? 'it has left; note its return first' : move.otherwise;
  return `This can't ${move.be}: it is ${STAGE_WORDS[stage]}. ${otherwise.charAt(0).toUpperCase()}${otherwise.slice(1)}.`;
}

/** The stage after a firing of this role has ended. */
export function stageAfterFiring(role: FiringRole, before: Stage): Stage {
  if (role === 'bisque') return 'bisque-fired';
  if (role === 'glaze' || role === 'lustre') return 'glaze-fired';
  return raw.includes(before) ? 'bisque-fired' : before === 'glazed' ? 'glaze-fired' : before;
}
