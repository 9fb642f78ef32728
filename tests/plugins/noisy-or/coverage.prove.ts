/**
 * How far the worst glaze can be trusted, on made-up studios of known truth:
 * `node --import tsx tests/plugins/noisy-or/coverage.prove.ts [studios] [way …]`. Prints the tables
 * of docs/explanation/worst-glaze.md; with ways named, only those.
 */
import { type BlameRow, blameRows } from '../../../plugins/seconds-tally/blame-rows.ts';
import { firstFiring } from '../../../plugins/seconds-tally/first-firing.ts';
import { drawAll } from '../../../plugins/seconds-tally/noisy-or/draws.ts';
import { buildModel, type Observation } from '../../../plugins/seconds-tally/noisy-or/model.ts';
import { PRIORS, type Priors } from '../../../plugins/seconds-tally/noisy-or/priors.ts';
import { answerSentence, verdict } from '../../../plugins/seconds-tally/verdict.ts';
import { recordDemo } from '../../demo/recorded.ts';
import { type Simulated, simulate, WAYS, type Way } from './simulated.ts';

const STUDIOS = Number(process.argv[2] ?? 200);
const DRAWS = 400;
const CLASSES = [
  [1, 19],
  [20, 59],
  [60, 199],
  [200, Number.POSITIVE_INFINITY],
] as const;

