/** What would be recorded of a row, in the potter's words, for the preview. */
import type { Fresh } from './earlier.ts';
import type { Known } from './known.ts';
import type { PlannedRow } from './steps.ts';

const plain = (id: string): string => id.replaceAll('-', ' ');
const on = (day: string | undefined): string => (day === undefined ? '' : ` on ${day}`);

export function sentencesOf({ row, glazes, clay, price, secondPrice }: PlannedRow, fresh: readonly Fresh[], known: Known): string[] {
  const money = (amount: { amount: number; currency: string }): string => {
    const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency: amount.currency });
    return format.format(amount.amount / 10 ** (format.resolvedOptions().maximumFractionDigits ?? 2));
  };
  let glaze = 0;
  let fault = 0;
  let repair = 0;
  return fresh.map(({ step }) => {
    const input = step.input as { piece: string; count?: number };
    switch (step.kind) {
      case 'begin': {
        const many = row.count > 1 ? `a lot of ${row.count}` : 'a piece';
        const owner = row.owner.kind === 'own' ? '' : `, ${row.owner.kind} for ${row.owner.name}`;
        const mark = row.piece === undefined ? 'with a mark given by the studio' : `marked ${row.piece}`;
        const what = [row.form, clay && known.name('clay', clay)].filter(Boolean).join(' in ');
        return `Begun${on(step.day)}: ${many} ${mark}${what === '' ? '' : `, ${what}`}${owner}.`;
      }
      case 'price':
        return `Priced: ${[price && money(price), secondPrice && `${money(secondPrice)} as a second`].filter(Boolean).join(', ')}.`;
      case 'bisque':
      case 'glaze-fire': {
        const { label, kiln, schedule } = step.firing!;
        const how = schedule === undefined ? '' : `, ${known.name('schedule', schedule)}`;
        return `${step.kind === 'bisque' ? 'Bisque' : 'Glaze'} fired${on(step.day)}: ${label} in ${known.name('kiln', kiln)}${how}.`;
      }
      case 'glaze': {
        const { zone, layers } = glazes[glaze++ % glazes.length]!;
        const said = layers.map((layer) => known.name('glaze', layer.glaze) + (layer.coats > 1 ? ` × ${layer.coats}` : ''));
        return `Glazed${zone === undefined ? '' : ` ${plain(zone)}`}: ${said.join(', then ')}.`;
      }
      case 'fault': {
        const { kind, zone } = row.faults[fault++ % row.faults.length]!;
        return `Fault: ${plain(kind)}${zone === undefined ? '' : ` at the ${plain(zone)}`}${row.count > 1 ? `, on ${input.count} of ${row.count}` : ''}.`;
      }
      case 'repair':
        return `Repaired: ${plain(row.repairs[repair++ % row.repairs.length]!)}.`;
      case 'grade': {
        const graded = Object.entries(row.grades!).filter(([, count]) => count > 0);
        return `Graded: ${graded.map(([grade, count]) => (row.count > 1 ? `${count} ${grade}` : grade)).join(', ')}.`;
      }
      case 'left':
        return `Left${on(step.day)}: ${row.count > 1 ? `${input.count ?? row.count} ` : ''}${plain(row.left!.how)}${row.left!.day === undefined ? ' (day not known)' : ''}.`;
      case 'note':
        return `Note: ${row.note}`;
      default:
        return '';
    }
  });
}
