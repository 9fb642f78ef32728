/**
 * Writes a log with every event the studio knows, as it is recorded today, to
 * tests/history/log-N.jsonl. Run once for each new version of any event, with the
 * next N; a file that was released is never written again.
 *
 *   node --import tsx tests/history/freeze.ts 1
 */
import { existsSync, writeFileSync } from 'node:fs';
import { done, type Happening } from '../support/given.ts';
import { shopStory } from '../support/shop.ts';
import { studioHost } from '../support/studio-host.ts';
import { begin, drawn, fired, glazeFiredTiles, JUG, OWN, packed, pounds, TILES } from '../support/yard.ts';

const BOWL = '01980000-0000-7000-8000-0000000000cc';
const SPARE = '01980000-0000-7000-8000-0000000000dd';

const HOW_TO = 'Cut, dry to leather-hard, score the mitres and join.';
const jug = {
  name: 'Faceted Jug',
  spec: { form: 'polygon', sides: 6, bottomSide: 60, topSide: 45, height: 200, thickness: 5, base: true },
  clay: 'fell-white',
  howTo: HOW_TO,
  licence: 'For your own pots, and for those you sell.',
};

const everything: readonly Happening[] = [
  done('2026-01-01', 'studio.set', {
    studio: 'Hollin Yard Pottery',
    zone: 'Europe/London',
    currency: 'GBP',
    yearStart: '04-06',
  }),
  ...glazeFiredTiles,
  done('2026-01-02', 'person.add', { person: 'neighbour-1', name: 'Tamsin Oakapple' }),
  done('2026-01-02', 'word.add', { kind: 'zone', name: 'Spout' }),
  done('2026-01-03', 'clay.change', {
    id: 'fell-white',
    name: 'Fell White stoneware',
    coneLow: '5',
    coneHigh: '7',
    shrinkage: 0.12,
  }),
  done('2026-01-03', 'clay.open-batch', { id: 'fell-white', batch: 'FW-7' }),
  done('2026-01-03', 'glaze.change', {
    id: 'marram-green',
    name: 'Marram Green',
    cone: '6',
    fluid: true,
    cost: pounds(1400),
  }),
  done('2026-01-03', 'glaze.mix-batch', {
    id: 'marram-green',
    batch: 'MG-2',
    dryWeight: 2000,
    density: 1.45,
    note: 'sieved twice',
  }),
  done('2026-01-03', 'kiln.change', {
    id: 'big-round',
    name: 'Big Round',
    shape: 'many-sided',
    width: 560,
    height: 690,
    power: 9.6,
    shelves: 4,
  }),
  done('2026-02-15', 'firing.read', {
    firing: 'G1',
    readings: [
      [0, 18],
      [60, 120.5],
    ],
  }),
  done('2026-02-16', 'fault.find', {
    piece: TILES,
    kind: 'pinholes',
    zone: 'spout',
    count: 3,
    severity: 'plain',
    size: 1.5,
    note: 'all on one side',
  }),
  done('2026-02-16', 'piece.grade', { piece: TILES, first: 9, second: 2, waster: 1, price: pounds(1000) }),
  done('2026-02-16', 'firing.draw', {
    firing: 'G1',
    cones: [{ shelf: 1, cone: '6', bend: 'down' }],
    note: 'top shelf hot',
  }),
  begin(JUG, 4, '2026-02-20'),
  done('2026-02-21', 'piece.move-on', { piece: JUG, stage: 'leather-hard', count: 1 }),
  done('2026-02-22', 'piece.recount', { piece: JUG, count: 2, why: 'one was behind the wheel' }),
  done('2026-02-22', 'lot.split', { piece: JUG, into: [{ count: 1, mark: 'SPARE' }], why: 'two clients' }),
  done('2026-02-22', 'piece.change-owner', { piece: JUG, owner: { kind: 'hire', person: 'neighbour-1' } }),
  done('2026-02-22', 'piece.change-owner', { piece: JUG, owner: OWN }),
  packed('B2', 'bisque', [JUG], '2026-02-23'),
  done('2026-02-23', 'firing.unpack', { firing: 'B2', pieces: [JUG] }),
  ...drawn('B3', 'bisque', [JUG], '2026-02-24'),
  done('2026-02-25', 'repair.decide', { piece: JUG, method: 'grind', note: 'stilt point' }),
  done('2026-02-26', 'repair.do', { piece: JUG, method: 'grind' }),
  done('2026-02-26', 'piece.price', { piece: JUG, price: pounds(2400), secondPrice: pounds(1500) }),
  done('2026-02-27', 'piece.note', { piece: JUG, note: 'handle pulled left-handed' }),
  done('2026-03-01', 'piece.leave', { piece: JUG, how: 'sold', price: pounds(1500) }),
  done('2026-03-09', 'piece.return', { piece: JUG, from: 'post' }),
  begin(BOWL, 1, '2026-03-10'),
  packed('B4', 'bisque', [BOWL], '2026-03-11'),
  done('2026-03-11', 'firing.abandon', { firing: 'B4', why: 'power cut' }),
  begin(SPARE, 1, '2026-03-10'),
  ...fired('B5', 'bisque', [SPARE], '2026-03-12'),
  done('2026-03-13', 'piece.look-over', { piece: SPARE, parts: [{ count: 1, grade: 'second' }] }),
  done('2026-03-13', 'repair.decline', { piece: SPARE }),
  done('2026-03-13', 'piece.change-owner', {
    piece: SPARE,
    owner: { kind: 'hire', person: 'neighbour-1' },
  }),
  done('2026-03-13', 'piece.tell-owner', { piece: SPARE }),
  done('2026-03-13', 'mark.reserve', { run: 'phone-run-1', count: 3 }),
  done('2026-03-14', 'person.forget', { person: 'neighbour-1' }),
  done('2026-03-18', 'template.draw', jug),
  done('2026-03-18', 'template.change', { ...jug, template: 'faceted-jug', clay: 'fell-white' }),
  done('2026-03-19', 'template.give-out', {
    template: 'faceted-jug',
    paper: 'A4',
    how: 'download',
    order: 'HY-1007',
  }),
  done('2026-03-20', 'template.put-away', { template: 'faceted-jug' }),
  ...shopStory,
];

