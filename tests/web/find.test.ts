import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { likelyMarks, MARK_SYMBOLS, markFor, readMark } from '../../server/contract/mark.ts';
import { type Marked, match, readLabel } from '../../web/find/match.ts';

const id = (n: number) => `01980000-0000-7000-8000-${String(n).padStart(12, '0')}`;
const pot = (n: number, form = 'beaker'): Marked => ({
  mark: markFor(id(n), 0),
  piece: id(n),
  count: 1,
  form,
  stage: 'graded',
  firing: null,
});
const shelf = Array.from({ length: 300 }, (_, n) => pot(n, n % 3 === 0 ? 'faceted jug' : 'beaker'));

describe('a foot mark typed', () => {
  test('leads to its piece, in lower case and with a space too', () => {
    const { mark, piece } = shelf[7]!;
    expect(match(`${mark.slice(0, 2).toLowerCase()} ${mark.slice(2)}`, shelf).hits).toEqual([
      expect.objectContaining({ piece }),
    ]);
  });

  test('with any one symbol misread or any two neighbours swapped leads to no other piece, and its own is among the likely', () => {
    const symbol = fc.constantFrom(...MARK_SYMBOLS);
    fc.assert(
      fc.property(fc.nat({ max: 299 }), fc.nat({ max: 4 }), symbol, fc.boolean(), (n, at, other, swap) => {
        const { mark, piece } = shelf[n]!;
        const wrong = swap
          ? mark.slice(0, at) + (mark[at + 1] ?? '') + mark[at] + mark.slice(at + 2)
          : mark.slice(0, at) + other + mark.slice(at + 1);
        fc.pre(wrong !== mark && wrong.length === mark.length);
        const found = match(wrong, shelf);
        expect(found.hits).toEqual([]);
        expect(found.wrong).toBeTruthy();
        expect(found.likely.map((row) => row.piece)).toContain(piece);
      }),
    );
  });

  test('with one symbol left out still has its own among the likely', () => {
    for (const { mark, piece } of shelf.slice(0, 40))
      for (let at = 0; at < mark.length; at++) {
        const { hits, likely } = match(mark.slice(0, at) + mark.slice(at + 1), shelf);
        expect([...hits, ...likely].map((row) => row.piece)).toContain(piece);
      }
  });

  test('with a letter that is in no mark says so, and what it may be', () => {
    const { mark, piece } = shelf.find((row) => row.mark.slice(1).includes('D'))!;
    const at = mark.lastIndexOf('D');
    const found = match(`${mark.slice(0, at)}0${mark.slice(at + 1)}`, shelf);
    expect(found.wrong).toBe('‘0’ is in no foot mark. Is it Q or D?');
    expect(found.likely[0]).toMatchObject({ piece, how: 'misread' });
  });

  test('read off a pot that is held upside down can be the likely one', () => {
    const likely = likelyMarks('H6NEV');
    for (const { mark } of likely) expect(readMark(mark)).toEqual({ mark });
  });

  test('of few symbols shows what begins with it; words find the form', () => {
    const { mark } = shelf[12]!;
    expect(match(mark.slice(0, 3), shelf).hits.map((row) => row.mark)).toContain(mark);
    expect(match('jug faceted', shelf).hits.every(({ form }) => form === 'faceted jug')).toBe(true);
    expect(match('teapot', shelf)).toEqual({ hits: [], likely: [] });
  });
});

describe('a label’s code', () => {
  test('is the piece’s address at whatever host it was printed, or its mark', () => {
    expect(readLabel(`https://yard.example/ware/${id(3)}`)).toEqual({ piece: id(3) });
    expect(readLabel(`http://127.0.0.1:4280/ware/${id(3)}.a1b2?from=label`)).toEqual({
      piece: `${id(3)}.a1b2`,
    });
    expect(readLabel(shelf[3]!.mark)).toEqual({ mark: shelf[3]!.mark });
  });

  test('of something else is not taken for a piece', () => {
    for (const text of [
      'https://elsewhere.example/',
      'WIFI:S:yard;P:secret;;',
      '',
      '5012345678900',
      'javascript:alert(1)',
    ])
      expect(readLabel(text)).toBeUndefined();
  });
});
