import { signal } from '@preact/signals';

/** What the live region says. A no-break space at the end makes a repeated sentence a new one. */
export const said = signal('');

export const announce = (sentence: string): void => {
  said.value = said.value === sentence ? `${sentence}\u00a0` : sentence;
};
