import { useOffered } from '../api/plugins.ts';
import { guide as words } from '../words/guide.ts';
import { GUIDE, guideAddress } from './guide-answer.ts';

/** From a line of a story to what is known of the fault. */
export function ToGuide({ fault }: { readonly fault: string }) {
  if (!useOffered(GUIDE)) return null;
  return (
    <p class="no-paper">
      <a class="reach-guide" href={guideAddress(fault)}>
        {words.whatNow}
      </a>
    </p>
  );
}
