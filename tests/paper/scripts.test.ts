/** What is written on a paper in any script: drawn with a letter of its own, and copied out again as it was written. */
import { describe, expect, test } from 'vitest';
import type { Mark, Paper } from '../../server/contract/paper.ts';
import { drawPaper } from '../../server/paper/draw.ts';
import { ink, lookAt } from '../support/looked-at.ts';

const PRINTING = { studio: 'Hollin Yard Pottery', day: '2026-05-01' };
const GRID = 20;

const sheet = (marks: Mark[], height = 297): Paper => ({
  form: 'sheets',
  title: 'Scripts',
  sheets: [{ width: 210, height, marks }],
});

const WRITTEN = [
  ['Latin', 'Zażółć gęślą jaźń 0O1lI'],
  ['Vietnamese', 'Nguyễn Thị Ánh'],
  ['Greek', 'Ελένη Παπαδοπούλου'],
  ['Cyrillic', 'Ольга Щербакова'],
  ['Devanagari', 'नमस्ते क्षत्रिय'],
  ['Bengali', 'বাংলা কর্ম'],
  ['Tamil', 'வணக்கம் தமிழ்'],
  ['Thai', 'สวัสดีชาวโลก'],
  ['Japanese', '田中さくら陶芸'],
  ['Chinese', '王小明 張偉'],
  ['Hangul', '김민준'],
  ['Georgian', 'კერამიკა'],
  ['Armenian', 'Հայաստան'],
  ['Ethiopic', 'ሰላም'],
  ['Tibetan', 'བོད་ཡིག'],
  ['Khmer', 'ខ្មែរ'],
  ['Burmese', 'မြန်မာစာ'],
  ['Telugu', 'తెలుగు'],
  ['Kannada', 'ಕನ್ನಡ'],
  ['Malayalam', 'മലയാളം'],
  ['Gujarati', 'ગુજરાતી'],
  ['Gurmukhi', 'ਪੰਜਾਬੀ'],
  ['Odia', 'ଓଡ଼ିଆ'],
  ['Sinhala', 'සිංහල'],
  ['Lao', 'ລາວ'],
  ['signs', '→ ✓ ★ ≤ ½ €'],
  ['little pictures', '☕ 🏺 🎨'],
] as const;

/** Three letters of each, of which no two look alike. */
const LETTERS = ['قنم', 'אבש', 'ދވހ', ...WRITTEN.map(([, text]) => distinct(text))].map((letters) =>
  [...new Intl.Segmenter('en').segment(letters)].map(({ segment }) => segment),
);

function distinct(text: string): string {
  const letters = [...new Set([...text].filter((letter) => !/[\p{M}\s]/u.test(letter)))];
  return letters.slice(0, 3).join('');
}

describe('words in every script', async () => {
  const marks = WRITTEN.map(
    ([, text], at): Mark => ({ mark: 'words', text, x: 10, y: 8 + at * 10, size: 5 }),
  );
  const pdf = lookAt(await drawPaper(sheet(marks), PRINTING));

  test.each(WRITTEN)('%s is copied out as it was written', (_script, text) => {
    const bare = (words: string) => words.replace(/\s/g, '').replaceAll('\u2060', '');
    expect(bare(pdf.text(0))).toContain(bare(text));
  });

  test('are in fonts that are in the file, cut down to what is used', () => {
    const fonts = pdf.fonts();
    expect(fonts.length).toBeGreaterThan(20);
    for (const { name, inside } of fonts)
      expect({ name, inside }).toEqual({ name: expect.stringMatching(/^[A-Z]{6}\+/), inside: true });
    expect(pdf.mended).toBe(false);
  });
});

test.each([
  ['Arabic', 'السلام'],
  ['Hebrew', 'שלום'],
])('%s runs from right to left, and its letters come out in the order of reading', async (_script, text) => {
  const pdf = lookAt(
    await drawPaper(sheet([{ mark: 'words', text, x: 10, y: 10, size: 8, width: 100 }]), PRINTING),
  );
  expect(pdf.text(0).replace(/[\s\u2060]/g, '')).toBe(text);
  const left = ink(pdf.raster(0, 100, { x: 10, y: 8, width: 50, height: 20 }));
  const right = ink(pdf.raster(0, 100, { x: 60, y: 8, width: 50, height: 20 }));
  expect(left).toBe(0);
  expect(right).toBeGreaterThan(50);
});

