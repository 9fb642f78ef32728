import { useEffect } from 'preact/hooks';
import { settings, useMaterials } from '../api/use-materials.ts';
import { habits } from '../words/numbers.ts';

const KEPT = 'wareboard.locale';

/** The first of these that dates and numbers can be written in. Some browsers name theirs as no standard does (en-US@posix). */
export function firstLocale(wishes: readonly (string | null | undefined)[]): string {
  for (const wish of wishes) {
    try {
      const [known] = Intl.getCanonicalLocales(wish ?? []);
      if (known) return known;
    } catch {
      // Not a language tag: the next one.
    }
  }
  return 'en-GB';
}

/** How dates and numbers read on this device; the browser's own way until the user says otherwise. */
export const localeHere = (): string =>
  firstLocale([localStorage.getItem(KEPT), navigator.language, ...(navigator.languages ?? [])]);

export function setLocaleHere(locale: string): void {
  localStorage.setItem(KEPT, locale);
  habits.value = { ...habits.value, locale };
}

/** Takes over the studio's zone and money as soon as they are known. */
export function useHabits(): void {
  useMaterials();
  const said = settings.value;
  useEffect(() => {
    const locale = localeHere();
    habits.value = said ? { locale, zone: said.zone, currency: said.currency } : { ...habits.value, locale };
  }, [said]);
}
