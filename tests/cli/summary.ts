/** What an import of two rows may have done. */
import type { Summary } from '../../server/import/notebook/import.ts';

export const SUMMARY: Summary = {
  rows: 2,
  recorded: 9,
  struck: 0,
  repeated: 1,
  pieces: 13,
  firings: 1,
  added: { clays: [], glazes: ['Marram Green'], schedules: [], kilns: [], people: [] },
  bad: [],
  headings: [],
  unknown: [],
  mapping: {},
  encoding: 'utf-8',
  notes: [],
};
