import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { A_PICTURE } from '../../support/a-picture.ts';
import { done } from '../../support/given.ts';
import { photograph } from '../../support/photographs.ts';
import { ordered, POT, pot, shopStory, stocked } from '../../support/shop.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { begin, JUG, materials } from '../../support/yard.ts';

let studio: StudioHost;
beforeEach(async () => {
  studio = await studioHost();
});
afterEach(() => studio.close());

const sent = (order: string, more: object = {}) =>
  done('2026-03-02', 'order.keep-picture', { order, ...A_PICTURE, allows: ['keep'], ...more });
const wall = async (params = {}) => (await studio.host.report('shop-orders', 'buyers-pictures', params)).rows;
const forget = (person: string) =>
  studio.host.forget(person, { id: '01980000-0000-7000-8000-00000000fffe', who: 'ansa', device: 'bench' });

/** Every byte under the data folder. */
function all(dir = studio.dir): Buffer {
  return Buffer.concat(
    readdirSync(dir, { withFileTypes: true }).map((each) =>
      each.isDirectory() ? all(join(dir, each.name)) : readFileSync(join(dir, each.name)),
    ),
  );
}

test('a picture from a buyer hangs nowhere until they let it be shown, and is named only where they allow it', async () => {
  await studio.tell(...materials, ...stocked, ordered('1', '2026-02-20'), sent('shop/1'));
  expect(await wall()).toEqual([]);
  await studio.tell(sent('shop/1', { allows: ['keep', 'show'] }));
  expect(await wall()).toMatchObject([
    { sha256: A_PICTURE.sha256, buyer: null, behind: '/post/orders/shop/1' },
  ]);
  await studio.tell(sent('shop/1', { allows: ['keep', 'show', 'name'] }));
  expect(await wall()).toMatchObject([{ buyer: 'Isolde Farthingdown' }]);
  await studio.tell(sent('shop/1'));
  expect(await wall()).toEqual([]);
  const { more } = await studio.host.report('shop-orders', 'order', { order: 'shop/1' });
  expect((more as { order: { pictures: object[] } }).order.pictures).toHaveLength(1);
});

test('one of a pot stands with the pot, for me alone while it may not be shown', async () => {
  await studio.tell(
    ...materials,
    ...stocked,
    ...pot,
    ordered('3', '2026-02-21', { lines: [{ item: 'Wall planter, second', quantity: 1 }] }),
    sent('shop/3', { piece: POT }),
  );
  expect(await wall({ piece: POT })).toMatchObject([{ order: 'shop/3', show: false }]);
  expect(await wall()).toEqual([]);
});

test('it is not kept without their leave, nor as one of a pot that they did not buy, nor before it has come in', async () => {
  await studio.tell(...materials, ...shopStory);
  const keep = (more: object) =>
    studio.ask(
      'order.keep-picture',
      { order: 'shop/1', ...A_PICTURE, allows: ['keep'], ...more },
      '2026-03-05',
    );
  expect(await keep({ allows: ['show'] })).toMatchObject({ refusal: { code: 'not-allowed' } });
  expect(await keep({ piece: POT })).toMatchObject({ refusal: { code: 'not-in-order' } });
  expect(await keep({ sha256: 'ab'.repeat(32) })).toMatchObject({ refusal: { code: 'file-not-here' } });
});

test('an erased buyer’s picture is gone byte for byte', async () => {
  await studio.tell(...materials, ...stocked, ordered('1', '2026-02-20'), ordered('2', '2026-02-20'));
  const bytes = await photograph(90, 70);
  const kept = await studio.host.pictures.keep(bytes);
  const inside = Buffer.from(bytes.slice(bytes.length - 60));
  await studio.tell(sent('shop/1', { ...kept, allows: ['keep', 'show', 'name'], note: 'on our windowsill' }));
  expect(all().includes(inside)).toBe(true);
  await forget('buyer-1');
  expect(studio.host.pictures.files.standing(kept.sha256)).toBe('erased');
  expect(await studio.host.pictures.readSmall(kept.sha256)).toBeUndefined();
  for (const gone of [inside, 'windowsill']) expect(all().includes(gone)).toBe(false);
  expect(await wall()).toEqual([]);
});

test('unless somebody else sent the same one, or it shows a piece here; a struck-out entry keeps nothing', async () => {
  await studio.tell(
    ...materials,
    ...stocked,
    begin(JUG, 1),
    ordered('1', '2026-02-20'),
    ordered('2', '2026-02-20'),
  );
  const shared = await studio.host.pictures.keep(await photograph(91, 70));
  const ours = await studio.host.pictures.keep(await photograph(92, 70));
  const mistaken = await studio.host.pictures.keep(await photograph(93, 70));
  const attach = (kept: object) => done('2026-03-03', 'file.attach', { to: `piece:${JUG}`, ...kept });
  const outcomes = await studio.tell(
    sent('shop/1', shared),
    sent('shop/2', shared),
    sent('shop/1', ours),
    attach(ours),
    sent('shop/1', mistaken),
    attach(mistaken),
  );
  const { last } = outcomes.at(-1) as unknown as { last: number };
  await studio.tell(done('2026-03-04', 'entry.strike', { seqs: [last], why: 'the wrong piece' }));
  await forget('buyer-1');
  const standing = ({ sha256 }: { sha256: string }) => studio.host.pictures.files.standing(sha256);
  expect([shared, ours, mistaken].map(standing)).toEqual(['kept', 'kept', 'erased']);
});
