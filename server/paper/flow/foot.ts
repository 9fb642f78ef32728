/** What stands at the foot of each page of a document. */
import type { Drawable } from '../marks.ts';
import type { Measures } from './measures.ts';

const days = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});

/** '1 May 2026' of '2026-05-01'. */
const dayText = (day: string): string => days.format(new Date(`${day}T12:00:00Z`));

/** All that the host itself writes on a page, to read the fonts for. */
export const ownWords = (studio: string, day: string): string[] => [
  studio,
  dayText(day),
  '0 1 2 3 4 5 6 7 8 9 /·–.…',
];

export interface Foot {
  readonly studio: string;
  readonly day: string;
  readonly words: string;
  readonly page: number;
  readonly of: number;
}

export function footMarks({ studio, day, words, page, of }: Foot, at: Measures): Drawable[] {
  const y = at.height - at.bottom + 6;
  const third = (at.inner - 6) / 3;
  const one = { mark: 'words', y: y + 1.6, size: 2.8, width: third, fit: 'cut', shade: 0.25 } as const;
  return [
    {
      mark: 'line',
      points: [
        [at.left, y],
        [at.left + at.inner, y],
      ],
      pen: { width: 0.15, shade: 0.4 },
    },
    { ...one, text: studio, x: at.left, align: 'left' },
    { ...one, text: words, x: at.left + third + 3, align: 'middle' },
    { ...one, text: `${dayText(day)} · ${page} / ${of}`, x: at.left + 2 * (third + 3), align: 'right' },
  ];
}