const percent = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${((100 * part) / whole).toFixed(0)} %`;
const line = (...cells: readonly (string | number)[]): void => console.log(`| ${cells.join(' | ')} |`);

interface Count {
  held: number;
  of: number;
}

interface Score {
  studios: number;
  /** Of the 90 % limits, by class of pieces; where something was truly laid, and where nothing was. */
  some: Count[];
  none: Count[];
  laid: number;
  truly: number;
  /** Studios with one true worst glaze, and how often each way of ranking puts it first. */
  worst: { of: number; model: number; count: number; rate: number; evened: number };
  /** Sentences that name a glaze, and of them those that name the true worst. */
  named: Count;
  /** Glazes found to add seconds of their own that truly added none. */
  wronged: Count;
}

const fresh = (): Score => ({
  studios: 0,
  some: CLASSES.map(() => ({ held: 0, of: 0 })),
  none: CLASSES.map(() => ({ held: 0, of: 0 })),
  laid: 0,
  truly: 0,
  worst: { of: 0, model: 0, count: 0, rate: 0, evened: 0 },
  named: { held: 0, of: 0 },
  wronged: { held: 0, of: 0 },
});

const top = (rows: readonly BlameRow[], by: (row: BlameRow) => number): BlameRow | undefined =>
  rows.toSorted((x, y) => by(y) - by(x))[0];

const truth = ({ members }: BlameRow, { laid }: Simulated): number =>
  members.reduce((sum, key) => sum + (laid.get(key) ?? 0), 0);

function scoreStudio(score: Score, studio: Simulated): void {
  const model = buildModel(studio.observations);
  const rows = blameRows({ model, draws: drawAll(model, 1, DRAWS) });
  const glazes = rows.filter(({ kind }) => kind === 'glaze');
  const all = model.seconds / model.pieces;
  score.studios += 1;
  for (const row of glazes) {
    const truly = truth(row, studio);
    score.laid += row.laid;
    score.truly += truly;
    const at = CLASSES.findIndex(([low, high]) => row.pieces >= low && row.pieces <= high);
    const count = (truly > 0 ? score.some : score.none)[at]!;
    count.of += 1;
    if (row.laidLow <= truly + 1e-9 && truly - 1e-9 <= row.laidHigh) count.held += 1;
    if (truly > 0) continue;
    score.wronged.of += 1;
    if (verdict(row, all, (key) => key) === 'adds seconds of its own') score.wronged.held += 1;
  }
  const order = glazes.map((row) => truth(row, studio)).sort((x, y) => y - x);
  const worst = top(glazes, (row) => truth(row, studio));
  const single = worst && order[0]! > 0 && order[0]! > (order[1] ?? 0) ? worst : undefined;
  if (single) {
    score.worst.of += 1;
    const first = (by: (row: BlameRow) => number) => (top(glazes, by) === single ? 1 : 0);
    score.worst.model += first((row) => row.laid);
    score.worst.count += first((row) => row.seconds);
    score.worst.rate += first((row) => row.rate);
    score.worst.evened += first((row) => (row.seconds + 20 * all) / (row.pieces + 20));
  }
  const sentence = answerSentence(rows, model, (key) => key);
  if (!/^(?!Too few).* caused the most/.test(sentence)) return;
  score.named.of += 1;
  const named = top(glazes, (row) => row.laid)!;
  if (order[0]! > 0 && truth(named, studio) === order[0]) score.named.held += 1;
}

function scoreAll(way: Way): Score {
  const score = fresh();
  for (let n = 0; n < STUDIOS; n++) scoreStudio(score, simulate(1_000 + n, way));
  return score;
}

const share = ({ held, of }: Count): string => (of === 0 ? '–' : `${percent(held, of)} of ${of}`);

const rightly = ({ held, of }: Count): string => (of === 0 ? '0' : `${of}, ${percent(held, of)}`);

function tables(scores: ReadonlyMap<Way, Score>): void {
  line(
    'studios',
    ...CLASSES.map(([low, high]) =>
      high === Number.POSITIVE_INFINITY ? `${low} and more` : `${low} to ${high}`,
    ),
    'where nothing was laid',
    'laid to truth',
  );
  line(...Array(CLASSES.length + 3).fill('---'));
  for (const [way, score] of scores) {
    const none = score.none.reduce((sum, it) => ({ held: sum.held + it.held, of: sum.of + it.of }));
    line(
      way,
      ...score.some.map(share),
      share(none),
      score.truly > 0
        ? (score.laid / score.truly).toFixed(2)
        : `${(score.laid / score.studios).toFixed(1)} a studio to none`,
    );
  }
  console.log();
  line(
    'studios',
    'with a worst',
    'laid at its door',
    'count',
    'rate',
    'evened-out rate',
    'names one, rightly',
    'wronged',
  );
  line(...Array(8).fill('---'));
  for (const [way, { worst, named, wronged }] of scores)
    line(
      way,
      worst.of,
      percent(worst.model, worst.of),
      percent(worst.count, worst.of),
      percent(worst.rate, worst.of),
      percent(worst.evened, worst.of),
      rightly(named),
      share(wronged),
    );
  console.log();
}

const PRIORS_TRIED: readonly (readonly [string, Priors])[] = [
  ['as they are', PRIORS],
  ['glazes Beta(1, 1)', { ...PRIORS, glaze: { a: 1, b: 1 } }],
  ['glazes Beta(1, 19)', { ...PRIORS, glaze: { a: 1, b: 19 } }],
  ['glazes Beta(0.2, 3.8)', { ...PRIORS, glaze: { a: 0.2, b: 3.8 } }],
  [
    'schedules and clays Beta(1, 1)',
    { ...PRIORS, clay: { a: 1, b: 1 }, bisque: { a: 1, b: 1 }, schedule: { a: 1, b: 1 } },
  ],
  ['firings Beta(1, 19)', { ...PRIORS, firing: { a: 1, b: 19 } }],
  ['firings Beta(0.2, 39.8)', { ...PRIORS, firing: { a: 0.2, b: 39.8 } }],
  ['background Beta(1, 1)', { ...PRIORS, background: { a: 1, b: 1 } }],
];

/** The demo's own and commissioned ware. */
async function demoObservations(): Promise<Observation[]> {
  const { portions } = await recordDemo('2026-05-04');
  const keys = (text: string) => text.split(' ').filter((key) => key !== '');
  return portions
    .flatMap(firstFiring)
    .filter(({ grade, owner }) => grade !== '' && (owner === 'own' || owner === 'commission'))
    .map(({ present, suspects, count }) => ({
      present: keys(present),
      ...(suspects === null ? {} : { suspects: keys(suspects) }),
      count,
    }));
}

async function priorsTable(): Promise<void> {
  const observed = await demoObservations();
  const shown = [
    'glaze=quicksilver-run',
    'glaze=samphire-matt',
    'glaze=confetti-speckle',
    'bisque=daytime-bisque-06',
    'background=',
  ];
  line(
    'priors',
    ...shown.map((key) => key.slice(key.indexOf('=') + 1) || 'background'),
    'Quicksilver Run worst',
  );
  line(...Array(shown.length + 2).fill('---'));
  for (const [name, priors] of PRIORS_TRIED) {
    const model = buildModel(observed, { priors });
    const rows = blameRows({ model, draws: drawAll(model, 1, 2_000) });
    const found = shown.map((key) => rows.find(({ members }) => members.includes(key))!);
    line(
      name,
      ...found.map(
        (row) => `${row.laid.toFixed(1)} (${row.laidLow.toFixed(0)} to ${row.laidHigh.toFixed(0)})`,
      ),
      percent(found[0]!.chanceWorst!, 1),
    );
  }
}

const asked = process.argv.slice(3);
if (asked.length === 0) {
  await priorsTable();
  console.log();
}
const ways = asked.length === 0 ? WAYS : WAYS.filter((way) => asked.includes(way));
tables(new Map(ways.map((way) => [way, scoreAll(way)])));
