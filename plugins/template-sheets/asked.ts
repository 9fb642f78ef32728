/** What is asked to be made: a spec as JSON or an SVG file, on a paper. */
import { z } from 'zod';
import { PaperRefused } from '../../server/contract/plugin.ts';
import { readSvg } from './svg/read-svg.ts';
import { type Template, templateFor } from './template.ts';

/** The buyer's choice for a set of sizes, as it comes with a query string. */
export const nestedShape = z.enum(['yes', 'no']).optional();
export const nestedOf = (nested: 'yes' | 'no' | undefined): { nested?: boolean } =>
  nested === undefined ? {} : { nested: nested === 'yes' };

export const askedShape = z.strictObject({
  /** A spec (`spec/spec.ts`) as JSON. */
  spec: z.string().min(2).max(1_000_000).optional(),
  /** An SVG file, in place of a spec. */
  svg: z.string().min(2).max(20_000_000).optional(),
  /** Name of what comes from an SVG file without a title. */
  name: z.string().trim().min(1).max(120).optional(),
  /** A4, A3, Letter, Tabloid, or a roll like 'roll 610'. */
  paper: z.string().max(40).default('A4'),
  /** Of a set: its sizes inside one another, or each on sheets of its own; in place of the spec's own. */
  nested: nestedShape,
  /** Share of the wet length; in place of the spec's own. */
  shrinkage: z.coerce.number().optional(),
});
export type Asked = z.infer<typeof askedShape>;

/** @throws PaperRefused with sentences that name what is wrong */
export function madeOf({ spec, svg, name, paper, shrinkage, nested }: Asked): {
  template: Template;
  dropped: readonly string[];
} {
  const { given, dropped } = givenOf({ spec, svg, name });
  const whole = {
    ...(given as object),
    ...(shrinkage === undefined ? {} : { shrinkage }),
    ...nestedOf(nested),
  };
  const template = templateFor(whole, paper);
  if ('wrong' in template) throw new PaperRefused(template.wrong.join(' '));
  return { template, dropped };
}

function givenOf({ spec, svg, name }: Pick<Asked, 'spec' | 'svg' | 'name'>): {
  given: unknown;
  dropped: readonly string[];
} {
  if ((spec === undefined) === (svg === undefined))
    throw new PaperRefused('Either “spec” or “svg” must be given, and not both.', 'spec');
  if (svg === undefined) return { given: jsonOf(spec!), dropped: [] };
  const read = readSvg(svg);
  if ('wrong' in read) throw new PaperRefused(read.wrong.join(' '), 'svg');
  const named = read.spec.name ?? name;
  return { given: named === undefined ? read.spec : { ...read.spec, name: named }, dropped: read.dropped };
}

function jsonOf(text: string): unknown {
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch (cause) {
    throw new PaperRefused(`The spec is not JSON that can be read (${(cause as Error).message}).`, 'spec');
  }
  if (typeof given !== 'object' || given === null || Array.isArray(given))
    throw new PaperRefused(
      'The spec should be a group of fields, such as { "form": "cylinder", "diameter": 90, "height": 120 }.',
      'spec',
    );
  return given;
}
