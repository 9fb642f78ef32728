import { describe, expect, test } from 'vitest';
import { command, definePlugin } from '../../server/contract/plugin.ts';
import { PluginFault } from '../../server/host/decide.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { done, givenIn, happened } from '../support/given.ts';
import { type Stamp, stampKind, stamps } from '../support/stamps.ts';

const given = givenIn(buildRegistry([stamps]));
const fern = { stamp: 'fern' };
const cut = (on: string) => happened(on, 'stamp.cut', { ...fern, label: 'Fern' }, ['stamp:fern']);
const lent = (on: string, to: string) => happened(on, 'stamp.lent', { ...fern, to }, ['stamp:fern']);
const returned = (on: string) => happened(on, 'stamp.returned', fern, ['stamp:fern']);

describe('a command is decided on how things stood when it happened', () => {
  test('what is asked for is recorded', () => {
    given(cut('2026-05-01'))
      .when('stamp.lend', { ...fern, to: 'Tova' }, '2026-05-02')
      .then(['stamp.lent', { ...fern, to: 'Tova' }]);
  });

  test('what is so already records nothing', () => {
    given(cut('2026-05-01'), lent('2026-05-02', 'Tova'))
      .when('stamp.lend', { ...fern, to: 'Tova' }, '2026-05-03')
      .unchanged();
  });

  test('what was not possible then is refused with the reason', () => {
    given(cut('2026-05-05'))
      .when('stamp.lend', { ...fern, to: 'Tova' }, '2026-05-02')
      .refused('not-possible-then', /not cut yet/);
  });

  test('a late entry takes its place between the others', () => {
    const after = given(cut('2026-05-01'), lent('2026-05-10', 'Odd'))
      .when('stamp.lend-and-return', { ...fern, to: 'Tova' }, '2026-05-04')
      .state<Stamp>('stamp:fern');
    expect(after).toMatchObject({ lentTo: 'Odd', lent: 2 });
  });

  test('a late entry that would make a later one impossible is refused, and the later one is named', () => {
    given(cut('2026-05-01'), lent('2026-05-10', 'Odd'))
      .when('stamp.lend', { ...fern, to: 'Tova' }, '2026-05-04')
      .refused(
        'makes-later-impossible',
        /entry 2, stamp lent on 10 May 2026, impossible: Stamp Fern is lent to Tova/,
      );
  });
});

describe('when only the day is known', () => {
  test('the happenings of that day stand in the order of the trade, however they were noted', () => {
    given(cut('2026-05-01'), lent('2026-05-02', 'Tova'))
      .when('stamp.return', fern, '2026-05-02')
      .then(['stamp.returned', fern]);
  });

  test('what comes earlier in the trade’s order is decided on the time before the rest of that day', () => {
    // By the end of the day the stamp is back; a lending of that day stands before its return.
    const day = given(cut('2026-05-01'), lent('2026-05-01', 'Odd'), returned('2026-05-03'));
    day.when('stamp.lend', { ...fern, to: 'Odd' }, '2026-05-03').unchanged();
    day
      .when('stamp.lend', { ...fern, to: 'Tova' }, '2026-05-03')
      .refused('not-possible-then', /is lent to Odd/);
  });

  test('what belongs before the rest of the day is decided without the rest of the day', () => {
    given(cut('2026-05-01'), lent('2026-05-03T18:00:00+01:00', 'Tova'))
      .when('stamp.lend', { ...fern, to: 'Tova' }, '2026-05-03T09:00:00+01:00')
      .refused('makes-later-impossible', /lent on 3 May 2026/);
  });
});

describe('a plugin that breaks the contract is named', () => {
  const wrong = (decide: (...args: never[]) => unknown) =>
    givenIn(
      buildRegistry([
        stamps,
        definePlugin({
          id: 'wrong',
          contract: 1,
          about: 'Does what it must not.',
          needs: ['stamps'],
          prefixes: ['wrong'],
          commands: {
            'wrong.do': command({
              title: 'Do it',
              input: stamps.commands!['stamp.cut']!.input,
              streams: () => [],
              decide: decide as never,
            }),
          },
        }),
      ]),
    );

  test('data that does not fit its event', () => {
    const attempt = () =>
      wrong(() => [{ name: 'stamp.lent', streams: ['stamp:fern'], data: fern }])().when('wrong.do', fern);
    expect(attempt).toThrow(PluginFault);
    expect(attempt).toThrow(/“wrong”, command wrong.do: the data of stamp.lent does not fit its shape \(to:/);
  });

  test('an event that nobody declares', () => {
    expect(() =>
      wrong(() => [{ name: 'wrong.done', streams: ['stamp:fern'], data: {} }])().when('wrong.do', fern),
    ).toThrow(/wrong.done, an event that no plugin declares/);
  });

  test('reading a stream it did not ask for', () => {
    const attempt = () =>
      wrong(((_: unknown, streams: { latest(kind: unknown, key: string): unknown }) =>
        streams.latest(stampKind, 'fern')) as never)().when('wrong.do', fern);
    expect(attempt).toThrow(/reads stamp:fern, which its “streams” did not ask for/);
  });
});

test('what was done can be given as commands too', () => {
  given(
    done('2026-05-01', 'stamp.cut', { ...fern, label: 'Fern' }),
    done('2026-05-02', 'stamp.lend', { ...fern, to: 'Tova' }),
  )
    .when('stamp.note', { ...fern, note: 'worn at the edge' }, '2026-05-03')
    .then([
      'stamp.noted',
      { ...fern, note: { text: expect.stringMatching(/\.note$/), hash: '0'.repeat(64) } },
    ]);
});
