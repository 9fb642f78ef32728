/** The columns of a graded piece or lot, shared by the tables that list them. */
import { integer, text } from 'drizzle-orm/sqlite-core';

/** New columns at each call: a column belongs to one table. */
export const gradedPiece = () => ({
  piece: text('piece').notNull(),
  mark: text('mark'),
  form: text('form'),
  count: integer('count').notNull(),
  grade: text('grade').notNull(),
  day: text('day').notNull(),
  owner: text('owner').notNull(),
  lost: integer('lost').notNull(),
  currency: text('currency').notNull(),
});
