import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { FAULTS } from '../../server/contract/trade.ts';
import { SINGLES, TABLEWARE } from '../../server/demo/catalogue.ts';
import { demoDays } from '../../server/demo/demo.ts';
import { type Drawing, drawn } from '../../server/demo/pictures/draw.ts';

const drawing = (more: Partial<Drawing> = {}): Drawing => ({
  ...{ seed: 'one', form: 'beaker', clay: 'fell-white-stoneware', size: { width: 90, height: 120 } },
  ...{ glazes: { outside: ['marram-green'], inside: ['cuttle-white'] }, raw: false },
  ...more,
});
const pixels = async (of: Drawing) =>
  sharp(Buffer.from(drawn(of)))
    .raw()
    .toBuffer({ resolveWithObject: true });

describe('a picture of the demo', () => {
  test('is a drawing that says so, the same every time', async () => {
    expect(drawn(drawing())).toBe(drawn(drawing()));
    const { data, info } = await pixels(drawing());
    expect(info).toMatchObject({ width: 480, height: 480 });
    // The words stand at its foot: dark strokes on the bench.
    const foot = Array.from({ length: 300 }, (_, x) => data[(455 * 480 + 18 + x) * info.channels]!);
    expect(foot.filter((red) => red < 120).length).toBeGreaterThan(10);
  });

  test.each([...TABLEWARE, ...SINGLES].map((item) => [item.form, item] as const))(
    'shows a %s',
    async (form, item) => {
      const bare = await pixels(drawing({ form, size: item.size, glazes: {} }));
      const glazed = await pixels(drawing({ form, size: item.size }));
      expect(glazed.data.equals(bare.data)).toBe(false);
    },
  );

  test.each(FAULTS)('shows %s', async (fault) => {
    const sound = await pixels(drawing());
    const with_ = await pixels(drawing({ fault }));
    expect(with_.data.equals(sound.data)).toBe(false);
  });
});

describe('what is taken', () => {
  const days = demoDays('2026-05-04');
  const taken = days.flatMap(({ pictures = [] }) => pictures);

  test('is modest, and the same every time', () => {
    expect(taken.length).toBeGreaterThan(30);
    expect(taken.length).toBeLessThan(80);
    expect(demoDays('2026-05-04').flatMap(({ pictures = [] }) => pictures)).toEqual(taken);
  });

  test('has before and after of the same repairs, the fault on the first of them', () => {
    const of = (shows: string) =>
      taken.filter(({ order }) => (order.input as { shows?: string }).shows === shows);
    const pieces = (shows: string) =>
      of(shows)
        .map(({ order }) => (order.input as { to: string }).to)
        .sort();
    expect(pieces('before')).toEqual(pieces('after'));
    expect(of('before').every(({ drawing: { fault } }) => fault !== undefined)).toBe(true);
  });
});
