/** The templates that are kept, one row each. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { projection } from '../../server/contract/plugin.ts';
import { facts } from '../../server/contract/tables.ts';
import type { Kept } from './kept.ts';

export const templates = facts('templates', {
  template: text('template').notNull(),
  name: text('name').notNull(),
  form: text('form').notNull(),
  version: integer('version').notNull(),
  downloads: integer('downloads').notNull(),
  printed: integer('printed').notNull(),
  putAway: integer('put_away').notNull(),
  /** How many sizes it comes in. */
  sizes: integer('sizes').notNull(),
  /** Whether its sizes are drawn inside one another, where nobody says otherwise. */
  nested: integer('nested').notNull(),
});

export const keptList = projection<Kept>({
  version: 2,
  of: 'template',
  tables: { templates },
  rows: ({ facts: kept, template, version, downloads, printed, putAway }) =>
    kept
      ? {
          templates: [
            {
              template,
              name: kept.name,
              form: kept.spec.form,
              version,
              downloads,
              printed,
              putAway: putAway ? 1 : 0,
              sizes: kept.spec.sizes?.length ?? 1,
              nested: kept.spec.nested ? 1 : 0,
            },
          ],
        }
      : { templates: [] },
});
