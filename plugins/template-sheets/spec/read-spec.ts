/** A spec from outside, or what is wrong with it in sentences that name the field. */
import type { z } from 'zod';
import { measuresOf } from './size.ts';
import { LARGEST, SMALLEST, type Spec, spec } from './spec.ts';

export type SpecRead = { readonly spec: Spec } | { readonly wrong: readonly string[] };

export function readSpec(given: unknown): SpecRead {
  const read = spec.safeParse(given);
  if (!read.success) return { wrong: read.error.issues.map((issue) => sentence(issue, given)) };
  const wrong = [...contradictions(read.data), ...sizesOut(read.data)];
  return wrong.length > 0 ? { wrong } : { spec: read.data };
}

const FORMS = spec.options.map((option) => option.shape.form.value).join(', ');

function sentence(issue: z.core.$ZodIssue, given: unknown): string {
  const field = issue.path.join('.') || 'the spec';
  const value = issue.path.reduce<unknown>(
    (at, key) => (at as Record<PropertyKey, unknown> | undefined)?.[key],
    given,
  );
  if (issue.code === 'unrecognized_keys')
    return `“${issue.keys.join('”, “')}” is not known ${issue.path.length ? `in “${field}”` : 'for this form'}; leave it out or look at its spelling.`;
  if (issue.code === 'invalid_union' && field === 'form')
    return `“form” is ${said(value)}; it should be one of ${FORMS}.`;
  if (value === undefined) return `“${field}” is missing; it should be ${wanted(issue, field)}.`;
  return `“${field}” is ${said(value)}; it should be ${wanted(issue, field)}.`;
}

function said(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'string') return `“${value.slice(0, 40)}”`;
  return typeof value === 'object' && value !== null ? 'a group of fields' : String(value);
}

const CHOICES: Readonly<Record<string, string>> = {
  thickness: 'the wall from 0.5 to 50 mm, or { "wall", "measured": "outside", "middle" or "inside" }',
  seam: '“bevel”, “butt”, an allowance from 0 to 50 mm, or { "joint", "allowance" }',
  base: 'true, false, “under” or “inside”',
  shrinkage: 'a share of the wet length from 0 to 0.4 (0.12 is 12 %)',
};

const MILLIMETRES = new Set(
  'diameter height bottom top bottomSide topSide length width endWidth rim depth foot opening'.split(' '),
);

function wanted(issue: z.core.$ZodIssue, field: string): string {
  const last = field.split('.').at(-1)!;
  const choice = CHOICES[last];
  if (choice) return choice;
  if (MILLIMETRES.has(last)) return `a number of mm from ${SMALLEST} to ${LARGEST}`;
  switch (issue.code) {
    case 'too_small':
      return `at least ${issue.minimum}${issue.origin === 'string' ? ' letter' : ''}`;
    case 'too_big':
      return `at most ${issue.maximum}${issue.origin === 'string' ? ' letters' : ''}`;
    case 'invalid_value':
      return issue.values.map((value) => `“${String(value)}”`).join(' or ');
    case 'invalid_type':
      return (
        {
          number: 'a number',
          int: 'a whole number',
          string: 'text',
          array: 'a list',
          object: 'a group of fields',
        }[issue.expected as string] ?? issue.expected
      );
    default:
      return issue.message;
  }
}

/** A set's sizes must be potable too. */
function sizesOut(read: Spec): string[] {
  if (read.form === 'drawing') return [];
  return (read.sizes ?? []).flatMap(({ name, scale }, at) =>
    Object.entries(measuresOf(read))
      .filter(([, value]) => value !== 0 && (value * scale < SMALLEST || value * scale > LARGEST))
      .map(
        ([field, value]) =>
          `“sizes.${at}.scale” is ${scale}, which makes “${field}” of the size ${name} ${value * scale} mm; it should come to a number of mm from ${SMALLEST} to ${LARGEST}.`,
      ),
  );
}

/** What cannot be built although each measure by itself could. */
function contradictions(read: Spec): string[] {
  switch (read.form) {
    case 'frustum':
      return read.bottom === 0 && read.top === 0
        ? ['“bottom” and “top” are both 0; one of them should be 5 mm or more.']
        : [];
    case 'polygon':
      return read.bottomSide === 0 && (read.topSide ?? 0) === 0
        ? ['“bottomSide” and “topSide” are both 0; one of them should be 5 mm or more.']
        : [];
    case 'box': {
      const most = Math.min(read.length, read.width) / 2;
      return (read.corner ?? 0) > most
        ? [`“corner” is ${read.corner}; it should be at most half the shorter side, ${most} mm.`]
        : [];
    }
    case 'bowl':
      return [
        ...((read.foot ?? 0) >= read.rim
          ? [`“foot” is ${read.foot}; it should be less than the rim, ${read.rim} mm.`]
          : []),
        ...((read.darts === undefined) === (read.gores === undefined)
          ? ['A bowl needs either “darts” or “gores”, a whole number from 3 to 48.']
          : []),
      ];
    case 'sphere':
      return (read.opening ?? 0) >= read.diameter
        ? [`“opening” is ${read.opening}; it should be less than the diameter, ${read.diameter} mm.`]
        : [];
    default:
      return [];
  }
}
