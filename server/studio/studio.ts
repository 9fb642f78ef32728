/** The studio itself, declared as the first plugin: pieces, firings, faults, materials. */
import { CONTRACT, definePlugin } from '../contract/plugin.ts';
import { concerning } from './concerning.ts';
import { dayStreams } from './day.ts';
import { deciding } from './deciding.ts';
import { collectionSlips } from './papers/collection-slips.ts';
import { labels } from './papers/labels.ts';
import { loadSheet } from './papers/load-sheet.ts';
import { openingSheet } from './papers/opening-sheet.ts';
import { priceCards } from './papers/price-cards.ts';
import * as lists from './projections.ts';
import { datesReport } from './reports/dates.ts';
import { firingReport } from './reports/firing.ts';
import { firingsReport } from './reports/firings.ts';
import { marksReport } from './reports/marks.ts';
import { materialsReport, peopleReport } from './reports/materials.ts';
import { picturesReport, pictureWallReport } from './reports/pictures.ts';
import { pieceReport } from './reports/piece.ts';
import { todayReport } from './reports/today.ts';
import { wareReport } from './reports/ware.ts';

export const studio = definePlugin({
  id: 'studio',
  contract: CONTRACT,
  about: 'Pieces and lots from wet clay to their owner: glazes, firings, faults, repairs and grades.',
  needs: [],
  ...deciding,
  projections: {
    ware: lists.wareList,
    pictures: lists.pictureList,
    firings: lists.firingList,
    clays: lists.clayList,
    glazes: lists.glazeList,
    schedules: lists.scheduleList,
    kilns: lists.kilnList,
    words: lists.wordList,
    people: lists.peopleList,
  },
  reports: {
    ware: wareReport,
    piece: pieceReport,
    firings: firingsReport,
    firing: firingReport,
    materials: materialsReport,
    people: peopleReport,
    today: todayReport,
    marks: marksReport,
    dates: datesReport,
    pictures: picturesReport,
    'picture-wall': pictureWallReport,
  },
  papers: {
    labels,
    'load-sheet': loadSheet,
    'opening-sheet': openingSheet,
    'collection-slips': collectionSlips,
    'price-cards': priceCards,
  },
  day: dayStreams,
  concerning,
});
