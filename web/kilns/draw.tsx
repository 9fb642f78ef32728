import './draw.css';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { FiringMore, PlaceRow } from '../api/studio.ts';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Caution } from '../parts/caution.tsx';
import { Empty } from '../parts/empty.tsx';
import { caution } from '../words/caution.ts';
import { kilns, draw as words } from '../words/kilns.ts';
import { DrawPiece } from './draw-piece.tsx';
import { Finish } from './finish.tsx';
import { useFiring } from './firing.tsx';

/** Whether the piece is still to be looked over in this firing. */
export const toLookOver = (row: PlaceRow, passed: readonly string[]): boolean =>
  row.grade === null && row.latest && !row.drawn && !passed.includes(row.piece);

/** From the top shelf down, piece by piece; the next comes by itself. */
export default function Draw({ params }: { readonly params: { readonly firing: string } }) {
  const asked = useFiring(params.firing);
  const firing = asked.answer?.more.firing;
  const back = { href: `/kilns/${encodeURIComponent(params.firing)}`, to: firing?.label ?? kilns.title };
  return (
    <Page title={words.title} back={back} atKiln>
      <Shown of={asked}>
        {({ rows, more }) =>
          more.firing?.state === 'ended' ? (
            <Drawing firing={more.firing} rows={rows} />
          ) : (
            <Empty what={words.notYet}>
              {words.notEnded[(more.firing?.state ?? 'none') as keyof typeof words.notEnded]}
            </Empty>
          )
        }
      </Shown>
    </Page>
  );
}

interface DrawingProps {
  readonly firing: NonNullable<FiringMore['firing']>;
  readonly rows: readonly PlaceRow[];
}

function Drawing({ firing, rows }: DrawingProps) {
  /** Bisque ware that is good: looked over, nothing to record. */
  const [passed, setPassed] = useState<readonly string[]>([]);
  /** Recorded a moment ago; the fresh answer is on its way. */
  const [sent, setSent] = useState<readonly string[]>([]);
  const [finishing, setFinishing] = useState(false);
  const begun = useRef(false);
  useEffect(() => setSent([]), [rows]);
  const left = rows.filter((row) => toLookOver(row, passed));
  const current = left.find((row) => !sent.includes(row.piece));
  const pieces = left.reduce((sum, row) => sum + row.count, 0);
  if (finishing || (!current && sent.length === 0))
    return (
      <Finish
        firing={firing}
        rows={rows}
        left={pieces}
        onBack={finishing ? () => setFinishing(false) : undefined}
      />
    );
  return (
    <>
      <p class="first-line draw-left">
        <span role="status">{words.left(pieces)}</span>
        <button type="button" class="plain" onClick={() => setFinishing(true)}>
          {words.finishEarly}
        </button>
      </p>
      {current && (
        <DrawPiece
          key={current.piece}
          firing={firing}
          row={current}
          follows={begun.current}
          onPassed={() => {
            begun.current = true;
            setPassed([...passed, current.piece]);
          }}
          onSent={() => {
            begun.current = true;
            setSent([...sent, current.piece]);
          }}
          onBack={passed.length > 0 ? () => setPassed(passed.slice(0, -1)) : undefined}
        />
      )}
      <Caution lines={[caution.open]} />
    </>
  );
}
