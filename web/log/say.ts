/** A few words of what an entry holds, for the log: names and numbers, never free text. */
import type { Entry } from '../../server/contract/entry.ts';
import { countText, listText } from '../words/numbers.ts';
import {
  faultNames,
  gradeNames,
  leavingNames,
  named,
  repairNames,
  stageNames,
  zoneNames,
} from '../words/trade.ts';

type Data = Readonly<Record<string, unknown>>;

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const number = (value: unknown): string => (typeof value === 'number' ? countText(value) : '');
const join = (parts: readonly string[]): string => parts.filter(Boolean).join(', ');

const SAY: Readonly<Record<string, (data: Data) => string>> = {
  'piece.begun': (d) => join([text(d.mark), `${number(d.count)} × ${text(d.form) || '…'}`]),
  'piece.moved-on': (d) => named(stageNames, text(d.stage)),
  'lot.split': (d) => listText(((d.into as { count: number }[]) ?? []).map((part) => countText(part.count))),
  'glaze.applied': (d) =>
    join([
      text(d.zone) && named(zoneNames, text(d.zone)),
      ...((d.layers as { glaze: string }[]) ?? []).map((l) => named({}, l.glaze)),
    ]),
  'firing.packed': (d) => join([text(d.label), named({}, text(d.kiln))]),
  'fault.found': (d) =>
    join([
      named(faultNames, text(d.kind)),
      text(d.zone) && named(zoneNames, text(d.zone)),
      `× ${number(d.count)}`,
    ]),
  'piece.graded': (d) =>
    join(
      (['first', 'second', 'waster'] as const)
        .filter((g) => Number(d[g]) > 0)
        .map((g) => `${number(d[g])} ${gradeNames[g]}`),
    ),
  'repair.decided': (d) => named(repairNames, text(d.method)),
  'repair.done': (d) => named(repairNames, text(d.method)),
  'piece.left': (d) => named(leavingNames, text(d.how)),
  'piece.recounted': (d) => number(d.count),
};

export function say(entry: Pick<Entry, 'name' | 'data'>): string {
  const data = (entry.data ?? {}) as Data;
  const said = SAY[entry.name];
  return said ? said(data) : text(data.name);
}
