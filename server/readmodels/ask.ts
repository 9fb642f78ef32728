/** What a report may ask, answered from one moment of its plugin's read model. */
import { drizzle } from 'drizzle-orm/sqlite-proxy';
import type { Ask, Settings } from '../contract/plugin.ts';
import { type StreamRef, streamName } from '../contract/streams.ts';
import type { People } from '../people/people.ts';
import type { Reading } from './reading.ts';
import type { Stories } from './stories.ts';

export interface Asking {
  readonly reading: Reading;
  readonly stories: Stories;
  readonly people: People;
  /** Where the plugin wants 'files'. */
  readonly picture?: Ask['picture'];
  readonly settings: Settings;
  readonly today: string;
  readonly past: string;
  /** Of the plugin and this past; see Ask.kept. */
  readonly kept: <T>(key: string, make: () => Promise<T>) => Promise<T>;
}

/** Rows of one query at most: a report adds up in SQL and pages what is long. */
const MOST_ROWS = 500_000;

export function askOn({ reading, stories, people, picture, settings, today, past, kept }: Asking): Ask {
  const read = <R>(
    sql: string,
    params: readonly unknown[],
    rows: (sql: string, params: readonly unknown[]) => R[],
  ) => {
    mustOnlyRead(sql);
    const found = rows.call(reading, sql, params.map(bound));
    if (found.length > MOST_ROWS) throw new Error(`a query may answer ${MOST_ROWS} rows at most`);
    return found;
  };
  return {
    query: async <R>(sql: string, params: readonly (string | number | null)[] = []) =>
      read(sql, params, reading.rows) as R[],
    db: drizzle(async (sql, params, method) => {
      const rows = read(sql, params, reading.arrays);
      return { rows: method === 'get' ? (rows[0] as unknown[]) : rows };
    }),
    story: async (stream) => (await stories.story(stream, reading.position)).slice(),
    state: <State>(kind: StreamRef<State>, key: string) =>
      stories.state(streamName(kind, key), reading.position) as Promise<State>,
    texts: (refs) => people.read([...new Set(refs.map((ref) => ref.text))]),
    textSearch: (words) => people.search(words),
    ...(picture ? { picture } : {}),
    settings,
    today,
    position: reading.position,
    past,
    kept: (key, make, tables) => kept(`${reading.changed(tables)} ${key}`, make),
  };
}

/** The connection refuses writes by itself; this keeps its settings and other files out of reach as well. */
function mustOnlyRead(sql: string): void {
  if (!/^(\s|--[^\n]*\n|\/\*[\s\S]*?\*\/|\()*(select|with|values)\b/i.test(sql))
    throw new Error('a report may only read: its SQL begins with SELECT, WITH or VALUES');
}

/** The driver ends the process on a boolean and takes undefined for null. */
function bound(value: unknown): string | number | bigint | null {
  if (value === null || typeof value === 'string' || typeof value === 'bigint') return value;
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  if (typeof value === 'boolean') return value ? 1 : 0;
  throw new Error(`SQL parameters are text, numbers or null, not ${typeof value} (${String(value)})`);
}
