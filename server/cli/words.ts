/** Reads the words after a verb. */
import { parseArgs } from 'node:util';
import { type Verb, type Words, WrongWords } from './verb.ts';

/** Understood by every verb. */
export const EVERYWHERE = {
  data: { type: 'string' },
  plugins: { type: 'string' },
  help: { type: 'boolean', short: 'h' },
} as const;

/** @throws WrongWords */
export function readWords(verb: Verb, args: readonly string[]): Words {
  const options = { ...EVERYWHERE, ...verb.options };
  const { tokens } = parseArgs({
    args: [...args],
    options,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const known = new Map<string, string[]>();
  const others: Record<string, string> = {};
  const rest: string[] = [];
  const values = tokens.values();
  for (const token of values) {
    if (token.kind === 'positional') rest.push(token.value);
    if (token.kind !== 'option') continue;
    const { name, rawName } = token;
    const declared = Object.hasOwn(options, name) ? options[name as keyof typeof options] : undefined;
    if (declared === undefined && !verb.anyOption)
      throw new WrongWords(`${verb.name} has no option ${rawName}.`);
    if (declared?.type === 'boolean') {
      if (token.value !== undefined) throw new WrongWords(`${rawName} takes no value.`);
      known.set(name, []);
      continue;
    }
    const value = token.value ?? (declared === undefined ? valueAfter(values) : undefined);
    if (value === undefined) throw new WrongWords(`${rawName} needs a value after it.`);
    if (declared === undefined) others[name] = value;
    else known.set(name, [...(known.get(name) ?? []), value]);
  }
  return {
    rest,
    others,
    text: (option) => known.get(option)?.at(-1),
    texts: (option) => known.get(option) ?? [],
    flag: (option) => known.has(option),
  };
}

/** An option that is not declared is read as a flag, and its value as a word of its own. */
function valueAfter(tokens: Iterator<{ kind: string; value?: string }>): string | undefined {
  const { value: token } = tokens.next();
  return token?.kind === 'positional' ? token.value : undefined;
}

/** The words after the verb by name; exactly as many as there are names. @throws WrongWords */
export function exactly<Name extends string>(
  words: Words,
  verb: Verb,
  ...names: Name[]
): Record<Name, string> {
  if (words.rest.length !== names.length) throw new WrongWords(`It is: wareboard ${verb.usage}`);
  return Object.fromEntries(names.map((name, at) => [name, words.rest[at]])) as Record<Name, string>;
}
