/** A table of prices as it is typed, one price a line, and as the command takes it. */
import { handleOf } from '../../server/contract/studio/values.ts';
import { minorUnits } from '../words/numbers.ts';
import { shop as words } from '../words/shop.ts';

interface Service {
  id: string;
  name: string;
  zone: string;
  formats: string[];
  tracked: boolean;
  compensation?: { amount: number; currency: string };
  steps: { upTo: number; price: { amount: number; currency: string } }[];
}
interface Zone {
  id: string;
  name: string;
  countries: string[] | 'rest';
}

type Read =
  | { readonly zones: readonly Zone[]; readonly services: readonly Service[] }
  | { readonly wrong: string };

const FORMATS = ['P', 'G', 'E', 'parcel'];

interface Row {
  readonly zone: string;
  readonly countries: string[] | 'rest';
  readonly service: string;
  readonly formats: string[];
  readonly tracked: boolean;
  readonly compensation: number | undefined;
  readonly upTo: number;
  readonly price: number;
}

function readRow(line: string, currency: string): Row | string {
  const parts = line.split(',').map((part) => part.trim());
  if (parts.length !== 8) return words.wants.parts;
  const [zone, where, service, as, trackedText, paid, grams, cost] = parts as [
    string,
    string,
    string,
    string,
    string,
    string,
    string,
    string,
  ];
  const countries = where === '*' ? 'rest' : where.toUpperCase().split(/\s+/);
  const formats = as
    .split(/\s+/)
    .map((one) => (one.toLowerCase() === 'parcel' ? 'parcel' : one.toUpperCase()));
  const price = minorUnits(cost, currency);
  const compensation = paid === '' || paid === '0' ? undefined : minorUnits(paid, currency);
  if (!handleOf(zone)) return words.wants.zone;
  if (countries !== 'rest' && countries.some((one) => !/^[A-Z]{2}$/.test(one))) return words.wants.countries;
  if (!handleOf(service)) return words.wants.service;
  if (formats.some((one) => !FORMATS.includes(one))) return words.wants.formats;
  if (!/^(yes|no)$/i.test(trackedText)) return words.wants.tracked;
  if (price === undefined || (paid !== '' && paid !== '0' && compensation === undefined))
    return words.wants.money;
  if (!/^\d+$/.test(grams) || Number(grams) < 1) return words.wants.grams;
  const tracked = /^yes$/i.test(trackedText);
  return { zone, countries, service, formats, tracked, compensation, upTo: Number(grams), price };
}

/** @param currency of every amount in the table */
export function readTariff(text: string, currency: string): Read {
  const zones = new Map<string, Zone>();
  const services = new Map<string, Service>();
  for (const [at, line] of text.split('\n').entries()) {
    if (!line.trim()) continue;
    const row = readRow(line, currency);
    if (typeof row === 'string') return { wrong: words.tableWrong(at + 1, row) };
    const zone = handleOf(row.zone);
    zones.set(zone, { id: zone, name: row.zone, countries: row.countries });
    const id = `${handleOf(row.service)}-${zone}`;
    const { compensation } = row;
    const service = services.get(id) ?? {
      id,
      name: row.service,
      zone,
      formats: row.formats,
      tracked: row.tracked,
      ...(compensation === undefined ? {} : { compensation: { amount: compensation, currency } }),
      steps: [],
    };
    service.steps.push({ upTo: row.upTo, price: { amount: row.price, currency } });
    services.set(id, service);
  }
  if (services.size === 0) return { wrong: words.tableWrong(1, words.wants.parts) };
  for (const { steps } of services.values()) steps.sort((a, b) => a.upTo - b.upTo);
  return { zones: [...zones.values()], services: [...services.values()] };
}
