/** A template as a paper: its sheets, and last a page that tells how they go together. */
import { LONGEST_MM, type Paper } from '../../../server/contract/paper.ts';
import { PaperRefused } from '../../../server/contract/plugin.ts';
import type { Template } from '../template.ts';
import { drawSheet, type Titled } from './draw-sheet.ts';
import type { Dressing } from './dressing.ts';
import { sizeSaid } from './facts.ts';
import { guidePage } from './guide.ts';
import { mm } from './ink.ts';

/** @throws PaperRefused where a roll is longer than a PDF can be */
export function drawTemplate(template: Template, dressing: Dressing): Paper {
  const { sheets, spec } = template;
  if (sheets.page.paper.height > LONGEST_MM)
    throw new PaperRefused(
      `It would be ${mm(sheets.page.paper.height)} mm long on this roll, and no more than ${LONGEST_MM} mm can be in a file; take a wider roll or fewer pieces.`,
      'paper',
    );
  const name = spec.name ?? 'Template';
  const titled: Titled = { name, size: (of) => sizeSaid(spec, of), dressing };
  return {
    form: 'sheets',
    title: name,
    sheets: [...sheets.sheets.map((sheet) => drawSheet(sheet, sheets, titled)), guidePage(template, titled)],
  };
}

/** Of the file: the sheets and the page that tells how they go together. */
export const pagesOf = ({ sheets }: Template): number => sheets.sheets.length + 1;
