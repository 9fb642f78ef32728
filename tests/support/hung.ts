/** Pictures of what stands about in the small yard, and of what came out of its last kiln. */
import type { Host } from '../../server/host/host.ts';
import { photograph } from './photographs.ts';
import type { Yard } from './small-yard.ts';

const order = (n: number, command: string, input: object) => ({
  id: `01980000-0000-7000-8000-0000000d${n.toString(16).padStart(4, '0')}`,
  ...{ command, input, happenedAt: '2026-11-24', who: 'ansa', device: 'phone' },
});

/** The jug from both sides, a firing, a glaze, and what came out of firing g8 with one of a fault. */
export async function hangPictures(host: Host, { pieces }: Yard): Promise<void> {
  const { rows } = await host.report('studio', 'firing', { firing: 'g8' });
  const out = rows.map(({ piece }) => `piece:${String(piece)}`);
  const targets: readonly (readonly [to: string, says?: object])[] = [
    [`piece:${pieces.jug}`],
    [`piece:${pieces.jug}`],
    ['firing:g8'],
    ['glaze:quicksilver-run'],
    ...out.map((to) => [to] as const),
    [out[0]!, { fault: 'runs' }],
  ];
  for (const [n, [to, says]] of targets.entries()) {
    const picture = await host.pictures.keep(await photograph(300 + n, 200));
    const outcome = await host.record(order(n, 'file.attach', { to, ...picture, ...says }));
    if (outcome.outcome !== 'recorded') throw new Error(`${to} got no picture: ${JSON.stringify(outcome)}`);
  }
}
