/** Materials, the user's own words, people and settings. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../contract/plugin.ts';
import { FAULTS, REPAIRS, ZONES } from '../../contract/trade.ts';

const KINDS = { clay: 'clays', glaze: 'glazes', schedule: 'schedules', kiln: 'kilns' } as const;
const kind = z.enum(['clay', 'glaze', 'schedule', 'kiln']);

interface MaterialRow {
  id: string;
  name: string;
  facts: string;
  version: number;
  batches: string;
  photos: string;
}

async function materials(ask: Ask, input: { kind?: z.infer<typeof kind> }): Promise<Answered> {
  const kinds = input.kind ? [input.kind] : kind.options;
  const rows = [];
  for (const of of kinds) {
    const found = await ask.query<MaterialRow>(
      `SELECT id, name, facts, version, batches, photos FROM ${KINDS[of]} ORDER BY name`,
    );
    rows.push(
      ...found.map((m) => ({
        ...m,
        kind: of,
        facts: JSON.parse(m.facts),
        batches: JSON.parse(m.batches),
        photos: JSON.parse(m.photos),
      })),
    );
  }
  const words = await ask.query<{ kind: 'fault' | 'repair' | 'zone'; id: string; name: string }>(
    'SELECT kind, id, name FROM words',
  );
  const trade = { fault: FAULTS, repair: REPAIRS, zone: ZONES };
  const own = (of: keyof typeof trade) =>
    words.filter((w) => w.kind === of).map(({ id, name }) => ({ id, name, own: true }));
  const all = (of: keyof typeof trade) => [
    ...trade[of].map((id) => ({ id, name: id.replaceAll('-', ' '), own: false })),
    ...own(of),
  ];
  return {
    sentence: `${rows.length} materials, schedules and kilns.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Materials',
        columns: [
          { field: 'kind', label: 'Kind', kind: 'code' },
          { field: 'name', label: 'Name', kind: 'text' },
          { field: 'version', label: 'Version', kind: 'count' },
        ],
      },
    ],
    more: {
      words: { fault: all('fault'), repair: all('repair'), zone: all('zone') },
      settings: ask.settings,
    },
  };
}

async function people(ask: Ask): Promise<Answered> {
  const found = await ask.query<{ person: string; forgotten: number }>(
    'SELECT person, forgotten FROM people ORDER BY person',
  );
  const counts = await ask.query<{ person: string; pieces: number; roles: string }>(
    'SELECT person, sum(count) AS pieces, group_concat(DISTINCT owner) AS roles FROM ware WHERE person IS NOT NULL GROUP BY person',
  );
  const by = new Map(counts.map((c) => [c.person, c]));
  const rows = found.map(({ person, forgotten }) => ({
    person,
    name: { person },
    forgotten: forgotten === 1,
    pieces: by.get(person)?.pieces ?? 0,
    roles: by.get(person)?.roles ?? '',
    ware: `/ware?owner=${encodeURIComponent(person)}`,
  }));
  return {
    sentence: `${rows.length} people.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'People',
        columns: [
          { field: 'name', label: 'Name', kind: 'person', behind: 'ware' },
          { field: 'roles', label: 'As', kind: 'text' },
          { field: 'pieces', label: 'Pieces', kind: 'count' },
        ],
      },
    ],
  };
}

export const materialsReport = report({
  title: 'Materials',
  unlisted: true,
  input: z.strictObject({ kind: kind.optional() }),
  run: materials,
});
export const peopleReport = report({
  title: 'People',
  unlisted: true,
  input: z.strictObject({}),
  run: people,
});
