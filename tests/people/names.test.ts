import { afterEach, beforeEach, expect, test } from 'vitest';
import { studio } from '../../server/studio/studio.ts';
import { type Bench, openBench } from '../support/bench.ts';

let bench: Bench;
beforeEach(async () => {
  bench = await openBench({ plugins: [studio] });
});
afterEach(() => bench.end());

test('a student’s name is found in the erasable store, and nowhere in the log', async () => {
  expect(await bench.ask('person.add', { person: 'p-1', name: 'Tova Quill' })).toMatchObject({
    outcome: 'recorded',
  });
  expect(await bench.people.names(['p-1'])).toEqual(new Map([['p-1', 'Tova Quill']]));
  expect(await bench.people.find('quill')).toEqual([{ person: 'p-1', name: 'Tova Quill' }]);
  expect(JSON.stringify(await bench.log.read(0, 9))).not.toMatch(/Tova|Quill/);
});

test('what is noted on a student’s piece goes when the student is forgotten', async () => {
  const piece = '01980000-0000-7000-8000-00000000000a';
  await bench.ask('person.add', { person: 'p-1', name: 'Tova Quill' });
  await bench.ask('piece.begin', { piece, owner: { kind: 'student', person: 'p-1' } });
  await bench.ask('piece.note', { piece, note: 'Tova wants it blue' });
  expect(await bench.people.search('blue')).toEqual([`piece:${piece}`]);
  await bench.people.erase('p-1', [`piece:${piece}`]);
  expect(await bench.people.search('blue')).toEqual([]);
  expect(await bench.people.names(['p-1'])).toEqual(new Map([['p-1', null]]));
  expect((await bench.log.verify()).broken).toBeUndefined();
});
