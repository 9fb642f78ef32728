import { ware } from '../words/ware.ts';

/** A foot mark, large and spaced; a screen reader spells it. */
export const Mark = ({ mark }: { readonly mark: string | null | undefined }) =>
  mark ? <span class="mark">{mark}</span> : <span class="unmarked">{ware.unmarked}</span>;
