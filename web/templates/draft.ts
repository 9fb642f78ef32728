/** What is typed about a form, and the spec that it stands for. Pure; a kept spec goes in and comes out whole. */
import type { Form, Measured } from '../../plugins/template-sheets/spec/spec.ts';

export type DraftForm = Exclude<Form, 'drawing'>;

export const FIELDS = {
  cylinder: ['diameter', 'height'],
  frustum: ['bottom', 'top', 'height'],
  polygon: ['sides', 'bottomSide', 'topSide', 'height'],
  oval: ['length', 'width', 'height'],
  box: ['length', 'width', 'height', 'corner'],
  bowl: ['rim', 'foot', 'depth', 'darts', 'gores'],
  sphere: ['diameter', 'gores', 'opening'],
} as const satisfies Record<DraftForm, readonly string[]>;

export type Measure = (typeof FIELDS)[DraftForm][number];

/** Those that a form can do without. */
export const OPTIONAL: ReadonlySet<Measure> = new Set(['topSide', 'corner', 'foot', 'opening']);

export type Measuring = 'outside' | 'middle' | 'inside';
export type Joint = 'butt' | 'bevel';
export type BaseKind = 'none' | 'under' | 'inside';
/** How a bowl closes: one slab with wedges cut out, or separate leaves. */
export type Closing = 'darts' | 'gores';

export interface HandleDraft {
  readonly length: string;
  readonly width: string;
  readonly endWidth: string;
  readonly count: string;
}

export interface Draft {
  readonly form: DraftForm;
  readonly measures: Readonly<Partial<Record<Measure, string>>>;
  readonly thickness: string;
  readonly measured: Measuring;
  readonly joint: Joint;
  readonly allowance: string;
  readonly base: BaseKind;
  readonly closing: Closing;
  readonly faces: 'joined' | 'apart';
  readonly handle?: HandleDraft;
  /** Fields of a kept spec that the page has no place for: they go back as they came. */
  readonly rest: Readonly<Record<string, unknown>>;
}

/** A form to begin with, so that there is something to see. */
export const firstDraft: Draft = {
  form: 'polygon',
  measures: {
    sides: '6',
    bottomSide: '60',
    topSide: '45',
    height: '180',
    diameter: '90',
    bottom: '90',
    top: '140',
    length: '180',
    width: '120',
    corner: '20',
    rim: '200',
    foot: '70',
    depth: '80',
    darts: '8',
    gores: '8',
    opening: '40',
  },
  thickness: '5',
  measured: 'outside',
  joint: 'butt',
  allowance: '',
  base: 'under',
  closing: 'darts',
  faces: 'joined',
  rest: {},
};

export const firstHandle: HandleDraft = {
  length: '180',
  width: '30',
  endWidth: '',
  count: '1',
};

/** Bowls and balls are pinched together, and have neither seam nor base of their own. */
export const isWalled = (form: DraftForm): boolean => form !== 'bowl' && form !== 'sphere';

/** The measures that the form is asked for, as it closes. */
export const asked = ({ form, closing }: Pick<Draft, 'form' | 'closing'>): readonly Measure[] =>
  form === 'bowl'
    ? FIELDS.bowl.filter((name) => name !== (closing === 'darts' ? 'gores' : 'darts'))
    : FIELDS[form];

const typed = (name: string, text: string | undefined): Record<string, number> =>
  text?.trim() ? { [name]: Number(text) } : {};

export function specOf(draft: Draft): Record<string, unknown> {
  const { form, measures, rest, faces } = draft;
  return {
    form,
    ...Object.assign({}, ...asked(draft).map((name) => typed(name, measures[name]))),
    ...thicknessOf(draft),
    ...(form === 'polygon' && faces === 'apart' ? { faces } : {}),
    ...(isWalled(form) ? { ...seamOf(draft), ...baseOf(draft) } : {}),
    ...handleOf(draft.handle),
    ...rest,
  };
}

function thicknessOf({ thickness, measured }: Draft): Record<string, unknown> {
  const { thickness: wall } = typed('thickness', thickness);
  if (wall === undefined) return {};
  return { thickness: measured === 'outside' ? wall : { wall, measured } };
}

function seamOf({ joint, allowance }: Draft): Record<string, unknown> {
  const { allowance: wide } = typed('allowance', allowance);
  if (wide !== undefined) return { seam: { joint, allowance: wide } };
  return joint === 'butt' ? {} : { seam: joint };
}

const baseOf = ({ base }: Draft): Record<string, unknown> =>
  base === 'none' ? {} : { base: base === 'under' ? true : base };

function handleOf(handle: HandleDraft | undefined): Record<string, unknown> {
  if (!handle) return {};
  const fields = Object.entries(handle).map(([name, text]) => typed(name, text));
  return { handle: Object.assign({}, ...fields) };
}

const text = (value: number | undefined): string => (value === undefined ? '' : String(value));

/** What another part of the page holds, or the draft has a field for. */
const KNOWN = new Set<string>([
  ...['form', 'thickness', 'seam', 'base', 'faces', 'handle'],
  ...['name', 'shrinkage', 'sizes', 'nested'],
]);

/** The draft that a kept spec was made from, so that it can be changed. */
export function draftOf(spec: Measured): Draft {
  const given = spec as unknown as Readonly<Record<string, unknown>>;
  const own: readonly string[] = FIELDS[spec.form];
  const measures = Object.fromEntries(
    Object.keys(firstDraft.measures).map((name) => {
      const value = given[name];
      if (typeof value === 'number') return [name, String(value)];
      return [
        name,
        own.includes(name) && OPTIONAL.has(name as Measure) ? '' : firstDraft.measures[name as Measure],
      ];
    }),
  );
  const rest = Object.entries(given).filter(([name]) => !KNOWN.has(name) && !own.includes(name));
  return {
    ...firstDraft,
    form: spec.form,
    measures,
    ...wallOf(spec),
    ...('seam' in spec ? jointOf(spec.seam) : {}),
    base: 'base' in spec ? kindOf(spec.base) : 'none',
    closing: spec.form === 'bowl' && spec.darts === undefined ? 'gores' : 'darts',
    faces: (spec.form === 'polygon' && spec.faces) || 'joined',
    handle: spec.handle && {
      length: text(spec.handle.length),
      width: text(spec.handle.width),
      endWidth: text(spec.handle.endWidth),
      count: text(spec.handle.count),
    },
    rest: Object.fromEntries(rest),
  };
}

function wallOf({ thickness }: Measured): Pick<Draft, 'thickness' | 'measured'> {
  if (typeof thickness === 'object') return { thickness: text(thickness.wall), measured: thickness.measured };
  return { thickness: text(thickness), measured: 'outside' };
}

function jointOf(seam: Extract<Measured, { seam?: unknown }>['seam']): Pick<Draft, 'joint' | 'allowance'> {
  if (typeof seam === 'object') return { joint: seam.joint, allowance: text(seam.allowance) };
  if (typeof seam === 'number') return { joint: 'bevel', allowance: text(seam) };
  return { joint: seam ?? 'butt', allowance: '' };
}

const kindOf = (base: boolean | BaseKind | undefined): BaseKind =>
  base === undefined || base === false ? 'none' : base === true ? 'under' : base;
