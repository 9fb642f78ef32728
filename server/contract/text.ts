/**
 * Free text and names of people can be erased, so the log never holds them: it
 * holds where the text stands in the erasable store, and a salted hash of it.
 */
import { z } from 'zod';

export const textRef = z.strictObject({
  /** Id in the erasable store. */
  text: z.string().min(1).max(64),
  /** Hex SHA-256 of salt and text. */
  hash: z.string().regex(/^[0-9a-f]{64}$/),
});
export type TextRef = z.infer<typeof textRef>;

/**
 * Free text in a command's input. It comes in as text; before deciding, the host puts it into the
 * erasable store and hands on the reference, so to a decider it is a TextRef.
 */
export const freeText = (longest = 2_000): z.ZodType<TextRef, string> =>
  z.string().trim().min(1).max(longest) as unknown as z.ZodType<TextRef, string>;

/** A report's cell that the host fills with the person's name, or says that it was forgotten. */
export interface PersonRef {
  readonly person: string;
}
