import { expect, test } from 'vitest';
import { drawPaper } from '../../server/paper/draw.ts';
import { warmUp } from '../../server/paper/warm.ts';

test('a server that has warmed up draws the very same file as one that has not', async () => {
  const label = {
    form: 'sheets',
    title: 'Shelf label',
    sheets: [
      { width: 90, height: 40, marks: [{ mark: 'words', text: 'Marram Green', x: 5, y: 5, size: 4 }] },
    ],
  } as const;
  const printing = { studio: 'Hollin Yard Pottery', day: '2026-05-01' };
  const before = await drawPaper(label as never, printing);
  await warmUp();
  expect(Buffer.from(await drawPaper(label as never, printing)).equals(Buffer.from(before))).toBe(true);
});
