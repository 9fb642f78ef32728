import { expect, test } from 'vitest';
import { readMark } from '../../server/contract/mark.ts';
import { done } from '../support/given.ts';
import { studioHost } from '../support/studio-host.ts';
import { given } from '../support/yard.ts';

const BOWL = '01980000-0000-7000-8000-0000000000cc';
const OTHER = '01980000-0000-7000-8000-0000000000dd';

const reserved = () =>
  (given().when('mark.reserve', { run: 'phone-1', count: 20 }).recorded()[0]!.data as { marks: string[] })
    .marks;

test('a device is given twenty marks that differ and read true', () => {
  const marks = reserved();
  expect(new Set(marks).size).toBe(20);
  for (const mark of marks) expect(readMark(mark)).toEqual({ mark });
});

test('a run is reserved once', () => {
  given(done('2026-05-01', 'mark.reserve', { run: 'phone-1' }))
    .when('mark.reserve', { run: 'phone-1' })
    .refused('already-reserved', /name a new one/);
});

test('nobody else is given a reserved mark, the piece begun offline is, and only one', async () => {
  const studio = await studioHost();
  await studio.tell(done('2026-05-01', 'mark.reserve', { run: 'phone-1', count: 3 }));
  const [entry] = await studio.host.log.read(0, 1);
  const [mark] = (entry!.data as { marks: string[] }).marks;
  expect(await studio.ask('piece.begin', { piece: OTHER, mark })).toMatchObject({
    refusal: { code: 'already-taken' },
  });
  expect(await studio.ask('piece.begin', { piece: OTHER, mark, run: 'another' })).toMatchObject({
    refusal: { code: 'already-taken' },
  });
  expect(await studio.ask('piece.begin', { piece: BOWL, mark, run: 'phone-1' })).toMatchObject({
    outcome: 'recorded',
  });
  expect(await studio.ask('piece.begin', { piece: OTHER, mark, run: 'phone-1' })).toMatchObject({
    refusal: { code: 'already-taken' },
  });
  await studio.close();
});

test('a piece that is struck out gives its mark back to the run', async () => {
  const studio = await studioHost();
  await studio.tell(done('2026-05-01', 'mark.reserve', { run: 'phone-1', count: 3 }));
  const [entry] = await studio.host.log.read(0, 1);
  const [mark] = (entry!.data as { marks: string[] }).marks;
  await studio.tell(done('2026-05-02', 'piece.begin', { piece: BOWL, mark, run: 'phone-1' }));
  await studio.tell(done('2026-05-02', 'entry.strike', { seqs: [2] }));
  expect(await studio.ask('piece.begin', { piece: OTHER, mark })).toMatchObject({
    refusal: { code: 'already-taken' },
  });
  expect(await studio.ask('piece.begin', { piece: OTHER, mark, run: 'phone-1' })).toMatchObject({
    outcome: 'recorded',
  });
  await studio.close();
});
