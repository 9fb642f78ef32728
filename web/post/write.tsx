import { useState } from 'preact/hooks';
import { noteText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { announce } from '../app/announce.ts';
import { Shown } from '../parts/asked.tsx';
import { Choices } from '../parts/choices.tsx';
import { handouts } from '../words/handouts.ts';
import { order as words } from '../words/orders.ts';
import { useReach, useWithLinks } from './links.ts';
import { ReachSaid } from './reach-said.tsx';
import { Do } from './record-form.tsx';
import type { Order } from './types.ts';

interface Message {
  readonly to: unknown;
  readonly subject: string;
  readonly body: unknown;
}

/** A draft to copy or to open in the mail program; nothing is sent from here. */
export function Write({ order, first = '' }: { readonly order: Order; readonly first?: string }) {
  const [message, setMessage] = useState(first);
  const sent = order.parcels.findLast((one) => one.postedAt);
  const offered = [
    'received',
    ...(sent ? ['posted', 'has-it-come'] : []),
    ...(order.downloads.length > 0 ? ['download'] : []),
  ];
  const asked = useReport<never, Message>(message ? 'shop-orders/message' : undefined, {
    order: order.order,
    message,
    parcel: sent?.parcel,
  });
  return (
    <>
      <Choices
        legend={words.write}
        value={message}
        onValue={setMessage}
        options={offered.map((value) => ({ value, label: words.messages[value] ?? value }))}
      />
      {message && (
        <Shown of={asked}>
          {({ more }) => <Draft order={order.order} message={message} parcel={sent?.parcel} more={more} />}
        </Shown>
      )}
    </>
  );
}

interface DraftProps {
  readonly order: string;
  readonly message: string;
  readonly parcel?: string;
  readonly more: Message;
}

/** The host gives a text as a text, or the parts of it; both read as one. */
const plain = (cell: unknown): string =>
  Array.isArray(cell) ? cell.map(plain).join('') : (noteText(cell as never) ?? '');

function Draft({ order, message, parcel, more }: DraftProps) {
  const to = plain(more.to);
  const body = useWithLinks(plain(more.body));
  const reach = useReach().answer;
  if (body === undefined) return <p class="waiting">{handouts.noLink}</p>;
  const copy = async () => {
    await navigator.clipboard.writeText(body);
    announce(words.copied);
  };
  const mail = `mailto:${encodeURIComponent(to)}?subject=${encodeURIComponent(more.subject)}&body=${encodeURIComponent(body)}`;
  return (
    <div class="draft">
      <p>
        {words.subject}: <strong>{more.subject}</strong>
      </p>
      {message === 'download' && reach && /\/fetch\//.test(body) && <ReachSaid reach={reach} />}
      <label>
        {words.body}
        <textarea readOnly dir="auto" value={body} />
      </label>
      <p class="buttons">
        <button type="button" onClick={copy}>
          {words.copy}
        </button>
        <a class="button" href={mail}>
          {words.mail}
        </a>
        <Do
          label={words.told}
          wish={{
            command: 'order.tell',
            input: { order, message, ...(parcel && message !== 'received' ? { parcel } : {}) },
          }}
          sentence={words.toldDone}
        />
      </p>
    </div>
  );
}
