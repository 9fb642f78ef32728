/** What would be recorded of a row, in the potter's words, for the preview. */
import { moneyInWords } from '../../contract/amounts.ts';
import type { Fresh } from './earlier.ts';
import type { StepKind } from './ids.ts';
import type { Known } from './known.ts';
import type { PlannedRow, Step } from './steps.ts';

const plain = (id: string): string => id.replaceAll('-', ' ');
const on = (day: string | undefined): string => (day === undefined ? '' : ` on ${day}`);

/** The fields that the inputs of a row's steps have. */
interface Said {
  readonly count?: number;
  readonly zone?: string;
  readonly layers?: PlannedRow['glazes'][number]['layers'];
  readonly kind?: string;
  readonly method?: string;
}

type Tell = (planned: PlannedRow, step: Step, said: Said, known: Known) => string;

const fired =
  (how: string): Tell =>
  (_, { firing, day }, __, known) => {
    const { label, kiln, schedule } = firing!;
    const by = schedule === undefined ? '' : `, ${known.name('schedule', schedule)}`;
    return `${how} fired${on(day)}: ${label} in ${known.name('kiln', kiln)}${by}.`;
  };

const TELLS: Readonly<Partial<Record<StepKind, Tell>>> = {
  begin: ({ row, clay }, { day }, _, known) => {
    const many = row.count > 1 ? `a lot of ${row.count}` : 'a piece';
    const mark = row.piece === undefined ? 'with a mark given by the studio' : `marked ${row.piece}`;
    const what = [row.form, clay && known.name('clay', clay)].filter(Boolean).join(' in ');
    const owner = row.owner.kind === 'own' ? '' : `, ${row.owner.kind}: ${row.owner.name}`;
    return `Begun${on(day)}: ${many} ${mark}${what === '' ? '' : `, ${what}`}${owner}.`;
  },
  price: ({ price, secondPrice }) =>
    `Priced: ${[price && moneyInWords(price), secondPrice && `${moneyInWords(secondPrice)} as a second`].filter(Boolean).join(', ')}.`,
  bisque: fired('Bisque'),
  'glaze-fire': fired('Glaze'),
  glaze: (_, __, { zone, layers }, known) => {
    const said = layers!.map(
      ({ glaze, coats }) => known.name('glaze', glaze) + (coats > 1 ? ` × ${coats}` : ''),
    );
    return `Glazed${zone === undefined ? '' : ` (${plain(zone)})`}: ${said.join(', then ')}.`;
  },
  fault: ({ row }, _, { kind, zone, count }) =>
    `Fault: ${plain(kind!)}${zone === undefined ? '' : ` (${plain(zone)})`}${row.count > 1 ? `, on ${count} of ${row.count}` : ''}.`,
  repair: (_, __, { method }) => `Repaired: ${plain(method!)}.`,
  grade: ({ row }) => {
    const graded = Object.entries(row.grades!).filter(([, count]) => count > 0);
    return `Graded: ${graded.map(([grade, count]) => (row.count > 1 ? `${count} ${grade}` : grade)).join(', ')}.`;
  },
  left: ({ row }, { day }, { count }) => {
    const many = row.count > 1 ? `, ${count ?? row.count} of ${row.count}` : '';
    return `Left${on(day)}: ${plain(row.left!.how)}${many}${row.left!.day === undefined ? ' (day not known)' : ''}.`;
  },
  note: ({ row }) => `Note: ${row.note}`,
};

export function sentencesOf(planned: PlannedRow, fresh: readonly Fresh[], known: Known): string[] {
  return fresh.map(({ step }) => TELLS[step.kind]!(planned, step, step.input as Said, known));
}
