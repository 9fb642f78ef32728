/** Fills an answer's references to the erasable store with text and names, all in two looks. */
import type { People } from '../people/people.ts';

export const ERASED = '(erased)';
export const FORGOTTEN = '(forgotten)';

type Fields = Record<string, unknown>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const textOf = (it: Fields): string | undefined =>
  typeof it.text === 'string' && typeof it.hash === 'string' && Object.keys(it).length === 2
    ? it.text
    : undefined;

const personOf = (it: Fields): string | undefined =>
  typeof it.person === 'string' && Object.keys(it).length === 1 ? it.person : undefined;

/** The same value with every `{text, hash}` and `{person}` in it replaced by what it stands for. */
export async function fillReferences<T>(value: T, people: Pick<People, 'read' | 'names'>): Promise<T> {
  const texts = new Set<string>();
  const persons = new Set<string>();
  collect(value, texts, persons);
  const [read, names] = await Promise.all([
    texts.size > 0 ? people.read([...texts]) : new Map<string, string | null>(),
    persons.size > 0 ? people.names([...persons]) : new Map<string, string | null>(),
  ]);
  if (texts.size + persons.size === 0) return value;
  return fill(
    value,
    (id) => read.get(id) ?? ERASED,
    (id) => names.get(id) ?? FORGOTTEN,
  ) as T;
}

function collect(value: unknown, texts: Set<string>, persons: Set<string>): void {
  if (Array.isArray(value)) {
    for (const it of value) collect(it, texts, persons);
  } else if (isFields(value)) {
    const text = textOf(value);
    const person = personOf(value);
    if (text !== undefined) texts.add(text);
    else if (person !== undefined) persons.add(person);
    else for (const it of Object.values(value)) collect(it, texts, persons);
  }
}

type Look = (id: string) => string;

function fill(value: unknown, text: Look, name: Look): unknown {
  if (Array.isArray(value)) return value.map((it) => fill(it, text, name));
  if (!isFields(value)) return value;
  const ref = textOf(value);
  if (ref !== undefined) return text(ref);
  const person = personOf(value);
  if (person !== undefined) return name(person);
  return Object.fromEntries(Object.entries(value).map(([key, it]) => [key, fill(it, text, name)]));
}
