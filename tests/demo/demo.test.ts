import { describe, expect, it } from 'vitest';
import { demoOrders } from '../../server/demo/demo.ts';
import { PLUGINS } from '../../server/manifest.ts';

const commands = Object.assign({}, ...PLUGINS.map((plugin) => plugin.commands));

const count = (orders: ReturnType<typeof demoOrders>, command: string) =>
  orders.filter((order) => order.command === command).length;

interface Begun {
  readonly count: number;
  readonly owner: { readonly kind: string };
}
const begun = (orders: ReturnType<typeof demoOrders>) =>
  orders.filter((order) => order.command === 'piece.begin').map((order) => order.input as Begun);

describe('the demo studio', () => {
  const today = '2026-05-04';
  const orders = demoOrders(today);

  it('is the same every time for the same day', () => {
    expect(demoOrders(today)).toEqual(orders);
  });

  it('is another one for another seed', () => {
    expect(demoOrders(today, 'another')).not.toEqual(orders);
  });

  it.each(['2026-11-29', '2026-12-05', '2027-02-28', '2027-07-01'])(
    'offers a pot by post on any day, %s too, that was graded before and is touched by nobody after',
    (day) => {
      const all = demoOrders(day);
      const offered = all.findIndex(
        ({ command, input }) => command === 'item.add' && (input as { kind: string }).kind === 'pot',
      );
      const [lot] = (all[offered]!.input as { piece: string }).piece.split('.');
      const named = (some: typeof all) =>
        some.filter(({ id, input }) => id === lot || JSON.stringify(input).includes(lot!));
      expect(named(all.slice(0, offered)).map(({ command }) => command)).toContain('piece.begin');
      expect(named(all.slice(offered + 1))).toEqual([]);
    },
  );

  it('has about 2,400 pieces and about 150 firings in two years', () => {
    const pieces = begun(orders).reduce((sum, { count: many }) => sum + many, 0);
    expect(pieces).toBeGreaterThan(2_250);
    expect(pieces).toBeLessThan(2_550);
    expect(count(orders, 'firing.pack')).toBeGreaterThan(130);
    expect(count(orders, 'firing.pack')).toBeLessThan(175);
    expect(orders[0]!.happenedAt!.slice(0, 10)).toBe('2024-05-06');
  });

  it('has about 900 orders by post, nearly all of them posted', () => {
    const placed = count(orders, 'order.place');
    expect(placed).toBeGreaterThan(830);
    expect(placed).toBeLessThan(970);
    expect(count(orders, 'parcel.post') / placed).toBeGreaterThan(0.97);
    expect(count(orders, 'parcel.lose')).toBeGreaterThan(2);
  });

  it('sells a pot of the yard by post, and templates as files that are fetched, but for the last', () => {
    const pots = orders.filter(
      ({ command, input }) => command === 'item.add' && (input as { kind: string }).kind === 'pot',
    );
    expect(pots).toHaveLength(1);
    expect(count(orders, 'download.grant')).toBe(12);
    expect(count(orders, 'download.hand-out')).toBeGreaterThanOrEqual(11);
    const fetched = orders.filter(({ command }) => command === 'download.hand-out');
    expect(fetched.some(({ who }) => who === 'buyer')).toBe(true);
    expect(count(orders, 'template.give-out')).toBeGreaterThan(fetched.length);
  });

  it('has ware of the studio, of students, of clients and of neighbours', () => {
    const kinds = new Set(begun(orders).map(({ owner }) => owner.kind));
    expect([...kinds].sort()).toEqual(['commission', 'hire', 'own', 'student']);
  });

  it('gives each command an id of its own, a UUIDv7', () => {
    expect(new Set(orders.map((order) => order.id)).size).toBe(orders.length);
    for (const { id } of orders)
      expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });

  it('asks for nothing that a command would not take', () => {
    for (const { command, input } of orders) {
      if (command === 'entry.strike') continue;
      const parsed = commands[command]!.input.safeParse(input);
      expect(parsed.error?.message, `${command} ${JSON.stringify(input)}`).toBeUndefined();
    }
  });

  describe.each(['2026-01-02', '2026-08-19', '2028-02-29'])('opened on %s', (day) => {
    const of = demoOrders(day);

    it('ends before that day', () => {
      expect(of.every((order) => order.happenedAt! < day)).toBe(true);
    });

    it('has one kiln packed, one lit, and one that waits to be drawn', () => {
      const steps = new Map<string, string[]>();
      for (const { command, input } of of)
        if (command.startsWith('firing.') && command !== 'firing.read') {
          const { firing } = input as { firing: string };
          steps.set(firing, [...(steps.get(firing) ?? []), command]);
        }
      const last = [...steps.values()].map((its) => its.at(-1)!).filter((step) => step !== 'firing.draw');
      expect(last.sort()).toEqual(['firing.end', 'firing.light', 'firing.pack']);
    });
  });
});
