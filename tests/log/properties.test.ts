/** Whatever is sent, in whatever order: the log says the same as a list kept in memory. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { type Append, ClaimTaken, CommandReused, type EventLog, StreamMoved } from '../../server/log/log.ts';
import { begun, command } from '../support/appends.ts';
import { memoryishLog } from '../support/log.ts';

const stream = fc.constantFrom('piece:a', 'piece:b', 'firing:1');
const claim = fc.constantFrom('mark:x', 'mark:y', 'order:7');
const entry = fc
  .record({
    streams: fc.uniqueArray(stream, { maxLength: 3 }),
    claims: fc.option(fc.uniqueArray(claim, { maxLength: 2 }), { nil: undefined }),
    releases: fc.option(fc.uniqueArray(claim, { maxLength: 2 }), { nil: undefined }),
    data: fc.dictionary(
      fc.constantFrom('a', 'b', 'é'),
      fc.oneof(
        fc.string({ unit: 'grapheme' }),
        fc.integer(),
        fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e15, max: 1e15 }),
      ),
    ),
  })
  .map((it) => begun('any', it))
  .filter((it) => !JSON.stringify(it.data).includes('\\u0000'));
const append = fc
  .record({
    id: fc.integer({ min: 0, max: 12 }),
    entries: fc.array(entry, { minLength: 1, maxLength: 3 }),
    expect: fc.dictionary(stream, fc.integer({ min: 0, max: 4 }), { maxKeys: 2, noNullPrototype: true }),
  })
  .map(({ id, entries, expect }) => command(id, entries, { expect }));
/** Each inner list is sent at once. */
const history = fc.array(fc.array(append, { minLength: 1, maxLength: 5 }), { maxLength: 8 });

/** The rules of the log once more, as plainly as they can be said. */
class Model {
  readonly entries: Omit<Entry, 'recordedAt'>[] = [];
  private readonly commands = new Map<string, { fingerprint: string; first: number; last: number }>();

  take(it: Append): unknown {
    const known = this.commands.get(it.command);
    if (known) {
      if (known.fingerprint !== it.fingerprint) return CommandReused;
      return { outcome: 'repeated', first: known.first, last: known.last };
    }
    for (const [name, count] of Object.entries(it.expect))
      if (this.of(name).length !== count) return StreamMoved;
    const held = this.held();
    for (const { claims = [], releases = [] } of it.entries) {
      for (const name of releases) held.delete(name);
      for (const name of claims) {
        if (held.has(name)) return ClaimTaken;
        held.add(name);
      }
    }
    const first = this.entries.length + 1;
    it.entries.forEach((one, part) => {
      const { command, who, device } = it;
      const plain = JSON.parse(JSON.stringify(one)) as typeof one;
      this.entries.push({ ...plain, seq: first + part, command, part, who, device });
    });
    const receipt = { first, last: this.entries.length };
    this.commands.set(it.command, { fingerprint: it.fingerprint, ...receipt });
    return { outcome: 'recorded', ...receipt };
  }

  of(name: string): Omit<Entry, 'recordedAt'>[] {
    return this.entries.filter((it) => it.streams.includes(name));
  }

  private held(): Set<string> {
    const held = new Set<string>();
    for (const { claims = [], releases = [] } of this.entries) {
      for (const name of releases) held.delete(name);
      for (const name of claims) held.add(name);
    }
    return held;
  }
}

async function expectSame(log: EventLog, model: Model): Promise<void> {
  const entries = await log.read(0, 1000);
  expect(entries.map(({ recordedAt: _, ...rest }) => rest)).toEqual(model.entries);
  const times = entries.map((it) => it.recordedAt);
  expect(times).toEqual([...times].sort());
  const streams = await log.streams(['piece:a', 'piece:b', 'firing:1']);
  for (const [name, { entries: found, version }] of streams) {
    expect(found).toEqual(entries.filter((it) => it.streams.includes(name)));
    expect(version).toBe(model.of(name).length);
  }
  expect(await log.verify()).toEqual({ entries: model.entries.length, head: await log.head() });
}

async function follow(groups: Append[][], inMemory: boolean): Promise<void> {
  // A clock that jumps about, as clocks do when they are set.
  let tick = 0;
  const clock = () => new Date(Date.UTC(2026, 4, 1, 9, (tick++ * 7) % 5));
  const { log, end } = await memoryishLog({ inMemory, clock });
  const model = new Model();
  try {
    for (const group of groups) {
      const wanted = group.map((it) => model.take(it));
      const results = await log.appendAll(group);
      results.forEach((result, at) => {
        if (result instanceof Error) expect(result).toBeInstanceOf(wanted[at] as typeof StreamMoved);
        else expect(result).toEqual(wanted[at]);
      });
    }
    await expectSame(log, model);
  } finally {
    await end();
  }
}

test('in memory, 200 histories', async () => {
  await fc.assert(
    fc.asyncProperty(history, (groups) => follow(groups, true)),
    { seed: 1, numRuns: 200 },
  );
});

test('in a file, 25 histories', async () => {
  await fc.assert(
    fc.asyncProperty(history, (groups) => follow(groups, false)),
    { seed: 2, numRuns: 25 },
  );
});
