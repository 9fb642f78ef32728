/** The words that come with a report: its own fields, and the two questions about the past. */
import { z } from 'zod';
import type { Report } from '../contract/plugin.ts';
import type { Refusal } from '../contract/streams.ts';
import { refuse } from '../contract/streams.ts';
import type { Past } from '../host/host.ts';

export type Params = Readonly<Record<string, string>>;

/** A report that cannot be asked like this; says which field and what would be right. */
export class ReportRefused extends Error {
  override readonly name = 'ReportRefused';
  constructor(readonly refusal: Refusal) {
    super(refusal.sentence);
  }
}

const refused = (code: string, sentence: string, field?: string) =>
  new ReportRefused(refuse(code, sentence, field));

/** @throws ReportRefused */
export function parseParams(
  report: Pick<Report, 'title' | 'input'>,
  params: Params,
): { input: unknown; past: Past } {
  const { 'as-at': asAt, 'known-at': knownAt, ...own } = params;
  const past: Past = { ...day('as-at', asAt, 'asAt'), ...day('known-at', knownAt, 'knownAt') };
  const fields = fieldsOf(report.input);
  const stranger = fields && Object.keys(own).find((name) => !fields.includes(name));
  if (fields && stranger !== undefined) {
    const known = [...fields, 'as-at', 'known-at'].join(', ');
    throw refused(
      'unknown-parameter',
      `“${report.title}” does not know ${stranger}. It knows: ${known}.`,
      stranger,
    );
  }
  const parsed = report.input.safeParse(own);
  if (parsed.success) return { input: parsed.data, past };
  const issue = parsed.error.issues[0]!;
  const [name] = issue.code === 'unrecognized_keys' ? issue.keys : issue.path.map(String);
  const found = name === undefined || own[name] === undefined ? '' : ` “${own[name]}” was given.`;
  throw refused('bad-parameter', `${name ?? report.title}: ${issue.message}.${found}`, name);
}

function day(field: string, value: string | undefined, key: keyof Past): Past {
  if (value === undefined || value === '') return {};
  if (!z.iso.date().safeParse(value).success)
    throw refused(
      'bad-parameter',
      `${field}: a day is written like 2026-05-01. “${value}” was given.`,
      field,
    );
  return { [key]: value };
}

/** Names of the fields; undefined where the shape does not tell. */
function fieldsOf(shape: z.ZodType): string[] | undefined {
  if (shape instanceof z.ZodObject) return Object.keys(shape.shape);
  if (shape instanceof z.ZodPipe) return fieldsOf(shape.in as z.ZodType);
  if (shape instanceof z.ZodDefault || shape instanceof z.ZodPrefault || shape instanceof z.ZodOptional)
    return fieldsOf(shape.unwrap() as z.ZodType);
  return undefined;
}
