import { describe, expect, it } from 'vitest';
import { firstLocale } from '../../web/app/habits.ts';

describe('how dates and numbers read on this device', () => {
  it('is as the user chose, else as the browser says', () => {
    expect(firstLocale(['de-CH', 'en-US'])).toBe('de-CH');
    expect(firstLocale([null, 'en-us'])).toBe('en-US');
  });

  it('passes over what is no language tag (RFC 5646), as some browsers give one', () => {
    expect(firstLocale([null, 'en-US@posix', 'C', 'fr-FR'])).toBe('fr-FR');
    expect(firstLocale(['', 'en-US@posix', undefined])).toBe('en-GB');
  });
});
