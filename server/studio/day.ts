/** What a device keeps for the day's work: what stands in a kiln or waits, the materials, and the ware that was touched last. */
import type { Ask } from '../contract/plugin.ts';
import { SETTINGS_STREAM } from './materials/known.ts';

/** Lots kept on a device, beyond those in kilns that are not drawn: some megabytes. */
const MOST_LOTS = 800;
/** A firing stays at hand for a while after it was drawn: grading goes on. */
const DAYS_AFTER_DRAWING = 14;

const daysBefore = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) - days * 86_400_000).toISOString().slice(0, 10);

async function names(ask: Ask, sql: string, params: readonly (string | number)[] = []): Promise<string[]> {
  return (await ask.query<{ stream: string }>(sql, params)).map(({ stream }) => stream);
}

export async function dayStreams(ask: Ask): Promise<readonly string[]> {
  const since = daysBefore(ask.today, DAYS_AFTER_DRAWING);
  const atHand = `state IN ('packed', 'lit', 'ended') OR (state = 'drawn' AND substr(drawn_at, 1, 10) >= ?)`;
  const materials = await names(
    ask,
    `SELECT stream FROM kilns UNION ALL SELECT stream FROM schedules UNION ALL SELECT stream FROM clays
     UNION ALL SELECT stream FROM glazes UNION ALL SELECT stream FROM people WHERE forgotten = 0`,
  );
  const firings = await names(ask, `SELECT stream FROM firings WHERE ${atHand} ORDER BY changed_seq DESC`, [
    since,
  ]);
  const inKilns = await names(
    ask,
    `SELECT DISTINCT ware.stream AS stream FROM firings JOIN links ON links.tag = 'firing:' || firings.firing
     JOIN ware ON ware.piece = links.piece WHERE ${atHand}`,
    [since],
  );
  const here = await names(
    ask,
    `SELECT stream FROM ware WHERE stage <> 'left' GROUP BY stream
     ORDER BY max(stage IN ('mending', 'glaze-fired')) DESC, max(changed_seq) DESC LIMIT ?`,
    [MOST_LOTS],
  );
  return [SETTINGS_STREAM, ...materials, ...firings, ...inKilns, ...here];
}
