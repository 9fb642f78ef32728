/** What could be written to the buyer of an order. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { SHOP } from '../values.ts';
import { addressed } from './addressed.ts';
import { drafts } from './messages.ts';
import { readFacts, readItems } from './shop-settings.ts';

const input = z.strictObject({
  order: z.string().min(1).max(120),
  message: z.enum(['received', 'posted', 'has-it-come', 'download']),
  /** The latest that fits, when left out. */
  parcel: z.string().min(1).max(64).optional(),
});

async function run(ask: Ask, asked: z.infer<typeof input>): Promise<Answered> {
  const key = asked.order.includes('/') ? asked.order : `${SHOP}/${asked.order}`;
  const { origin } = await readFacts(ask);
  const [found] = await addressed(ask, [key], origin);
  const { order, name, email } = found!;
  const none = (sentence: string): Answered => ({ sentence, rows: [], notes: [], figures: [] });
  if (!order.placed) return none(`There is no order ${asked.order}.`);
  const writing = {
    order,
    name,
    studio: ask.settings.studio,
    today: ask.today,
    items: await readItems(ask),
  };
  const draft = drafts(writing).findLast(
    (one) => one.message === asked.message && (asked.parcel === undefined || one.parcel === asked.parcel),
  );
  if (!draft) return none(`Order ${order.number} is not so far that this could be written.`);
  return {
    sentence: draft.subject,
    rows: [],
    notes: email === null ? ['There is no e-mail address for this buyer.'] : [],
    figures: [],
    more: { to: email, subject: draft.subject, body: draft.text, parcel: draft.parcel ?? null },
  };
}

export const message = report({ title: 'A message to the buyer', unlisted: true, input, run });
