/** A phone at the kiln with the network really cut and the studio's program killed. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bowls, cup, FarKiln, order } from '../support/far-kiln.ts';

const kiln = new FarKiln();
beforeAll(() => kiln.open(), 180_000);
afterAll(() => kiln.close());

test('a whole kiln is drawn for days without the network, and all of it arrives once and in order', async () => {
  const { context, studio } = kiln;
  await kiln.firstVisit();
  const before = (await kiln.entries()).length;

  await kiln.cut();

  // A closed tab, and the page from the device.
  await kiln.page.close();
  await kiln.openPage('/kilns/G1/draw');
  await kiln.stands(/The studio is not heard: this is as it was at \d\d:\d\d/);
  await kiln.inHand('BEAK-1');
  await kiln.press('Good');
  await kiln.inHand('BEAK-2');
  await kiln.stands('1 entry waiting to be sent');
  await kiln.press('Fault', 'pinholes', 'inside', 'Second');
  await kiln.inHand('BEAK-3');
  await kiln.stands('2 entries waiting to be sent');

  // Taken back: the piece before is in the hand again, and is noted otherwise.
  await kiln.press('Undo');
  await kiln.inHand('BEAK-2');
  await kiln.press('Good');
  await kiln.inHand('BEAK-3');
  await kiln.stands('4 entries waiting to be sent');

  // A fault with its repair, and one in shards.
  await kiln.press('Fault', 'stilt marks', 'base', 'A second, to be mended', 'grind');
  await kiln.inHand('BEAK-4');
  await kiln.press('Fault', 'broken', 'Waster');
  await kiln.inHand('BEAK-5');
  await kiln.stands('6 entries waiting to be sent');

  // A battery that dies: the browser is gone without a word, and what waits is still there.
  await kiln.page.close({ runBeforeUnload: false });
  await kiln.openPage('/unsent');
  await kiln.page.getByText('6 entries waiting to be sent').first().waitFor();
  expect(await kiln.page.locator('main ol.ledger li').count()).toBe(6);

  // One goes on where one was.
  await kiln.page.goto('/kilns/G1/draw');
  await kiln.inHand('BEAK-5');
  await kiln.page.getByText('9 to look over').waitFor();
  await kiln.press('Fault', 'crazing', 'outside', 'Another fault', 'runs', 'foot', 'Second');
  await kiln.inHand('BEAK-6');
  await kiln.press('Something else', 'It is not in the kiln', 'it is lost');
  await kiln.inHand('BEAK-7');
  await kiln.press('Good');
  await kiln.inHand('BOWLS');
  await kiln.press('Not all good', 'pinholes', 'inside', '2', 'Second', 'The other 4 are good');
  await kiln.page.getByText('Everything has been looked over.').waitFor();
  await kiln.page.getByLabel('Note').fill('the lid was warm to the hand');
  await kiln.press('The kiln is empty');
  await kiln.page.waitForURL('**/kilns/G1');
  await kiln.stands('11 entries waiting to be sent');

  // What was noted is in every screen that this device can tell.
  await kiln.page.goto('/');
  await kiln.page.getByText('Kilns to draw').waitFor();
  await kiln.page.locator('main a[href="/kilns/G2"]').waitFor();
  expect(await kiln.page.locator('main a[href="/kilns/G1"]').count()).toBe(0);
  await kiln.page.goto('/kilns/G1/draw');
  await kiln.page.getByText('It has been drawn already.').waitFor();

  // A piece begun meanwhile has a mark of the run that this device holds.
  await kiln.page.goto('/ware/begin');
  await kiln.page.getByLabel('What is it').fill('jug');
  await kiln.press(/^Begin/);
  await kiln.page
    .getByRole('heading', { level: 1 })
    .getByText(/[A-Z0-9]{5,6}/)
    .waitFor();

  // A newer page comes while entries wait: they are not let through, and are still there after it.
  await kiln.page.route('**/api/commands', (route) => route.abort());
  studio.release();
  await studio.start();
  await context.setOffline(false);
  await kiln.page.goto('/unsent');
  await kiln.page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await kiln.press('Use it now');
  await kiln.page.waitForURL('**/unsent');
  await kiln.page.waitForFunction(() =>
    [...document.scripts].some((script) => script.src.includes('index-newer-')),
  );
  await kiln.page.getByText('12 entries waiting to be sent').first().waitFor();
  expect(await kiln.entries()).toHaveLength(before);

  await kiln.press('Send now');
  await kiln.page.unroute('**/api/commands');
  await kiln.page.evaluate(() => dispatchEvent(new Event('online')));
  await kiln.page.getByText('Nothing waits on this device').waitFor();

  const arrived = (await kiln.entries()).slice(before);
  const said = arrived.map(({ name, data }) => {
    const { kind, method } = data as { kind?: string; method?: string };
    return [name, kind ?? method].filter(Boolean).join(' ');
  });
  expect(said).toEqual([
    'piece.graded',
    'fault.found pinholes',
    'piece.graded',
    'entry.struck',
    'entry.struck',
    'piece.graded',
    'fault.found stilt-marks',
    'piece.graded',
    'repair.decided grind',
    'fault.found broken',
    'piece.graded',
    'fault.found crazing',
    'fault.found runs',
    'piece.graded',
    'piece.left',
    'piece.graded',
    'lot.split',
    'fault.found pinholes',
    'piece.graded',
    'piece.graded',
    'firing.drawn',
    'piece.begun',
  ]);
  expect(new Set(arrived.map(({ command, part }) => `${command}/${part}`)).size).toBe(arrived.length);
  expect(arrived.every(({ clock, device }) => clock !== undefined && device !== 'laptop')).toBe(true);
  const clocks = arrived.map(({ clock }) => Date.parse(clock!));
  expect(clocks).toEqual(clocks.toSorted((a, b) => a - b));
  expect(await kiln.cameOut('G1')).toEqual([
    'BEAK-1 first',
    'BEAK-2 first',
    'BEAK-3 second stilt-marks@base',
    'BEAK-4 waster broken@null',
    'BEAK-5 second crazing@outside runs@foot',
    'BEAK-6 ',
    'BEAK-7 first',
    'BOWLS 4 first',
    'BOWLS 2 second pinholes@inside',
  ]);
  expect(kiln.faults).toEqual([]);
}, 180_000);

