/** Which glaze caused the most seconds, and how sure that is. */
import type { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { blame } from './blame.ts';
import { type BlameRow, blameRows } from './blame-rows.ts';
import { BACKGROUND, type Observation } from './noisy-or/model.ts';
import { type Asked, periodInput } from './period.ts';
import { marks } from './sums.ts';
import { answerSentence, verdict } from './verdict.ts';
import { FIGURES } from './worst-glaze-figures.ts';

interface Group {
  present: string;
  suspects: string | null;
  currency: string;
  pieces: number;
  lost: number;
}

const keysIn = (text: string): string[] => text.split(' ').filter((key) => key !== '');

const groups = (ask: Ask, of: Asked): Promise<Group[]> =>
  ask.query<Group>(
    `SELECT present, suspects, currency, sum(count) AS pieces, sum(lost) AS lost FROM first_firings
     WHERE grade <> '' AND day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})
     GROUP BY present, suspects, currency ORDER BY present, suspects, currency`,
    [of.from ?? '', of.to ?? '9999', ...of.owners],
  );

const observation = (group: Group, currency: string): Observation => ({
  present: keysIn(group.present),
  ...(group.suspects === null ? {} : { suspects: keysIn(group.suspects) }),
  count: group.pieces,
  lost: group.currency === currency ? group.lost : 0,
});

/** 'glaze=marram-green' to 'Marram Green'. */
async function names(ask: Ask): Promise<(key: string) => string> {
  const found = await ask.query<{ key: string; name: string }>(
    `SELECT 'glaze=' || id AS key, name FROM glaze_names
     UNION ALL SELECT 'clay=' || id, name FROM clay_names
     UNION ALL SELECT 'bisque=' || id, name FROM schedule_names
     UNION ALL SELECT 'schedule=' || id, name FROM schedule_names
     UNION ALL SELECT DISTINCT 'firing=' || firing, label FROM first_firings WHERE label IS NOT NULL`,
  );
  const known = new Map(found.map(({ key, name }) => [key, name]));
  return (key) =>
    key === BACKGROUND ? 'what all ware has in common' : (known.get(key) ?? key.slice(key.indexOf('=') + 1));
}

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
    `SELECT sum(CASE WHEN grade = '' THEN count END) AS ungraded,
       sum(CASE WHEN suspects IS NOT NULL AND currency = '' THEN count END) AS unpriced,
       sum(CASE WHEN suspects IS NOT NULL AND currency NOT IN ('', ?) THEN count END) AS otherMoney
     FROM first_firings WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})`,
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
          `Clays and schedules are measured against ${references.map((key) => `${name(key)} (${KINDS[key.slice(0, key.indexOf('='))]})`).join(', ')}.`,
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
  const [found, name, missing] = await Promise.all([groups(ask, of), names(ask), gaps(ask, of)]);
  const { model, draws } = await blame(found.map((group) => observation(group, currency)));
  const rows = model.pieces === 0 ? [] : blameRows({ model, draws });
  const ownFirings = rows
    .filter(({ kind, rest }) => kind === 'firing' && !rest)
    .map(({ members }) => members[0]!.slice('firing='.length));
  const all = model.seconds / Math.max(1, model.pieces);
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence: answerSentence(rows, model, name),
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
        what: row.rest ? 'firing' : KINDS[members[0]!.slice(0, members[0]!.indexOf('='))],
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
    notes: notes(rows, model.references, missing, name),
    figures: FIGURES,
  };
}

export const worstGlaze = report<Asked>({
  title: 'Which glaze caused the most seconds',
  input: periodInput as unknown as z.ZodType<Asked>,
  run,
});
