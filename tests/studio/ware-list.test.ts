import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { done } from '../support/given.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, drawn, fired, glaze, JUG, materials, TILES } from '../support/yard.ts';

let studio: StudioHost;
const list = async (params: Record<string, string>) => studio.host.report('studio', 'ware', params);
const counts = async (params: Record<string, string>) => (await list(params)).rows.map((row) => row.count);

beforeAll(async () => {
  studio = await studioHost();
  await studio.tell(
    ...materials,
    begin(TILES, 12),
    done('2026-02-02', 'piece.begin', { piece: JUG, form: 'Faceted jug', clay: 'fell-white', mark: 'JUG-1' }),
    ...drawn('B1', 'bisque', [TILES, JUG], '2026-02-10'),
    glaze(TILES, '2026-02-12'),
    ...fired('G1', 'glaze', [TILES], '2026-02-14'),
    done('2026-02-16', 'piece.grade', { piece: TILES, first: 9, second: 2, waster: 1 }),
    done('2026-02-16', 'firing.draw', { firing: 'G1' }),
    done('2026-02-17', 'piece.note', { piece: JUG, note: 'Cracked handle, for the altar' }),
  );
});
afterAll(() => studio.close());

describe('the list of ware', () => {
  test.each([
    [{ stage: 'bisque-fired' }, [1]],
    [{ stage: 'here' }, [1, 2, 1, 9]],
    [{ glaze: 'marram-green' }, [2, 1, 9]],
    [{ glaze: 'marram-green', grade: 'second' }, [2]],
    [{ glaze: '(none)' }, [1]],
    [{ firing: 'G1', grade: 'second,waster' }, [2, 1]],
    [{ firing: 'B1', glaze: 'marram-green' }, [2, 1, 9]],
    [{ clay: 'fell-white', grade: 'first' }, [9]],
    [{ kiln: 'big-round' }, [2, 1, 9]],
    [{ from: '2026-02-14', to: '2026-02-14' }, [2, 1, 9]],
    [{ from: '2026-02-15' }, []],
    [{ owner: 'student' }, []],
    [{ q: 'jug-1' }, [1]],
    [{ q: 'faceted fell' }, [1]],
    [{ q: 'altar handle' }, [1]],
    [{ q: 'nothing of the kind' }, []],
  ])('narrowed by %o', async (params, found) => {
    expect((await counts(params)).toSorted()).toEqual(found.toSorted());
  });

  test.each<Record<string, string>>([{}, { glaze: 'marram-green' }])(
    'comes page by page without losing parts of one lot: %o',
    async (params) => {
      const whole = (await list({ ...params })).rows.map((row) => row.piece);
      const paged: unknown[] = [];
      let after: string | undefined;
      do {
        const page = await list({ ...params, limit: '1', ...(after ? { after } : {}) });
        paged.push(...page.rows.map((row) => row.piece));
        after = page.more?.next as string | undefined;
      } while (after);
      expect(paged).toEqual(whole);
    },
  );

  test('as it was shows the lot before it was fired, and nothing before it was begun', async () => {
    expect((await list({ 'as-at': '2026-02-05' })).rows).toMatchObject([
      { stage: 'made' },
      { stage: 'made' },
    ]);
    expect(await counts({ 'as-at': '2026-01-31' })).toEqual([]);
  });
});

describe('the story of a part that was split off', () => {
  test('tells what was done to the whole lot before, and nothing of the others after', async () => {
    const [second] = (await list({ grade: 'second' })).rows;
    const { more } = await studio.host.report('studio', 'piece', { piece: String(second!.piece) });
    const told = (more!.story as { sentence: string }[]).map(({ sentence }) => sentence);
    expect(told).toEqual([
      'Graded: 2 seconds',
      'Split off: 2',
      'Drawn',
      'Firing ended',
      'Kiln lit',
      'Packed in G1 (Big Round): shelf 1',
      'Glazed (inside): Marram Green × 2',
      'Drawn',
      'Firing ended',
      'Kiln lit',
      'Packed in B1 (Big Round): shelf 1',
      'Begun: 12 × tile in Fell White',
    ]);
  });
});
