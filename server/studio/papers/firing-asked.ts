/** The firing that a sheet is asked for, told as on its page. */
import { z } from 'zod';
import { type Ask, PaperRefused } from '../../contract/plugin.ts';
import { dayText } from '../../contract/reports/words.ts';
import type { Firing } from '../../contract/studio/state.ts';
import { id } from '../../contract/studio/values.ts';
import { firingPage } from '../reports/firing.ts';
import { anyName, namesOf } from '../reports/names.ts';
import type { LoadRow } from './said.ts';

export const PAPER_SIZE = z.enum(['A4', 'Letter']).default('A4');

export const firingAsked = z.strictObject({ firing: id, paper: PAPER_SIZE });

export interface ToldFiring {
  readonly title: string;
  readonly firing: Firing & { readonly kilnName: string; readonly scheduleName: string | null };
  readonly pieces: number;
  readonly rows: readonly LoadRow[];
  /** Kiln, schedule and days, as far as they are known. */
  readonly facts: [string, string][];
}

const ROLES = { bisque: 'Bisque', glaze: 'Glaze', lustre: 'Lustre', other: 'Other' } as const;

/** @throws PaperRefused where there is no such firing, or nothing in it */
export async function toldFiring(ask: Ask, firing: string): Promise<ToldFiring> {
  const { rows, more } = await firingPage(ask, anyName(await namesOf(ask)), { firing });
  const told = more as { firing: ToldFiring['firing'] | null; pieces?: number };
  if (told.firing === null) throw new PaperRefused('There is no such firing at that time.', 'firing');
  if (rows.length === 0) throw new PaperRefused('Nothing is packed in this firing.', 'firing');
  const { kilnName, scheduleName, role, label, packedAt, litAt, endedAt, top } = told.firing;
  const day = (at: string | undefined) => (at === undefined ? undefined : dayText(at.slice(0, 10)));
  const facts: readonly (readonly [string, string | null | undefined])[] = [
    ['Kiln', kilnName],
    ['Schedule', scheduleName],
    ['Firing', role === undefined ? undefined : ROLES[role]],
    ['Packed', day(packedAt)],
    ['Lit', day(litAt)],
    ['Ended', [day(endedAt), top === undefined ? undefined : `${top} °C`].filter(Boolean).join(', ')],
  ];
  return {
    title: label ?? `Firing in ${kilnName}`,
    firing: told.firing,
    pieces: told.pieces ?? 0,
    rows: rows as unknown as LoadRow[],
    facts: facts.flatMap(([name, value]): [string, string][] => (value ? [[name, value]] : [])),
  };
}
