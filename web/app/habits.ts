import { useEffect } from 'preact/hooks';
import { settings, useMaterials } from '../api/use-materials.ts';
import { habits } from '../words/numbers.ts';

const KEPT = 'wareboard.locale';

/** How dates and numbers read on this device; the browser's own way until the user says otherwise. */
export const localeHere = (): string => localStorage.getItem(KEPT) ?? navigator.language ?? 'en-GB';

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
