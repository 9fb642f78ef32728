/**
 * The one place through which everything the potter does goes to the server.
 * What was recorded is remembered as long as its screen stays, so that it can be undone.
 */
import { signal } from '@preact/signals';
import type { Refusal } from '../../server/contract/streams.ts';
import { announce } from '../app/announce.ts';
import { shell } from '../words/shell.ts';
import { ask, Failed, type Problem, send } from './client.ts';
import { nowRecorded } from './fresh.ts';
import { deviceId, newId } from './ids.ts';
import { clockText } from './moments.ts';
import { outboxHere } from './offline.ts';

/** One thing to record: the name of a command, and what it needs to know. */
export interface Wish {
  readonly command: string;
  readonly input: object;
  /** Day, or moment with its offset; now when absent. */
  readonly happenedAt?: string;
  /** Pictures that it names, to go up before it. */
  readonly files?: readonly { readonly sha256: string; readonly blob: Blob }[];
}

/** An entry that rests on one that is to be struck out. */
export interface Resting {
  readonly seq: number;
  readonly name: string;
  readonly happenedAt: string;
  readonly why: string;
}

export type Outcome =
  | {
      readonly outcome: 'recorded' | 'repeated';
      readonly id: string;
      readonly first: number;
      readonly last: number;
    }
  | { readonly outcome: 'unchanged'; readonly id: string }
  /** Kept on this device, to be sent. */
  | { readonly outcome: 'waiting'; readonly id: string }
  /** Not recorded, since one that it needs was refused. */
  | { readonly outcome: 'held'; readonly id: string }
  | {
      readonly outcome: 'refused';
      readonly id: string;
      readonly refusal: Refusal & { readonly others?: readonly Resting[] };
    };

export interface Done {
  readonly sentence: string;
  /** Ids of the commands that recorded it, in order. */
  readonly commands: readonly string[];
  /** Path of the screen it is shown on. */
  readonly where: string;
  /** Takes back what was not recorded: the screen only went on. */
  readonly takeBack?: () => void;
}

/** What was done on this screen, the latest last. */
export const done = signal<readonly Done[]>([]);

export interface Sent {
  /** In the studio's record, or kept on this device to be sent. */
  readonly recorded: boolean;
  /** Some of it waits on this device; it counts as noted. */
  readonly waiting?: boolean;
  readonly problem?: Problem;
  /** What rests on the entries to be struck out. */
  readonly others?: readonly Resting[];
}

/** Through the outbox of this device; straight to the studio where the browser keeps nothing. */
async function put(wishes: readonly Wish[], sentence: string, where: string): Promise<readonly Outcome[]> {
  const here = await outboxHere();
  if (!here) return post(wishes);
  return here.note(
    wishes.map((wish) => ({ ...wish, id: newId(), clock: clockText(new Date()), sentence, where })),
  );
}

async function post(wishes: readonly Wish[]): Promise<readonly Outcome[]> {
  const from = { 'x-wareboard-device': deviceId() };
  for (const { sha256, blob } of wishes.flatMap(({ files = [] }) => files))
    await ask(`/api/files/${sha256}`, {
      method: 'PUT',
      headers: { 'content-type': blob.type, ...from },
      body: blob,
    });
  const commands = wishes.map(({ files: _files, ...wish }) => ({ id: newId(), ...wish }));
  const answer = await send<{ outcomes: readonly Outcome[] }>('/api/commands', { commands }, from);
  return answer.outcomes;
}

function judge(outcomes: readonly Outcome[]): Sent {
  const refused = outcomes.find((outcome) => outcome.outcome === 'refused');
  const waiting = outcomes.some(({ outcome }) => outcome === 'waiting');
  const any = waiting || outcomes.some(({ outcome }) => outcome === 'recorded' || outcome === 'repeated');
  if (!refused) return waiting ? { recorded: any, waiting } : { recorded: any };
  const { code, sentence, field, others } = refused.refusal;
  return { recorded: any, problem: { code, sentence, field, status: 409 }, others };
}

/**
 * Records what is wished, in order. `sentence` says what was done, for the line with Undo.
 * `where` is the screen that shows it: the present one unless the work goes on elsewhere.
 */
export async function record(
  wishes: readonly Wish[],
  sentence: string,
  where: string = location.pathname,
): Promise<Sent> {
  try {
    const outcomes = await put(wishes, sentence, where);
    const ids = outcomes
      .filter(({ outcome }) => outcome === 'recorded' || outcome === 'waiting')
      .map((each) => each.id);
    const sent = judge(outcomes);
    if (ids.length > 0) {
      done.value = [...done.value.filter((each) => each.where === where), { sentence, commands: ids, where }];
      nowRecorded();
    }
    if (!sent.problem) announce(ids.length > 0 ? sentence : shell.soAlready);
    return sent;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    return { recorded: false, problem: failure.problem };
  }
}

/** Something was done on this screen of which nothing is recorded; `takeBack` undoes it. */
export function passedOn(sentence: string, takeBack: () => void): void {
  const where = location.pathname;
  done.value = [
    ...done.value.filter((each) => each.where === where),
    { sentence, commands: [], where, takeBack },
  ];
  announce(sentence);
}

/** Strikes out all that the latest action recorded. */
export async function undo(what: Done): Promise<Sent> {
  if (what.takeBack) {
    what.takeBack();
    done.value = done.value.filter((each) => each !== what);
    announce(shell.undone(what.sentence));
    return { recorded: false };
  }
  const wishes = what.commands.map((command) => ({ command: 'entry.strike', input: { command } }));
  try {
    const sent = judge(await put(wishes.reverse(), shell.undone(what.sentence), what.where));
    if (!sent.problem) {
      done.value = done.value.filter((each) => each !== what);
      announce(shell.undone(what.sentence));
    }
    nowRecorded();
    return sent;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    return { recorded: false, problem: failure.problem };
  }
}

/** Erases a person's name and every text about them. There is no way back, so no line with Undo. */
export async function forget(person: string, sentence: string): Promise<Sent> {
  try {
    const outcome = await send<Outcome>(
      '/api/admin/forget',
      { id: newId(), person },
      { 'x-wareboard-device': deviceId() },
    );
    nowRecorded();
    const sent = judge([outcome]);
    if (!sent.problem) announce(sentence);
    return sent;
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    return { recorded: false, problem: failure.problem };
  }
}

/** A screen goes: what can be undone goes with it, but for what was done on the way here. */
export function screenChanged(where: string): void {
  if (done.value.some((each) => each.where !== where))
    done.value = done.value.filter((each) => each.where === where);
}
