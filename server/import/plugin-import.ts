/** Takes in a file of a kind that a plugin declares: good rows are recorded, every bad one is listed. */
import type { FileImport, ImportPlan, ImportRow, ImportStep } from '../contract/file-import.ts';
import type { Host, Order, Outcome } from '../host/host.ts';
import { idOf, lookOn } from '../host/look.ts';
import type { Registry } from '../host/registry.ts';
import type { Heading, Mapping } from './headings.ts';
import { recallMapping, rememberMapping } from './mappings.ts';
import { type Bad, shortened } from './records.ts';
import type { Encoding, Source } from './source.ts';
import { readTable } from './table.ts';

export interface PluginImportRequest {
  readonly host: Host;
  readonly source: Source;
  readonly dryRun?: boolean;
  readonly mapping?: Mapping;
  /** Take in again what was struck out here. */
  readonly again?: boolean;
  /** Where mappings are remembered: the data folder. */
  readonly folder?: string;
  readonly who: string;
  readonly device: string;
  readonly progress?: (done: number, of: number) => void;
  readonly now?: () => Date;
}

export interface PluginSummary {
  readonly kind: string;
  /** Rows in the file, good and bad. */
  readonly rows: number;
  /** Entries recorded, or that would be. */
  readonly recorded: number;
  readonly struck: number;
  /** Rows, and steps, that were recorded before. */
  readonly repeated: number;
  /** What the good rows speak of, by its name in the singular. */
  readonly counts: Readonly<Record<string, number>>;
  readonly added: Readonly<Record<string, readonly string[]>>;
  /** By line. */
  readonly bad: readonly Bad[];
  /** What would be recorded, by row; only of a dry run. */
  readonly preview?: readonly { readonly line: number; readonly sentences: readonly string[] }[];
  readonly headings: readonly Heading<string>[];
  readonly unknown: readonly string[];
  readonly mapping: Mapping;
  readonly encoding: Encoding;
  readonly notes: readonly string[];
  /** Struck out here before, and left out. */
  readonly left: readonly string[];
}

/** Rows in the preview at most. */
const MOST_PREVIEWED = 1_000;

/** The declared import of this kind; undefined where no plugin has one. */
export const findImport = (registry: Registry, kind: string): FileImport | undefined =>
  registry.plugins
    .flatMap(({ imports = {} }) => (Object.hasOwn(imports, kind) ? [imports[kind]!] : []))
    .at(0);

export const importKinds = (registry: Registry): string[] =>
  registry.plugins.flatMap(({ imports = {} }) => Object.keys(imports));

/** @throws Unreadable, with a sentence, where the file is no CSV file or is too large */
export async function importFile(
  kind: string,
  declared: FileImport,
  asked: PluginImportRequest,
): Promise<PluginSummary> {
  const { host, dryRun = false, now = () => new Date() } = asked;
  let mapping: Mapping = {};
  let theirs: readonly string[] = [];
  const file = await readTable(declared, asked.source, async (headings) => {
    theirs = headings;
    mapping =
      asked.mapping ?? (asked.folder === undefined ? {} : await recallMapping(asked.folder, headings));
    return mapping;
  });
  const bad: Bad[] = [...file.problems];
  const rows: ImportRow[] = [];
  let read = 0;
  for await (const row of file.rows) {
    read++;
    if ('expected' in row) bad.push(row);
    else rows.push(row);
  }
  const plan = await declared.plan(rows, await lookOn(host, now()), asked.again ?? false);
  bad.push(...plan.bad);
  const result = await (dryRun ? foresee : record)(kind, plan.steps, asked);
  if (!dryRun && asked.mapping !== undefined && asked.folder !== undefined && file.problems.length === 0)
    await rememberMapping(asked.folder, theirs, mapping);
  bad.push(...result.bad);
  return {
    kind,
    rows: read,
    recorded: result.recorded,
    struck: 0,
    repeated: result.repeated + plan.repeated,
    counts: plan.counts,
    added: plan.added,
    bad: bad.sort((a, b) => a.line - b.line),
    ...(dryRun ? { preview: preview(plan) } : {}),
    headings: file.headings,
    unknown: file.headings.flatMap(({ heading, column }) => (column || !heading ? [] : [heading])),
    left: plan.left ?? [],
    mapping,
    encoding: file.encoding,
    notes: [
      ...plan.notes,
      ...(file.encoding === 'windows-1252'
        ? ['This file is not UTF-8; it was read as Windows-1252 (Latin-1). Look at the letters with accents.']
        : []),
    ],
  };
}

