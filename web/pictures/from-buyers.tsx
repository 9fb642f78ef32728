import { type NameCell, nameText } from '../api/studio.ts';
import { useReport } from '../api/use-report.ts';
import { pictures as words } from '../words/pictures.ts';
import { Strip } from './strip.tsx';

interface Sent {
  readonly seq: number;
  readonly sha256: string;
  readonly at: string;
  readonly width: number | null;
  readonly height: number | null;
  readonly buyer: NameCell;
  readonly behind: string;
}

/** What buyers sent: on the wall only what may be shown; of one pot, all. Nothing where there is none. */
export function FromBuyers({ piece }: { readonly piece?: string }) {
  const rows = useReport<Sent>('shop-orders/buyers-pictures', piece ? { piece } : {}).answer?.rows ?? [];
  if (rows.length === 0) return null;
  const byName = ({ buyer }: Sent): string => {
    const name = nameText(buyer);
    return name ? words.sentBy(name) : words.ofABuyer;
  };
  const shown = rows.map((row) => ({ ...row, what: byName(row), href: row.behind, hrefName: words.toOrder }));
  return (
    <section class="part">
      {piece ? <h3>{words.fromBuyer}</h3> : <h2>{words.fromBuyers}</h2>}
      {!piece && <p class="soft">{words.fromBuyersLead}</p>}
      <Strip
        pictures={shown}
        caption={({ seq }) => shown.find((one) => one.seq === seq)?.what ?? ''}
        label={words.fromBuyers}
      />
    </section>
  );
}
