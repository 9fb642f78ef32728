/** Countries by ISO 3166-1 alpha-2, and what they are called. */
import iso from 'iso-3166-1';

/** In use for Kosovo's post, and user-assigned in ISO 3166-1. */
const USER_ASSIGNED = ['XK'];

const CODES: ReadonlySet<string> = new Set([...iso.all().map((one) => one.alpha2), ...USER_ASSIGNED]);

export const isCountry = (code: string): boolean => CODES.has(code);

export const countryCodes = (): readonly string[] => [...CODES].sort();

const english = new Intl.DisplayNames('en-GB', { type: 'region' });

export const countryName = (code: string): string => english.of(code) ?? code;

/** The country's name in capitals, in English, as the post of any origin can read it on a label. */
export const countryOnLabel = (code: string): string => countryName(code).toUpperCase();
