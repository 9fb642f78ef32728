/** The tutorial and the how-tos are acted out: what they say the program says, it says. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Outcome } from '../../server/host/host.ts';
import { done } from '../support/given.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (path: string) => readFileSync(join(root, path), 'utf8');
const pages = ['docs/tutorial', 'docs/how-to'].flatMap((folder) =>
  readdirSync(join(root, folder)).map((name) => `${folder}/${name}`),
);

/** Lines that begin with '> ', each once. */
const quoted = (page: string) => [...new Set([...page.matchAll(/^> (.+)$/gm)].map((found) => found[1]!))];

const BEAKERS = 'twelve-beakers';
const fire = (role: string, day: number, more: object) => {
  const on = (days: number) => `2026-05-${String(day + days).padStart(2, '0')}`;
  const firing = `${role}-1`;
  const places = [{ piece: BEAKERS, shelf: 1 }];
  return [
    done(on(0), 'firing.pack', { firing, role, kiln: 'big-round', places, ...more }),
    done(on(0), 'firing.light', { firing }),
    done(on(1), 'firing.end', { firing }),
    done(on(2), 'firing.draw', { firing }),
  ];
};

describe('the tutorial', () => {
  let studio: StudioHost;
  const said: string[] = [];
  const sentence = async (plugin: string, report: string, params: Record<string, string> = {}) =>
    said.push((await studio.host.report(plugin, report, params)).sentence);
  const refusal = (outcome: Outcome) => (outcome.outcome === 'refused' ? outcome.refusal.sentence : '');

  beforeAll(async () => {
    studio = await studioHost({ clock: () => new Date('2026-05-14T12:00:00Z') });
    const price = (amount: number) => ({ amount, currency: 'GBP' });
    const prices = { price: price(1_800), secondPrice: price(1_000) };
    const glaze = (zone: string, handle: string) =>
      done('2026-05-11', 'glaze.apply', { piece: BEAKERS, zone, layers: [{ glaze: handle, coats: 1 }] });
    await studio.tell(
      done('2026-05-01', 'clay.add', { name: 'Fell White stoneware' }),
      done('2026-05-01', 'glaze.add', { name: 'Marram Green' }),
      done('2026-05-01', 'glaze.add', { name: 'Cuttle White' }),
      done('2026-05-01', 'schedule.write', { name: 'Overnight Bisque 06' }),
      done('2026-05-01', 'schedule.write', { name: 'Glaze 6 Plain' }),
      done('2026-05-01', 'kiln.add', { name: 'Big Round' }),
      done('2026-05-01', 'studio.set', {
        studio: 'Hollin Yard Pottery',
        zone: 'Europe/London',
        currency: 'GBP',
        yearStart: '01-01',
      }),
      done('2026-05-01', 'piece.begin', {
        piece: BEAKERS,
        mark: 'K7RTX',
        count: 12,
        form: 'beaker',
        clay: 'fell-white-stoneware',
        ...prices,
      }),
      done('2026-05-07', 'piece.move-on', { piece: BEAKERS, stage: 'bone-dry' }),
      ...fire('bisque', 8, { label: 'Bisque 1', schedule: 'overnight-bisque-06' }),
      done('2026-05-11', 'piece.begin', { piece: 'one-raw-jug', form: 'jug' }),
    );
    const raw = { firing: 'raw', kiln: 'big-round', role: 'glaze', places: [{ piece: 'one-raw-jug' }] };
    said.push(refusal(await studio.ask('firing.pack', raw, '2026-05-11')));
    await studio.tell(
      glaze('outside', 'marram-green'),
      glaze('inside', 'cuttle-white'),
      ...fire('glaze', 11, { label: 'Glaze 1', schedule: 'glaze-6-plain' }),
    );
    const [fault] = await studio.tell(
      done('2026-05-14', 'fault.find', { piece: BEAKERS, kind: 'pinholes', zone: 'inside', count: 2 }),
      done('2026-05-14', 'piece.grade', { piece: BEAKERS, first: 9, second: 2, waster: 1 }),
    );
    await sentence('studio', 'firing', { firing: 'glaze-1' });
    await sentence('seconds-tally', 'by-glaze');
    await sentence('seconds-tally', 'by-fault');
    const strike = { command: fault!.id, why: 'It was the light.' };
    expect((await studio.ask('entry.strike', strike, '2026-05-14')).outcome).toBe('recorded');
    await sentence('seconds-tally', 'by-fault');
  });
  afterAll(() => studio.close());

  it.each(quoted(read('docs/tutorial/first-firing.md')))('is told: %s', (line) => {
    expect(
      said.some((one) => one.includes(line)),
      said.join('\n'),
    ).toBe(true);
  });
});

describe('the tutorial and the how-tos', () => {
  const words = readdirSync(join(root, 'web/words'))
    .map((name) => read(`web/words/${name}`))
    .join('\n');
  const labels = pages.flatMap((page) =>
    [
      ...read(page)
        .replace(/\s+/g, ' ')
        .matchAll(/\*\*([^*]+)\*\*/g),
    ].map((found) => [found[1]!, page] as const),
  );

  it.each(labels.filter(([label]) => label !== 'bold'))('call ‘%s’ what the page calls it (%s)', (label) => {
    expect(words).toContain(`'${label}'`);
  });

  it('lead only to pages that are there', () => {
    for (const page of pages)
      for (const [, link] of read(page).matchAll(/\]\(([^)#]+)\)/g))
        expect(() => read(join(page, '..', link!)), `${page}: ${link}`).not.toThrow();
  });

  it('name no verb of the command line that is not there', async () => {
    const { VERBS } = await import('../../server/cli/verbs.ts');
    const names = VERBS.map(({ name }) => name);
    for (const page of pages)
      for (const [, verb] of read(page).matchAll(/wareboard -- (\S+)/g)) expect(names).toContain(verb);
  });
});
