/** Which glaze caused the most seconds, and how sure that is. */
import type { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { firingNames, type NameOf, namesIn } from '../../server/contract/reports/names.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import type { BlameRow } from './blame-rows.ts';
import { blame } from './blaming.ts';
import { BACKGROUND } from './noisy-or/model.ts';
import { observedIn } from './observed.ts';
import { type Asked, periodInput } from './period.ts';
import { answerSentence, verdict } from './verdict.ts';
import { FIGURES } from './worst-glaze-figures.ts';

/** 'glaze=marram-green' to 'Marram Green'. */
async function namesFor(ask: Ask, rows: readonly BlameRow[]): Promise<(key: string) => string> {
  const firings = rows.flatMap(({ members, rest }) => (rest ? [] : members.filter(isFiring)));
  const [glaze, clay, schedule, firing] = await Promise.all([
    namesIn(ask, 'glaze_names'),
    namesIn(ask, 'clay_names'),
    namesIn(ask, 'schedule_names'),
    firingNames(ask, firings.map(idOf)),
  ]);
  const known: Readonly<Record<string, NameOf>> = { glaze, clay, bisque: schedule, schedule, firing };
  return (key) =>
    key === BACKGROUND ? 'what all ware has in common' : (known[kindIn(key)]?.(idOf(key)) ?? idOf(key));
}

const kindIn = (key: string): string => key.slice(0, key.indexOf('='));
const idOf = (key: string): string => key.slice(key.indexOf('=') + 1);
const isFiring = (key: string): boolean => kindIn(key) === 'firing';

const KINDS: Readonly<Record<string, string>> = {
  glaze: 'glaze',
  clay: 'clay',
  bisque: 'bisque schedule',
  schedule: 'glaze schedule',
  firing: 'firing',
  background: 'background',
};

const said = (row: BlameRow, name: (key: string) => string): string =>
  row.rest
    ? 'Other firings'
    : row.kind === 'background'
      ? 'Anything else, and bad luck'
      : row.members.map(name).join(' with ');

function behindOf(row: BlameRow, of: Asked, ownFirings: readonly string[]) {
  const [first] = row.members;
  return (show: 'all' | 'spoiled' | 'suspected'): string => {
    const query = new URLSearchParams({
      cause: row.rest ? 'firing' : row.kind === 'background' ? '' : first!,
      ...(row.rest && ownFirings.length > 0 ? { without: ownFirings.join(' ') } : {}),
      show,
      ...(of.from ? { from: of.from } : {}),
      ...(of.to ? { to: of.to } : {}),
      owners: of.owners.join(','),
    });
    return `/review/seconds-tally/worst-glaze-pieces?${query}`;
  };
}

interface Gaps {
  readonly ungraded: number;
  readonly unpriced: number;
  readonly otherMoney: number;
}

async function gaps(ask: Ask, of: Asked): Promise<Gaps> {
  const [found] = await ask.query<{ [K in keyof Gaps]: number | null }>(
    `SELECT sum(ungraded) AS ungraded, sum(CASE WHEN currency = '' THEN seconds END) AS unpriced,
       sum(CASE WHEN currency NOT IN ('', ?) THEN seconds END) AS otherMoney
     FROM firing_loads WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})`,
    [ask.settings.currency, of.from ?? '', of.to ?? '9999', ...of.owners],
  );
  return {
    ungraded: found?.ungraded ?? 0,
    unpriced: found?.unpriced ?? 0,
    otherMoney: found?.otherMoney ?? 0,
  };
}

const pieces = (n: number, one: string, many: string): string =>
  `${n} ${n === 1 ? `piece ${one}` : `pieces ${many}`}`;

function notes(
  rows: readonly BlameRow[],
  references: readonly string[],
  { ungraded, unpriced, otherMoney }: Gaps,
  name: (key: string) => string,
): string[] {
  return [
    'Each second and waster of a piece’s first glaze firing is shared among what may have caused it; all rows together make up the seconds seen, but their limits do not.',
    'The chance of being the worst is reckoned among the glazes only.',
    ...(references.length > 0
      ? [
          `Clays and schedules are measured against ${references.map((key) => `${name(key)} (${KINDS[kindIn(key)]})`).join(', ')}.`,
        ]
      : []),
    ...rows
      .filter((row) => !row.rest && row.members.length > 1)
      .map((row) => `Always together, and so not to be told apart: ${row.members.map(name).join(', ')}.`),
    ...(ungraded > 0
      ? [`${pieces(ungraded, 'was', 'were')} not graded after the first glaze firing, and left out.`]
      : []),
    ...(unpriced > 0 ? [`${pieces(unpriced, 'has', 'have')} no price: more was lost than is said.`] : []),
    ...(otherMoney > 0
      ? [`${pieces(otherMoney, 'is', 'are')} priced in another currency, and the money is left out.`]
      : []),
  ];
}

async function run(ask: Ask, of: Asked): Promise<Answered> {
  const { currency } = ask.settings;
  const [laid, missing] = await Promise.all([observedIn(ask, of).then(blame), gaps(ask, of)]);
  const { rows, references } = laid;
  const name = await namesFor(ask, rows);
  const ownFirings = rows
    .filter(({ kind, rest }) => kind === 'firing' && !rest)
    .map(({ members }) => idOf(members[0]!));
  const all = laid.seconds / Math.max(1, laid.pieces);
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence: answerSentence(rows, laid, name),
    rows: rows.map((row) => {
      const { members, rest: _, lost, ...numbers } = row;
      const label = said(row, name);
      const behind = behindOf(row, of, ownFirings);
      const isGlaze = row.kind === 'glaze';
      return {
        ...numbers,
        glaze: isGlaze ? label : null,
        key: label,
        label,
        what: row.rest ? 'firing' : KINDS[kindIn(members[0]!)],
        ids: row.rest ? [] : members,
        inseparable: members.length > 1 && !row.rest,
        verdict: isGlaze ? verdict(row, all, name) : '',
        lost: Math.round(lost),
        currency,
        labelBehind: behind('all'),
        piecesBehind: behind('all'),
        secondsBehind: behind('spoiled'),
        laidBehind: behind('suspected'),
      };
    }),
    notes: notes(rows, references, missing, name),
    figures: FIGURES,
  };
}

export const worstGlaze = report<Asked>({
  title: 'Which glaze caused the most seconds',
  input: periodInput as unknown as z.ZodType<Asked>,
  run: keeping('worst-glaze', run),
});
