import { computed, signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Option } from '../parts/field.tsx';
import { faultNames, repairNames, zoneNames } from '../words/trade.ts';
import { ask, Failed, reportAddress, type Told } from './client.ts';
import { recorded } from './fresh.ts';
import type { MaterialKind, MaterialRow, MaterialsMore, PersonRow, WordKind } from './studio.ts';
import { useReport } from './use-report.ts';

type Answered = Told<MaterialRow, MaterialsMore>;

/** Asked once for all screens, and again whenever the log has grown. */
const held = signal<Answered | undefined>(undefined);
let askedAt = -1;

async function fetchMaterials(grown: number): Promise<void> {
  if (askedAt === grown) return;
  askedAt = grown;
  try {
    held.value = await ask<Answered>(reportAddress('studio/materials'));
  } catch (failure) {
    if (!(failure instanceof Failed)) throw failure;
    askedAt = -1;
  }
}

export const settings = computed(() => held.value?.more.settings);

const TRADE: Readonly<Record<WordKind, Readonly<Record<string, string>>>> = {
  fault: faultNames,
  repair: repairNames,
  zone: zoneNames,
};

export interface Materials {
  readonly known: boolean;
  readonly rows: readonly MaterialRow[];
  readonly words: MaterialsMore['words'] | undefined;
  /** Choices of a kind; of words, the trade's own before the user's own. */
  readonly of: (kind: MaterialKind | WordKind) => readonly Option[];
  readonly name: (kind: MaterialKind | WordKind, id: string) => string;
}

/** The clays, glazes, schedules, kilns and words of the studio. */
export function useMaterials(): Materials {
  const answer = held.value;
  const grown = recorded.value;
  useEffect(() => {
    void fetchMaterials(grown);
  }, [grown]);
  const rows = answer?.rows ?? [];
  const words = answer?.more.words;
  const of = (kind: MaterialKind | WordKind): readonly Option[] =>
    kind in TRADE
      ? wordsOf(kind as WordKind, words?.[kind as WordKind])
      : rows.filter((row) => row.kind === kind).map((row) => ({ value: row.id, label: row.name }));
  return {
    known: answer !== undefined,
    rows,
    words,
    of,
    name: (kind, id) => of(kind).find((option) => option.value === id)?.label ?? id.replaceAll('-', ' '),
  };
}

function wordsOf(kind: WordKind, told: MaterialsMore['words'][WordKind] | undefined): readonly Option[] {
  const trade = Object.entries(TRADE[kind]).map(([value, label]) => ({ value, label }));
  const own = (told ?? []).filter((word) => word.own).map((word) => ({ value: word.id, label: word.name }));
  return [...trade, ...own];
}

export function usePeople(): readonly PersonRow[] {
  return useReport<PersonRow>('studio/people').answer?.rows ?? [];
}
