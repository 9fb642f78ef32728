/** What every route shares: the services it is given, and how its problems are described. */
import { z } from '@hono/zod-openapi';
import type { Host } from '../../host/host.ts';
import type { Jobs } from '../jobs.ts';
import { PROBLEMS, type ProblemCode, problemShape } from '../problems.ts';
import type { Keeping } from '../services.ts';

export interface Services {
  readonly host: Host;
  readonly jobs: Jobs;
  readonly keeping: Keeping;
  /** Served on this machine only, where nobody signs in. */
  readonly here: boolean;
}

/** Any route can fail in these ways. */
const EVERYWHERE: readonly ProblemCode[] = ['cross-site', 'wrong-host', 'signed-out', 'went-wrong'];

const document = (codes: readonly ProblemCode[]) => ({
  description: codes.map((code) => `\`${code}\`: ${PROBLEMS[code].sentence}`).join(' '),
  content: { 'application/problem+json': { schema: problemShape } },
});

/** Responses by status for the problems named and those that every route has. */
export function problemsOf(...codes: ProblemCode[]) {
  const byStatus: Record<number, ProblemCode[]> = {};
  for (const code of [...codes, ...EVERYWHERE]) {
    const { status } = PROBLEMS[code];
    byStatus[status] = [...(byStatus[status] ?? []), code];
  }
  return Object.fromEntries(Object.entries(byStatus).map(([status, those]) => [status, document(those)]));
}

export const json = <Shape extends z.ZodType>(schema: Shape, description: string) => ({
  description,
  content: { 'application/json': { schema } },
});

/** A parameter given several times is the list of its values. */
export function joined(queries: Record<string, string[]>): Record<string, string> {
  return Object.fromEntries(Object.entries(queries).map(([name, values]) => [name, values.join(',')]));
}

/** Whole number of a query string. */
export const whole = (least: number, most: number) =>
  z
    .string()
    .regex(/^\d{1,15}$/, 'a whole number')
    .transform(Number)
    .pipe(z.number().int().min(least).max(most));