const version = Number(process.argv[2]);
const file = new URL(`log-${version}.jsonl`, import.meta.url);
if (!Number.isInteger(version)) throw new Error('say which version to freeze');
if (existsSync(file)) throw new Error(`log-${version}.jsonl was released and is not written again`);

const studio = await studioHost();
await studio.tell(...everything);
const noted = (await studio.host.log.read(0, 10_000)).find((entry) => entry.name === 'piece.noted')!;
await studio.tell(done('2026-03-15', 'entry.strike', { seqs: [noted.seq], why: 'the other jug' }));
// As it is recorded; the picture itself is in no frozen log, so no command could name it.
await studio.host.log.append({
  command: '01980000-0000-7000-8000-00000000ffff',
  fingerprint: '0'.repeat(64),
  who: 'ansa',
  device: 'bench',
  expect: {},
  entries: [
    {
      name: 'file.attached',
      version: 2,
      happenedAt: '2026-03-16',
      streams: [`piece:${JUG}`],
      data: {
        to: `piece:${JUG}`,
        sha256: 'ab'.repeat(32),
        type: 'image/jpeg',
        bytes: 1200,
        taken: '2026-03-15',
        width: 1500,
        height: 2000,
        fault: 'stilt-marks',
        zone: 'base',
        repair: 'grind',
        shows: 'after',
      },
    },
  ],
});
const entries = await studio.host.log.read(0, 10_000);
writeFileSync(file, `${entries.map((entry) => JSON.stringify(entry)).join('\n')}\n`);
await studio.close();
