/** Which problem an error is. */
import { HTTPException } from 'hono/http-exception';
import { ZodError } from 'zod';
import { AskRefused, PaperRefused } from '../contract/plugin.ts';
import { ReportRefused } from '../readmodels/params.ts';
import { type ProblemCode, ProblemError, problemResponse, type Said } from './problems.ts';

/** Errors of the log, by name: their own sentence is fit to be shown. */
const BY_NAME: Readonly<Record<string, ProblemCode>> = {
  LogDamaged: 'log-damaged',
  LogUnavailable: 'log-unavailable',
  /* Of the imports: the file cannot be read at all. */
  Unreadable: 'import-failed',
  UnknownReport: 'unknown-report',
  ReportFailed: 'report-failed',
  UnknownPaper: 'unknown-paper',
  PaperFailed: 'paper-failed',
};

type Issue = {
  code?: string;
  path: readonly PropertyKey[];
  message: string;
  errors?: readonly (readonly Issue[])[];
};

/** The path and the words of the first thing that zod found wrong. */
export function faultOf(error: { issues: readonly Issue[] }): Said {
  const first = error.issues[0] && innermost(error.issues[0]);
  if (first === undefined) return {};
  const field = first.path.map(String).join('.');
  return field === '' ? { detail: `${first.message}.` } : { field, detail: `${field}: ${first.message}.` };
}

/** Where a value could be one of several things, the fault of the one it comes nearest to: of the right kind, but for its parts. */
function innermost(issue: Issue): Issue {
  if (issue.code !== 'invalid_union') return issue;
  const nearest = issue.errors?.find(
    (issues) => issues.length > 0 && issues.every(({ path }) => path.length > 0),
  )?.[0];
  return nearest === undefined ? issue : innermost({ ...nearest, path: [...issue.path, ...nearest.path] });
}

export function problemOf(error: Error): { code: ProblemCode; said?: Said } {
  if (error instanceof ProblemError) return { code: error.code, said: error.said };
  if (error instanceof HTTPException) {
    if (error.status === 400) return { code: 'bad-json' };
    if (error.status === 413) return { code: 'too-large' };
  }
  if (error instanceof ZodError) return { code: 'bad-input', said: faultOf(error) };
  if (error instanceof ReportRefused) {
    const { code, sentence, field } = error.refusal;
    return { code: 'bad-input', said: { detail: sentence, field, more: { code } } };
  }
  if (error instanceof AskRefused) {
    const code = error instanceof PaperRefused ? 'not-printable' : 'bad-input';
    return { code, said: { detail: error.message, field: error.field } };
  }
  const code = BY_NAME[error.name];
  return code === undefined ? { code: 'went-wrong' } : { code, said: { detail: error.message } };
}

export function explain(error: Error, report: (error: Error) => void): Response {
  const { code, said } = problemOf(error);
  if (code === 'went-wrong' || code === 'report-failed' || code === 'paper-failed') report(error);
  return problemResponse(code, said);
}
