/** What a piece or lot waits for. Pure; how long is too long is asked when it is listed. */
import type { Portion } from '../contract/studio/state.ts';

export interface Wait {
  /** mend, grade, decide, ask, tell or dry. */
  readonly does: string;
  readonly since: string;
}

const SPOILT: readonly (string | undefined)[] = ['second', 'waster'];

/** A flawed piece: whether to mend it is open until that is said, or it leaves. */
function afterGrading(portion: Portion): Wait[] {
  const last = portion.gradings.at(-1);
  if (!last || portion.stage === 'left' || portion.inFiring) return [];
  const { seq, at: since, grade } = last;
  const spoilt = SPOILT.includes(grade);
  const open = portion.stage === 'graded' && spoilt && portion.settled !== seq;
  const owned = portion.owner.kind !== 'own' && portion.told !== seq && portion.stage !== 'glazed';
  // A client has a say in what happens to a flawed piece; who is only waiting for theirs is told.
  const asked = portion.owner.kind === 'commission' && spoilt;
  return [
    ...(open ? [{ does: 'decide', since }] : []),
    ...(owned ? [{ does: asked ? 'ask' : 'tell', since }] : []),
  ];
}

export function waitsFor(portion: Portion): Wait[] {
  const since = portion.changedAt;
  if (portion.stage === 'made' || portion.stage === 'leather-hard')
    return portion.inFiring ? [] : [{ does: 'dry', since }];
  return [
    ...(portion.stage === 'mending' && !portion.inFiring ? [{ does: 'mend', since }] : []),
    ...(portion.stage === 'glaze-fired' && !portion.inFiring ? [{ does: 'grade', since }] : []),
    ...afterGrading(portion),
  ];
}
