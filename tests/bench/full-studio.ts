/** The small yard and 5,000 pieces more, none of which has left: two in five bisque fired, a full kiln to draw. */

import { markFor } from '../../server/contract/mark.ts';
import type { Order } from '../../server/host/host.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard } from '../support/small-yard.ts';

export interface FullStudio extends Served {
  /** The firing that is to be drawn. */
  readonly toDraw: string;
  /** The mark of one piece. */
  readonly mark: string;
}

const PIECES = 5_000;
const KILN = 100;
const FORMS = ['beaker', 'cereal bowl', 'faceted jug', 'side plate', 'wall planter', 'tile'];
const GLAZES = ['marram-green', 'cuttle-white', 'gannet-grey', 'driftlight-blue'];

const id = (kind: number, n: number): string =>
  `0199${String(kind).padStart(4, '0')}-0000-7000-8000-${n.toString(16).padStart(12, '0')}`;

class Told {
  readonly orders: Order[] = [];

  say(happenedAt: string, command: string, input: object): void {
    const order = { id: id(9, this.orders.length), command, input, happenedAt };
    this.orders.push({ ...order, who: 'maker', device: 'bench' });
  }

  fire(firing: string, role: 'bisque' | 'glaze', pieces: readonly string[], day: string): void {
    const places = pieces.map((piece, n) => ({ piece, shelf: 1 + Math.floor((n * 6) / pieces.length) }));
    this.say(day, 'firing.pack', {
      firing,
      label: `${role} ${firing.slice(-3)}`,
      kiln: 'big-round',
      role,
      places,
    });
    this.say(day, 'firing.light', { firing });
    this.say(day, 'firing.end', { firing });
  }
}

export async function fiveThousand(): Promise<FullStudio> {
  const served = await openServed();
  await smallYard(served.host);
  const told = new Told();
  const pieces = Array.from({ length: PIECES }, (_, n) => id(1, n));
  for (const [n, piece] of pieces.entries())
    told.say('2026-11-10', 'piece.begin', { piece, form: FORMS[n % FORMS.length], clay: 'fell-white' });
  const bisqued = pieces.slice(0, (PIECES * 2) / 5);
  for (let at = 0; at < bisqued.length; at += KILN) {
    const firing = id(2, at);
    told.fire(firing, 'bisque', bisqued.slice(at, at + KILN), '2026-11-12');
    told.say('2026-11-13', 'firing.draw', { firing });
  }
  const glazed = bisqued.slice(0, KILN);
  for (const [n, piece] of glazed.entries())
    for (const zone of ['inside', 'outside'])
      told.say('2026-11-16', 'glaze.apply', {
        piece,
        zone,
        layers: [{ glaze: GLAZES[n % GLAZES.length], coats: 2 }],
      });
  const toDraw = id(3, 0);
  told.fire(toDraw, 'glaze', glazed, '2026-11-22');
  for (const [n, outcome] of (await served.host.recordAll(told.orders)).entries())
    if (outcome.outcome === 'refused')
      throw new Error(`${told.orders[n]!.command}: ${outcome.refusal.sentence}`);
  const last = told.orders.find(({ input }) => (input as { piece?: string }).piece === pieces.at(-1))!;
  return { ...served, toDraw, mark: markFor(last.id, 0) };
}
