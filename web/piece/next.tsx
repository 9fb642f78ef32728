import type { NextMove, PieceRow } from '../api/studio.ts';
import { moves, piece as words } from '../words/piece.ts';

/** Where each move is made. */
function address(piece: string, command: string): string {
  const at = `/ware/${encodeURIComponent(piece)}`;
  if (command.startsWith('firing.pack '))
    return `/kilns/pack?role=${command.slice('firing.pack '.length)}&piece=${encodeURIComponent(piece)}`;
  return `${at}/${PATHS[command] ?? command}`;
}

const PATHS: Readonly<Record<string, string>> = {
  'piece.move-on': 'dry',
  'glaze.apply': 'glaze',
  'fault.find': 'fault',
  'piece.grade': 'grade',
  'repair.decide': 'repair',
  'repair.do': 'mend',
  'piece.tell-owner': 'tell',
  'lot.split': 'split',
  'piece.leave': 'leave',
  'piece.return': 'return',
  'piece.note': 'note',
  'piece.price': 'price',
  'piece.recount': 'recount',
  'piece.change-owner': 'owner',
};

/** The step that most often follows comes first and is inked in. */
const USUAL: Readonly<Record<string, readonly string[]>> = {
  made: ['piece.move-on', 'firing.pack bisque'],
  'leather-hard': ['piece.move-on', 'firing.pack bisque'],
  'bone-dry': ['firing.pack bisque', 'glaze.apply'],
  'bisque-fired': ['glaze.apply', 'firing.pack glaze'],
  glazed: ['firing.pack glaze', 'glaze.apply'],
  'glaze-fired': ['piece.grade', 'fault.find'],
  graded: ['piece.leave', 'repair.decide'],
  mending: ['repair.do', 'firing.pack glaze', 'piece.grade'],
  left: ['piece.return'],
};

/** Leaving it as it is stands among the repairs; that own stock has nobody to be told is no news. */
const UNSAID: readonly string[] = ['repair.decline', 'piece.tell-owner'];

const ALWAYS = ['piece.note', 'piece.price', 'piece.recount', 'piece.change-owner'] as const;

interface Props {
  readonly piece: PieceRow;
  readonly next: readonly NextMove[];
}

/** Legal moves only, as buttons; the others stand below with the reason why not. */
export function Next({ piece, next }: Props) {
  const legal = next.filter((move) => move.why === undefined && move.command !== 'repair.decline');
  const barred = next.filter(
    (move) =>
      move.why !== undefined &&
      !(move.command === 'lot.split' && piece.count === 1) &&
      !UNSAID.includes(move.command),
  );
  const usual = USUAL[piece.stage] ?? [];
  const place = (move: NextMove) => (usual.indexOf(move.command) + usual.length + 1) % (usual.length + 1);
  const sorted = legal.toSorted((a, b) => place(a) - place(b));
  return (
    <section class="next no-paper" aria-labelledby="next-moves">
      <h2 id="next-moves">{words.next}</h2>
      {sorted.length === 0 && <p>{words.nothingNext}</p>}
      <div class="buttons">
        {sorted.map((move, n) => (
          <a
            key={move.command}
            class={n === 0 ? 'button main' : 'button'}
            href={address(piece.piece, move.command)}
          >
            {moves[move.command]}
          </a>
        ))}
      </div>
      <p class="small also">
        {ALWAYS.map((command) => (
          <a key={command} class="button plain" href={address(piece.piece, command)}>
            {moves[command]}
          </a>
        ))}
      </p>
      {barred.length > 0 && (
        <details>
          <summary>{words.notNow}</summary>
          <dl class="barred">
            {barred.map((move) => (
              <div key={move.command}>
                <dt>{moves[move.command]}</dt>
                <dd>{move.why}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </section>
  );
}
