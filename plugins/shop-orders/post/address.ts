/**
 * An address as the post of its destination reads it. The order of lines by country is that of the data
 * behind localized-address-format (postal address formats by country, in the spirit of UPU S42); the
 * country stands last, in capitals, in a language that the post of the origin reads.
 */
import { formatAddress } from 'localized-address-format';
import { countryOnLabel } from './countries.ts';

export interface Destination {
  readonly name?: string;
  /** The street and all below it, down to the town; without postcode and country. */
  readonly lines: readonly string[];
  readonly postcode?: string;
  readonly country: string;
}

/** Written from the largest to the smallest, as in Chinese, Japanese and Korean. */
const LARGEST_FIRST = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}]/u;

/** @param origin where it is posted: at home no country is written */
export function addressLines(to: Destination, origin?: string): string[] {
  const { country } = to;
  return [...body(to), ...(country === origin ? [] : [countryOnLabel(country)])];
}

function body({ name, lines, postcode, country }: Destination): string[] {
  const written = postcode && lines.some((line) => line.includes(postcode));
  const postalCode = written ? undefined : postcode;
  const largestFirst = LARGEST_FIRST.test(lines.join(''));
  const script = largestFirst ? 'local' : 'latin';
  const whole = { postalCountry: country, postalCode, name, addressLines: [...lines] };
  /* Their own people have put the lines in order; only postcode and name have a place to find. */
  if (largestFirst || lines.length < 2 || written) return formatAddress(whole, script);
  const formatted = formatAddress(
    { ...whole, addressLines: lines.slice(0, -1), locality: lines.at(-1)! },
    script,
  );
  /* Where the town has no line of its own it would be left out. */
  return formatted.some((line) => line.includes(lines.at(-1)!)) ? formatted : formatAddress(whole, script);
}
