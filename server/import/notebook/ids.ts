/**
 * Ids that a notebook's rows and steps always get again, so that the same file records nothing twice and an
 * amended one can tell what an earlier import recorded. UUIDs of version 8 (RFC 9562, 5.8):
 * 12 hex digits say of what (the row, the firing), 3 which step, 10 bits which generation of that step,
 * the last 13 hex digits its content. What can name a person never goes in unless it is an opaque id.
 */
import { createHash } from 'node:crypto';

/** Steps by their code in an id. New ones go to the end. */
const STEPS = [
  'begin',
  'price',
  'bisque',
  'glaze',
  'glaze-fire',
  'fault',
  'repair',
  'grade',
  'left',
  'note',
  'light',
  'end',
  'draw',
  'strike',
  'material',
] as const;
export type StepKind = (typeof STEPS)[number];

export interface StepId {
  /** 12 hex digits. */
  readonly of: string;
  readonly step: StepKind;
  /** Counts up when a step is recorded anew. */
  readonly generation: number;
  /** 13 hex digits. */
  readonly content: string;
}

const hash = (parts: readonly unknown[]): string =>
  createHash('sha256').update(JSON.stringify(parts)).digest('hex');

/** What a row, a firing or a material is known by, as the first part of an id. */
export const identity = (...parts: readonly unknown[]): string => hash(parts).slice(0, 12);

export const contentOf = (...parts: readonly unknown[]): string => hash(parts).slice(0, 13);

/** The first part of a lot's or firing's command ids, and the id of the lot or firing itself, which is never a command's. */
export function named(...parts: readonly unknown[]): { readonly of: string; readonly id: string } {
  const all = hash(parts);
  return { of: all.slice(0, 12), id: dashed(`${all.slice(0, 12)}8fff8${all.slice(12, 27)}`) };
}

export function commandId({ of, step, generation, content }: StepId): string {
  const code = STEPS.indexOf(step).toString(16).padStart(3, '0');
  const variant = (8 + (generation >> 8)).toString(16);
  return dashed(`${of}8${code}${variant}${(generation & 255).toString(16).padStart(2, '0')}${content}`);
}

const dashed = (hex: string): string =>
  `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;

/** What a command's id says; undefined for one that no import made. */
export function readCommandId(command: string): StepId | undefined {
  const hex = command.replaceAll('-', '');
  if (hex.length !== 32 || hex[12] !== '8') return undefined;
  const step = STEPS[Number.parseInt(hex.slice(13, 16), 16)];
  if (step === undefined) return undefined;
  const generation = ((Number.parseInt(hex[16]!, 16) & 3) << 8) + Number.parseInt(hex.slice(17, 19), 16);
  return { of: hex.slice(0, 12), step, generation, content: hex.slice(19) };
}
