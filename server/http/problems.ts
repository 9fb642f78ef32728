/**
 * Every way a request can fail, in one table: a stable code, the http status, a
 * title and the sentence that is said. Answers are problem details (RFC 9457).
 * docs/reference/problems.md is made from this table.
 */
import { z } from '@hono/zod-openapi';

export const PROBLEMS = {
  'bad-json': { status: 400, title: 'Not JSON', sentence: 'The body is not JSON that can be read.' },
  'bad-input': {
    status: 400,
    title: 'Not what was expected',
    sentence: 'Something in the request is not as it should be.',
  },
  'bad-mapping': {
    status: 400,
    title: 'Headings not understood',
    sentence: 'The mapping of headings must be a JSON object of texts, such as {"Glazed with":"glazes"}.',
  },
  'signed-out': {
    status: 401,
    title: 'Not signed in',
    sentence: 'This device is not signed in; nothing was recorded or shown. Say the passphrase and go on.',
  },
  'wrong-passphrase': {
    status: 401,
    title: 'Wrong passphrase',
    sentence: 'That is not the passphrase.',
  },
  'bad-passphrase': {
    status: 400,
    title: 'Passphrase not taken',
    sentence: 'This cannot be the passphrase.',
  },
  'only-here': {
    status: 403,
    title: 'Only on the laptop',
    sentence: 'This can be done only on the machine that Wareboard runs on.',
  },
  'cross-site': {
    status: 403,
    title: 'Asked from elsewhere',
    sentence: 'The request comes from a page of another site, and only Wareboard’s own page may ask.',
  },
  'no-origin': {
    status: 403,
    title: 'Origin not known',
    sentence: 'A write must say where it comes from, or be sent as application/json or text/csv.',
  },
  'not-found': { status: 404, title: 'Nothing here', sentence: 'There is nothing at this address.' },
  'unknown-report': { status: 404, title: 'Report not known', sentence: 'No plugin offers this report.' },
  'unknown-paper': { status: 404, title: 'Paper not known', sentence: 'No plugin offers this paper.' },
  'unknown-plugin': { status: 404, title: 'Plugin not known', sentence: 'There is no plugin of this name.' },
  'unknown-job': {
    status: 404,
    title: 'Work not known',
    sentence: 'There is no such piece of work; it may have been done so long ago that it is no longer kept.',
  },
  'unknown-device': {
    status: 404,
    title: 'Device not known',
    sentence: 'There is no such device; it may have been sent away already.',
  },
  'no-picture': { status: 404, title: 'No such picture', sentence: 'No picture of this name is kept here.' },
  'no-handout': {
    status: 404,
    title: 'Nothing to fetch',
    sentence: 'There is nothing of this name that could be fetched.',
  },
  'picture-erased': {
    status: 410,
    title: 'Picture erased',
    sentence: 'This picture was erased with the person whose ware it showed.',
  },
  'wrong-method': {
    status: 405,
    title: 'Not that way',
    sentence: 'This address cannot be asked in that way.',
  },
  'too-large': { status: 413, title: 'Too large', sentence: 'The body is larger than is taken here.' },
  'not-a-picture': {
    status: 415,
    title: 'Not a picture',
    sentence: 'The file is not a picture that can be kept: JPEG, PNG and WebP can.',
  },
  'not-a-document': {
    status: 415,
    title: 'Not a PDF',
    sentence: 'The file is not a PDF that can be kept.',
  },
  'wrong-media-type': {
    status: 415,
    title: 'Wrong kind of file',
    sentence: 'The body is not of the kind that is taken here.',
  },
  'wrong-host': {
    status: 421,
    title: 'Wrong address',
    sentence: 'Wareboard answers only to its own names, with its own port.',
  },
  refused: {
    status: 422,
    title: 'Refused',
    sentence: 'It cannot be recorded: the sentence says why, and what could be.',
  },
  'import-failed': {
    status: 422,
    title: 'Not imported',
    sentence: 'The file could not be read as a notebook.',
  },
  'not-printable': {
    status: 422,
    title: 'Not printed',
    sentence: 'What was asked for cannot be printed: the sentence says why, and what could be.',
  },
  'too-many-tries': {
    status: 429,
    title: 'Too many wrong tries',
    sentence: 'The passphrase was wrong several times: wait a little before the next try.',
  },
  'work-failed': { status: 500, title: 'Work not finished', sentence: 'The work could not be finished.' },
  'report-failed': {
    status: 500,
    title: 'Report failed',
    sentence: 'The plugin could not work the report out.',
  },
  'paper-failed': { status: 500, title: 'Paper failed', sentence: 'The paper could not be made.' },
  'went-wrong': {
    status: 500,
    title: 'Something went wrong',
    sentence: 'Something went wrong in Wareboard itself; what was recorded before is kept.',
  },
  'not-offered': { status: 501, title: 'Not offered', sentence: 'No plugin here offers this.' },
  'no-room': {
    status: 507,
    title: 'No room left',
    sentence:
      'There is no room left on the disk that Wareboard keeps its record on; the picture was not kept. Make room and send it again.',
  },
  'log-damaged': {
    status: 503,
    title: 'Log damaged',
    sentence:
      'The log has lost or changed something that was recorded. It can be read, and takes nothing more until it is restored.',
  },
  'log-unavailable': {
    status: 503,
    title: 'Log not writable',
    sentence: 'The log could not be written. Nothing of this was recorded; it may be sent again.',
  },
} as const satisfies Record<string, { status: number; title: string; sentence: string }>;

export type ProblemCode = keyof typeof PROBLEMS;
export type ProblemStatus = (typeof PROBLEMS)[ProblemCode]['status'];

export const problemShape = z
  .looseObject({
    type: z
      .string()
      .openapi({ description: 'Address that explains the problem', example: '/api/problems/not-found' }),
    title: z.string(),
    status: z.number().int(),
    detail: z.string().openapi({ description: 'One sentence for the user' }),
    code: z
      .string()
      .openapi({ description: 'Stable code; of a refusal, the code of the plugin that refused' }),
    field: z
      .string()
      .optional()
      .openapi({ description: 'Field at fault, as a path', example: 'input.places.3.piece' }),
  })
  .openapi('Problem');

export type Problem = z.infer<typeof problemShape>;

/** What a problem may say beyond its code. */
export interface Said {
  /** In the place of the table's sentence. */
  readonly detail?: string;
  readonly field?: string;
  /** Further members of the problem document. */
  readonly more?: Readonly<Record<string, unknown>>;
}

/** Thrown anywhere under the routes; answered as a problem document. */
export class ProblemError extends Error {
  override readonly name = 'ProblemError';
  readonly code: ProblemCode;
  readonly said: Said;
  constructor(code: ProblemCode, said: Said = {}) {
    super(said.detail ?? PROBLEMS[code].sentence);
    this.code = code;
    this.said = said;
  }
}

export function problem(code: ProblemCode, { detail, field, more }: Said = {}): Problem {
  const { status, title, sentence } = PROBLEMS[code];
  return {
    type: `/api/problems/${code}`,
    title,
    status,
    detail: detail ?? sentence,
    code,
    ...(field === undefined ? {} : { field }),
    ...more,
  };
}

export function problemResponse(code: ProblemCode, said?: Said): Response {
  const { status } = PROBLEMS[code];
  return new Response(JSON.stringify(problem(code, said)), {
    status,
    headers: { 'content-type': 'application/problem+json' },
  });
}
