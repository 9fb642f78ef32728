/**
 * Given what has happened, when something is asked for, then this is recorded, or refused:
 *
 *   const given = givenIn(registry);
 *   given(happened('2026-05-01', 'piece.begun', { piece: 'tile-lot', count: 12, owner: { kind: 'own' } }))
 *     .when('piece.grade', { piece: 'tile-lot', first: 12 }, '2026-05-03')
 *     .refused('not-possible-then', /hasn't been fired/);
 */
import { expect } from 'vitest';
import type { Entry, NewEntry } from '../../server/contract/entry.ts';
import type { Refusal } from '../../server/contract/streams.ts';
import { type Decided, decide } from '../../server/host/decide.ts';
import { History } from '../../server/host/history.ts';
import type { Registry } from '../../server/host/registry.ts';
import { standIn } from '../../server/host/texts.ts';
import { streamsOf } from './streams-of.ts';

/** Something that has happened: an entry, or what a command recorded at the time. */
export type Happening =
  | {
      readonly event: string;
      readonly on: string;
      readonly data: unknown;
      readonly streams?: readonly string[];
    }
  | { readonly command: string; readonly on: string; readonly input: unknown };

/** An entry on a day (or at a moment). Its streams are found from its data where they are the studio's own. */
export const happened = (
  on: string,
  event: string,
  data: unknown,
  streams?: readonly string[],
): Happening => ({ on, event, data, streams });

/** Whatever the command records, decided on what has happened before it in the list. */
export const done = (on: string, command: string, input: unknown): Happening => ({ on, command, input });

export interface Then {
  /** Exactly these events, in this order: name and data. */
  then(...events: readonly (readonly [name: string, data: unknown])[]): void;
  /** Refused with this code, and a sentence that says so. */
  refused(code: string, sentence?: RegExp): void;
  /** It was so already: nothing is recorded. */
  unchanged(): void;
  /** The entries, to look at more closely. */
  recorded(): readonly NewEntry[];
  /** The state of a stream after what was recorded. */
  state<State>(stream: string): State;
}

/** The last day of the examples when nothing else is said. */
const TODAY = '2026-06-30';

export function givenIn(registry: Registry) {
  return (...happenings: readonly Happening[]) => {
    const story = new Story(registry);
    for (const happening of happenings) story.tell(happening);
    return {
      /** @param on day or moment; the last day of June 2026 when left out */
      when: (command: string, input: unknown, on = TODAY, attempt = 0): Then =>
        story.ask(command, input, on, attempt),
      /** The state of a stream, as nothing more happened. */
      state: <State>(stream: string): State => story.history(stream).latest() as State,
      entries: (): readonly Entry[] => story.entries,
    };
  };
}

class Story {
  readonly entries: Entry[] = [];
  private readonly histories = new Map<string, History>();
  private commands = 0;

  constructor(private readonly registry: Registry) {}

  history = (stream: string): History => {
    let history = this.histories.get(stream);
    if (!history) {
      history = new History(
        this.registry,
        stream,
        this.entries.filter((entry) => entry.streams.includes(stream)),
      );
      this.histories.set(stream, history);
    }
    return history;
  };

  tell(happening: Happening): void {
    if ('command' in happening) {
      const decided = this.decide(happening.command, happening.input, happening.on, 0);
      if (!('entries' in decided))
        throw new Error(`given “${happening.command}”, it was refused: ${sentenceOf(decided)}`);
      this.append(decided.entries);
      return;
    }
    const { event: name, on: happenedAt, data } = happening;
    const known = this.registry.event(name);
    if (!known) throw new Error(`given “${name}”, an event that no plugin declares`);
    const streams = happening.streams ?? streamsOf(name, data, this.entries);
    this.append([{ name, happenedAt, streams, version: known.version, data: known.it.shape.parse(data) }]);
  }

  /** Made up, one a command: the same in every run. */
  private get id(): string {
    return `01980000-0000-7000-8000-${String(this.commands).padStart(12, '0')}`;
  }

  private append(entries: readonly NewEntry[]): void {
    const first = this.entries.length + 1;
    const recorded = entries.map(
      (entry, part): Entry => ({
        ...entry,
        seq: first + part,
        command: this.id,
        part,
        recordedAt: new Date(Date.UTC(2026, 5, 30, 12) + (first + part) * 1000).toISOString(),
        who: 'ansa',
        device: 'bench',
      }),
    );
    this.commands += 1;
    for (const stream of new Set(recorded.flatMap((entry) => entry.streams)))
      if (this.histories.has(stream))
        this.history(stream).add(recorded.filter((entry) => entry.streams.includes(stream)));
    this.entries.push(...recorded);
  }

  private decide(name: string, input: unknown, happenedAt: string, attempt: number): Decided {
    const known = this.registry.command(name);
    if (!known) throw new Error(`no plugin declares the command “${name}”`);
    const parsed = standIn(known.it, known.it.input.parse(input), this.id);
    const at = { happenedAt, command: this.id, attempt };
    const recorded = {
      next: this.entries.length + 1,
      recordedAt: '2026-06-30T12:00:00.000Z',
      who: 'ansa',
      device: 'bench',
    };
    return decide(this.registry, { command: name, input: parsed, at, ...recorded }, this.history);
  }

  ask(command: string, input: unknown, on: string, attempt: number): Then {
    const decided = this.decide(command, input, on, attempt);
    const recorded = (): readonly NewEntry[] => {
      if (!('entries' in decided)) expect.fail(`it was refused: ${sentenceOf(decided)}`);
      return decided.entries;
    };
    return {
      recorded,
      // `then` is the third word of given, when, then; nobody awaits it.
      // biome-ignore lint/suspicious/noThenProperty: it reads so
      then: (...events) => {
        expect(recorded().map(({ name, data }) => [name, data])).toEqual(events.map((event) => [...event]));
      },
      refused: (code, sentence = /./) => {
        if (!('refused' in decided)) expect.fail(`it was not refused; recorded: ${names(recorded())}`);
        expect(decided.code, decided.sentence).toBe(code);
        expect(decided.sentence).toMatch(sentence);
      },
      unchanged: () => expect(names(recorded())).toBe(''),
      state: <State>(stream: string): State => {
        this.append(recorded());
        return this.history(stream).latest() as State;
      },
    };
  }
}

const names = (entries: readonly NewEntry[]): string => entries.map((entry) => entry.name).join(', ');
const sentenceOf = (decided: Decided): string =>
  'refused' in decided ? (decided as Refusal).sentence : JSON.stringify(decided);
