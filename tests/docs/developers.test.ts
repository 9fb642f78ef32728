import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { buildRegistry } from '../../server/host/registry.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { done, givenIn } from '../support/given.ts';

const given = givenIn(buildRegistry(PLUGINS));

it('shows contributors a test that runs', () => {
  // excerpt
  given(done('2026-05-01', 'piece.begin', { piece: 'tile-lot', count: 12 }))
    .when('piece.grade', { piece: 'tile-lot', first: 12 }, '2026-05-03')
    .refused('not-possible-then', /hasn't been fired/);
  // end
});

it('and it is the one in DEVELOPERS.md', () => {
  const here = readFileSync(fileURLToPath(import.meta.url), 'utf8');
  const excerpt = here.split('  // excerpt\n')[1]!.split('  // end\n')[0]!.replace(/^ {2}/gm, '');
  const guide = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
  expect(guide).toContain(`\`\`\`ts\n${excerpt}\`\`\`\n`);
});