test('what cannot be true together with the laptop’s word is put to the user with both sides', async () => {
  const { context } = kiln;
  await kiln.page.goto('/kilns/G2/draw');
  await kiln.inHand('CUP-1');
  await context.setOffline(true);
  await kiln.press('Good');
  await kiln.inHand('CUP-2');
  await kiln.press('Good');
  await kiln.inHand('CUP-3');
  await kiln.tell(
    order('piece.grade', { piece: cup(1), second: 1, firing: 'G2' }, '2026-05-21'),
    order('piece.grade', { piece: cup(2), first: 1, firing: 'G2' }, '2026-05-21'),
  );
  await context.setOffline(false);
  await kiln.page.goto('/unsent');
  await kiln.stands('1 entry needs you');
  await kiln.page.getByText('In the meantime another device recorded something else').waitFor();
  const sides = kiln.page.locator('.sides');
  await sides.getByText('CUP-1').waitFor();
  await sides.getByText('1 second').waitFor();
  await kiln.press('Mine is right: strike out the other');
  await kiln.page.getByText('Nothing waits on this device').waitFor();
  await kiln.page.getByText('Replaced: mine is right.').waitFor();
  await kiln.page.goto(`/ware/${cup(1)}`);
  await kiln.page.getByText(/first/).first().waitFor();
  const names = (await kiln.entries()).slice(-4).map(({ name, device }) => [name, device === 'laptop']);
  expect(names.filter(([name]) => name === 'entry.struck')).toEqual([['entry.struck', false]]);
  expect(kiln.faults).toEqual([]);
}, 60_000);

test('what the studio did not take is set right where it waits: another piece, another grade', async () => {
  const { context, page } = kiln;
  await page.goto('/kilns/G2/draw');
  await kiln.inHand('CUP-3');
  await context.setOffline(true);
  await kiln.press('Good');
  await kiln.inHand('CUP-4');
  await kiln.tell(order('piece.grade', { piece: cup(3), second: 1, firing: 'G2' }, '2026-05-21'));
  await context.setOffline(false);
  await page.goto('/unsent');
  await kiln.stands('1 entry needs you');
  await page.locator('main').getByText('Correct it').click();
  const piece = page.getByLabel('Piece', { exact: true });
  await piece.fill('CUP-9');
  await page.getByText('No piece on this device has this mark.').waitFor();
  expect(await kiln.button('Send it corrected').isDisabled()).toBe(true);
  await piece.fill('cup 4');
  await page.getByLabel('Grade, 1').selectOption('waster');
  await kiln.press('Send it corrected');
  await page.getByText('Nothing waits on this device').waitFor();
  await page.getByText('Replaced by a corrected entry.').waitFor();
  expect((await kiln.cameOut('G2')).slice(2)).toEqual(['CUP-3 second', 'CUP-4 waster']);
  expect(kiln.faults).toEqual([]);
}, 60_000);

test('a fault of a lot that the laptop graded by mixed counts meanwhile: the user says which part has it', async () => {
  const { context, page } = kiln;
  await page.goto(`/ware/${bowls}/fault`);
  await page.getByRole('radio', { name: 'crazing' }).check({ force: true });
  await context.setOffline(true);
  await kiln.press('Note the fault');
  await kiln.stands('1 entry waiting to be sent');
  // The lot was looked over a moment ago, before this test.
  const now = new Date().toISOString();
  await kiln.tell(order('piece.grade', { piece: bowls, first: 3, second: 1, firing: 'G1' }, now));
  await context.setOffline(false);
  await page.goto('/unsent');
  await kiln.stands('1 entry needs you');
  await page.locator('main').getByText('Correct it').click();
  await page.getByLabel('On which part of the lot').selectOption({ label: 'the second' });
  await page.getByLabel('Pieces', { exact: true }).fill('1');
  await kiln.press('Send it corrected');
  await page.getByText('Nothing waits on this device').waitFor();
  const parts = (await kiln.cameOut('G1')).filter((part) => part.startsWith('BOWLS'));
  expect(parts).toEqual(['BOWLS 3 first', 'BOWLS second crazing@null', 'BOWLS 2 second pinholes@inside']);
  expect(kiln.faults).toEqual([]);
}, 60_000);
