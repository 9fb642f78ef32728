/** What is made: own ware by the week, class pieces in term, ware for hire, commissions. */
import type { Layer, Owner } from '../contract/studio/values.ts';
import { isOff, termOf, weekday } from './calendar.ts';
import {
  ALTAR_LAMP,
  EARTHENWARE,
  HEARTH_TILE,
  type Item,
  NUMBER_TILE,
  OTHERS_FORMS,
  othersItem,
  PLANTER,
  SINGLES,
  STAMPS,
  TABLEWARE,
  TASTE,
} from './catalogue.ts';
import type { Chance } from './chance.ts';
import { CLIENTS, NEIGHBOURS, STUDENTS } from './names.ts';
import { TRUTH } from './truth.ts';
import { gbp, type Plan, secondPrice, type Ware } from './ware.ts';
import type { Yard } from './yard.ts';

const METHODS: Readonly<Record<string, NonNullable<Layer['method']>>> = {
  outside: 'dipped',
  inside: 'poured',
  handle: 'brushed',
  lid: 'dipped',
  rim: 'brushed',
};

const layer = (glaze: string, zone: string, coats = 1): Layer => ({
  glaze,
  coats,
  method: METHODS[zone] ?? 'brushed',
});

/** The glaze that shows on the first zone; a plain one, or the same, on the rest. */
function planned(chance: Chance, item: Item, glaze: string | undefined): Plan {
  const byDay = TRUTH.bisquedByDay as Readonly<Record<string, number>>;
  const day = chance.whether(byDay[glaze ?? 'others'] ?? byDay.others!);
  const bisque = day ? 'daytime-bisque-06' : 'overnight-bisque-06';
  if (glaze === undefined) return { zones: [], bisque };
  const liner = item.clays[0] === 'red-lane-earthenware' ? 'clear-tin' : 'cuttle-white';
  const lined = chance.whether(0.3);
  const double = chance.whether(0.2);
  const zones = item.zones.map((zone, n) => {
    const on = zone === 'inside' && n > 0 && lined ? liner : glaze;
    const layers = [layer(on, zone, n === 0 && chance.whether(0.3) ? 2 : 1)];
    return { zone, layers: double && n === 0 && glaze !== liner ? [layer(liner, zone), ...layers] : layers };
  });
  const cone = item.clays[0] === 'red-lane-earthenware' ? '04' : '6';
  return { zones, bisque, cone };
}

interface Beginning {
  readonly item: Item;
  readonly count?: number;
  readonly glaze?: string | undefined;
  readonly owner?: Owner;
  readonly luck?: Plan['luck'];
  /** Noted only on that later day. */
  readonly notedOn?: string | undefined;
  readonly dry?: boolean;
}

export function begin(yard: Yard, beginning: Beginning): Ware {
  const { item, glaze, luck, owner = { kind: 'own' }, notedOn, dry = false } = beginning;
  const { book } = yard;
  const piece = book.id();
  const chance = yard.chance.of(piece);
  const count = beginning.count ?? chance.between(...item.lot);
  const clay = chance.pick(item.clays);
  const mark = book.mark(piece);
  const { form, how, size, price } = item;
  const priced = price > 0 ? { price: gbp(price), secondPrice: gbp(secondPrice(price)) } : {};
  const input = { piece, count, mark, form, clay, owner, how, size: { ...size, measured: 'wet' }, ...priced };
  if (notedOn) book.noteLater('piece.begin', input, notedOn);
  else book.note('piece.begin', input);
  const plan = { ...planned(chance.of('plan'), item, glaze), ...(luck ? { luck } : {}) };
  const ware: Ware = {
    piece,
    count,
    item,
    clay,
    owner,
    plan,
    chance,
    sheet: { mark, made: yard.day, count, faults: [], repairs: [], left: [] },
    stage: 'made',
    due: dry ? yard.later(1) : yard.later(chance.between(2, 4)),
    packed: false,
    ...(price > 0 ? { price: gbp(price) } : {}),
  };
  if (notedOn && ware.due <= notedOn) ware.due = yard.later(5);
  yard.take(ware);
  return ware;
}

/** Own ware: a lot on Monday, another on Wednesday, single pieces on Friday. */
function ownWare(yard: Yard, week: number): void {
  const chance = yard.chance.of(`own ${yard.day}`);
  const taste = () => chance.weighted(TASTE);
  switch (weekday(yard.day)) {
    case 1:
      begin(yard, { item: chance.pick(TABLEWARE), glaze: taste() });
      break;
    case 3: {
      const what = chance.weighted({ planter: 5, tableware: 4, earthenware: 3 });
      if (what === 'planter')
        begin(yard, { item: PLANTER, glaze: chance.whether(0.4) ? 'quicksilver-run' : taste() });
      else if (what === 'tableware') begin(yard, { item: chance.pick(TABLEWARE), glaze: taste() });
      else begin(yard, { item: EARTHENWARE, glaze: chance.pick(['madder-rose', 'clear-tin']) });
      if (week % 9 === 4) begin(yard, { item: NUMBER_TILE, glaze: taste() });
      if (week % 20 === 7) for (const item of STAMPS) begin(yard, { item });
      break;
    }
    case 5:
      for (let n = chance.between(0, 2); n > 0; n--)
        begin(yard, {
          item: chance.pick(SINGLES),
          glaze: chance.whether(0.25) ? 'quicksilver-run' : taste(),
        });
      break;
  }
}

