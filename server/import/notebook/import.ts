/** A potter's notebook comes in: good rows are recorded, every bad one is listed. */

import { currencySigns } from '../../contract/cells/money.ts';
import { dayAt } from '../../host/days.ts';
import type { Host } from '../../host/host.ts';
import type { Heading, Mapping } from '../headings.ts';
import { recallMapping, rememberMapping } from '../mappings.ts';
import type { Bad } from '../records.ts';
import type { Encoding, Source } from '../source.ts';
import { Amendment, type Earlier, earlierOf, lastByHand } from './earlier.ts';
import type { FileFiring } from './firings.ts';
import { firingSteps, meetRecorded } from './kilns.ts';
import type { Added } from './known.ts';
import { Known } from './known.ts';
import type { Plan } from './plan.ts';
import { planRows } from './plan.ts';
import type { Cells, Column } from './read.ts';
import { readNotebook } from './read.ts';
import { type By, foreseeRows, recordRows, type Tally } from './record.ts';
import type { NotebookRow } from './row.ts';
import { readRow } from './row.ts';
import { sentencesOf } from './sentences.ts';
import type { PlannedRow } from './steps.ts';
import { strikeAmended } from './strikes.ts';

export interface NotebookImport extends By {
  readonly host: Host;
  /** A path, the bytes, or a stream of them. */
  readonly source: Source;
  readonly dryRun?: boolean;
  /** { theirHeading: ourColumn }; left out, the one remembered for the same headings is used. */
  readonly mapping?: Mapping;
  /** Where mappings are remembered: the data folder. */
  readonly folder?: string;
  readonly progress?: (done: number, of: number, doing: 'reading' | 'comparing' | 'recording') => void;
  /** Rows in the preview of a dry run at most. */
  readonly previewRows?: number;
  readonly now?: () => Date;
}

export interface PreviewRow {
  readonly line: number;
  /** What would be recorded, a sentence each; empty where all was recorded before. */
  readonly sentences: readonly string[];
  /** How many entries of an earlier import would be struck out for it. */
  readonly struck: number;
}

export interface Summary {
  /** Rows in the file, good and bad. */
  readonly rows: number;
  /** Entries recorded, or that would be. */
  readonly recorded: number;
  /** Entries of earlier imports that were struck out because the notebook was amended. */
  readonly struck: number;
  /** Steps that an earlier import had recorded already. */
  readonly repeated: number;
  /** Pieces, and firings, that the good rows speak of. */
  readonly pieces: number;
  readonly firings: number;
  readonly added: Added;
  /** By line. */
  readonly bad: readonly Bad[];
  readonly preview?: readonly PreviewRow[];
  readonly headings: readonly Heading<Column>[];
  /** Headings that no column was found for; their cells are not read. */
  readonly unknown: readonly string[];
  readonly mapping: Mapping;
  readonly encoding: Encoding;
  /** What the potter should know of how the file was read. */
  readonly notes: readonly string[];
}

/** @throws Unreadable, with a sentence, where the file is no CSV file or is too large */
export async function importNotebook(asked: NotebookImport): Promise<Summary> {
  const { host, dryRun = false, progress } = asked;
  let mapping: Mapping = {};
  let theirs: readonly string[] = [];
  const file = await readNotebook(asked.source, async (headings) => {
    theirs = headings;
    mapping =
      asked.mapping ?? (asked.folder === undefined ? {} : await recallMapping(asked.folder, headings));
    return mapping;
  });
  const known = await Known.of(host);
  const bad: Bad[] = [...file.problems];
  const { rows, read } = await readRows(file.rows, known, asked, bad);
  const { currency } = await host.settings();
  const plan = await planRows(rows, known, currency);
  bad.push(...plan.bad);
  await meetRecorded(host, plan.firings);
  const compared = await compare(host, plan.rows, (done, of) => progress?.(done, of, 'comparing'));
  const result = await (dryRun ? foresee : record)(asked, plan, compared, known);
  if (!dryRun && asked.mapping !== undefined && asked.folder !== undefined && file.problems.length === 0) {
    await rememberMapping(asked.folder, theirs, mapping);
  }
  bad.push(...result.bad);
  return {
    rows: read,
    recorded: result.recorded,
    struck: result.struck,
    repeated: result.repeated + compared.repeated,
    pieces: plan.rows.reduce((sum, { row }) => sum + row.count, 0),
    firings: plan.firings.length,
    added: known.added(),
    bad: bad.sort((a, b) => a.line - b.line),
    ...(dryRun ? { preview: previewOf(plan, compared, known, asked.previewRows ?? 1_000) } : {}),
    headings: file.headings,
    unknown: file.headings
      .filter(({ heading, column }) => column === undefined && heading !== '')
      .map(({ heading }) => heading),
    mapping,
    encoding: file.encoding,
    notes: notesOn(file.encoding),
  };
}

const notesOn = (encoding: Encoding): string[] =>
  encoding === 'windows-1252'
    ? ['This file is not UTF-8; it was read as Windows-1252 (Latin-1). Look at the letters with accents.']
    : [];

