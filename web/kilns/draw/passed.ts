/**
 * Bisque ware that is good is looked over and nothing is recorded of it. This device remembers which it
 * was, so that one can leave and come back, until the kiln is drawn.
 */
const key = (firing: string): string => `wareboard.looked.${firing}`;

export function passedIn(firing: string): readonly string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key(firing)) ?? '[]');
    return Array.isArray(kept) ? kept.filter((piece) => typeof piece === 'string') : [];
  } catch {
    return [];
  }
}

export function keepPassed(firing: string, pieces: readonly string[]): void {
  try {
    if (pieces.length > 0) localStorage.setItem(key(firing), JSON.stringify(pieces));
    else localStorage.removeItem(key(firing));
  } catch {
    // A full or closed store: it is remembered as long as the page stays.
  }
}
