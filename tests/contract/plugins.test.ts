import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PLUGINS } from '../../server/manifest.ts';
import { dumpOf } from '../support/dump.ts';
import { done, type Happening } from '../support/given.ts';
import { shopStory } from '../support/shop.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, drawn, glaze, JUG, materials, TILES } from '../support/yard.ts';

const names = (declared: object | undefined): string[] => Object.keys(declared ?? {});
const readme = (id: string) =>
  new URL(
    id === 'studio' ? '../../server/studio/README.md' : `../../plugins/${id}/README.md`,
    import.meta.url,
  );

const story: readonly Happening[] = [
  ...materials,
  begin(TILES, 12),
  begin(JUG, 1),
  ...drawn('B1', 'bisque', [TILES, JUG], '2026-02-10'),
  glaze(TILES, '2026-02-12'),
  glaze(JUG, '2026-02-12'),
  ...drawn('G1', 'glaze', [TILES, JUG], '2026-02-14'),
  done('2026-02-16', 'fault.find', { piece: TILES, kind: 'runs', zone: 'foot', count: 2 }),
  done('2026-02-16', 'piece.grade', { piece: TILES, first: 9, second: 2, waster: 1 }),
  done('2026-02-16', 'piece.grade', { piece: JUG, first: 1 }),
  done('2026-02-17', 'piece.leave', { piece: JUG, how: 'sold' }),
  done('2026-02-17', 'template.draw', {
    name: 'Faceted Jug',
    spec: { form: 'polygon', sides: 6, bottomSide: 60, topSide: 45, height: 200 },
  }),
  // Late: the fault that cost the grade was seen at the drawing.
  done('2026-02-15', 'fault.find', { piece: JUG, kind: 'specks' }),
  ...shopStory,
];

describe.each(PLUGINS)('the plugin $id', (plugin) => {
  test('names its events and commands under its own prefixes', () => {
    for (const name of [...names(plugin.events), ...names(plugin.commands)])
      expect(plugin.prefixes, name).toContain(name.slice(0, name.indexOf('.')));
  });

  test('says in its README all that it contributes', () => {
    expect(existsSync(readme(plugin.id)), `a README for ${plugin.id}`).toBe(true);
    const text = readFileSync(readme(plugin.id), 'utf8');
    const contributed = [
      plugin.events,
      plugin.commands,
      plugin.projections,
      plugin.reports,
      plugin.papers,
      plugin.imports,
      plugin.jobs,
      plugin.handouts,
    ].flatMap(names);
    expect(contributed.filter((name) => !text.includes(`\`${name}\``))).toEqual([]);
  });

  test.runIf(plugin.projections)('has a read model that is the same rebuilt as kept up', async () => {
    const studio: StudioHost = await studioHost();
    try {
      for (const happening of story) await studio.tell(happening);
      await studio.host.report(plugin.id, Object.keys(plugin.reports!)[0]!, {});
      const kept = dumpOf(studio.dir, plugin.id);
      await studio.host.rebuild(plugin.id);
      expect(dumpOf(studio.dir, plugin.id)).toEqual(kept);
      expect(Object.values(kept).flat().length).toBeGreaterThan(0);
    } finally {
      await studio.close();
    }
  });
});
