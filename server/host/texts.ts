/** Free texts of a command's input: each goes into the erasable store, and a reference takes its place. */
import type { Command } from '../contract/plugin.ts';
import type { TextRef } from '../contract/text.ts';
import type { TextToKeep } from '../people/people.ts';

type Fields = Readonly<Record<string, unknown>>;

/** Derived from the command and the field, so that a repeat keeps one text. */
const textId = (command: string, field: string): string => `${command}.${field}`;

const fieldsWithText = (command: Command, input: unknown): string[] =>
  (command.texts ?? []).filter((field) => typeof (input as Fields)[field] === 'string');

/** The texts of a parsed input. A text in the field `name` is the name of the person it is about. */
export function textsOf(command: Command, input: unknown, id: string): TextToKeep[] {
  const person = command.about?.(input);
  return fieldsWithText(command, input).map((field) => ({
    id: textId(id, field),
    text: (input as Record<string, string>)[field]!,
    ...(person === undefined ? {} : { person, isName: field === 'name' }),
  }));
}

/** The input with a reference in the place of each text, found by the text's id. */
export function withReferences(
  command: Command,
  input: unknown,
  id: string,
  refs: ReadonlyMap<string, TextRef>,
): unknown {
  const fields = fieldsWithText(command, input);
  if (fields.length === 0) return input;
  const replaced = fields.map((field) => [field, refs.get(textId(id, field))!] as const);
  return { ...(input as Fields), ...Object.fromEntries(replaced) };
}

/** Stands for the hash of a text that is not kept. */
const NO_HASH = '0'.repeat(64);

/** The input as it would be decided, with nothing kept: for asking what would be recorded. */
export function standIn(command: Command, input: unknown, id: string): unknown {
  const refs = textsOf(command, input, id).map(({ id: text }) => [text, { text, hash: NO_HASH }] as const);
  return withReferences(command, input, id, new Map(refs));
}