function preview({ steps }: ImportPlan): NonNullable<PluginSummary['preview']> {
  const by = new Map<number, string[]>();
  for (const { line, sentence } of steps) by.set(line, [...(by.get(line) ?? []), sentence]);
  return [...by]
    .map(([line, sentences]) => ({ line, sentences }))
    .sort((a, b) => a.line - b.line)
    .slice(0, MOST_PREVIEWED);
}

interface Tally {
  recorded: number;
  repeated: number;
  readonly bad: Bad[];
}

const orderOf = (kind: string, step: ImportStep, { who, device }: PluginImportRequest): Order => ({
  id: idOf(['import', kind, step.command, ...step.knownBy]),
  command: step.command,
  input: step.input,
  ...(step.happenedAt === undefined ? {} : { happenedAt: step.happenedAt }),
  who,
  device,
});

/** The first steps of all groups in the order in which they happened, then the second ones, and so on. */
export function waves(steps: readonly ImportStep[]): ImportStep[][] {
  const place = new Map<string, number>();
  const all: ImportStep[][] = [];
  for (const step of steps) {
    const at = place.get(step.group) ?? 0;
    place.set(step.group, at + 1);
    all[at] ??= [];
    all[at].push(step);
  }
  const day = ({ happenedAt = '9999' }: ImportStep) => happenedAt;
  return all.map((wave) =>
    wave.sort((a, b) => (day(a) < day(b) ? -1 : day(a) > day(b) ? 1 : a.line - b.line)),
  );
}

async function record(
  kind: string,
  steps: readonly ImportStep[],
  asked: PluginImportRequest,
): Promise<Tally> {
  const tally: Tally = { recorded: 0, repeated: 0, bad: [] };
  const refused = new Set<string>();
  let before = 0;
  for (const wave of waves(steps)) {
    const going = wave.filter((step) => !refused.has(step.group));
    const outcomes = await asked.host.recordAll(
      going.map((step) => orderOf(kind, step, asked)),
      (done) => asked.progress?.(before + done, steps.length),
    );
    take(tally, going, outcomes, refused);
    before += wave.length;
  }
  return tally;
}

async function foresee(
  kind: string,
  steps: readonly ImportStep[],
  asked: PluginImportRequest,
): Promise<Tally> {
  const tally: Tally = { recorded: 0, repeated: 0, bad: [] };
  const going = waves(steps).flat();
  const outcomes = await asked.host.foresee(going.map((step) => orderOf(kind, step, asked)));
  take(tally, going, outcomes, new Set());
  return tally;
}

/** The first refusal of a group tells why; its other steps only follow from it. */
function take(
  tally: Tally,
  steps: readonly ImportStep[],
  outcomes: readonly Outcome[],
  refused: Set<string>,
): void {
  outcomes.forEach((outcome, at) => {
    const { group, line, column, found = '' } = steps[at]!;
    if (outcome.outcome === 'recorded') tally.recorded += outcome.last - outcome.first + 1;
    else if (outcome.outcome !== 'refused') tally.repeated++;
    else if (!refused.has(group)) {
      refused.add(group);
      tally.bad.push({ line, column, found: shortened(found), expected: outcome.refusal.sentence });
    }
  });
}
