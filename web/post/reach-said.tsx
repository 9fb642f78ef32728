import { handouts as words } from '../words/handouts.ts';
import type { Reach } from './links.ts';

/** Whether a buyer can open a link at all, said plainly. */
export function ReachSaid({ reach }: { readonly reach: Reach }) {
  if (reach.outside) return <p class="small soft">{words.outside(reach.outside)}</p>;
  return (
    <p class="small">
      {reach.network.length > 0 ? words.onlyNetwork : words.nobody} <a href="/post/links">{words.toReach}</a>
    </p>
  );
}
