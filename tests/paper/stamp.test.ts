/** A line at the foot of pages that somebody else drew, read back by a reader of its own. */
import { describe, expect, test } from 'vitest';
import { stamped } from '../../server/paper/stamp.ts';
import { aPdf } from '../support/a-pdf.ts';
import { inked, lookAt } from '../support/looked-at.ts';

const PRINTING = { studio: 'Hollin Yard Pottery', day: '2026-05-01' };
const LINE = 'Hollin Yard Pottery · order 6 · 架空区 · רחוב';

describe('a stamped page', () => {
  test.each([0, 90, 180, 270])(
    'turned by %d degrees has its line along the foot as it is looked at',
    async (turn) => {
      const pdf = lookAt(await stamped(aPdf('House Lantern', { turn }), LINE, PRINTING));
      const { width, height } = pdf.size(0);
      expect(pdf.text(0)).toContain('House Lantern');
      expect(pdf.text(0)).toContain('order 6');
      const foot = inked(pdf.raster(0, 200, { x: 0, y: height - 12, width, height: 12 }))!;
      expect(foot.left).toBeGreaterThan(5);
      expect(foot.left).toBeLessThan(8);
      expect(foot.bottom - foot.top).toBeLessThan(4);
      expect(foot.right - foot.left).toBeGreaterThan(40);
      expect(foot.right).toBeLessThan(width - 5);
    },
  );

  test('keeps its fonts inside and its size, and says so on every page', async () => {
    const twice = await stamped(await stamped(aPdf(), LINE, PRINTING), 'again', PRINTING);
    const pdf = lookAt(twice);
    expect(pdf.mended).toBe(false);
    expect(pdf.printScaling).toBe('None');
    expect(pdf.pages).toBe(1);
    expect(pdf.size(0).width).toBeCloseTo((420 / 72) * 25.4, 2);
    expect(pdf.fonts().every(({ inside }) => inside)).toBe(true);
    expect(pdf.text(0)).toContain('again');
  });
});
