/** Templates kept by name: drawn, changed, given out, put away. */
import { describe, expect, test } from 'vitest';
import type { Kept } from '../../../plugins/template-sheets/kept.ts';
import { buildRegistry } from '../../../server/host/registry.ts';
import { PLUGINS } from '../../../server/manifest.ts';
import { done, givenIn } from '../../support/given.ts';

const given = givenIn(buildRegistry(PLUGINS));
const spec = { form: 'cylinder', diameter: 90, height: 120 };
const beaker = done('2026-05-01', 'template.draw', { name: 'Beaker', spec });
const sleeve = { template: 'beaker', name: 'Beaker', spec: { ...spec, height: 140 } };

describe('a template', () => {
  test('is kept under its name', () => {
    given()
      .when('template.draw', { name: 'Wall Pocket', spec })
      .then(['template.drawn', { template: 'wall-pocket', name: 'Wall Pocket', spec }]);
  });

  test('is drawn once; a change is its next version, whole', () => {
    given(beaker)
      .when('template.draw', { name: 'Beaker', spec })
      .refused('already-there', /already a template called “Beaker”/);
    given(beaker).when('template.change', sleeve).then(['template.changed', sleeve]);
    given()
      .when('template.change', sleeve)
      .refused('no-such-template', /draw it first/);
  });

  test('that cannot be made is not kept', () => {
    given()
      .when('template.draw', { name: 'Straw', spec: { ...spec, diameter: 8, thickness: 8 } })
      .refused('cannot-be-made', /“thickness” leaves nothing of “diameter”/);
  });

  test('given out is the newest version at that time, one of it, unless said', () => {
    const out = { template: 'beaker', paper: 'A4', how: 'download', order: 'HY-1007' };
    given(beaker, done('2026-05-02', 'template.change', sleeve))
      .when('template.give-out', out)
      .then(['template.given-out', { ...out, version: 2, count: 1 }]);
    given(beaker)
      .when('template.give-out', { ...out, version: 2 })
      .refused('no-such-version', /only 1 version/);
  });

  test('is counted by files sent and sheets printed, and comes back when it is changed', () => {
    const state = given(
      beaker,
      done('2026-05-02', 'template.give-out', { template: 'beaker', paper: 'A4', how: 'printed', count: 20 }),
      done('2026-05-03', 'template.give-out', { template: 'beaker', paper: 'A3', how: 'download' }),
      done('2026-05-04', 'template.put-away', { template: 'beaker' }),
    ).state<Kept>('template:beaker');
    expect(state).toMatchObject({ printed: 20, downloads: 1, putAway: true, version: 1 });
    given(beaker, done('2026-05-04', 'template.put-away', { template: 'beaker' }))
      .when('template.put-away', { template: 'beaker' })
      .unchanged();
  });
});
