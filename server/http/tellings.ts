/** Gathers what plugins add to Today or to the calendar; one that fails is named and holds nothing up. */
import type { z } from 'zod';
import type { Report } from '../contract/plugin.ts';
import { datedRow, type Telling, waitingRow } from '../contract/telling.ts';
import type { Host } from '../host/host.ts';
import { pluginsOf } from './catalogue.ts';

const ROWS = { waiting: waitingRow, dates: datedRow } as const;
type Row<Of extends Telling> = z.infer<(typeof ROWS)[Of]>;

export interface Told<Of extends Telling> {
  readonly plugin: string;
  readonly rows: readonly Row<Of>[];
  readonly more?: Readonly<Record<string, unknown>>;
}

export interface Gathered<Of extends Telling> {
  readonly told: readonly Told<Of>[];
  /** Plugins whose rows could not be had, and why. */
  readonly failed: readonly { readonly plugin: string; readonly sentence: string }[];
}

const reportsThat = (host: Host, tells: Telling): readonly { plugin: string; name: string }[] =>
  pluginsOf(host).flatMap(({ id, reports = {} }) =>
    Object.entries(reports)
      .filter(([, report]: [string, Report]) => report.tells === tells)
      .map(([name]) => ({ plugin: id, name })),
  );

async function ask<Of extends Telling>(
  host: Host,
  of: Of,
  asked: { readonly plugin: string; readonly name: string },
): Promise<Told<Of>> {
  const { rows, more } = await host.report(asked.plugin, asked.name, {});
  const read = ROWS[of].array().safeParse(rows);
  if (read.success) return { plugin: asked.plugin, rows: read.data as Row<Of>[], ...(more ? { more } : {}) };
  const { path, message } = read.error.issues[0]!;
  throw new Error(`Row ${path.join('.')} of “${asked.name}” is not as it should be: ${message}.`);
}

export async function gather<Of extends Telling>(host: Host, of: Of): Promise<Gathered<Of>> {
  const reports = reportsThat(host, of);
  const answers = await Promise.allSettled(reports.map((asked) => ask(host, of, asked)));
  const told = answers.flatMap((answer) => (answer.status === 'fulfilled' ? [answer.value] : []));
  const failed = answers.flatMap((answer, n) =>
    answer.status === 'rejected'
      ? [{ plugin: reports[n]!.plugin, sentence: String((answer.reason as Error).message) }]
      : [],
  );
  return { told, failed };
}
