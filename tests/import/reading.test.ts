/** Bytes to rows. RFC 4180, "Common Format and MIME Type for CSV Files", is cited by section. */
import { describe, expect, test } from 'vitest';
import type { Bad, RawRecord } from '../../server/import/records.ts';
import { delimiterOf, readRecords } from '../../server/import/records.ts';
import { openText, Unreadable } from '../../server/import/source.ts';

async function* inPieces(text: string, size: number): AsyncGenerator<string> {
  for (let at = 0; at < text.length; at += size) yield text.slice(at, at + size);
}

async function records(text: string, size = 7): Promise<(RawRecord | Bad)[]> {
  const all: (RawRecord | Bad)[] = [];
  for await (const record of readRecords(inPieces(text, size))) all.push(record);
  return all;
}

const fields = async (text: string, size = 7): Promise<unknown[]> =>
  (await records(text, size)).map((record) => ('fields' in record ? record.fields : record.expected));

const lines = async (text: string): Promise<number[]> => (await records(text)).map(({ line }) => line);

async function textOf(bytes: Uint8Array): Promise<{ encoding: string; text: string }> {
  const opened = await openText(bytes);
  let text = '';
  for await (const chunk of opened.chunks()) text += chunk;
  return { encoding: opened.encoding, text };
}

describe('a file is split into rows and fields', () => {
  test('line by line, with or without a line break at the end (RFC 4180, 2.1 and 2.2)', async () => {
    expect(await fields('a,b\r\n1,2\r\n')).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
    expect(await fields('a,b\r\n1,2')).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
  });

  test('spaces are part of a field (2.4)', async () => {
    expect(await fields('a,b\n 1 , 2')).toEqual([
      ['a', 'b'],
      [' 1 ', ' 2'],
    ]);
  });

  test('a field in quotation marks is the same without them (2.5)', async () => {
    expect(await fields('a,b\n"1",2')).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
  });

  test('line breaks and commas stand inside quotation marks (2.6)', async () => {
    expect(await fields('a,b\r\n"one\r\ntwo, three",2\r\n3,4')).toEqual([
      ['a', 'b'],
      ['one\ntwo, three', '2'],
      ['3', '4'],
    ]);
  });

  test('a quotation mark inside quotation marks is doubled (2.7)', async () => {
    expect(await fields('a,b\n"a ""big"" jug",""\n"""",2')).toEqual([
      ['a', 'b'],
      ['a "big" jug', ''],
      ['"', '2'],
    ]);
  });

  test('with CR, LF and CRLF, even all in one file', async () => {
    const expected = [
      ['a', 'b'],
      ['1', '2'],
      ['3', '4'],
      ['5', '6'],
    ];
    expect(await fields('a,b\n1,2\n3,4\n5,6\n')).toEqual(expected);
    expect(await fields('a,b\r1,2\r3,4\r5,6\r')).toEqual(expected);
    expect(await fields('a,b\r\n1,2\n3,4\r5,6')).toEqual(expected);
  });

  test('wherever the pieces that it is read in begin and end', async () => {
    const text = 'a,b\r\n"x\r\ny ""z""",2\r\n\r\n"é😀",4\r\n';
    const whole = await records(text, text.length);
    for (let size = 1; size < text.length; size++) expect(await records(text, size)).toEqual(whole);
  });

  test('empty lines and lines of delimiters only are passed over, and still counted', async () => {
    expect(await fields('\n\na,b\n\n1,2\n,\n  \n3,4')).toEqual([
      ['a', 'b'],
      ['1', '2'],
      ['3', '4'],
    ]);
    expect(await lines('\n\na,b\n\n1,2\n,\n  \n3,4')).toEqual([3, 5, 8]);
  });

  test('a row is known by the line it begins on, quoted line breaks counted', async () => {
    expect(await lines('a,b\r\n"1\r\n2\r\n3",x\r\n4,5\r6,7\n')).toEqual([1, 2, 5, 6]);
  });
});

describe('the delimiter is found from the headings', () => {
  test('comma, semicolon or tab', () => {
    expect(delimiterOf('made,form,clay')).toBe(',');
    expect(delimiterOf('made;form;clay')).toBe(';');
    expect(delimiterOf('made\tform\tclay')).toBe('\t');
    expect(delimiterOf('made')).toBe(',');
  });

  test('those inside quotation marks do not count', () => {
    expect(delimiterOf('"a, b, c";d;e')).toBe(';');
  });

  test('a line sep=; before the headings is not a row', async () => {
    expect(await records('sep=;\na;b,c\n1;2')).toMatchObject([
      { line: 2, fields: ['a', 'b,c'] },
      { line: 3, fields: ['1', '2'] },
    ]);
  });
});