/** Confetti Speckle was tried on two lots only. */
function confetti(yard: Yard, dayNumber: number): void {
  const lot = [330, 540].indexOf(dayNumber);
  if (lot < 0) return;
  const { pieces, seconds, fault } = TRUTH.confetti[lot]!;
  const item = TABLEWARE[lot]!;
  begin(yard, { item, count: pieces, glaze: 'confetti-speckle', luck: { seconds, fault } });
}

const OTHERS_GLAZES = ['marram-green', 'cuttle-white', 'gannet-grey', 'driftlight-blue', 'bracken-amber'];

/** The Tuesday class in term, and a hand-building day on the first Saturday of the month. */
function classes(yard: Yard): void {
  const term = termOf(yard.day);
  const saturday = weekday(yard.day) === 6 && Number(yard.day.slice(8)) <= 7;
  const tuesday = term !== undefined && weekday(yard.day) === 2;
  if (!tuesday && !saturday) return;
  const chance = yard.chance.of(`class ${yard.day}`);
  const here = tuesday
    ? yard.chance.of(`term ${term}`).some(STUDENTS, 9)
    : chance.some(STUDENTS, chance.between(5, 8));
  /* Now and then the class is only written up two days later. */
  const late = yard.toGo > 5 && chance.whether(0.12) ? yard.later(2) : undefined;
  for (const name of here) {
    if (!chance.whether(0.74)) continue;
    const person = yard.person(name);
    const item = { ...othersItem(chance.pick(OTHERS_FORMS)), clays: ['fell-white-stoneware'] };
    const owner: Owner = { kind: 'student', person };
    begin(yard, { item, count: 1, glaze: chance.pick(OTHERS_GLAZES), owner, notedOn: late });
  }
}

/** A neighbour brings dry ware to be fired. */
function hire(yard: Yard): void {
  const chance = yard.chance.of(`hire ${yard.day}`);
  if (weekday(yard.day) !== 4 || !chance.whether(0.22)) return;
  const person = yard.person(chance.pick(NEIGHBOURS));
  const glazed = chance.whether(0.5);
  for (let lots = chance.between(1, 3); lots > 0; lots--) {
    const item = { ...othersItem(chance.pick(OTHERS_FORMS)), clays: ['otterfold-buff-stoneware'] };
    const glaze = glazed ? chance.pick(OTHERS_GLAZES) : undefined;
    begin(yard, { item, count: chance.between(1, 5), glaze, owner: { kind: 'hire', person }, dry: true });
  }
}

/** A set of house numbers, an altar lamp (made twice, to have one) and a tiled hearth. */
function commissions(yard: Yard, dayNumber: number): void {
  const made = (name: string, item: Item, glaze: string, count?: number) => {
    const person = yard.person(name);
    begin(yard, { item, glaze, owner: { kind: 'commission', person }, ...(count ? { count } : {}) });
  };
  if (dayNumber === 150) made(CLIENTS.houseNumbers, NUMBER_TILE, 'driftlight-blue', 12);
  if (dayNumber === 153) made(CLIENTS.houseNumbers, NUMBER_TILE, 'driftlight-blue', 10);
  if (dayNumber === 360) made(CLIENTS.altarLamp, ALTAR_LAMP, 'oyster-satin');
  if (dayNumber >= 470 && dayNumber <= 490 && dayNumber % 5 === 0)
    made(CLIENTS.hearth, HEARTH_TILE, 'bracken-amber');
}

export function make(yard: Yard, dayNumber: number): void {
  const { toGo } = yard;
  if (isOff(yard.day) && toGo > 21) return;
  const week = Math.floor(dayNumber / 7);
  yard.book.from('10:30');
  ownWare(yard, week);
  confetti(yard, dayNumber);
  commissions(yard, dayNumber);
  hire(yard);
  /* Something is on the board today. */
  if (toGo === 1 && !yard.ware.some((ware) => ware.stage === 'made' && ware.owner.kind === 'own'))
    begin(yard, { item: TABLEWARE[0]!, glaze: 'marram-green' });
}

/** In the evening, once the kilns are seen to. */
export function teach(yard: Yard): void {
  if (isOff(yard.day) && yard.toGo > 21) return;
  yard.book.from('19:00');
  classes(yard);
}
