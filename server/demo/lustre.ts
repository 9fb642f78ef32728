/** Now and then some firsts get a gold rim and a third firing in Thimble. */
import type { Yard } from './yard.ts';

const DAYS = [175, 385, 560] as const;
const LAST_BEFORE = 2;

export function lustre(yard: Yard, dayNumber: number): void {
  const due = DAYS.some((day) => dayNumber >= day && dayNumber < day + 3) || yard.toGo === LAST_BEFORE;
  if (!due) return;
  yard.book.from('12:30');
  let room = 3;
  for (const ware of [...yard.ware]) {
    if (room === 0) return;
    const fits =
      ware.owner.kind === 'own' && ware.grade === 'first' && ware.stage === 'graded' && ware.count <= 2;
    if (!fits || ware.packed || ware.lustred || ware.plan.cone !== '6' || ware.item.room > 2) continue;
    room--;
    yard.book.note('glaze.apply', {
      piece: ware.piece,
      zone: 'rim',
      layers: [{ glaze: 'lamplight-gold', coats: 1, method: 'brushed' }],
    });
    yard.ownRow(ware);
    ware.lustred = true;
    ware.stage = 'glazed';
    ware.due = yard.later(1);
  }
}
