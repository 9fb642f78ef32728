/** What to print or make again, and how many, from each item's own demand. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { dayAfter, daysBetween } from '../days.ts';
import { type Demand, demandOf, enoughFor } from '../statistics/reorder-point.ts';
import { type ItemRow, owed, readFacts, readItems } from './shop-settings.ts';

/** Demand is judged by so many weeks at most: what sold two years ago says little of now. */
const WEEKS = 26;
/** A run is to last so many weeks beyond the wait for it. */
const COVER_WEEKS = 8;
/** Days until more are there, where the item says nothing: common practice, no source. */
const LEAD_DAYS: Readonly<Record<string, number>> = { template: 2, stamps: 21, other: 7 };

const level = z.coerce.number().min(0.5).max(0.999);

/** The service level under any of its names. */
const input = z.strictObject({
  'service-level': level.optional(),
  serviceLevel: level.optional(),
  level: level.optional(),
  service: level.optional(),
});

/** What was ordered of each item in each of the last weeks, the latest week last. */
async function weekly(ask: Ask): Promise<Map<string, number[]>> {
  const from = dayAfter(ask.today, -WEEKS * 7 + 1);
  const firsts = await ask.query<{ item: string; first: string }>(
    'SELECT item, min(day) AS first FROM sales_by_day GROUP BY item',
  );
  const rows = await ask.query<{ item: string; day: string; quantity: number }>(
    'SELECT item, day, sum(quantity) AS quantity FROM sales_by_day WHERE day >= ? AND day <= ? GROUP BY item, day',
    [from, ask.today],
  );
  const by = new Map<string, number[]>();
  for (const { item, first } of firsts) {
    const since = [first, from].sort().at(-1)!;
    const days = daysBetween(since, ask.today) + 1;
    by.set(item, new Array(Math.max(1, Math.ceil(days / 7))).fill(0));
  }
  for (const { item, day, quantity } of rows) {
    const weeks = by.get(item)!;
    const back = Math.floor(daysBetween(day, ask.today) / 7);
    const at = weeks.length - 1 - back;
    if (at >= 0) weeks[at]! += quantity;
  }
  return by;
}

const upTo = (count: number, run: number): number => Math.ceil(count / run) * run;

function advise(item: ItemRow, demand: Demand, open: number, service: number) {
  const leadDays = item.facts.leadDays ?? LEAD_DAYS[item.kind] ?? LEAD_DAYS.other!;
  const weeks = Math.max(leadDays, 1) / 7;
  const reorderAt = enoughFor(demand, weeks, service);
  const free = item.stock - open;
  const wanted = enoughFor(demand, weeks + COVER_WEEKS, service) - free;
  const due = free <= reorderAt && (demand.mean > 0 || free < 0);
  return {
    item: item.item,
    stock: item.stock,
    perWeek: Math.round(demand.mean * 100) / 100,
    leadDays,
    reorderAt,
    print: due ? upTo(Math.max(wanted, 0), item.facts.runOf ?? 1) : 0,
    name: item.name,
    kind: item.kind,
    open,
    counted: item.counted === 1,
    coverWeeks: demand.mean > 0 ? Math.round((Math.max(0, free) / demand.mean) * 10) / 10 : null,
    bursts: demand.variance > demand.mean,
  };
}

async function run(ask: Ask, given: z.infer<typeof input>): Promise<Answered> {
  const { serviceLevel } = await readFacts(ask);
  const service =
    given['service-level'] ?? given.serviceLevel ?? given.level ?? given.service ?? serviceLevel;
  const items = await readItems(ask);
  const demand = await weekly(ask);
  const open = await owed(ask);
  const rows = [...items.values()]
    .filter(({ kind }) => kind !== 'pot' && kind !== 'download')
    .map((item) => advise(item, demandOf(demand.get(item.item) ?? []), open.get(item.item) ?? 0, service))
    .sort((a, b) => b.print - a.print || (a.item < b.item ? -1 : 1));
  const due = rows.filter((row) => row.print > 0);
  return {
    sentence:
      due.length === 0
        ? 'Nothing has to be printed or made now.'
        : `Print or make now: ${due.map(({ name, print }) => `${print} ${name}`).join(', ')}.`,
    rows,
    notes: [
      `So that what is asked for is there with a probability of ${Math.round(service * 1000) / 10} % while more is being made.`,
      `From the demand of the last ${WEEKS} weeks at most: Poisson, or negative binomial where weeks differ more than chance. A run is to last ${COVER_WEEKS} weeks more.`,
    ],
    figures: [
      {
        figure: 'table',
        title: 'What to print or make',
        columns: [
          { field: 'name', label: 'Item', kind: 'text' },
          { field: 'stock', label: 'In stock', kind: 'count' },
          { field: 'open', label: 'Ordered, not packed', kind: 'count', wide: true },
          { field: 'perWeek', label: 'A week', kind: 'number' },
          { field: 'leadDays', label: 'Days to make', kind: 'count', wide: true },
          { field: 'reorderAt', label: 'Make more at', kind: 'count' },
          { field: 'print', label: 'Print or make', kind: 'count' },
        ],
      },
    ],
  };
}

export const reorder = report({ title: 'What to print or make', input, run });
