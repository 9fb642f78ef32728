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

/**
 * @param value plain JSON values only: no undefined, no Date, no class instances
 * @param at where the value stands, for the error ('data')
 * @throws Unkeepable naming the path of the first value that the log cannot keep
 */
export function canonical(value: unknown, at: string, rules: CanonicalRules = { integers: 'safe' }): string {
  const trail: (string | number)[] = [];
  const any = rules.integers === 'any';

  function refuse(why: string): never {
    const path = trail.map((step) => (typeof step === 'number' ? `[${step}]` : `.${step}`)).join('');
    throw new Unkeepable(`${at}${path}`, why);
  }

  function text(value: string): string {
    if (!NOT_PLAIN.test(value)) return `"${value}"`;
    if (value.includes('\u0000')) refuse('holds a NUL character, which the database would cut it at');
    if (LONE_SURROGATE.test(value)) refuse('holds half of a surrogate pair, which is not text');
    return JSON.stringify(value);
  }

  function number(value: number): string {
    if (!Number.isFinite(value)) refuse(`is ${value}, which JSON has no word for`);
    if (!any && Number.isInteger(value) && !Number.isSafeInteger(value))
      refuse(`is ${value}, an integer too large to be exact (beyond 2^53)`);
    return value === 0 ? '0' : String(value);
  }

  function list(value: readonly unknown[]): string {
    let out = '[';
    for (let index = 0; index < value.length; index++) {
      trail.push(index);
      out += index === 0 ? write(value[index]) : `,${write(value[index])}`;
      trail.pop();
    }
    return `${out}]`;
  }

  function record(value: object): string {
    const prototype = Object.getPrototypeOf(value);
    if (prototype !== Object.prototype && prototype !== null) refuse('is not a plain record');
    let out = '{';
    for (const key of inOrder(Object.keys(value))) {
      trail.push(key);
      if (REFUSED_KEYS.has(key)) refuse('is a name with a meaning of its own in JavaScript');
      const member = `${text(key)}:${write((value as Record<string, unknown>)[key])}`;
      out += out.length === 1 ? member : `,${member}`;
      trail.pop();
    }
    return `${out}}`;
  }

  function write(value: unknown): string {
    if (typeof value === 'string') return text(value);
    if (typeof value === 'number') return number(value);
    if (typeof value === 'boolean') return value ? 'true' : 'false';
    if (value === null) return 'null';
    if (typeof value !== 'object') refuse(`is ${typeof value}, which JSON has no word for`);
    if (trail.length > DEEPEST) refuse(`lies more than ${DEEPEST} levels deep`);
    return Array.isArray(value) ? list(value) : record(value);
  }

  return write(value);
}

/** Keys by UTF-16 code units (RFC 8785, section 3.2.3); most records come in order already. */
function inOrder(keys: string[]): string[] {
  for (let index = 1; index < keys.length; index++) {
    if (keys[index - 1]! > keys[index]!) return keys.sort();
  }
  return keys;
}
