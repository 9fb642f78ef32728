/**
 * Canonical JSON by RFC 8785 (JSON Canonicalization Scheme), and a guard against everything that the
 * log could not give back exactly as it came. Guard and writing are one walk; why this is our own
 * code is in docs/decisions/canonical-json.md.
 */
import { Unkeepable } from './log.ts';

/** RFC 8785 itself allows any double; the log refuses integers that JavaScript has rounded already. */
export interface CanonicalRules {
  readonly integers: 'safe' | 'any';
}

const DEEPEST = 200;
const REFUSED_KEYS = new Set(['__proto__', 'constructor', 'prototype']);
/** What JSON must escape, and surrogates, of which a lone one must be refused. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const NOT_PLAIN = /["\\\u0000-\u001f\ud800-\udfff]/;
const LONE_SURROGATE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;

/** One walk over a value, with the way to where it stands; reused, since making one costs as much as a small walk. */
class Walk {
  private at = '';
  private trail: (string | number)[] = [];

  constructor(private readonly rules: CanonicalRules) {}

  begin(value: unknown, at: string): string {
    this.at = at;
    this.trail.length = 0;
    return this.write(value);
  }

  private write(value: unknown): string {
    if (typeof value === 'string') return this.text(value);
    if (typeof value === 'number') return this.number(value);
    if (typeof value === 'boolean') return value ? 'true' : 'false';
    if (value === null) return 'null';
    if (typeof value !== 'object') this.refuse(`is ${typeof value}, which JSON has no word for`);
    if (this.trail.length > DEEPEST) this.refuse(`lies more than ${DEEPEST} levels deep`);
    return Array.isArray(value) ? this.list(value) : this.record(value as Record<string, unknown>);
  }

  private text(value: string): string {
    if (!NOT_PLAIN.test(value)) return `"${value}"`;
    if (value.includes('\u0000')) this.refuse('holds a NUL character, which the database would cut it at');
    if (LONE_SURROGATE.test(value)) this.refuse('holds half of a surrogate pair, which is not text');
    return JSON.stringify(value);
  }

  private number(value: number): string {
    if (!Number.isFinite(value)) this.refuse(`is ${value}, which JSON has no word for`);
    if (this.rules.integers === 'safe' && Number.isInteger(value) && !Number.isSafeInteger(value))
      this.refuse(`is ${value}, an integer too large to be exact (beyond 2^53)`);
    return String(value);
  }

  private list(value: readonly unknown[]): string {
    let out = '[';
    for (let index = 0; index < value.length; index++) {
      this.trail.push(index);
      out += index === 0 ? this.write(value[index]) : `,${this.write(value[index])}`;
      this.trail.pop();
    }
    return `${out}]`;
  }

  private record(value: Record<string, unknown>): string {
    const prototype = Object.getPrototypeOf(value);
    if (prototype !== Object.prototype && prototype !== null) this.refuse('is not a plain record');
    let out = '{';
    for (const key of inOrder(Object.keys(value))) {
      this.trail.push(key);
      if (REFUSED_KEYS.has(key)) this.refuse('is a name with a meaning of its own in JavaScript');
      out += `${out.length === 1 ? '' : ','}${this.text(key)}:${this.write(value[key])}`;
      this.trail.pop();
    }
    return `${out}}`;
  }

  private refuse(why: string): never {
    const path = this.trail.map((step) => (typeof step === 'number' ? `[${step}]` : `.${step}`)).join('');
    throw new Unkeepable(`${this.at}${path}`, why);
  }
}

const WALKS = { safe: new Walk({ integers: 'safe' }), any: new Walk({ integers: 'any' }) };

/**
 * @param value plain JSON values only: no undefined, no Date, no class instances
 * @param at where the value stands, for the error ('data')
 * @throws Unkeepable naming the path of the first value that the log cannot keep
 */
export function canonical(value: unknown, at: string, rules: CanonicalRules = { integers: 'safe' }): string {
  return WALKS[rules.integers].begin(value, at);
}

/** Keys by UTF-16 code units (RFC 8785, section 3.2.3); most records come in order already. */
function inOrder(keys: string[]): string[] {
  for (let index = 1; index < keys.length; index++) {
    if (keys[index - 1]! > keys[index]!) return keys.sort();
  }
  return keys;
}
