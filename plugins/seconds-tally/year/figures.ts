/** How the parts of the year are drawn. */
import type { Figure } from '../../../server/contract/figures.ts';

export const FIGURES: Figure[] = [
  {
    figure: 'table',
    title: 'What came out',
    only: 'grade',
    columns: [
      { field: 'label', label: 'Grade', kind: 'text' },
      { field: 'pieces', label: 'This year', kind: 'count', behind: 'piecesBehind' },
      { field: 'share', label: 'Share', kind: 'rate' },
      { field: 'piecesBefore', label: 'Year before', kind: 'count' },
      { field: 'shareBefore', label: 'Share then', kind: 'rate' },
    ],
  },
  {
    figure: 'table',
    title: 'Money lost on seconds and wasters',
    only: 'lost',
    columns: [
      { field: 'key', label: 'Currency', kind: 'text' },
      { field: 'lost', label: 'This year', kind: 'money' },
      { field: 'lostBefore', label: 'Year before', kind: 'money' },
    ],
  },
  {
    figure: 'table',
    title: 'Repairs',
    only: 'mended',
    columns: [
      { field: 'label', label: 'Repairs', kind: 'text' },
      { field: 'pieces', label: 'This year', kind: 'count' },
      { field: 'piecesBefore', label: 'Year before', kind: 'count' },
    ],
  },
  {
    figure: 'ranking',
    title: 'Worst glazes: seconds and wasters laid at each glaze’s door',
    only: 'worst',
    label: 'label',
    estimate: { field: 'laid', label: 'Laid at its door', kind: 'number', behind: 'laidBehind' },
    low: 'laidLow',
    high: 'laidHigh',
    pieces: 'pieces',
  },
  {
    figure: 'ranking',
    title: 'Best glazes: how often a piece came out as a second or waster, evened out',
    only: 'best',
    label: 'label',
    estimate: { field: 'even', label: 'Rate, evened out', kind: 'rate' },
    low: 'evenLow',
    high: 'evenHigh',
    pieces: 'pieces',
  },
  {
    figure: 'ranking',
    title: 'Best repairs: how often each worked, evened out',
    only: 'repair',
    label: 'label',
    estimate: { field: 'even', label: 'Worked, evened out', kind: 'rate' },
    low: 'evenLow',
    high: 'evenHigh',
    pieces: 'tried',
  },
  {
    figure: 'table',
    title: 'What changed since the year before',
    only: 'change',
    columns: [
      { field: 'label', label: 'What', kind: 'text' },
      { field: 'what', label: 'Kind', kind: 'text' },
      { field: 'rate', label: 'This year', kind: 'rate' },
      { field: 'rateBefore', label: 'Year before', kind: 'rate' },
      { field: 'says', label: 'How sure', kind: 'text' },
    ],
  },
];
