/** The demo ends yesterday, so it is another one every day: what is true in it must be found on any of them. */
import { describe, expect, it } from 'vitest';
import { fillDemo } from '../../server/demo/fill.ts';
import { studioHost } from '../support/studio-host.ts';

const PATIENCE = 120_000;

describe.each(['2026-11-25', '2028-02-29'])('the demo of %s', (today) => {
  it(
    'shows Quicksilver Run as the worst, clears Samphire Matt by its bisque, and says nothing of Confetti Speckle',
    async () => {
      const studio = await studioHost({ clock: () => new Date(`${today}T09:00:00Z`) });
      try {
        await fillDemo(studio.host, today);
        const worst = await studio.host.report('seconds-tally', 'worst-glaze', {});
        const verdict = (label: string) => worst.rows.find((r) => r.label === label)!.verdict;
        expect(worst.sentence).toMatch(/^Quicksilver Run caused the most: /);
        expect(verdict('Samphire Matt')).toMatch(/^looks bad, but most of its seconds /);
        expect(verdict('Confetti Speckle')).toBe('too few to say');

        const rates = await studio.host.report('defect-rates', 'by-glaze', {});
        /* The plain rate may well speak against Samphire Matt too: it is cleared further down. */
        expect(rates.sentence).toMatch(/Worse than the rest, beyond chance: Quicksilver Run \(/);
        const within = async (glaze: string) =>
          (await studio.host.report('defect-rates', 'glaze-within-schedule', { glaze, role: 'bisque' }))
            .sentence;
        expect(await within('Quicksilver Run')).toMatch(/ is worse than other ware, the schedule and clay/);
        expect(await within('Samphire Matt')).toMatch(
          /^Samphire Matt looks bad \([^)]*\), but (only on Daytime Bisque 06|\d+ of its \d+ pieces were on Daytime Bisque 06)/,
        );
        expect(await within('Confetti Speckle')).toMatch(/ was in few firings \(\d\): too few to say/);
      } finally {
        await studio.close();
      }
    },
    PATIENCE,
  );
});
