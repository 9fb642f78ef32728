/** A table of what the post costs, row by row as it is typed or pasted, and as the command takes it. Pure. */
import { handleOf } from '../../server/contract/studio/values.ts';
import { amountText, minorUnits } from '../words/numbers.ts';
import { tariff as words } from '../words/tariff.ts';
import type { Tariff } from './types.ts';

/** One price: a service in a zone, up to a weight. All as typed. */
export interface Row {
  readonly zone: string;
  /** Two letters each, or * for every country that no other zone names. */
  readonly countries: string;
  readonly service: string;
  /** P, G, E or parcel. */
  readonly formats: string;
  readonly tracked: boolean;
  readonly compensation: string;
  readonly upTo: string;
  readonly price: string;
}
export type Column = keyof Row;

export const COLUMNS = [
  'zone',
  'countries',
  'service',
  'formats',
  'tracked',
  'compensation',
  'upTo',
  'price',
] as const satisfies readonly Column[];

export const blankRow: Row = {
  ...{ zone: '', countries: '', service: '', formats: '', tracked: false },
  ...{ compensation: '', upTo: '', price: '' },
};
export const isBlank = (row: Row): boolean =>
  COLUMNS.every((column) => column === 'tracked' || !String(row[column]).trim());

/** The next weight of the same service: all but weight and price is as in the row above. */
export const rowAfter = (row: Row | undefined): Row => (row ? { ...row, upTo: '', price: '' } : blankRow);

const FORMATS = ['P', 'G', 'E', 'parcel'];
const split = (text: string): string[] => text.split(/[\s,;+/]+/).filter(Boolean);
const formatsOf = ({ formats }: Row): string[] =>
  split(formats).map((one) => (/^parcel$/i.test(one) ? 'parcel' : one.toUpperCase()));
const countriesOf = ({ countries }: Row): string[] | 'rest' =>
  countries.trim() === '*' ? 'rest' : [...new Set(split(countries.toUpperCase()))].sort();
