/** How the firings of a file stand in the studio, and what is to be recorded of them as a whole. */
import type { Firing } from '../../contract/studio/state.ts';
import { stateOf } from '../../host/fold.ts';
import type { Host, Order } from '../../host/host.ts';
import type { FileFiring } from './firings.ts';
import type { StepKind } from './ids.ts';
import { commandId, contentOf, readCommandId } from './ids.ts';

interface ListedFiring {
  readonly firing: string;
  readonly label: string | null;
  readonly kiln: string | null;
  readonly role: string | null;
  readonly packedAt: string | null;
  readonly litAt: string | null;
  readonly endedAt: string | null;
}

const key = (label: string | null, kiln: string | null, day: string, role: string | null): string =>
  JSON.stringify([label, kiln, day, role]);

/** A firing recorded in the studio before with the same label, kiln and day is the one the file means. */
export async function meetRecorded(host: Host, firings: readonly FileFiring[]): Promise<void> {
  if (firings.length === 0) return;
  const recorded = new Map<string, string>();
  let after: number | undefined;
  do {
    const params: Record<string, string> = {
      limit: '500',
      ...(after === undefined ? {} : { after: String(after) }),
    };
    const answer = await host.report('studio', 'firings', params);
    for (const row of answer.rows as unknown as ListedFiring[]) {
      const at = row.endedAt ?? row.litAt ?? row.packedAt;
      if (at !== null) recorded.set(key(row.label, row.kiln, at.slice(0, 10), row.role), row.firing);
    }
    after = (answer.more as { next?: number } | undefined)?.next;
  } while (after !== undefined);
  for (const firing of firings) {
    const there =
      firing.day === undefined
        ? undefined
        : recorded.get(key(firing.label, firing.kiln, firing.day, firing.role));
    if (there !== undefined) firing.id = there;
  }
}

/** Steps that a firing has still to take, by the state it is in. */
const AHEAD: Readonly<Record<string, readonly StepKind[]>> = {
  none: ['light', 'end', 'draw'],
  packed: ['light', 'end', 'draw'],
  lit: ['end', 'draw'],
  ended: ['draw'],
};

const COMMANDS = { light: 'firing.light', end: 'firing.end', draw: 'firing.draw' } as const;
const STEP_RANK = { light: 1, end: 3, draw: 4 } as const;
const ROLE_RANK = { bisque: 30, glaze: 50 } as const;

export interface FiringStep {
  readonly firing: FileFiring;
  readonly rank: number;
  readonly order: Omit<Order, 'who' | 'device'>;
}

/** What is to be recorded of each firing; those that have ended already are noted as such. */
export async function firingSteps(host: Host, firings: readonly FileFiring[]): Promise<FiringStep[]> {
  const steps: FiringStep[] = [];
  for (let from = 0; from < firings.length; from += 500) {
    const group = firings.slice(from, from + 500);
    const streams = await host.log.streams(group.map(({ id }) => `firing:${id}`));
    for (const firing of group) {
      const { entries } = streams.get(`firing:${firing.id}`)!;
      const state = stateOf(`firing:${firing.id}`, entries, host.registry) as Firing;
      if (state.schedule !== undefined) firing.studioSchedule = state.schedule;
      if (state.state === 'ended' || state.state === 'drawn' || state.state === 'lit')
        firing.late = lateIn(state, firing);
      const before = new Set(entries.map(({ command }) => command));
      for (const step of AHEAD[state.state] ?? [])
        steps.push(stepOf(firing, step as keyof typeof COMMANDS, before));
    }
  }
  return steps;
}

/** Pieces that went through a firing that is over: after its drawing, unless that was on a later day. */
function lateIn(state: Firing, firing: FileFiring): NonNullable<FileFiring['late']> {
  const ended = (state.endedAt ?? firing.day ?? '').slice(0, 10);
  const drawn = (state.drawnAt ?? ended).slice(0, 10);
  return { afterwards: drawn === ended ? 'drawn' : 'ended', day: ended };
}

function stepOf(firing: FileFiring, step: keyof typeof COMMANDS, before: ReadonlySet<string>): FiringStep {
  const { of, id: firingId, day, role } = firing;
  const generation = [...before].filter((command) => {
    const said = readCommandId(command);
    return said?.of === of && said.step === step;
  }).length;
  return {
    firing,
    rank: ROLE_RANK[role] + STEP_RANK[step],
    order: {
      id: commandId({ of, step, generation, content: contentOf(firingId, day ?? null) }),
      command: COMMANDS[step],
      input: { firing: firingId },
      ...(day === undefined ? {} : { happenedAt: day }),
    },
  };
}
