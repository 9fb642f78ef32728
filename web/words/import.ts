import { countText, firings, pieces } from './numbers.ts';

const entries = (n: number): string => `${countText(n)} ${n === 1 ? 'entry' : 'entries'}`;
const rows = (n: number): string => `${countText(n)} ${n === 1 ? 'row' : 'rows'}`;

export const imports = {
  choose: 'Choose the file',
  chooseHint: 'Saved as CSV from any spreadsheet. Commas, semicolons or tabs between the cells will do.',
  columns: 'Which headings are understood',
  reading: 'Reading the file. Nothing is recorded yet.',
  recording: 'Recording. You can leave this page; it goes on.',
  progress: (done: number, of: number) => `${countText(done)} of ${countText(of)}`,
  preview: 'What would be recorded',
  previewSome: (n: number, of: number) => `The first ${rows(n)} of ${countText(of)} are shown.`,
  already: 'Recorded already; nothing new.',
  struck: (n: number) =>
    `${entries(n)} of an earlier import would be struck out, because the file was changed.`,
  line: (n: number) => `Line ${countText(n)}`,
  would: (recorded: number, of: string) => `${entries(recorded)} would be recorded: ${of}.`,
  wouldNothing: 'Nothing new would be recorded: all of it is in the record already.',
  wouldNone: 'Nothing can be recorded from this file as it is.',
  did: (recorded: number, of: string) => `${entries(recorded)} recorded: ${of}.`,
  repeated: (n: number) => `${countText(n)} had been recorded before and were left as they are.`,
  takeAgain: (n: number) =>
    n === 1
      ? 'Take in again the one that was struck out'
      : `Take in again the ${countText(n)} that were struck out`,
  struckDid: (n: number) =>
    `${entries(n)} of an earlier import were struck out, because the file was changed.`,
  bad: (n: number) =>
    n === 1
      ? 'One thing in the file is not as it should be'
      : `${countText(n)} things in the file are not as they should be`,
  badLead:
    'The rows named here are left out; all the others are kept. Put them right in the file and import it again: nothing is recorded twice.',
  badLine: 'Line',
  badColumn: 'Column',
  badFound: 'Found',
  badExpected: 'Expected',
  wholeRow: 'the whole row',
  added: 'New in the studio',
  addedOf: {
    clays: 'Clays',
    glazes: 'Glazes',
    schedules: 'Schedules',
    kilns: 'Kilns',
    faults: 'Faults',
    repairs: 'Repairs',
    zones: 'Zones',
    people: 'People',
    items: 'Items',
    buyers: 'Buyers',
  } as Readonly<Record<string, string>>,
  headings: 'Headings of the file',
  headingsLead: 'Say what each heading stands for. This is remembered for files with the same headings.',
  leftOut: 'left out',
  mapAgain: 'Read it again with these headings',
  record: (n: number) => `Record ${entries(n)}`,
  another: 'Choose another file',
  done: 'The import is done',
  notes: 'How the file was read',
} as const;

/** Our columns as they read on the page. */
const notebookColumns: Readonly<Record<string, string>> = {
  piece: 'piece: its foot mark',
  count: 'count: how many alike',
  made: 'made: the day it was begun',
  form: 'form: what it is',
  clay: 'clay',
  owner: 'owner: own, or commission, student, hire and a name',
  bisque_schedule: 'bisque_schedule',
  bisque_firing: 'bisque_firing: its name',
  bisque_fired: 'bisque_fired: the day',
  bisque_kiln: 'bisque_kiln',
  glazes: 'glazes: by zone, the lowest layer first',
  glaze_schedule: 'glaze_schedule',
  glaze_firing: 'glaze_firing: its name',
  glaze_fired: 'glaze_fired: the day',
  kiln: 'kiln: of the glaze firing',
  faults: 'faults: kind and zone',
  grade: 'grade: first, second, waster, or counts',
  repair: 'repair: what was done before the grade',
  price: 'price: as a first',
  second_price: 'second_price: as a second',
  left: 'left: how, and the day',
  note: 'note',
};

const orderColumns: Readonly<Record<string, string>> = {
  order: 'order: its number',
  placed: 'placed: the day',
  promise: 'promise: the day by which it is to be posted',
  customer: 'customer: the name',
  email: 'email',
  address: 'address: its lines with | between them',
  postcode: 'postcode',
  country: 'country: two letters',
  item: 'item',
  quantity: 'quantity',
  price: 'price: of one',
  currency: 'currency: three letters',
  posted: 'posted: the day',
  service: 'service',
  number: 'number: on the receipt or label',
  arrived: 'arrived: the day',
  note: 'note',
};

/** What the page says of a kind of file. */
export interface FileWords {
  readonly kind: string;
  readonly title: string;
  readonly lead: string;
  readonly columnsLead: string;
  readonly columns: Readonly<Record<string, string>>;
  /** What the rows speak of: '12 pieces, 3 firings'. */
  readonly of: (summary: Counted) => string;
  readonly see: string;
  readonly seeAt: string;
}
interface Counted {
  readonly pieces?: number;
  readonly firings?: number;
  readonly counts?: Readonly<Record<string, number>>;
}

export const notebook: FileWords = {
  kind: 'notebook',
  title: 'Import',
  lead: 'A notebook kept as a table comes in as CSV: one row for each piece or lot. You see what would be recorded before anything is.',
  columnsLead:
    'Only “made” or “piece” must be there; other columns may be missing. Headings of your own can be matched to these after the file is read.',
  columns: notebookColumns,
  of: (summary) => `${pieces(summary.pieces ?? 0)}, ${firings(summary.firings ?? 0)}`,
  see: 'See the ware',
  seeAt: '/ware',
};

const manyOrders = (n: number): string => `${countText(n)} ${n === 1 ? 'order' : 'orders'}`;
const manyParcels = (n: number): string => `${countText(n)} ${n === 1 ? 'parcel' : 'parcels'}`;

export const orderFile: FileWords = {
  kind: 'orders',
  title: 'Bring in orders',
  lead: 'Orders kept as a table come in as CSV: one row for each line of an order. You see what would be recorded before anything is.',
  columnsLead:
    '“order” and “item” must be there. Headings of your own can be matched to these after the file is read.',
  columns: orderColumns,
  of: ({ counts = {} }) => `${manyOrders(counts.order ?? 0)}, ${manyParcels(counts.parcel ?? 0)}`,
  see: 'See what is to be packed',
  seeAt: '/post',
};
