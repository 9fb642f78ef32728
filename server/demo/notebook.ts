/** The demo studio's last months as a potter's notebook, in the columns that an import reads. */
import { COLUMNS, type Column } from '../import/notebook/read.ts';
import { dayAfter } from './calendar.ts';
import { workedYard } from './demo.ts';
import { nameOf } from './materials.ts';
import { isOwn, type Plan, type Sheet, secondPrice, type Ware } from './ware.ts';

type Cells = Partial<Record<Column, string>>;

/** Own and commissioned ware begun in the last `days` before `today`, a row a piece or lot. */
export function demoNotebook(today: string, days = 120): string {
  const yard = workedYard(today);
  const names = new Map([...yard.people].map(([name, person]) => [person, name]));
  const from = dayAfter(today, -days);
  const rows = new Map<Sheet, Ware>();
  for (const ware of yard.all)
    if (isOwn(ware) && ware.sheet.made >= from && !rows.has(ware.sheet)) rows.set(ware.sheet, ware);
  const inOrder = [...rows].sort(([a], [b]) => (a.made < b.made ? -1 : a.made > b.made ? 1 : 0));
  const lines = inOrder.map(([sheet, ware]) => {
    const cells = cellsOf(sheet, ware, names);
    return COLUMNS.map((column) => quoted(cells[column] ?? '')).join(',');
  });
  return `${[COLUMNS.join(','), ...lines].join('\r\n')}\r\n`;
}

/** RFC 4180, 2.6 and 2.7. */
const quoted = (cell: string): string => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

function cellsOf(sheet: Sheet, ware: Ware, names: ReadonlyMap<string, string>): Cells {
  const { owner, item, plan } = ware;
  const priced = item.price > 0;
  return {
    piece: sheet.mark ?? '',
    count: String(sheet.count),
    made: sheet.made,
    form: item.form,
    clay: nameOf(ware.clay),
    owner: owner.kind === 'own' ? '' : `${owner.kind}:${names.get(owner.person)}`,
    ...bisqueCells(sheet),
    ...(sheet.glaze ? { glazes: glazes(plan) } : {}),
    ...glazeCells(sheet),
    faults: sheet.faults.map(fault(sheet)).join('; '),
    grade: grades(sheet),
    repair: sheet.repairs.join('; '),
    price: priced ? pounds(item.price) : '',
    second_price: priced ? pounds(secondPrice(item.price)) : '',
    left: left(sheet),
    note: sheet.note ?? '',
  };
}

function bisqueCells({ bisque }: Sheet): Cells {
  if (!bisque) return {};
  const { schedule, label, day, kiln } = bisque;
  return {
    bisque_schedule: nameOf(schedule),
    bisque_firing: label,
    bisque_fired: day,
    bisque_kiln: nameOf(kiln),
  };
}

function glazeCells({ glaze }: Sheet): Cells {
  if (!glaze) return {};
  const { schedule, label, day, kiln } = glaze;
  return { glaze_schedule: nameOf(schedule), glaze_firing: label, glaze_fired: day, kiln: nameOf(kiln) };
}

/** 'outside: Cuttle White > Marram Green x2; inside: Oyster Satin', the lowest layer first. */
const glazes = ({ zones }: Plan): string =>
  zones
    .map(({ zone, layers }) => {
      const coats = layers.map((layer) => nameOf(layer.glaze) + (layer.coats > 1 ? ` x${layer.coats}` : ''));
      return `${zone}: ${coats.join(' > ')}`;
    })
    .join('; ');

const fault =
  ({ count }: Sheet) =>
  (found: Sheet['faults'][number]): string =>
    `${found.kind}@${found.zone}${count > 1 ? ` x${found.count}` : ''}`;

function grades({ grades: given, count }: Sheet): string {
  if (!given || given.first + given.second + given.waster !== count) return '';
  const some = Object.entries(given).filter(([, n]) => n > 0);
  return some.length === 1 ? some[0]![0] : some.map(([grade, n]) => `${grade} ${n}`).join(', ');
}

const pounds = (pence: number): string => (pence / 100).toFixed(2);

/** Said only when all of the lot left in one way. */
function left({ left: leavings, count }: Sheet): string {
  const [first] = leavings;
  const gone = leavings.reduce((sum, leaving) => sum + leaving.count, 0);
  if (!first || gone < count || leavings.some(({ how }) => how !== first.how)) return '';
  return `${first.how} ${leavings.at(-1)!.day}`;
}
