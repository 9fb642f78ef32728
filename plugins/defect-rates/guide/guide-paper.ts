/** A fault's guide on paper, to pin up where the kiln is drawn. */
import { z } from 'zod';
import type { Block, Paper } from '../../../server/contract/paper.ts';
import { type Answered, type Ask, paper } from '../../../server/contract/plugin.ts';
import { period } from '../../../server/contract/reports/period.ts';
import { capital, opened } from '../../../server/contract/reports/words.ts';
import { word } from '../../../server/contract/studio/values.ts';
import { faultGuide } from './fault-guide.ts';

const input = z.strictObject({
  ...period,
  fault: word,
  paper: z.enum(['A4', 'Letter']).default('A4'),
});

const SHOWN = 5;
const WEAK: readonly unknown[] = ['chance', 'few'];

const heading = (text: string): Block => ({ block: 'heading', level: 2, text });
const list = (items: readonly string[]): Block => ({ block: 'list', items: [...items] });
const line = ({ label, practice }: Answered['rows'][number]): string =>
  `${label}${practice === true ? ' (common practice)' : ''}`;

function blocks(title: string, { rows, notes, more }: Answered): Block[] {
  const of = (kind: string) => rows.filter((row) => row.kind === kind);
  const { seen, record } = more as { seen: string; record: string };
  const suspected = of('suspect').filter(({ finding }) => !WEAK.includes(finding));
  const cautions = of('caution').map(line);
  const repairs = of('repair');
  return [
    { block: 'heading', level: 1, text: title },
    { block: 'paragraph', size: 'large', text: seen },
    ...(cautions.length > 0 ? [heading('Take care'), list(cautions)] : []),
    heading('What this studio’s record suspects'),
    { block: 'paragraph', weight: 'bold', text: record },
    list(suspected.slice(0, SHOWN).map((row) => `${row.label} (${row.what}): ${row.verdict}; ${row.says}`)),
    heading('What to try'),
    list(of('try').map(line)),
    heading('How repairs have gone here'),
    repairs.length > 0
      ? list(repairs.map((row) => `${row.label}: worked on ${row.says}`))
      : { block: 'paragraph', text: 'No repair for it has been judged by a grade here yet.' },
    heading('What the books suspect'),
    list(of('book').map(line)),
    heading('To keep in mind'),
    ...notes.map((note): Block => ({ block: 'paragraph', size: 'small', text: note })),
  ];
}

async function run(ask: Ask, { paper: size, ...of }: z.infer<typeof input>): Promise<Paper> {
  const answer = await faultGuide.run(ask, { ...of, firing: 'all' });
  const title = capital(opened(of.fault));
  return {
    form: 'document',
    title: `Fault guide: ${title}`,
    file: `fault-guide-${of.fault}`.slice(0, 80),
    paper: size,
    blocks: blocks(title, answer),
  };
}

/** Comes from the guide's own page: it needs a fault. */
export const guidePaper = paper({ title: 'Fault guide', input, unlisted: true, run });
