/**
 * Writes docs/reference from the code: `node --import tsx docs/reference.ts`. A test compares the
 * pages with it, so whatever is declared is documented.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { z } from 'zod';
import { commandLinePage } from '../server/cli/command-line-page.ts';
import type { Plugin } from '../server/contract/plugin.ts';
import { STAGES } from '../server/contract/trade.ts';
import { hostPlugin } from '../server/host/strike-events.ts';
import { problemsPage } from '../server/http/problems-page.ts';
import { PLUGINS } from '../server/manifest.ts';
import { MOVES } from '../server/studio/piece/moves.ts';
import { fieldsOf, NAMED_SHAPES } from './shapes.ts';

const ALL: readonly Plugin[] = [hostPlugin, ...PLUGINS];

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
const table = (heads: readonly string[], rows: readonly (readonly string[])[]): string[] => [
  `| ${heads.join(' | ')} |`,
  `|${heads.map(() => '---|').join('')}`,
  ...rows.map((row) => `| ${row.map(cell).join(' | ')} |`),
  '',
];

const page = (title: string, about: readonly string[], ...parts: readonly string[][]): string =>
  `${[`# ${title}`, '', ...about, '', ...parts.flat()].join('\n').trimEnd()}\n`;

const MADE = (from: string) => `This page is made from ${from} by \`docs/reference.ts\`; do not edit it.`;

function fieldTable(shape: z.ZodType, io: 'input' | 'output'): string[] {
  const fields = fieldsOf(shape, io);
  if (fields.length === 0) return ['Nothing is asked for.', ''];
  return table(
    ['field', 'what', ''],
    fields.map(({ name, what, needed }) => [`\`${name}\``, what, needed ? 'needed' : '']),
  );
}

function shapesList(): string[] {
  const said = NAMED_SHAPES.filter(({ about }) => about !== '');
  return ['Shapes that come again:', '', ...said.map(({ name, about }) => `- *${name}*: ${about}`), ''];
}

export function commandsPage(): string {
  const parts = ALL.flatMap((plugin) =>
    Object.entries(plugin.commands ?? {}).map(([name, { title, input }]) => [
      `## ${name}`,
      '',
      `${title}. (${plugin.id})`,
      '',
      ...fieldTable(input, 'input'),
    ]),
  );
  return page(
    'Commands',
    [
      'What can be recorded. A command is sent to `POST /api/commands` as `{ id, command, input, happenedAt?, who, device }`,',
      'one or a list. `id` is a UUID made by the sender; sending the same again is harmless. `happenedAt` is a day or a moment',
      'with its offset; now when it is left out. In brackets stands the plugin that takes the command.',
      '',
      MADE('the plugins'),
    ],
    shapesList(),
    ...parts,
  );
}

export function eventsPage(): string {
  const parts = ALL.flatMap((plugin) =>
    Object.entries(plugin.events ?? {}).map(([name, { shape, upcasts = [] }]) => [
      `## ${name}`,
      '',
      `Version ${upcasts.length + 1}. (${plugin.id})`,
      '',
      ...fieldTable(shape, 'output'),
    ]),
  );
  return page(
    'Events',
    [
      'What the log holds. Names do not change; a shape may grow by a version, and older entries are brought up when they are',
      'read. In brackets stands the plugin that the event belongs to.',
      '',
      MADE('the plugins'),
    ],
    shapesList(),
    ...parts,
  );
}

export function movesPage(): string {
  const moves = Object.values(MOVES);
  const rows = moves.map(({ move, from, to, otherwise }) => {
    const all = from.length === STAGES.length - 1 && !(from as readonly string[]).includes('left');
    const stages = all ? 'any stage but left' : from.join(', ');
    return [move, stages, to === 'same' ? 'stays as it is' : to, otherwise];
  });
  return page(
    'Moves',
    [
      'Which moves are legal from which stage, and the stage after. A bisque firing that has ended makes ware *bisque-fired*; a',
      'glaze or lustre firing makes it *glaze-fired*. Entries may come late: each is judged at the time it speaks of, and is',
      'refused where it would make a later one impossible.',
      '',
      MADE('`server/studio/piece/moves.ts`'),
    ],
    table(['move', 'from', 'to', 'what is said otherwise'], rows),
  );
}

export function reportsPage(): string {
  const parts = PLUGINS.flatMap((plugin) =>
    Object.entries(plugin.reports ?? {}).map(([name, { title, input }]) => [
      `## ${plugin.id} ${name}`,
      '',
      `${title}.`,
      '',
      ...fieldTable(input, 'input'),
    ]),
  );
  return page(
    'Reports',
    [
      'What can be asked. `GET /api/reports/PLUGIN/REPORT?field=value`, or `wareboard report PLUGIN REPORT --field value`, with',
      '`--json` or `--csv`. Every report also takes `as-at` (what had happened by the end of that day) and `known-at` (what had',
      'been recorded by then). The answer has `report`, `from`, `to`, `sentence`, `rows`, `notes` and `figures`; rates are',
      'fractions from 0 to 1, money is in minor units of the row’s `currency`.',
      '',
      MADE('the plugins'),
    ],
    ...parts,
  );
}

export function papersPage(): string {
  const parts = PLUGINS.flatMap((plugin) =>
    Object.entries(plugin.papers ?? {}).map(([name, { title, input }]) => [
      `## ${plugin.id} ${name}`,
      '',
      `${title}.`,
      '',
      ...fieldTable(input, 'input'),
    ]),
  );
  return page(
    'Papers',
    [
      'What can be printed. `GET /api/papers/PLUGIN/PAPER?field=value`, or `wareboard paper PLUGIN PAPER --field value --to',
      'OUT.pdf`. Every paper also takes `as-at` and `known-at`, as a report does. The answer is a PDF of true size: print it',
      'at 100 %. `save=yes` sends it as a file to keep.',
      '',
      MADE('the plugins'),
    ],
    ...parts,
  );
}

export const PAGES: Readonly<Record<string, () => string>> = {
  'commands.md': commandsPage,
  'events.md': eventsPage,
  'moves.md': movesPage,
  'reports.md': reportsPage,
  'papers.md': papersPage,
  'command-line.md': commandLinePage,
  'problems.md': problemsPage,
};

export const REFERENCE = fileURLToPath(new URL('reference/', import.meta.url));

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  mkdirSync(REFERENCE, { recursive: true });
  for (const [name, write] of Object.entries(PAGES)) writeFileSync(`${REFERENCE}${name}`, write());
}
