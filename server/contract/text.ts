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

/** A report's cell that the host fills with the person's name, or says that it was forgotten. */
export interface PersonRef {
  readonly person: string;
}
