/** The first day: the studio's name, its clays, glazes, schedules and kilns. */
import { ZONE } from './calendar.ts';
import { CLAYS, GLAZES, KILNS, SCHEDULES } from './materials.ts';
import type { Yard } from './yard.ts';

export function setUp({ book }: Yard): void {
  const laptop = { device: 'laptop' };
  book.note(
    'studio.set',
    { studio: 'Hollin Yard Pottery', zone: ZONE, currency: 'GBP', yearStart: '01-01' },
    laptop,
  );
  for (const clay of CLAYS) book.note('clay.add', clay, laptop);
  for (const glaze of GLAZES) book.note('glaze.add', glaze, laptop);
  for (const schedule of SCHEDULES) book.note('schedule.write', schedule, laptop);
  for (const kiln of KILNS) if (kiln.name !== 'Thimble') book.note('kiln.add', kiln, laptop);
}

/** Thimble comes a little later, on loan. */
export function borrowThimble({ book }: Yard): void {
  const thimble = KILNS.find((kiln) => kiln.name === 'Thimble')!;
  book.note('kiln.add', { ...thimble, note: 'On loan from Odaline; lustre only.' }, { device: 'laptop' });
}

/** A bag of clay is opened, a bucket of glaze mixed: every few weeks. */
export function openBatches(yard: Yard, week: number): void {
  const { book, chance } = yard;
  if (week % 6 === 2) {
    const clay = CLAYS[((week / 2) % CLAYS.length) | 0]!;
    book.note('clay.open-batch', { id: handle(clay.name), batch: `${yard.day.slice(2, 7)}-${week}` });
  }
  if (week % 4 === 1) {
    const glaze = GLAZES[(week >> 2) % (GLAZES.length - 1)]!;
    const dryWeight = chance.between(20, 60) * 100;
    const density = chance.between(142, 156) / 100;
    book.note('glaze.mix-batch', { id: handle(glaze.name), batch: `bucket ${week}`, dryWeight, density });
  }
}

const handle = (name: string): string => name.toLowerCase().replaceAll(' ', '-');
