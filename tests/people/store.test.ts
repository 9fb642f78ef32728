import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { People, TextToKeep } from '../../server/people/people.ts';
import { openPeople } from '../../server/people/store.ts';

let dir: string;
let people: People;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'wareboard-people-'));
  people = openPeople(join(dir, 'people.db'));
});
afterEach(async () => {
  await people.close();
  rmSync(dir, { recursive: true, force: true });
});

const name = (person: string, text: string, id = `${person}.name`): TextToKeep => ({
  id,
  text,
  person,
  isName: true,
});
const note = (id: string, text: string, ...streams: string[]): TextToKeep => ({ id, text, streams });

/** Whether the bytes of a text stand in any file of the folder. */
const onDisk = (text: string): string[] =>
  readdirSync(dir).filter((file) => {
    const bytes = readFileSync(join(dir, file));
    return bytes.includes(Buffer.from(text)) || bytes.includes(Buffer.from(text.toLowerCase()));
  });

describe('keeping texts', () => {
  test('gives a reference whose hash does not tell the text', async () => {
    const [ref] = await people.keep([note('c1.note', 'chipped')]);
    expect(ref).toEqual({ text: 'c1.note', hash: expect.stringMatching(/^[0-9a-f]{64}$/) });
    expect(ref!.hash).not.toBe(createHash('sha256').update('chipped').digest('hex'));
    const [other] = await people.keep([note('c2.note', 'chipped')]);
    expect(other!.hash).not.toBe(ref!.hash);
  });

  test('twice under one id keeps the first', async () => {
    const first = await people.keep([note('c1.note', 'chipped')]);
    expect(await people.keep([note('c1.note', 'cracked')])).toEqual(first);
    expect(await people.read(['c1.note'])).toEqual(new Map([['c1.note', 'chipped']]));
  });

  test('can be prepared without keeping anything', async () => {
    const [text] = await people.refer([note('c1.note', 'chipped')]);
    expect(text!.kept).toBe('no');
    expect(await people.read(['c1.note'])).toEqual(new Map());
    expect(await people.keep([text!])).toEqual([text!.ref]);
    expect((await people.refer([note('c1.note', 'chipped')]))[0]).toMatchObject({
      kept: 'the same',
      ref: text!.ref,
    });
    expect((await people.refer([note('c1.note', 'cracked')]))[0]).toMatchObject({ kept: 'another' });
  });

  test('lasts when the store is closed and opened', async () => {
    await people.keep([note('c1.note', 'Zwölf Kacheln, 十二枚のタイル')]);
    await people.close();
    people = openPeople(join(dir, 'people.db'));
    expect(await people.read(['c1.note'])).toEqual(new Map([['c1.note', 'Zwölf Kacheln, 十二枚のタイル']]));
  });

  test('can be taken back when its command was refused', async () => {
    await people.keep([note('c1.note', 'chipped', 'piece:1')]);
    await people.drop(['c1.note']);
    expect(await people.read(['c1.note'])).toEqual(new Map());
    expect(await people.search('chipped')).toEqual([]);
  });
});

describe('looking for words', () => {
  beforeEach(() =>
    people.keep([
      note('1.note', 'Chipped at the RIM', 'piece:1', 'firing:9'),
      note('2.note', 'rim is fine; Straße', 'piece:2'),
      note('3.note', 'η λαβή έσπασε, ΛΑΒΉ', 'piece:3'),
      note('4.note', '口縁が欠けた', 'piece:4'),
      name('p1', 'Ansa Whitlow'),
      name('p2', 'Дарья Ветрова'),
    ]),
  );

  test.each([
    ['a word, whatever its case', 'CHIPPED', ['firing:9', 'piece:1']],
    ['all the words, in any order', 'rim chipped', ['firing:9', 'piece:1']],
    ['every text that has it', 'rim', ['firing:9', 'piece:1', 'piece:2']],
    ['a sharp s by its capitals', 'STRASSE', ['piece:2']],
    ['Greek', 'λαβή', ['piece:3']],
    ['Japanese', '口縁', ['piece:4']],
    ['a percent sign is no wild card', '%', []],
    ['no words find nothing', '  ', []],
  ])('%s', async (_, words, streams) => {
    expect(await people.search(words)).toEqual(streams);
  });

  test('persons by part of their name', async () => {
    expect(await people.find('whit ANSA')).toEqual([{ person: 'p1', name: 'Ansa Whitlow' }]);
    expect(await people.find('вЕТРОВА')).toEqual([{ person: 'p2', name: 'Дарья Ветрова' }]);
  });

  test('a person goes by the newest name', async () => {
    await people.keep([name('p1', 'Ansa Reed', 'again.name')]);
    expect(await people.names(['p1', 'p2', 'p3'])).toEqual(
      new Map([
        ['p1', 'Ansa Reed'],
        ['p2', 'Дарья Ветрова'],
      ]),
    );
    expect(await people.find('whitlow')).toEqual([]);
  });
});

describe('erasing a person', () => {
  test('takes the name, what is about them, and what speaks of their pieces; nothing else', async () => {
    await people.keep([
      name('p1', 'Tova Quill'),
      { id: 'about', text: 'left-handed', person: 'p1' },
      note('spoken', 'Tova chipped it', 'piece:1'),
      note('other', 'fine', 'piece:2'),
    ]);
    expect(await people.erase('p1', ['piece:1'])).toBe(3);
    expect(await people.names(['p1'])).toEqual(new Map([['p1', null]]));
    expect(await people.read(['about', 'spoken', 'other'])).toEqual(
      new Map<string, string | null>([
        ['about', null],
        ['spoken', null],
        ['other', 'fine'],
      ]),
    );
    expect(await people.find('tova')).toEqual([]);
    expect(await people.search('chipped')).toEqual([]);
    expect(await people.erase('p1', ['piece:1'])).toBe(0);
  });

  test('a repeat of the command does not bring the text back', async () => {
    const kept = await people.keep([name('p1', 'Tova Quill')]);
    await people.erase('p1', []);
    expect(await people.keep([name('p1', 'Tova Quill')])).toEqual(kept);
    expect(await people.names(['p1'])).toEqual(new Map([['p1', null]]));
  });

  test('leaves no trace in any file, though pages were split and texts were long', async () => {
    const long = 'remembered '.repeat(900);
    for (let round = 0; round < 30; round++) {
      const others = Array.from({ length: 40 }, (_, n) =>
        note(
          `n${round}-${n}`,
          `glazed on day ${round} ${'x'.repeat((round * 37 + n * 11) % 300)}`,
          'piece:2',
        ),
      );
      await people.keep([
        ...others,
        { id: `secret${round}`, text: `Zephyrine${round} ${long}`, person: 'p1' },
        name('p1', `Zephyrine${round} Quillfeather`, `name${round}`),
      ]);
    }
    expect(onDisk('Zephyrine29')).not.toEqual([]);
    await people.erase('p1', []);
    for (let round = 0; round < 30; round++) expect(onDisk(`Zephyrine${round}`)).toEqual([]);
    expect(onDisk('Quillfeather')).toEqual([]);
    expect(onDisk('remembered')).toEqual([]);
    expect((await people.search('glazed')).length).toBe(1);
  });

  test('forgets the salt, so that nobody can try out what the text was', async () => {
    const [before] = await people.refer([note('c.note', 'chipped', 'piece:1')]);
    await people.keep([before!]);
    expect(onDisk(before!.salt)).not.toEqual([]);
    await people.erase('nobody', ['piece:1']);
    expect(onDisk(before!.salt)).toEqual([]);
  });
});
