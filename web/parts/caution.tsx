import { caution } from '../words/caution.ts';

/** Said where the step is taken, briefly. */
export const Caution = ({ lines }: { readonly lines: readonly string[] }) =>
  lines.length === 0 ? null : (
    <div class="caution" role="note" aria-label={caution.title}>
      <strong>{caution.title}</strong>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
