/** What an answer says to keep in mind, below its figures. */
import { review as words } from '../words/review.ts';

export function KeepInMind({
  notes,
  small = false,
}: {
  readonly notes: readonly string[];
  readonly small?: boolean;
}) {
  if (notes.length === 0) return null;
  return (
    <section class={`part keep-in-mind${small ? ' small' : ''}`}>
      <h2>{words.notes}</h2>
      <ul class="notes">
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </section>
  );
}