describe('a row that cannot be split', () => {
  test('at the end of a file that was cut short is named, and those before are kept', async () => {
    expect(await records('a,b\n1,2\n3,"cut sh')).toMatchObject([
      { fields: ['a', 'b'] },
      { fields: ['1', '2'] },
      { line: 3, found: '3,"cut sh', expected: expect.stringContaining('cut short') },
    ]);
  });

  test('in the middle takes no row after it along', async () => {
    expect(await records('a,b\n1,"open\n3,4\n5,"x, y"\n7,8')).toMatchObject([
      { fields: ['a', 'b'] },
      { line: 2, expected: expect.any(String) },
      { line: 3, fields: ['3', '4'] },
      { line: 4, fields: ['5', 'x, y'] },
      { line: 5, fields: ['7', '8'] },
    ]);
  });

  test('nor when a later quotation mark seems to close it', async () => {
    expect(await records('a,b\n"1,2\n3,4\n5,6"\n7,8')).toMatchObject([
      { fields: ['a', 'b'] },
      { line: 2, found: '"1,2', expected: expect.stringContaining('closing quotation mark') },
      { line: 3, fields: ['3', '4'] },
      { line: 4, fields: ['5', '6"'] },
      { line: 5, fields: ['7', '8'] },
    ]);
  });

  test('a stray quotation mark, as in inches, is let pass', async () => {
    expect(await fields('a,b\n5" bowl,2\n3,4')).toEqual([
      ['a', 'b'],
      ['5" bowl', '2'],
      ['3', '4'],
    ]);
  });

  test('text behind a closing quotation mark is named', async () => {
    expect(await records('a,b\n"x" y,2\n3,4')).toMatchObject([
      {},
      { line: 2, found: '"x" y,2' },
      { fields: ['3', '4'] },
    ]);
  });

  test('and a file of nothing but such rows is refused', async () => {
    await expect(records(`a,b\n${'"x" y,2\n'.repeat(600)}`, 1_000)).rejects.toThrow(
      'cannot be split into columns',
    );
  });
});

describe('the encoding is told from the bytes', () => {
  const text = 'made,form\n2026-05-01,Krüge “groß”\n';

  test('UTF-8, with and without a byte order mark', async () => {
    expect(await textOf(Buffer.from(text))).toEqual({ encoding: 'utf-8', text });
    expect(await textOf(Buffer.from(`\ufeff${text}`))).toEqual({ encoding: 'utf-8', text });
  });

  test('UTF-16, little and big end first, with and without a byte order mark', async () => {
    const little = Buffer.from(text, 'utf16le');
    const big = Buffer.from(little).swap16();
    expect(await textOf(Buffer.concat([Buffer.from([0xff, 0xfe]), little]))).toEqual({
      encoding: 'utf-16le',
      text,
    });
    expect(await textOf(Buffer.concat([Buffer.from([0xfe, 0xff]), big]))).toEqual({
      encoding: 'utf-16be',
      text,
    });
    expect(await textOf(little)).toEqual({ encoding: 'utf-16le', text });
    expect(await textOf(big)).toEqual({ encoding: 'utf-16be', text });
  });

  test('what is not valid UTF-8 is read as Windows-1252, which Latin-1 is a part of', async () => {
    expect(await textOf(Buffer.from('form\nKrüge é\n', 'latin1'))).toEqual({
      encoding: 'windows-1252',
      text: 'form\nKrüge é\n',
    });
    const euro = Buffer.concat([Buffer.from('price\n'), Buffer.from([0x80, 0x32, 0x34])]);
    expect((await textOf(euro)).text).toBe('price\n€24');
  });

  test('also when the first letter with an accent comes late', async () => {
    const late = Buffer.concat([Buffer.alloc(400_000, 'x'), Buffer.from('é', 'latin1')]);
    expect((await textOf(late)).encoding).toBe('windows-1252');
  });

  test('a UTF-8 file that is cut in the middle of a letter is still UTF-8', async () => {
    const cut = Buffer.from('form\nKrüge é').subarray(0, -1);
    expect(await textOf(cut)).toEqual({ encoding: 'utf-8', text: 'form\nKrüge \ufffd' });
  });
});

describe('a file that is something else is refused with a sentence', () => {
  test('an empty one', async () => {
    await expect(openText(new Uint8Array())).rejects.toThrow('This file is empty.');
  });

  test('a spreadsheet itself', async () => {
    await expect(openText(Buffer.from('PK\x03\x04rest', 'latin1'))).rejects.toThrow('Save it as CSV');
  });

  test('one that cannot be opened', async () => {
    await expect(openText('/no/such/file.csv')).rejects.toThrow(Unreadable);
  });

  test('one of more than 100 MB, without holding more than that', async () => {
    let given = 0;
    async function* endless(): AsyncGenerator<Uint8Array> {
      const part = new Uint8Array(1_000_000).fill(97);
      for (; given < 200; given++) yield part;
    }
    await expect(openText(endless())).rejects.toThrow(
      'larger than 100 MB; up to 100 MB can be read at once. Split it',
    );
    expect(given).toBe(100);
  });

  test('one without any line break', async () => {
    await expect(fields('x'.repeat(2_000_000), 100_000)).rejects.toThrow('this is no CSV file');
  });
});
