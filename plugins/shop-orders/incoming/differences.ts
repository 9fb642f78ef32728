/** What a file or feed says otherwise than it said before. */
import { moneyInWords } from '../../../server/contract/amounts.ts';
import { handleOf } from '../../../server/contract/studio/values.ts';
import type { TextRef } from '../../../server/contract/text.ts';
import type { Order } from '../state/order.ts';
import type { Line } from '../values.ts';
import type { SaidLine, SaidOrder } from './said.ts';

const TEXTS = ['name', 'email', 'address', 'postcode', 'note'] as const;

export interface Differences {
  /** Input of a change; empty when all is as it was. */
  readonly input: Readonly<Record<string, unknown>>;
  readonly sentences: readonly string[];
}

const PLAIN: Readonly<Record<string, string>> = {
  name: 'the name',
  email: 'the e-mail address',
  address: 'the address',
  postcode: 'the postcode',
  note: 'the note',
};

/** References of all that was said in words. */
export const textsIn = ({ said }: Order): TextRef[] => TEXTS.flatMap((field) => said[field] ?? []);

/** @param texts what the references say; null for an erased one, which stays erased */
export function differences(
  order: Order,
  now: SaidOrder,
  texts: ReadonlyMap<string, string | null>,
): Differences {
  const { said } = order;
  const input: Record<string, unknown> = {};
  const sentences: string[] = [];
  for (const field of TEXTS) {
    const value = now[field];
    if (value === undefined) continue;
    const ref = said[field];
    const before = ref && texts.get(ref.text);
    if (before === null || before === value) continue;
    input[field] = value;
    sentences.push(`${PLAIN[field]} is another one`);
  }
  if (now.country !== undefined && now.country !== said.country) {
    input.country = now.country;
    sentences.push(`country ${said.country} → ${now.country}`);
  }
  if (now.promise !== undefined && now.promise !== said.promise) {
    input.promise = now.promise;
    sentences.push(`promised for ${said.promise} → ${now.promise}`);
  }
  if (now.postage !== undefined && JSON.stringify(now.postage) !== JSON.stringify(said.postage)) {
    input.postage = now.postage;
    sentences.push(
      `postage ${said.postage ? moneyInWords(said.postage) : 'none'} → ${moneyInWords(now.postage)}`,
    );
  }
  const lines = now.partly ? [] : lineDifferences(said.lines ?? [], now.lines);
  if (lines.length > 0) {
    input.lines = now.lines;
    sentences.push(...lines);
  }
  return { input, sentences };
}

/** '2', or '2 at £6.50'. */
const amount = ({ quantity, price }: SaidLine | Line): string =>
  price ? `${quantity} at ${moneyInWords(price)}` : String(quantity);

const keyOf = ({ item, quantity, price }: SaidLine | Line): string =>
  JSON.stringify([handleOf(item), quantity, price?.amount ?? null, price?.currency ?? null]);

function lineDifferences(before: readonly Line[], now: readonly SaidLine[]): string[] {
  const left = new Map<string, (SaidLine | Line)[]>();
  for (const line of before) left.set(keyOf(line), [...(left.get(keyOf(line)) ?? []), line]);
  const fresh = now.filter((line) => !left.get(keyOf(line))?.pop());
  const gone = [...left.values()].flat();
  return fresh
    .map((line) => {
      const at = gone.findIndex((old) => handleOf(old.item) === handleOf(line.item));
      const old = at < 0 ? undefined : gone.splice(at, 1)[0];
      return old ? `${line.item}: ${amount(old)} → ${amount(line)}` : `${amount(line)} × ${line.item} is new`;
    })
    .concat(gone.map((line) => `${amount(line)} × ${line.item} is gone`));
}