test('Arabic letters of one skeleton that differ by their dots are copied out each as itself', async () => {
  const text = 'السلام عليكم ورحمة الله';
  const pdf = lookAt(
    await drawPaper(sheet([{ mark: 'words', text, x: 10, y: 10, size: 8, width: 150 }]), PRINTING),
  );
  expect(pdf.text(0).replace(/[\s\u2060]/g, '')).toBe(text.replaceAll(' ', ''));
});

test('Arabic letters join: the word is not its letters side by side', async () => {
  const word: Mark = { mark: 'words', text: 'ببب', x: 10, y: 10, size: 10, align: 'left' };
  const apart: Mark = { ...word, text: 'ب\u200cب\u200cب', y: 40 };
  const pdf = lookAt(await drawPaper(sheet([word, apart]), PRINTING));
  const columns = (y: number) => {
    const { width, height, pixels } = pdf.raster(0, 200, { x: 5, y, width: 60, height: 20 });
    const inked = Array.from({ length: width }, (_, x) =>
      Array.from({ length: height }, (__, row) => pixels[row * width + x]! < 128).includes(true),
    );
    // Groups of columns with ink.
    return inked.filter((has, x) => has && !inked[x - 1]).length;
  };
  expect(columns(8)).toBe(1);
  expect(columns(38)).toBe(3);
});

test('no letter is a box: of three letters of each script no two look alike', async () => {
  const marks = LETTERS.flatMap((letters, row) =>
    letters.map(
      (text, at): Mark => ({
        mark: 'words',
        text,
        x: 2 + at * GRID,
        y: 2 + row * GRID,
        size: 10,
        align: 'left',
      }),
    ),
  );
  const pdf = lookAt(await drawPaper(sheet(marks, GRID * LETTERS.length + 10), PRINTING));
  LETTERS.forEach((letters, row) => {
    expect(letters.length, letters.join()).toBe(3);
    const seen = letters.map((_, at) =>
      pdf.raster(0, 100, { x: at * GRID, y: row * GRID, width: GRID, height: GRID }),
    );
    for (const each of seen) expect(ink(each), letters.join()).toBeGreaterThan(15);
    const looks = new Set(seen.map(({ pixels }) => pixels.join()));
    expect(looks.size, letters.join()).toBe(3);
  });
});

test('a letter that no font has is a plain mark, and is still there to be copied', async () => {
  const pdf = lookAt(
    await drawPaper(sheet([{ mark: 'words', text: 'Bowl 𒀀 2', x: 10, y: 10, size: 8 }]), PRINTING),
  );
  expect(pdf.text(0)).toContain('Bowl 𒀀 2');
});

test('the same Han character is written as its language writes it', async () => {
  const one: Mark = { mark: 'words', text: '直', x: 2, y: 2, size: 12, language: 'ja' };
  const other: Mark = { ...one, x: 22, language: 'zh-Hans' };
  const pdf = lookAt(await drawPaper(sheet([one, other]), PRINTING));
  const [ja, zh] = [2, 22].map((x) => pdf.raster(0, 200, { x, y: 2, width: 18, height: 18 }));
  expect(ink(ja!)).toBeGreaterThan(100);
  expect(ja!.pixels).not.toEqual(zh!.pixels);
});

test('an address of several lines is in one language, kana in one of them or not', async () => {
  const text = '〒000-0000\n東京都架空区\n1-2-3\n窯田 しのぶ';
  const sheets = sheet([
    { mark: 'words', text, x: 10, y: 10, size: 5, width: 80, height: 40, fit: 'shrink' },
  ]);
  const onSheet = lookAt(await drawPaper(sheets, PRINTING)).text(0);
  const table: Paper = {
    form: 'document',
    title: text,
    paper: 'A4',
    blocks: [
      { block: 'table', columns: [{ label: '住所' }], rows: [[text]] },
      { block: 'paragraph', text },
      { block: 'facts', facts: [['宛先', text]] },
    ],
  };
  const inTable = lookAt(await drawPaper(table, PRINTING)).text(0);
  for (const seen of [onSheet, inTable]) for (const line of text.split('\n')) expect(seen).toContain(line);
});
