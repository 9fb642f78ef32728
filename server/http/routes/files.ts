/** /api/files: pictures and documents by the SHA-256 of what is in them. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi';
import type { Context, Schema } from 'hono';
import { DOCUMENT_TYPE, LARGEST_DOCUMENT } from '../../contract/document.ts';
import { PICTURE_TYPES } from '../../contract/picture/picture.ts';
import { NotADocument } from '../../files/documents.ts';
import { NotAPicture, PictureErased } from '../../files/pictures.ts';
import { sha256Of } from '../../files/store.ts';
import type { FromWhom } from '../middleware/from-whom.ts';
import { mediaType } from '../middleware/same-origin.ts';
import { ProblemError } from '../problems.ts';
import { json, problemsOf, type Services } from './route.ts';

const params = z.object({
  sha256: z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 of 64 hexadecimal figures in lower case'),
});
const bytes = z.string().openapi({ format: 'binary' });
const TYPES: readonly string[] = [...PICTURE_TYPES, DOCUMENT_TYPE];
const binary = Object.fromEntries(TYPES.map((type) => [type, { schema: bytes }]));

const keptShape = z
  .object({
    sha256: z.string().openapi({
      description:
        'Name it by this one: where more than a picture was in the file, another than it was sent by',
    }),
    type: z.enum(PICTURE_TYPES),
    bytes: z.number().int(),
    width: z.number().int(),
    height: z.number().int(),
  })
  .openapi('KeptPicture');
const keptDocumentShape = z
  .object({
    sha256: z.string(),
    type: z.literal(DOCUMENT_TYPE),
    bytes: z.number().int(),
    pages: z.number().int(),
  })
  .openapi('KeptDocument');

const put = createRoute({
  method: 'put',
  path: '/api/files/{sha256}',
  summary: 'Keep a picture or a document',
  description:
    'By its bytes and not by its name it must be a JPEG, PNG or WebP. Place, maker, comments and all else that is no ' +
    'picture are taken out. A document is a PDF that can be read, and is kept as it was sent. The same again is harmless.',
  request: { params, body: { required: true, content: binary } },
  responses: {
    200: json(z.union([keptShape, keptDocumentShape]), 'It is kept'),
    ...problemsOf(
      'bad-input',
      'no-origin',
      'not-a-document',
      'not-a-picture',
      'no-room',
      'picture-erased',
      'too-large',
      'wrong-media-type',
    ),
  },
});

const get = createRoute({
  method: 'get',
  path: '/api/files/{sha256}',
  summary: 'A picture or a document',
  request: {
    params,
    query: z.object({
      size: z.enum(['small']).optional().openapi({ description: 'At most 480 points a side' }),
    }),
  },
  responses: {
    200: { description: 'The picture or document', content: binary },
    304: { description: 'As it was' },
    ...problemsOf('bad-input', 'no-picture', 'picture-erased'),
  },
});

const listed = createRoute({
  method: 'get',
  path: '/api/files',
  summary: 'The names of all pictures and documents',
  responses: {
    200: json(
      z.object({ files: z.array(z.object({ sha256: z.string(), standing: z.enum(['kept', 'erased']) })) }),
      'In order',
    ),
    ...problemsOf(),
  },
});

export function files<Before extends Schema>(app: OpenAPIHono<FromWhom, Before>, { host }: Services) {
  return app
    .openapi(put, async (c) => {
      const { sha256 } = c.req.valid('param');
      const type = mediaType(c.req.header('content-type'));
      if (!TYPES.includes(type))
        throw new ProblemError('wrong-media-type', {
          detail: `A picture is sent as ${PICTURE_TYPES.join(', ')}; a document as ${DOCUMENT_TYPE}.`,
        });
      const sent = new Uint8Array(await c.req.arrayBuffer());
      if (sha256Of(sent) !== sha256)
        throw new ProblemError('bad-input', {
          field: 'sha256',
          detail: 'The file did not arrive as it was sent; nothing of it was kept. Send it again.',
        });
      if (type === DOCUMENT_TYPE && sent.length > LARGEST_DOCUMENT)
        throw new ProblemError('too-large', {
          detail: `A PDF may have up to ${LARGEST_DOCUMENT / 1024 / 1024} MB; make its pictures smaller and save it again.`,
        });
      return type === DOCUMENT_TYPE
        ? c.json(await kept(() => host.documents.keep(sent)), 200)
        : c.json(await kept(() => host.pictures.keep(sent)), 200);
    })
    .openapi(get, async (c) => {
      const { sha256 } = c.req.valid('param');
      const etag = `"${sha256}${c.req.valid('query').size ?? ''}"`;
      const standing = host.pictures.files.standing(sha256);
      if (standing === 'erased') throw new ProblemError('picture-erased');
      if (standing === 'missing') throw new ProblemError('no-picture');
      c.header('etag', etag);
      c.header('cache-control', 'private, max-age=31536000, immutable');
      if (c.req.header('if-none-match') === etag) return c.body(null, 304) as never;
      const small = c.req.valid('query').size === 'small';
      const document = small ? undefined : await host.documents.read(sha256);
      if (document !== undefined) return sentAs(c, DOCUMENT_TYPE, document) as never;
      const picture = await (small ? host.pictures.readSmall(sha256) : host.pictures.read(sha256));
      if (picture === undefined) throw new ProblemError('no-picture');
      return sentAs(c, picture.type, picture.bytes) as never;
    })
    .openapi(listed, async (c) => c.json({ files: await host.pictures.files.list() }, 200));
}

function sentAs(c: Context, type: string, body: Buffer): Response {
  c.header('content-type', type);
  c.header('content-disposition', 'inline');
  return c.body(new Uint8Array(body));
}

async function kept<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof NotAPicture) throw new ProblemError('not-a-picture', { detail: error.message });
    if (error instanceof NotADocument) throw new ProblemError('not-a-document', { detail: error.message });
    if (error instanceof PictureErased) throw new ProblemError('picture-erased');
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOSPC' || code === 'EDQUOT') throw new ProblemError('no-room');
    throw error;
  }
}
