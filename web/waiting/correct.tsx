import { useState } from 'preact/hooks';
import { outboxHere } from '../api/offline.ts';
import type { Unsent } from '../outbox/unsent.ts';
import { CountField } from '../parts/count-field.tsx';
import { useWhen } from '../parts/when.tsx';
import { waitingWords as words } from '../words/waiting.ts';
import { newOrders } from './decisions.ts';

const COUNTS = ['first', 'second', 'waster', 'count'] as const;

/** When it happened, and how many: what is most often wrong. The rest is noted anew where it was noted. */
export function Correct({ entry }: { readonly entry: Unsent }) {
  const given = entry.input as Readonly<Record<string, unknown>>;
  const counted = COUNTS.filter((field) => typeof given[field] === 'number');
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const when = useWhen();
  const send = async () => {
    const input = { ...given, ...counts };
    const here = await outboxHere();
    const orders = newOrders(entry, [], { input, ...when.happenedAt });
    await here?.outbox.leaveOut(entry.id, words.corrected, orders);
  };
  return (
    <details>
      <summary>{words.correct}</summary>
      {counted.map((field) => (
        <CountField
          key={field}
          label={words.count(field)}
          value={counts[field] ?? (given[field] as number)}
          onValue={(value) => setCounts({ ...counts, [field]: value })}
          min={field === 'count' ? 1 : 0}
        />
      ))}
      {when.field}
      <p class="buttons">
        <button type="button" onClick={() => void send()}>
          {words.sendCorrected}
        </button>
      </p>
    </details>
  );
}
