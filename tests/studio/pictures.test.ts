/** What pictures are attached to, where they are found again, and that they go with the person whose ware they show. */
import { cpSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { checkBackup } from '../../server/backup/check.ts';
import { makeBackup } from '../../server/backup/make.ts';
import { restore } from '../../server/backup/restore.ts';
import { picturesSentences } from '../../server/backup/verdict.ts';
import { pictureOf } from '../../server/contract/picture/picture.ts';
import { CONTRACT, command, definePlugin, report } from '../../server/contract/plugin.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { PLUGINS } from '../../server/manifest.ts';
import type { PieceRow } from '../../web/api/studio.ts';
import { done } from '../support/given.ts';
import { photograph } from '../support/photographs.ts';
import { NOON, type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, glazeFiredTiles, JUG, TILES } from '../support/yard.ts';

let studio: StudioHost | undefined;
afterEach(async () => {
  await studio?.close();
  studio = undefined;
});

let made = 0;
/** A picture that is kept already, as the order names it. */
async function kept(host: StudioHost['host']) {
  made += 1;
  const { sha256, type, bytes, width, height } = await host.pictures.keep(await photograph(60 + made, 40));
  return { sha256, type, bytes, width, height };
}

async function yard() {
  const dir = await studioHost();
  studio = dir;
  await dir.tell(...glazeFiredTiles, begin(JUG, 1, '2026-02-20'));
  const attach = async (to: string, more: object = {}, on = '2026-03-01') => {
    const picture = await kept(dir.host);
    const outcome = await dir.ask('file.attach', { to, ...picture, ...more }, on);
    return { ...outcome, sha256: picture.sha256 };
  };
  const report = (name: string, params: Record<string, string> = {}) =>
    dir.host.report('studio', name, params);
  return { ...dir, attach, report };
}

describe('a picture', () => {
  test('of a piece stands with it and in its story', async () => {
    const { attach, report, tell } = await yard();
    await tell(done('2026-02-28', 'fault.find', { piece: TILES, kind: 'pinholes', count: 3 }));
    const { sha256 } = await attach(`piece:${TILES}`, { fault: 'pinholes', zone: 'inside' });
    const { rows, more } = await report('piece', { piece: TILES });
    expect((rows[0] as unknown as PieceRow).photos).toMatchObject([
      { sha256, at: '2026-03-01', fault: 'pinholes', zone: 'inside' },
    ]);
    const story = (more as { story: { sentence: string }[] }).story;
    expect(story[0]!.sentence).toBe('Picture of pinholes');
  });

  test('of a firing or a material stands with that', async () => {
    const { attach, report } = await yard();
    const ofFiring = await attach('firing:G1');
    const ofGlaze = await attach('glaze:marram-green');
    expect((await report('firing', { firing: 'G1' })).more!.firing).toMatchObject({
      photos: [{ sha256: ofFiring.sha256 }],
    });
    const glazes = await report('materials', { kind: 'glaze' });
    expect(glazes.rows.find(({ id }) => id === 'marram-green')).toMatchObject({
      photos: [{ sha256: ofGlaze.sha256 }],
    });
  });

  test('attached twice is attached once; undone, it is gone from sight and still kept', async () => {
    const { ask, host, report } = await yard();
    const picture = await kept(host);
    const first = await ask('file.attach', { to: `piece:${JUG}`, ...picture });
    expect((await ask('file.attach', { to: `piece:${JUG}`, ...picture })).outcome).toBe('unchanged');
    await ask('entry.strike', { command: first.id });
    const { rows } = await report('piece', { piece: JUG });
    expect((rows[0] as unknown as PieceRow).photos).toEqual([]);
    expect(host.pictures.files.standing(picture.sha256)).toBe('kept');
  });

  test.each([
    [`piece:${JUG.replace('0', '1')}`, {}, 'no-such-piece'],
    ['firing:none', {}, 'no-such-firing'],
    ['glaze:no-such-glaze', {}, 'no-such-material'],
    ['person:neighbour-1', {}, 'bad-input'],
    ['nonsense', {}, 'bad-input'],
    ['firing:G1', { fault: 'crack' }, 'no-piece-shown'],
    [`piece:${TILES}`, { shows: 'before' }, 'no-repair-shown'],
  ])('of %s %j is refused: %s', async (to, more, code) => {
    const { attach } = await yard();
    expect(await attach(to, more)).toMatchObject({ outcome: 'refused', refusal: { code } });
  });

  test('that has not come in is asked for first; then the same order is recorded', async () => {
    const { ask, host } = await yard();
    const bytes = await photograph(99, 44);
    const { sha256 } = await await studioHost().then(async (other) => {
      const picture = await other.host.pictures.keep(bytes);
      await other.close();
      return picture;
    });
    const input = { to: `piece:${JUG}`, sha256, type: 'image/jpeg', bytes: bytes.length };
    expect(await ask('file.attach', input)).toMatchObject({
      outcome: 'refused',
      refusal: { code: 'file-not-here' },
    });
    await host.pictures.keep(bytes);
    expect((await ask('file.attach', input)).outcome).toBe('recorded');
  });
});

describe('the wall', () => {
  test('shows a picture under its glazes only once the piece has come out of the glaze firing', async () => {
    const { attach, report } = await yard();
    await attach(`piece:${TILES}`, { taken: '2026-01-20' });
    const fired = await attach(`piece:${TILES}`, {}, '2026-03-01');
    const wall = await report('picture-wall', { by: 'glaze' });
    expect(wall.rows).toMatchObject([
      { name: 'Marram Green', many: 1, pictures: [{ sha256: fired.sha256 }] },
    ]);
    const onClay = await report('picture-wall', { by: 'glaze-on-clay' });
    expect(onClay.rows.map(({ name }) => name)).toEqual(['Marram Green on Fell White']);
    const list = await report('pictures', { by: 'glaze-on-clay', key: String(onClay.rows[0]!.key) });
    expect(list.rows).toMatchObject([{ sha256: fired.sha256, clayName: 'Fell White' }]);
  });

  test('of a firing shows its pieces and the kiln itself', async () => {
    const { attach, report } = await yard();
    const piece = await attach(`piece:${TILES}`);
    const kiln = await attach('firing:G1');
    const { rows } = await report('pictures', { by: 'firing', key: 'G1' });
    expect(rows.map(({ sha256 }) => sha256)).toEqual([kiln.sha256, piece.sha256]);
    const wall = await report('picture-wall', { by: 'firing' });
    expect(wall.rows).toMatchObject([{ key: 'G1', many: 2 }]);
  });

  test('goes on where a page ends, and shows a lot’s picture once after it came apart', async () => {
    const { attach, report, tell } = await yard();
    for (let n = 0; n < 5; n += 1) await attach(`piece:${TILES}`);
    await tell(done('2026-03-02', 'lot.split', { piece: TILES, into: [{ count: 2 }] }));
    const first = await report('pictures', { limit: '3' });
    const second = await report('pictures', { limit: '3', after: String(first.more!.next) });
    expect([...first.rows, ...second.rows]).toHaveLength(5);
    expect(new Set([...first.rows, ...second.rows].map(({ sha256 }) => sha256)).size).toBe(5);
    expect(second.more!.next).toBeUndefined();
  });
});

test('two devices that send the same picture at once are both told that it is kept', async () => {
  const { host } = await yard();
  const bytes = await photograph(123, 45);
  const kept = await Promise.all(Array.from({ length: 8 }, () => host.pictures.keep(bytes)));
  expect(new Set(kept.map(({ sha256 }) => sha256)).size).toBe(1);
});

describe('whoever is forgotten', () => {
  test('takes the pictures of their ware along, and only those', async () => {
    const { attach, tell, host, report, dir } = await yard();
    await tell(
      done('2026-02-20', 'person.add', { person: 'student-1', name: 'Wren Saltmarsh' }),
      done('2026-02-21', 'piece.change-owner', {
        piece: JUG,
        owner: { kind: 'student', person: 'student-1' },
      }),
    );
    const theirs = await attach(`piece:${JUG}`);
    const ours = await attach(`piece:${TILES}`);
    await host.forget('student-1', {
      id: '01980000-0000-7000-8000-0000000f0f0f',
      who: 'ansa',
      device: 'bench',
    });
    expect(host.pictures.files.standing(theirs.sha256)).toBe('erased');
    expect(host.pictures.files.standing(ours.sha256)).toBe('kept');
    expect(existsSync(join(dir, 'files', theirs.sha256.slice(0, 2), theirs.sha256.slice(2)))).toBe(false);
    expect(existsSync(join(dir, 'small', theirs.sha256.slice(0, 2), theirs.sha256.slice(2)))).toBe(false);
    const verdict = await host.verify();
    expect(verdict.files).toEqual({ kept: 1, erased: 1, missing: [], changed: [] });
    expect((await report('piece', { piece: JUG })).rows[0]).toMatchObject({
      photos: [{ sha256: theirs.sha256 }],
    });
  });
});

describe('a plugin', () => {
  const cards = (wants?: readonly ['files']) =>
    definePlugin({
      id: 'cards',
      contract: CONTRACT,
      about: 'Price cards with a picture.',
      needs: ['studio'],
      prefixes: ['card'],
      wants,
      reports: {
        card: report({
          title: 'A card',
          input: z.strictObject({ sha256: z.string() }),
          run: async (ask, { sha256 }) => ({
            sentence: ask.picture ? 'It has pictures.' : 'It has none.',
            rows: [{ picture: (await ask.picture?.(sha256)) ?? null }],
            notes: [],
            figures: [],
          }),
        }),
      },
    });

  test('that wants pictures gets them for its papers, and one that did not say so does not', async () => {
    for (const [wants, sentence] of [
      [['files'], 'It has pictures.'],
      [undefined, 'It has none.'],
    ] as const) {
      const own = await studioHost({ plugins: [...PLUGINS, cards(wants)] });
      const webp = await own.host.pictures.keep(await photograph(60, 40, 'webp'));
      const told = await own.host.report('cards', 'card', { sha256: webp.sha256 });
      expect(told.sentence).toBe(sentence);
      const picture = told.rows[0]!.picture as { type: string; base64: string } | null;
      expect(picture?.type).toBe(wants && 'image/jpeg');
      if (picture)
        expect(pictureOf(Uint8Array.from(Buffer.from(picture.base64, 'base64')))).toMatchObject({
          width: 60,
        });
      await own.close();
    }
  });

  test('whose command names files without wanting them is refused at the start', () => {
    const { reports: _, ...bare } = cards();
    const put = command({
      title: 'Put a picture on a card',
      input: z.strictObject({ sha256: z.string() }),
      files: (input) => [input.sha256],
      streams: () => ['card:one'],
      decide: () => [],
    });
    expect(() => buildRegistry([...PLUGINS, { ...bare, commands: { 'card.put': put as never } }])).toThrow(
      /“cards” names files in card.put, but does not say that it wants “files”/,
    );
  });
});

describe('verifying', () => {
  test('names a picture that is missing and one that was changed, with the entry that speaks of it', async () => {
    const { attach, host } = await yard();
    const [lost, changed] = [await attach(`piece:${JUG}`), await attach(`piece:${TILES}`)];
    rmSync(host.pictures.files.path(lost.sha256));
    writeFileSync(host.pictures.files.path(changed.sha256), 'no longer it');
    const { files } = await host.verify();
    expect(picturesSentences(files)).toEqual([
      expect.stringMatching(new RegExp(`^Picture ${lost.sha256} is missing \\(entry \\d+\\)\\.$`)),
      expect.stringMatching(
        new RegExp(`^Picture ${changed.sha256} is not as it was when it was kept \\(entry \\d+\\)\\.$`),
      ),
    ]);
  });
});

describe('a backup', () => {
  async function backedUp() {
    const yardNow = await yard();
    const { sha256 } = await yardNow.attach(`piece:${JUG}`);
    const erased = await yardNow.attach(`piece:${JUG}`);
    await yardNow.host.pictures.erase(erased.sha256);
    const into = join(yardNow.dir, 'backups', 'one');
    await makeBackup({ dir: yardNow.dir, into, clock: () => NOON });
    return {
      ...yardNow,
      into,
      sha256,
      erased: erased.sha256,
      path: join(into, 'files', sha256.slice(0, 2), sha256.slice(2)),
    };
  }

  test('holds the pictures, and brings them and the marks of erased ones back', async () => {
    const { into, sha256, erased, host, dir } = await backedUp();
    const back = join(dir, 'restored');
    await restore({ backup: into, dir: back, clock: () => NOON, force: false });
    const at = (hash: string, end = '') => join(back, 'files', hash.slice(0, 2), hash.slice(2) + end);
    expect(readFileSync(at(sha256))).toEqual(await host.pictures.files.read(sha256));
    expect(existsSync(at(erased))).toBe(false);
    expect(existsSync(at(erased, '.erased'))).toBe(true);
  });

  test('with a picture changed, missing or put in is none', async () => {
    const { into, path, sha256 } = await backedUp();
    const before = readFileSync(path);
    writeFileSync(path, 'something else');
    await expect(checkBackup(into)).rejects.toThrow(`The picture ${sha256} in the backup`);
    rmSync(path);
    await expect(checkBackup(into)).rejects.toThrow('holds 1 pictures, and was made with 2');
    writeFileSync(path, before);
    await checkBackup(into);
    const other = await studio!.host.pictures.keep(await photograph(33, 33));
    cpSync(
      studio!.host.pictures.files.path(other.sha256),
      join(into, 'files', other.sha256.slice(0, 2), other.sha256.slice(2)),
      { recursive: true },
    );
    await expect(checkBackup(into)).rejects.toThrow(/holds 3 pictures, and was made with 2/);
  });
});
