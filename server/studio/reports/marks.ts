/** Every foot mark in the studio, short: what a typed or scanned code is looked up in, without a network too. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';

/** The newest are kept where a studio has more. */
const MOST = 20_000;

async function marks(ask: Ask): Promise<Answered> {
  const rows = await ask.query(
    `SELECT mark, piece, count, form, stage, in_firing AS firing FROM ware
     WHERE stage <> 'left' AND mark IS NOT NULL ORDER BY changed_seq DESC LIMIT ${MOST}`,
  );
  return {
    sentence: `${rows.length} ${rows.length === 1 ? 'mark' : 'marks'} in the studio.`,
    rows,
    notes: [],
    figures: [],
  };
}

export const marksReport = report({
  title: 'Foot marks',
  unlisted: true,
  input: z.strictObject({}),
  run: marks,
});
