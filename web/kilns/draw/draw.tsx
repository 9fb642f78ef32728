import './draw.css';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { FiringMore, PlaceRow } from '../../api/studio.ts';
import { Page } from '../../app/page.tsx';
import { Shown } from '../../parts/asked.tsx';
import { Caution } from '../../parts/caution.tsx';
import { Empty } from '../../parts/empty.tsx';
import { caution } from '../../words/caution.ts';
import { draw as words } from '../../words/draw.ts';
import { kilns } from '../../words/kilns.ts';
import { useFiring } from '../firing.tsx';
import { piecesIn } from '../load.ts';
import { Finish } from './finish.tsx';
import { Hand } from './hand.tsx';
import { LoadView } from './load-view.tsx';
import { toLookOver } from './look.ts';
import { keepPassed, passedIn } from './passed.ts';
import { PieceInHand } from './piece-in-hand.tsx';

/** From the top shelf down, piece by piece in the order packed; the next comes by itself. */
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

/** Good bisque ware that was passed over, as this device remembers it. */
function usePassed(firing: string) {
  const [passed, setPassed] = useState(() => passedIn(firing));
  const change = (to: (before: readonly string[]) => readonly string[]) =>
    setPassed((before) => {
      const next = to(before);
      keepPassed(firing, next);
      return next;
    });
  /** @returns how it is taken back */
  const pass = (piece: string) => () => {
    change((before) => [...before, piece]);
    return () => change((before) => before.filter((each) => each !== piece));
  };
  return { passed, pass };
}

function Drawing({ firing, rows }: DrawingProps) {
  const { passed, pass } = usePassed(firing.firing);
  /** Recorded a moment ago; the fresh answer is on its way. */
  const [sent, setSent] = useState<readonly string[]>([]);
  const [seen, setSeen] = useState<'hand' | 'load' | 'finish'>('hand');
  const [taken, setTaken] = useState<string>();
  const begun = useRef(false);
  useEffect(() => setSent([]), [rows]);
  const left = rows.filter((row) => toLookOver(row, passed));
  const open = left.filter((row) => !sent.includes(row.piece));
  const current = open.find((row) => row.piece === taken) ?? open[0];
  const next = () => {
    begun.current = true;
    setTaken(undefined);
  };
  if (seen === 'finish' || (!current && sent.length === 0))
    return (
      <Finish
        firing={firing}
        rows={rows}
        left={piecesIn(left)}
        onBack={current ? () => setSeen('hand') : undefined}
      />
    );
  if (seen === 'load')
    return (
      <LoadView
        rows={rows}
        isLeft={(row) => open.includes(row)}
        onTake={(piece) => {
          setTaken(piece);
          setSeen('hand');
        }}
        onBack={() => setSeen('hand')}
      />
    );
  return (
    <>
      <p class="draw-left" role="status">
        {words.left(piecesIn(left))}
      </p>
      {current && (
        <>
          <PieceInHand row={current} />
          <Hand
            key={current.piece}
            firing={firing}
            row={current}
            follows={begun.current}
            onPassed={() => {
              next();
              return pass(current.piece)();
            }}
            onSent={() => {
              next();
              setSent([...sent, current.piece]);
            }}
            onLoad={() => setSeen('load')}
            onFinish={() => setSeen('finish')}
          />
        </>
      )}
      <Caution lines={[caution.open]} />
    </>
  );
}
