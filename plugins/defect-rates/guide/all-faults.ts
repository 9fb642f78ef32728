/** Every fault that has a guide, with how often it was found: the trade's, and the studio's own where they were. */
import type { Answered, Ask } from '../../../server/contract/plugin.ts';
import { marks } from '../../../server/contract/reports/sql.ts';
import { capital, plural } from '../../../server/contract/reports/words.ts';
import { wilson } from '../../../server/contract/statistics/wilson.ts';
import { textbookOf } from '../../../server/contract/textbook.ts';
import { FAULTS } from '../../../server/contract/trade.ts';
import type { Asked } from '../asked.ts';
import { whole } from '../sums.ts';
import { ALL } from './figures.ts';

interface Found {
  readonly fault: string;
  readonly affected: number;
}

type Of = Omit<Asked, 'outcome'>;

const foundFaults = (ask: Ask, of: Of): Promise<Found[]> =>
  ask.query<Found>(
    `SELECT fault, sum(pieces) AS affected FROM flaws
     WHERE by = 'all' AND day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})
       ${of.firing === 'first' ? "AND turn = 'first'" : ''} GROUP BY fault ORDER BY fault`,
    [of.from ?? '', of.to ?? '9999', ...of.owners],
  );

function guideAt(fault: string, of: Of): string {
  const query = new URLSearchParams({
    fault,
    ...(of.from ? { from: of.from } : {}),
    ...(of.to ? { to: of.to } : {}),
  });
  return `/review/defect-rates/fault-guide?${query}`;
}

export async function faultsOnRecord(ask: Ask, of: Of): Promise<Answered> {
  const [all, found] = await Promise.all([
    whole(ask, { ...of, outcome: 'seconds' }, false),
    foundFaults(ask, of),
  ]);
  const counts = new Map(found.map(({ fault, affected }) => [fault, affected]));
  const known: readonly string[] = FAULTS;
  const faults = [...known, ...found.map(({ fault }) => fault).filter((fault) => !known.includes(fault))];
  const rows = faults
    .map((fault) => {
      const affected = counts.get(fault) ?? 0;
      return {
        kind: 'fault',
        key: fault,
        label: capital(fault.replaceAll('-', ' ')),
        seen: textbookOf(fault).seen,
        affected,
        pieces: all.pieces,
        rate: all.pieces > 0 ? affected / all.pieces : null,
        ...wilson({ affected, pieces: all.pieces }),
        labelBehind: guideAt(fault, of),
      };
    })
    .toSorted((x, y) => y.affected - x.affected || faults.indexOf(x.key) - faults.indexOf(y.key));
  const [most] = rows;
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence:
      most && most.affected > 0
        ? `The commonest fault is ${most.label.toLowerCase()}: on ${most.affected} of ${plural(all.pieces, 'inspected piece')}.`
        : 'No fault is on record in this time.',
    rows,
    notes: [
      'A piece counts under each of its faults. Low and high take every piece as its own (Wilson, 95 %).',
    ],
    figures: ALL,
  };
}