async function readRows(
  cells: AsyncIterable<Cells | Bad>,
  known: Known,
  { host, now = () => new Date(), progress }: NotebookImport,
  bad: Bad[],
): Promise<{ rows: NotebookRow[]; read: number }> {
  const { zone, currency } = await host.settings();
  const reader = { words: known.words, money: currencySigns(currency), today: dayAt(now().getTime(), zone) };
  const rows: NotebookRow[] = [];
  let read = 0;
  for await (const one of cells) {
    if (++read % 5_000 === 0) progress?.(read, 0, 'reading');
    const row = 'expected' in one ? [one] : readRow(one, reader);
    if (Array.isArray(row)) bad.push(...row);
    else rows.push(row);
  }
  return { rows, read };
}

interface Compared {
  /** Rows of which something is to be recorded, in the order of the file. */
  readonly changed: readonly Amendment[];
  readonly repeated: number;
}

/** What earlier imports recorded of the rows already. */
async function compare(
  host: Host,
  rows: readonly PlannedRow[],
  progress: (done: number, of: number) => void,
): Promise<Compared> {
  const changed: Amendment[] = [];
  let repeated = 0;
  for (let from = 0; from < rows.length; from += 1_000) {
    const group = rows.slice(from, from + 1_000);
    const streams = await host.log.streams(group.map(({ lot }) => `piece:${lot}`));
    const entries = group.map(({ lot }) => streams.get(`piece:${lot}`)!.entries);
    const earlier = group.map(({ of }, at) => earlierOf(of, entries[at]!));
    const texts = await host.people.read(earlier.flat().flatMap((one: Earlier) => one.text ?? []));
    group.forEach((planned, at) => {
      const one = new Amendment(planned, earlier[at]!, texts, lastByHand(entries[at]!));
      repeated += one.repeated;
      if (!one.unchanged) changed.push(one);
    });
    progress(Math.min(from + 1_000, rows.length), rows.length);
  }
  return { changed, repeated };
}

type Result = Tally & { struck: number };

async function record(
  { host, who, device, progress }: NotebookImport,
  plan: Plan,
  { changed }: Compared,
  known: Known,
): Promise<Result> {
  const by = { who, device };
  const added = await host.recordAll(known.orders(by));
  const refused = added.find((outcome) => outcome.outcome === 'refused');
  if (refused?.outcome === 'refused') throw new Error(refused.refusal.sentence);
  await refuseInTheWay(host, plan, changed);
  const bad = await strikeAmended(host, changed, by);
  const going = changed.filter((one) => one.refused === undefined);
  const struck = going.reduce((sum, one) => sum + one.strikes().length, 0);
  const steps = await firingSteps(host, firingsOf(plan.firings, going));
  const tally = await recordRows(host, going, steps, by, (done, of) => progress?.(done, of, 'recording'));
  return {
    ...tally,
    recorded: tally.recorded + struck + added.filter(({ outcome }) => outcome === 'recorded').length,
    struck,
    bad: [...bad, ...tally.bad],
  };
}

/** Rows that would be packed before something noted by hand are left as they are, before anything is struck out for them. */
async function refuseInTheWay(host: Host, plan: Plan, changed: readonly Amendment[]): Promise<void> {
  const some = changed.filter(({ byHand }) => byHand !== undefined);
  if (some.length === 0) return;
  await firingSteps(host, firingsOf(plan.firings, some));
  for (const one of some) {
    const firing = one.inTheWay();
    if (firing !== undefined)
      one.refused = `it was noted on ${one.byHand}, and ${firing.label} is not in the studio yet. Note that firing by hand first, with this piece in it.`;
  }
}

/** Rows that strike something out are not foreseen: what they record can only be judged after that. */
async function foresee(
  { host, who, device, progress }: NotebookImport,
  plan: Plan,
  { changed }: Compared,
  known: Known,
): Promise<Result> {
  const by = { who, device };
  const struck = changed.reduce((sum, one) => sum + one.strikes().length, 0);
  const going = changed.filter((one) => one.strikes().length === 0);
  const rest = changed
    .filter((one) => one.strikes().length > 0)
    .reduce((sum, one) => sum + one.fresh().length, 0);
  const adding = known.orders(by);
  const steps = await firingSteps(host, firingsOf(plan.firings, going));
  const tally = await foreseeRows(host, going, steps, adding, by, (done, of) =>
    progress?.(done, of, 'comparing'),
  );
  return { ...tally, recorded: tally.recorded + struck + rest + adding.length, struck };
}

/** Firings that something is recorded of. */
function firingsOf(all: readonly FileFiring[], rows: readonly Amendment[]): FileFiring[] {
  const through = new Set(rows.flatMap(({ planned }) => [planned.bisque, planned.glaze]));
  return all.filter((firing) => through.has(firing));
}

function previewOf(plan: Plan, { changed }: Compared, known: Known, most: number): PreviewRow[] {
  const byRow = new Map(changed.map((one) => [one.planned, one]));
  return plan.rows.slice(0, most).map((planned) => {
    const one = byRow.get(planned);
    return {
      line: planned.row.line,
      sentences: one === undefined ? [] : sentencesOf(planned, one.fresh(), known),
      struck: one === undefined ? 0 : one.strikes().length,
    };
  });
}
