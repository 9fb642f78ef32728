import type { FunctionComponent } from 'preact';
import type { PieceRow } from '../api/studio.ts';
import { NotFound } from '../app/not-found.tsx';
import { Page } from '../app/page.tsx';
import { Shown } from '../parts/asked.tsx';
import { Empty } from '../parts/empty.tsx';
import { Mark } from '../parts/mark.tsx';
import { titleOf } from '../ware/ware-list.tsx';
import { piece as pieceWords, move as words } from '../words/piece.ts';
import { Fault } from './fault.tsx';
import { Glaze } from './glaze.tsx';
import { GradeMove } from './grade.tsx';
import { Leave, Return } from './leave.tsx';
import { Decide, Mend } from './mend.tsx';
import { usePiece } from './piece.tsx';
import { Dry, Note, Owner, Price, Recount } from './small-moves.tsx';
import { Split } from './split.tsx';
import { Tell } from './tell.tsx';

export interface MoveProps {
  readonly piece: PieceRow;
}

interface Known {
  readonly title: string;
  readonly form: FunctionComponent<MoveProps>;
  /** Command whose legality is asked before the form is shown. */
  readonly command?: string;
}

const MOVES: Readonly<Record<string, Known>> = {
  dry: { title: words.dry.title, form: Dry, command: 'piece.move-on' },
  glaze: { title: words.glaze.title, form: Glaze, command: 'glaze.apply' },
  fault: { title: words.fault.title, form: Fault, command: 'fault.find' },
  grade: { title: words.grade.title, form: GradeMove, command: 'piece.grade' },
  repair: { title: words.mend.decideTitle, form: Decide, command: 'repair.decide' },
  mend: { title: words.mend.doTitle, form: Mend, command: 'repair.do' },
  tell: { title: words.tell.title, form: Tell, command: 'piece.tell-owner' },
  split: { title: words.split.title, form: Split, command: 'lot.split' },
  leave: { title: words.leave.title, form: Leave, command: 'piece.leave' },
  return: { title: words.return.title, form: Return, command: 'piece.return' },
  note: { title: words.small.noteTitle, form: Note },
  price: { title: words.small.priceTitle, form: Price },
  recount: { title: words.small.recountTitle, form: Recount },
  owner: { title: words.small.ownerTitle, form: Owner },
};

/** One thing that is done with a piece, on a page of its own. */
export default function Move({
  params,
}: {
  readonly params: { readonly piece: string; readonly move: string };
}) {
  const known = Object.hasOwn(MOVES, params.move) ? MOVES[params.move] : undefined;
  const asked = usePiece(params.piece);
  if (!known) return <NotFound />;
  const Form = known.form;
  const back = `/ware/${encodeURIComponent(params.piece)}`;
  return (
    <Page title={known.title} back={{ href: back, to: asked.answer?.rows[0]?.mark ?? pieceWords.thePiece }}>
      <Shown of={asked}>
        {({ rows, more }) => {
          const piece = rows[0];
          if (!piece) return <Empty what={pieceWords.gone}>{pieceWords.goneWhy}</Empty>;
          const why = more.next.find((next) => next.command === known.command)?.why;
          return (
            <>
              <p class="lead">
                <Mark mark={piece.mark} /> {titleOf({ count: piece.count, form: piece.form ?? null })}
                {piece.clayName && <span class="soft"> {piece.clayName}</span>}
              </p>
              {why ? <Empty what={words.notNow}>{why}</Empty> : <Form piece={piece} />}
            </>
          );
        }}
      </Shown>
    </Page>
  );
}
