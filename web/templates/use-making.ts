/** All that is typed while a template is made or changed, and what it comes to. */
import { useMemo, useState } from 'preact/hooks';
import type { Of, Spec } from '../../plugins/template-sheets/spec/spec.ts';
import { templateFor } from '../../plugins/template-sheets/template.ts';
import { useMaterials } from '../api/use-materials.ts';
import { type Draft, draftOf, firstDraft, specOf } from './draft.ts';
import type { Brought } from './from-svg.tsx';
import { percentOf, type SizeDraft, shareOf, sizeDrafts, sizesOf } from './sizes.ts';

export type Way = 'measures' | 'svg' | 'scan';

export interface Kept {
  readonly template: string;
  readonly name: string;
  readonly spec: Spec;
  readonly clay?: string;
  readonly licence?: string;
  readonly howTo?: string;
}

export interface Words {
  readonly name: string;
  readonly licence: string;
  readonly howTo: string;
}

export function useMaking(kept: Kept | undefined) {
  const spec = kept?.spec;
  const drawn = spec?.form === 'drawing' ? spec : undefined;
  const [way, setWay] = useState<Way>(drawn ? 'svg' : 'measures');
  const [draft, setDraft] = useState<Draft>(spec && spec.form !== 'drawing' ? draftOf(spec) : firstDraft);
  const [brought, setBrought] = useState<Brought>({ spec: drawn, said: [] });
  const [words, setWords] = useState<Words>({
    name: kept?.name ?? '',
    licence: kept?.licence ?? '',
    howTo: kept?.howTo ?? '',
  });
  const [clay, setClay] = useState(kept?.clay ?? '');
  const [shrinks, setShrinks] = useState(percentOf(spec?.shrinkage));
  const [sizes, setSizes] = useState<readonly SizeDraft[]>(spec ? sizeDrafts(spec) : []);
  const [nested, setNested] = useState(spec?.sizes ? spec.nested === true : true);
  const [paper, setPaper] = useState('A4');
  const clays = useMaterials().rows.filter(
    (row) => row.kind === 'clay' && typeof row.facts.shrinkage === 'number',
  );
  const typed = typedOf(
    way === 'measures' ? specOf(draft) : brought.spec,
    words.name,
    shrinks,
    sizesOf(sizes, nested),
  );
  const made = useMemo(
    () => (typed === undefined ? undefined : templateFor(JSON.parse(typed), paper)),
    [typed, paper],
  );
  return {
    ...{
      way,
      setWay,
      draft,
      setDraft,
      words,
      setWords,
      sizes,
      setSizes,
      nested,
      setNested,
      paper,
      setPaper,
    },
    ...{ clay, clays, shrinks, setShrinks, made },
    drawing: way === 'measures' ? undefined : brought,
    bring: (next: Brought) => {
      setBrought(next);
      if (next.spec?.name && !words.name) setWords({ ...words, name: next.spec.name });
    },
    /** The drawing's own words, changed by hand. */
    rename: (pieces: Of<'drawing'>['pieces']) =>
      brought.spec && setBrought({ ...brought, spec: { ...brought.spec, pieces } }),
    /** A clay brings its shrinkage with it. */
    choose: (id: string) => {
      setClay(id);
      const shrinkage = clays.find((row) => row.id === id)?.facts.shrinkage;
      setShrinks(percentOf(shrinkage as number | undefined));
    },
  };
}
export type Making = ReturnType<typeof useMaking>;

/** As JSON, so that the same spec is not made twice. */
function typedOf(
  bare: object | undefined,
  name: string,
  shrinks: string,
  set: Pick<Spec, 'sizes' | 'nested'>,
): string | undefined {
  if (bare === undefined) return undefined;
  const { shrinkage: _, sizes: __, nested: ___, name: ____, ...own } = bare as Partial<Spec>;
  const shrinkage = shareOf(shrinks);
  return JSON.stringify({
    ...own,
    ...(name.trim() ? { name: name.trim() } : {}),
    ...(shrinkage === undefined || shrinkage === 0 ? {} : { shrinkage }),
    ...set,
  });
}
