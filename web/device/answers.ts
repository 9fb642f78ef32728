/** What the page asks, answered from this device when the studio is not heard. */
import { asOf } from '../api/reach.ts';
import { aheadNow } from '../outbox/here.ts';
import { kept } from './opened.ts';

/** What is worth keeping as it was told. */
const KEPT = /^\/api\/(reports\/|waiting$|plugins$)/;

export async function keepTold(address: string, answer: unknown): Promise<void> {
  if (!KEPT.test(address)) return;
  try {
    await kept.keepAnswer({ address, at: Date.now(), answer });
  } catch {
    // A full or closed store: it was told all the same, and what waits to be sent goes before.
  }
}

/** The answer from what this device keeps; undefined where it keeps nothing of the sort. */
export async function tellFromHere(address: string): Promise<unknown> {
  try {
    const [day, ahead, { tellAnew, carryOn }] = await Promise.all([
      kept.day(),
      aheadNow(),
      import('../ahead/tell.ts'),
    ]);
    const telling = day && ahead && { ahead, streams: day.streams, names: day.names };
    const anew = telling && (await tellAnew(telling, address));
    if (anew !== undefined) {
      asOf.value = day!.at;
      return anew;
    }
    const told = await kept.answer(address);
    if (!told) return undefined;
    asOf.value = told.at;
    return telling ? await carryOn(telling, address, told.answer) : told.answer;
  } catch {
    return undefined;
  }
}
