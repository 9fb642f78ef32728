/** How the fault guide is drawn. */
import type { Figure } from '../../../server/contract/figures.ts';

export const ALL: Figure[] = [
  {
    figure: 'table',
    title: 'Faults',
    only: 'fault',
    columns: [
      { field: 'label', label: 'Fault', kind: 'text', behind: 'labelBehind' },
      { field: 'affected', label: 'Pieces', kind: 'count' },
      { field: 'rate', label: 'Rate', kind: 'rate' },
      { field: 'seen', label: 'What one sees', kind: 'text', wide: true },
    ],
  },
];

export const GUIDE: Figure[] = [
  {
    figure: 'ranking',
    title: 'What this studio’s record suspects',
    only: 'suspect',
    label: 'label',
    estimate: { field: 'rate', label: 'Rate', kind: 'rate' },
    low: 'low',
    high: 'high',
    pieces: 'pieces',
  },
  {
    figure: 'table',
    title: 'How sure that is',
    only: 'suspect',
    columns: [
      { field: 'label', label: 'Goes with', kind: 'text', behind: 'labelBehind' },
      { field: 'what', label: 'Kind', kind: 'text' },
      { field: 'affected', label: 'Affected', kind: 'count' },
      { field: 'pieces', label: 'Pieces', kind: 'count' },
      { field: 'verdict', label: 'Verdict', kind: 'text' },
    ],
  },
  {
    figure: 'table',
    title: 'What the books suspect',
    only: 'book',
    columns: [
      { field: 'label', label: 'Suspect', kind: 'text' },
      { field: 'source', label: 'Source', kind: 'text' },
    ],
  },
  {
    figure: 'table',
    title: 'What to try',
    only: 'try',
    columns: [
      { field: 'label', label: 'Try', kind: 'text' },
      { field: 'source', label: 'Source', kind: 'text' },
    ],
  },
  {
    figure: 'table',
    title: 'How repairs have gone here',
    only: 'repair',
    columns: [
      { field: 'label', label: 'Repair', kind: 'text' },
      { field: 'says', label: 'Worked', kind: 'text' },
    ],
  },
  {
    figure: 'table',
    title: 'Take care',
    only: 'caution',
    columns: [{ field: 'label', label: 'Caution', kind: 'text' }],
  },
];
