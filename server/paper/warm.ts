/**
 * Draws a page that nobody sees. The first paper of a process would wait while fonts are unpacked, HarfBuzz and pdfkit
 * are read and compiled; a server does that while nothing else is asked of it.
 */
import type { Paper } from '../contract/paper.ts';
import { drawPaper } from './draw.ts';

const LETTERS = Array.from({ length: 0x7f - 0x21 }, (_, at) => String.fromCharCode(0x21 + at)).join('');

const page: Paper = {
  form: 'sheets',
  title: 'Nothing',
  sheets: [
    {
      width: 210,
      height: 297,
      marks: [
        ...(['regular', 'bold'] as const).map((weight, at) => ({
          mark: 'words' as const,
          text: `${LETTERS} “”‘’–×°€£`,
          x: 10,
          y: 20 + 60 * at,
          size: 4,
          width: 60,
          height: 50,
          fit: 'shrink' as const,
          weight,
        })),
        { mark: 'path', d: 'M10 200L60 200L60 250Z', pen: { width: 0.3, dash: [2, 1] } },
      ],
    },
  ],
};

export const warmUp = async (): Promise<void> => {
  await drawPaper(page, { studio: 'Wareboard', day: '2026-01-01' });
};
