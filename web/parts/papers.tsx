import './papers.css';
import type { Params } from '../api/client.ts';
import { papers as words } from '../words/papers.ts';
import { PaperLink } from './paper-link.tsx';

export interface Printable {
  readonly paper: string;
  readonly title: string;
  readonly params?: Params;
}

/** What can be printed from here. */
export function Papers({ papers }: { readonly papers: readonly (Printable | false)[] }) {
  const some = papers.filter((it) => it !== false);
  if (some.length === 0) return null;
  return (
    <section class="part no-paper" aria-labelledby="papers">
      <h2 id="papers">{words.title}</h2>
      <p class="soft small">{words.atFullSize}</p>
      <ul class="papers">
        {some.map((it) => (
          <li key={it.paper}>
            <PaperLink {...it} />
          </li>
        ))}
      </ul>
    </section>
  );
}
