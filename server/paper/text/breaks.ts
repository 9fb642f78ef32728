/** Where a line may break: UAX 14, and between words of scripts that write them without spaces. */
import LineBreaker from 'linebreak';

/** Scripts whose words a dictionary must find (class SA of UAX 14). */
const WITHOUT_SPACES = /[\p{Script=Thai}\p{Script=Lao}\p{Script=Khmer}\p{Script=Myanmar}]/u;
const words = new Intl.Segmenter('th', { granularity: 'word' });

/** Places in the text, in UTF-16 units, before which a line may begin; its end is among them. */
export function breaksOf(text: string): Set<number> {
  const places = new Set<number>();
  const breaker = new LineBreaker(text);
  for (let next = breaker.nextBreak(); next !== null; next = breaker.nextBreak()) places.add(next.position);
  if (WITHOUT_SPACES.test(text)) {
    for (const { index, segment } of words.segment(text))
      if (index > 0 && WITHOUT_SPACES.test(segment)) places.add(index);
  }
  places.add(text.length);
  return places;
}