const gramsOf = ({ upTo }: Row): number | undefined => {
  const text = upTo.trim().replace(/(?<=\d)[\s'’](?=\d{3}$)/, '');
  return /^\d{1,6}$/.test(text) && Number(text) > 0 ? Number(text) : undefined;
};
const paysNothing = ({ compensation }: Row): boolean => /^(|0|-|none)$/i.test(compensation.trim());

/** What is wrong in which column. */
export interface Wrong {
  readonly column: Column;
  readonly sentence: string;
}

/** What is wrong with a row by itself. */
function wrongAlone(row: Row, currency: string): Wrong[] {
  const countries = countriesOf(row);
  const formats = formatsOf(row);
  const { wants } = words;
  const fits: readonly (readonly [Column, boolean, string])[] = [
    ['zone', handleOf(row.zone) !== '', wants.zone],
    [
      'countries',
      countries === 'rest' || (countries.length > 0 && countries.every((one) => /^[A-Z]{2}$/.test(one))),
      wants.countries,
    ],
    ['service', handleOf(row.service) !== '', wants.service],
    ['formats', formats.length > 0 && formats.every((one) => FORMATS.includes(one)), wants.formats],
    [
      'compensation',
      paysNothing(row) || minorUnits(row.compensation, currency) !== undefined,
      wants.compensation(currency),
    ],
    ['upTo', gramsOf(row) !== undefined, wants.grams],
    ['price', minorUnits(row.price, currency) !== undefined, wants.price(currency)],
  ];
  return fits.flatMap(([column, fit, sentence]) => (fit ? [] : [{ column, sentence }]));
}

const serviceOf = (row: Row): string => `${handleOf(row.service)}-${handleOf(row.zone)}`;
const sameIn = (row: Row, other: Row, of: (row: Row) => unknown): boolean =>
  JSON.stringify(of(row)) === JSON.stringify(of(other));

/** Where a row and one above it cannot both be true. @param above numbered from 1 */
function wrongBeside(row: Row, above: readonly (readonly [number, Row])[]): Wrong[] {
  const zone = above.find(([, other]) => handleOf(other.zone) === handleOf(row.zone));
  const service = above.find(([, other]) => serviceOf(other) === serviceOf(row));
  const weight = above.find(
    ([, other]) => serviceOf(other) === serviceOf(row) && gramsOf(other) === gramsOf(row),
  );
  const countries = countriesOf(row);
  const taken = above.find(([, other]) => {
    if (handleOf(other.zone) === handleOf(row.zone)) return false;
    const theirs = countriesOf(other);
    return countries === 'rest' || theirs === 'rest'
      ? countries === theirs
      : theirs.some((one) => countries.includes(one));
  });
  const found: Wrong[] = [];
  if (zone && !sameIn(row, zone[1], countriesOf))
    found.push({ column: 'countries', sentence: words.otherCountries(zone[0], row.zone.trim()) });
  if (taken) found.push({ column: 'countries', sentence: words.countryTwice(taken[0]) });
  if (service && !sameIn(row, service[1], (it) => [formatsOf(it).sort(), it.tracked]))
    found.push({ column: 'formats', sentence: words.otherService(service[0]) });
  if (weight) found.push({ column: 'upTo', sentence: words.weightTwice(weight[0]) });
  return found;
}

/** Of each row, what is wrong with it; an empty list where nothing is, and for blank rows. */
export function wrongRows(rows: readonly Row[], currency: string): readonly (readonly Wrong[])[] {
  const numbered = rows.map((row, n) => [n + 1, row] as const).filter(([, row]) => !isBlank(row));
  return rows.map((row, n) => {
    if (isBlank(row)) return [];
    const alone = wrongAlone(row, currency);
    if (alone.length > 0) return alone;
    return wrongBeside(
      row,
      numbered.filter(([at]) => at <= n),
    );
  });
}

type Money = { amount: number; currency: string };
interface Service {
  readonly id: string;
  readonly name: string;
  readonly zone: string;
  readonly formats: readonly string[];
  readonly tracked: boolean;
  readonly compensation?: Money;
  readonly steps: { upTo: number; price: Money }[];
}
interface Zone {
  readonly id: string;
  readonly name: string;
  readonly countries: string[] | 'rest';
}

/** As the command takes it. @param rows of which none is wrong */
export function tariffOf(rows: readonly Row[], currency: string): { zones: Zone[]; services: Service[] } {
  const zones = new Map<string, Zone>();
  const services = new Map<string, Service>();
  const money = (text: string): Money => ({ amount: minorUnits(text, currency)!, currency });
  for (const row of rows.filter((one) => !isBlank(one))) {
    const zone = handleOf(row.zone);
    zones.set(zone, { id: zone, name: row.zone.trim(), countries: countriesOf(row) });
    const id = serviceOf(row);
    const service = services.get(id) ?? {
      id,
      name: row.service.trim(),
      zone,
      formats: formatsOf(row),
      tracked: row.tracked,
      ...(paysNothing(row) ? {} : { compensation: money(row.compensation) }),
      steps: [],
    };
    service.steps.push({ upTo: gramsOf(row)!, price: money(row.price) });
    services.set(id, service);
  }
  for (const { steps } of services.values()) steps.sort((a, b) => a.upTo - b.upTo);
  return { zones: [...zones.values()], services: [...services.values()] };
}

/** A table that is there, as rows to be written anew. */
export const rowsOf = ({ zones, services }: Tariff): Row[] =>
  services.flatMap(({ name, zone: id, formats, tracked, compensation, steps }) => {
    const zone = zones.find((one) => one.id === id)!;
    return steps.map(({ upTo, price }) => ({
      zone: zone.name,
      countries: zone.countries === 'rest' ? '*' : zone.countries.join(' '),
      service: name,
      formats: formats.join(' '),
      tracked,
      compensation: compensation ? amountText(compensation.amount, compensation.currency) : '',
      upTo: String(upTo),
      price: amountText(price.amount, price.currency),
    }));
  });

/** Cells of one line: between tabs as a spreadsheet gives them, else between semicolons, else commas. */
function cellsOf(line: string): string[] {
  const mark = line.includes('\t') ? '\t' : line.includes(';') ? ';' : ',';
  return line.split(mark).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
}

const YES = /^(yes|y|true|1|x)$/i;

/** Rows of a spreadsheet, in the order of the columns here. A row of headings is passed over. */
export function pasted(text: string): Row[] {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const rows = lines.map((line): Row => {
    const [zone, countries, service, formats, tracked, compensation, upTo, price] = cellsOf(line);
    return {
      ...{ zone: zone ?? '', countries: countries ?? '', service: service ?? '', formats: formats ?? '' },
      tracked: YES.test(tracked ?? ''),
      ...{ compensation: compensation ?? '', upTo: upTo ?? '', price: price ?? '' },
    };
  });
  const headed = rows[0] !== undefined && !/\d/.test(rows[0].price) && !/\d/.test(rows[0].upTo);
  return headed ? rows.slice(1) : rows;
}
