/** A spec all the way to its pieces (as JSON) and its pages. */
import { develop } from './forms/develop.ts';
import type { Development } from './piece.ts';
import { boxOf, heightOf, widthOf } from './shape/measure.ts';
import { PAPER_NAMES, paperNamed } from './sheets/paper.ts';
import type { Sheets } from './sheets/sheet.ts';
import { sheetsFor } from './sheets/sheets-for.ts';
import { readSpec } from './spec/read-spec.ts';
import type { Spec } from './spec/spec.ts';

export interface Template {
  readonly spec: Spec;
  readonly made: Development;
  readonly sheets: Sheets;
}

export type TemplateMade = Template | { readonly wrong: readonly string[] };

/** @param given the spec as it came in, any JSON; @param paper 'A4', 'roll 610' … */
export function templateFor(given: unknown, paper: string): TemplateMade {
  const read = readSpec(given);
  if ('wrong' in read) return read;
  const known = paperNamed(paper);
  if (!known) return { wrong: [`“paper” is “${paper}”; it should be ${PAPER_NAMES}.`] };
  const developed = develop(read.spec);
  if ('wrong' in developed) return developed;
  const laid = sheetsFor(developed.made, known, read.spec.nested);
  if ('wrong' in laid) return laid;
  return { spec: read.spec, made: developed.made, sheets: laid.sheets };
}

/** What `--json` prints: pieces in mm as they are cut from wet clay, and the number of pages. */
export function templateJson({ made, sheets }: Template) {
  const { innerRadius, outerRadius, angle } = made.facts;
  return {
    pieces: made.pieces.map(({ name, count, outline, edges }) => {
      const box = boxOf(outline);
      return {
        name,
        count,
        width: widthOf(box),
        height: heightOf(box),
        outline,
        edges: edges.map((edge) => ({ name: edge.name, length: edge.length })),
      };
    }),
    pages: sheets.sheets.length,
    ...(outerRadius === undefined ? {} : { innerRadius, outerRadius, angle }),
    checks: sheets.checks,
  };
}
