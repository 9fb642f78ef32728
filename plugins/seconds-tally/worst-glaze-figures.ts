/** How the worst glaze is drawn: who has how much laid at its door, then all numbers. */
import type { Figure } from '../../server/contract/figures.ts';

export const FIGURES: Figure[] = [
  {
    figure: 'ranking',
    title: 'Seconds and wasters laid at each glaze’s door',
    only: 'glaze',
    label: 'label',
    estimate: { field: 'laid', label: 'Laid at its door', kind: 'number', behind: 'laidBehind' },
    low: 'laidLow',
    high: 'laidHigh',
    pieces: 'pieces',
  },
  {
    figure: 'table',
    title: 'Glaze by glaze',
    only: 'glaze',
    columns: [
      { field: 'label', label: 'Glaze', kind: 'text', behind: 'piecesBehind' },
      { field: 'verdict', label: 'Verdict', kind: 'text' },
      { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind', wide: true },
      { field: 'seconds', label: 'Seconds and wasters', kind: 'count', behind: 'secondsBehind', wide: true },
      { field: 'laid', label: 'Laid at its door', kind: 'number', behind: 'laidBehind', wide: true },
      { field: 'laidLow', label: 'At least', kind: 'number', wide: true },
      { field: 'laidHigh', label: 'At most', kind: 'number', wide: true },
      { field: 'chanceWorst', label: 'Chance it is the worst', kind: 'rate' },
      { field: 'chanceHighestRate', label: 'Chance it spoils most often', kind: 'rate', wide: true },
      { field: 'rate', label: 'Rate', kind: 'rate', behind: 'secondsBehind', wide: true },
      { field: 'low', label: 'Rate at least', kind: 'rate', wide: true },
      { field: 'high', label: 'Rate at most', kind: 'rate', wide: true },
      { field: 'lost', label: 'Lost', kind: 'money', wide: true },
    ],
  },
  {
    figure: 'table',
    title: 'All that the seconds were laid at',
    columns: [
      { field: 'label', label: 'Cause', kind: 'text', behind: 'piecesBehind' },
      { field: 'what', label: 'Kind', kind: 'text', wide: true },
      { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind', wide: true },
      { field: 'seconds', label: 'Seconds and wasters', kind: 'count', behind: 'secondsBehind', wide: true },
      { field: 'laid', label: 'Laid at its door', kind: 'number', behind: 'laidBehind' },
      { field: 'laidLow', label: 'At least', kind: 'number', wide: true },
      { field: 'laidHigh', label: 'At most', kind: 'number', wide: true },
      { field: 'lost', label: 'Lost', kind: 'money' },
    ],
  },
];
