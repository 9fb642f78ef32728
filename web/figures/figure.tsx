import './figures.css';
import type { Figure as AnyFigure } from '../../server/contract/figures.ts';
import type { Row } from './cell.tsx';
import { PaperDocument } from './paper-document.tsx';
import { Plan } from './plan.tsx';
import { Ranking } from './ranking.tsx';
import { Series } from './series.tsx';
import { Table } from './table.tsx';
import { Tally } from './tally.tsx';

interface Props {
  readonly figure: AnyFigure;
  readonly rows: readonly Row[];
}

/** Rows of the figure's own kind; all when it names none. */
export const rowsFor = (figure: Pick<AnyFigure, 'only'>, rows: readonly Row[]): readonly Row[] =>
  figure.only === undefined ? rows : rows.filter((row) => row.kind === figure.only);

/** Draws any figure of any plugin; a report has no drawing of its own. */
export function Figure({ figure, rows }: Props) {
  const own = rowsFor(figure, rows);
  if (own.length === 0 && figure.figure !== 'plan' && figure.figure !== 'document') return null;
  return (
    <section class="part figure">
      <h2>{figure.title}</h2>
      <Drawn figure={figure} rows={own} />
    </section>
  );
}

function Drawn({ figure, rows }: Props) {
  switch (figure.figure) {
    case 'table':
      return <Table {...figure} rows={rows} />;
    case 'tally':
      return <Tally {...figure} rows={rows} />;
    case 'ranking':
      return <Ranking {...figure} rows={rows} />;
    case 'series':
      return <Series {...figure} rows={rows} />;
    case 'curve':
      return <Series title={figure.title} x={figure.x} lines={[figure.y]} rows={rows} />;
    case 'plan':
      return <Plan {...figure} />;
    case 'document':
      return <PaperDocument {...figure} />;
  }
}
