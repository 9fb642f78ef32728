/** What is typed about a form, and the spec that it stands for. Pure. */
import type { Form } from '../../plugins/template-sheets/spec/spec.ts';

export type DraftForm = Exclude<Form, 'drawing'>;

export const FIELDS = {
  cylinder: ['diameter', 'height'],
  frustum: ['bottom', 'top', 'height'],
  polygon: ['sides', 'bottomSide', 'topSide', 'height'],
  oval: ['length', 'width', 'height'],
  box: ['length', 'width', 'height', 'corner'],
  bowl: ['rim', 'foot', 'depth', 'darts'],
  sphere: ['diameter', 'gores', 'opening'],
} as const satisfies Record<DraftForm, readonly string[]>;

export type Measure = (typeof FIELDS)[DraftForm][number] | 'thickness' | 'seam';

export interface Draft {
  readonly form: DraftForm;
  readonly base: boolean;
  readonly measures: Readonly<Partial<Record<Measure, string>>>;
}

/** A form to begin with, so that there is something to see. */
export const firstDraft: Draft = {
  form: 'polygon',
  base: true,
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
    thickness: '5',
  },
};

/** Bowls and balls are pinched together, and have neither seam nor base of their own. */
export const isWalled = (form: DraftForm): boolean => form !== 'bowl' && form !== 'sphere';

export function specOf({ form, base, measures }: Draft): Record<string, unknown> {
  const wanted: readonly Measure[] = [
    ...FIELDS[form],
    'thickness',
    ...(isWalled(form) ? (['seam'] as const) : []),
  ];
  const given = wanted.flatMap((name) =>
    measures[name]?.trim() ? [[name, Number(measures[name])] as const] : [],
  );
  return { form, ...Object.fromEntries(given), ...(isWalled(form) && base ? { base: true } : {}) };
}

/** The draft that a kept spec was made from, so that it can be changed. */
export function draftOf(spec: Record<string, unknown>): Draft {
  const measures = Object.fromEntries(
    Object.entries(spec).flatMap(([name, value]) =>
      typeof value === 'number' ? [[name, String(value)]] : [],
    ),
  );
  return { form: spec.form as DraftForm, base: Boolean(spec.base), measures };
}
