/** Slips of the pen: entries that were wrong and are struck out, and notes on the side. */
import { TABLEWARE } from './catalogue.ts';
import type { Yard } from './yard.ts';

/** Day of the demo, and what went wrong. */
const SLIPS: Readonly<Record<number, 'twice' | 'wrong-piece' | 'wrong-fault'>> = {
  38: 'twice',
  112: 'wrong-fault',
  196: 'wrong-piece',
  287: 'twice',
  371: 'wrong-fault',
  452: 'wrong-piece',
  569: 'twice',
  647: 'wrong-fault',
  699: 'twice',
  721: 'wrong-fault',
};

const STRUCK_LATER = 3;

export function slip(yard: Yard, dayNumber: number): void {
  strikeWhatWaits(yard);
  const what = SLIPS[dayNumber];
  if (!what) return;
  const { book } = yard;
  if (what === 'twice') {
    const { form, clays, how } = TABLEWARE[0]!;
    const piece = book.id();
    const input = {
      piece,
      count: 6,
      mark: book.mark(piece),
      form,
      clay: clays[0],
      owner: { kind: 'own' },
      how,
    };
    const command = book.note('piece.begin', input);
    yard.toStrike.push({ command, day: yard.later(STRUCK_LATER), why: 'Written down twice.' });
    return;
  }
  const ware = yard.ware.find((one) => one.stage === 'graded' && one.owner.kind === 'own');
  if (!ware) return;
  const { piece } = ware;
  if (what === 'wrong-piece') {
    const command = book.note('piece.note', { piece, note: 'Handle a little low.' });
    book.note('entry.strike', { command, why: 'That was another piece.' });
  } else {
    const command = book.note('fault.find', { piece, kind: 'crazing', count: 1, severity: 'slight' });
    book.note('entry.strike', { command, why: 'It was the light.' });
  }
}

function strikeWhatWaits(yard: Yard): void {
  for (const { command, day, why } of yard.toStrike)
    if (day === yard.day) yard.book.note('entry.strike', { command, why }, { device: 'laptop' });
}

const NOTES = [
  'Rim thinner than the last lot.',
  'Thrown a little wetter than usual.',
  'Foot trimmed after two days under plastic.',
  'Try the same with one coat less.',
  'Asked for by two people at the open studio.',
] as const;

/** A note on one of the newer pieces, now and then. */
export function jot(yard: Yard): void {
  const chance = yard.chance.of(`note ${yard.day}`);
  const newer = yard.ware.slice(-12).filter((ware) => ware.owner.kind === 'own');
  if (newer.length === 0 || !chance.whether(0.1)) return;
  const ware = chance.pick(newer);
  const note = chance.pick(NOTES);
  yard.book.note('piece.note', { piece: ware.piece, note });
  ware.sheet.note ??= note;
}
