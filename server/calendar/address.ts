/** The secret address of the calendar feed. Whoever has it can read the dates; a new one shuts the old one. */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from '../network/private-file.ts';

const FILE = 'calendar.json';
const kept = z.strictObject({ secret: z.string().regex(/^[A-Za-z0-9_-]{32,64}$/) });

const pathIn = (folder: string): string => join(folder, FILE);

/** Undefined where there is no feed. @param folder the data folder */
export function calendarSecret(folder: string): string | undefined {
  const text = readPrivate(pathIn(folder));
  if (text === undefined) return undefined;
  try {
    return kept.parse(JSON.parse(text)).secret;
  } catch {
    // A damaged file opens nothing; a new address writes it anew.
    return undefined;
  }
}

/** A new address, which shuts the one before. */
export function newCalendarSecret(folder: string): string {
  const secret = randomBytes(32).toString('base64url');
  writePrivate(pathIn(folder), `${JSON.stringify({ secret })}\n`);
  return secret;
}

export const closeCalendar = (folder: string): void => rmSync(pathIn(folder), { force: true });

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

/** In a time that tells nothing of how much of it was right. */
export function opensCalendar(folder: string, given: string): boolean {
  const secret = calendarSecret(folder);
  return secret !== undefined && timingSafeEqual(digest(secret), digest(given));
}
