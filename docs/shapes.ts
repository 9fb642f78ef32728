/** What a zod shape takes, in words, for the reference. */
import { z } from 'zod';
import * as values from '../server/contract/studio/values.ts';
import { freeText, textRef } from '../server/contract/text.ts';

interface Schema {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly format?: string;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
  readonly default?: unknown;
}

/** Field tables call these by name. */
export const NAMED_SHAPES: readonly { name: string; shape: z.ZodType; about: string }[] = [
  {
    name: 'piece',
    shape: values.pieceId,
    about: 'id of a piece or lot; of a part split off, the lot’s id, a dot and more',
  },
  { name: 'id', shape: values.id, about: 'an opaque id without spaces or colons' },
  {
    name: 'handle',
    shape: values.handle,
    about: 'a clay, glaze, schedule, kiln, fault, repair or zone: its first name in lower case with hyphens',
  },
  { name: 'count', shape: values.count, about: 'pieces, from 1' },
  { name: 'mark', shape: values.mark, about: 'a foot mark' },
  {
    name: 'money',
    shape: values.money,
    about: '`{ amount, currency }`: minor units (pence) and the ISO 4217 code',
  },
  {
    name: 'owner',
    shape: values.owner,
    about: '`{ kind: "own" }`, or `{ kind, person }` with commission, student or hire',
  },
  {
    name: 'layers',
    shape: z.array(values.layer).min(1).max(12),
    about: 'a list of `{ glaze, coats, method? }`, the lowest first',
  },
  { name: 'layers', shape: z.array(values.layer).min(1), about: '' },
  { name: 'cone', shape: values.cone, about: '“022” to “01”, “1” to “14”' },
  { name: 'text', shape: freeText(), about: 'free text; it is kept apart from the log and can be erased' },
  { name: 'text', shape: freeText(200), about: '' },
  { name: 'text', shape: freeText(5_000), about: '' },
  {
    name: 'text kept apart',
    shape: textRef,
    about: 'in an event: where the text stands in the erasable store, and a salted hash of it',
  },
];

const schemaOf = (shape: z.ZodType, io: 'input' | 'output'): Schema => {
  const { $schema: _, ...schema } = z.toJSONSchema(shape, { io, unrepresentable: 'any' });
  return schema as Schema;
};

/** The same shape gives the same text, whatever the order of its keys and its default. */
function keyOf(schema: Schema): string {
  const { default: _, ...rest } = schema;
  return JSON.stringify(Object.entries(rest).sort(([a], [b]) => (a < b ? -1 : 1)));
}

const KNOWN = new Map(
  NAMED_SHAPES.flatMap(({ name, shape }) =>
    (['input', 'output'] as const).map((io) => [keyOf(schemaOf(shape, io)), name] as const),
  ),
);

function inWords(schema: Schema): string {
  const known = KNOWN.get(keyOf(schema));
  if (known) return `*${known}*`;
  if (schema.const !== undefined) return `\`${schema.const}\``;
  if (schema.enum) return schema.enum.map((value) => `\`${value}\``).join(', ');
  const either = schema.anyOf ?? schema.oneOf;
  if (either) return either.map(inWords).join(' or ');
  switch (schema.type) {
    case 'array':
      return schema.prefixItems
        ? `pair of ${schema.prefixItems.map(inWords).join(' and ')}`
        : `list of ${inWords(schema.items ?? {})}`;
    case 'object':
      return schema.properties ? objectInWords(schema) : 'object';
    case 'integer':
    case 'number':
      return numberInWords(schema);
    case 'boolean':
      return 'true or false';
    case 'string':
      return schema.format === 'date' ? 'day' : 'words';
    default:
      return 'text';
  }
}

function objectInWords({ properties = {}, required = [] }: Schema): string {
  const fields = Object.entries(properties).map(
    ([name, field]) => `${name}${required.includes(name) ? '' : '?'}: ${inWords(field)}`,
  );
  return `{ ${fields.join('; ')} }`;
}

/** JSON Schema bounds whole numbers by the largest that is safe; that is not worth saying. */
function numberInWords({ type, minimum, exclusiveMinimum, maximum }: Schema): string {
  const what = type === 'integer' ? 'whole number' : 'number';
  const low =
    exclusiveMinimum !== undefined
      ? `above ${exclusiveMinimum}`
      : minimum !== undefined && minimum > -Number.MAX_SAFE_INTEGER
        ? `from ${minimum}`
        : '';
  const high = maximum !== undefined && maximum < Number.MAX_SAFE_INTEGER ? `to ${maximum}` : '';
  return [what, low, high].filter(Boolean).join(' ');
}

export interface Field {
  readonly name: string;
  readonly what: string;
  readonly needed: boolean;
}

export function fieldsOf(shape: z.ZodType, io: 'input' | 'output'): Field[] {
  const { properties = {}, required = [] } = schemaOf(shape, io);
  return Object.entries(properties).map(([name, field]) => ({
    name,
    what: `${inWords(field)}${field.default === undefined ? '' : `; ${JSON.stringify(field.default)} when left out`}`,
    needed: required.includes(name),
  }));
}
