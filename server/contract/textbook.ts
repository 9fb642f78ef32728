/**
 * What the textbooks know of each fault: how it is seen, where it tends to come from, what is tried
 * first, and what can hurt. In our own words and from memory, without pages; a line marked
 * `practice` is common practice of the trade with no source. It is general knowledge: what this
 * studio's record says comes before it.
 */
import { FAULTS } from './trade.ts';

export const BOOKS = [
  'F. Hamer and J. Hamer, The Potter’s Dictionary of Materials and Techniques',
  'H. Fraser, Ceramic Faults and Their Remedies',
  'D. Rhodes, Clay and Glazes for the Potter',
] as const;

export interface Line {
  readonly text: string;
  /** Common practice, no source. */
  readonly practice?: true;
}

export interface Known {
  /** One sentence: what one sees. */
  readonly seen: string;
  readonly suspects: readonly Line[];
  /** The usual first one comes first. */
  readonly tries: readonly Line[];
  readonly cautions: readonly string[];
}

export type Fault = (typeof FAULTS)[number];

const books = (text: string): Line => ({ text });
const practice = (text: string): Line => ({ text, practice: true });

const DUST =
  'Grinding throws fine silica dust and glass: wet the work or use extraction, wear a respirator that fits and eye protection, and no gloves at a turning tool.';
const SHARP =
  'Edges, drips and flakes of glaze are glass splinters: wear gloves to handle them, and do not hand the ware over like this.';
const HANDBOOK = 'Change a schedule within what the kiln maker’s handbook and the ware’s cone range allow.';
const DAMP = 'A reglazed or washed piece is damp again, and damp ware bursts: dry it first.';
const NOT_FOR_FOOD =
  'Keep it from food and drink: a broken or unmelted surface holds what is put into it, and no program can say what it gives off.';
const SUPPLY =
  'Isolate the kiln from its supply before reaching in, and open it cold; the kiln maker’s handbook rules.';

export const TEXTBOOK: Readonly<Record<Fault, Known>> = {
  pinholes: {
    seen: 'Small round holes through the glaze, often down to the clay.',
    suspects: [
      books('Gas that still leaves the body or the glaze when the glaze has begun to seal'),
      books('A bisque that was too low or too quick to burn the clay clean'),
      books('Glaze laid on too thick, or one that stays stiff when molten'),
      books('No soak at the top, so that the holes had no time to heal'),
    ],
    tries: [
      books('Fire the bisque higher or slower'),
      books('Soak at the top of the glaze firing, or a little under it'),
      books('Lay the glaze on thinner'),
    ],
    cautions: [HANDBOOK],
  },
  blisters: {
    seen: 'Craters and broken bubbles in the glaze, often with sharp rims.',
    suspects: [
      books('More heat than the glaze bears'),
      books('Glaze laid on too thick'),
      books('Gas held in the body or under the glaze'),
    ],
    tries: [
      books('Fire to a lower top'),
      books('Lay the glaze on thinner'),
      books('Grind the craters open and fire again'),
    ],
    cautions: [SHARP, DUST],
  },
  crawling: {
    seen: 'Bare patches where the glaze has drawn back, with rolled edges.',
    suspects: [
      books('Dust or grease on the bisque'),
      books('Glaze too thick, or one that shrinks much as it dries'),
      books('Underglaze too powdery to hold the glaze'),
      practice('A second glazing over a fired glaze'),
    ],
    tries: [
      books('Wipe or wash the bisque clean before glazing'),
      books('Lay the glaze on thinner'),
      practice('Fill the bare patch and fire again; a tacky film or a warmed pot helps the glaze to hold'),
    ],
    cautions: [DAMP, 'What makes the glaze hold may burn easily: let it dry, away from heat.'],
  },
  crazing: {
    seen: 'A net of fine cracks in the glaze, at the drawing or weeks later.',
    suspects: [
      books('A glaze that shrinks more in cooling than the body under it'),
      books('A body fired too low'),
      books('Glaze laid on too thick'),
    ],
    tries: [
      books('Change glaze or body so that they fit, usually with more silica'),
      books('Lay the glaze on thinner'),
      books('On earthenware, fire the bisque harder'),
    ],
    cautions: [NOT_FOR_FOOD],
  },
  shivering: {
    seen: 'Slivers of glaze that lift from edges and rims, or lie loose on the ware.',
    suspects: [books('A glaze that shrinks less in cooling than the body under it')],
    tries: [
      books('Change glaze or body so that they fit'),
      practice('Do not use the ware, and do not sell it'),
    ],
    cautions: [SHARP, NOT_FOR_FOOD],
  },
  runs: {
    seen: 'Thick rolls and drips, glaze past the foot or down on the shelf.',
    suspects: [
      books('A fluid glaze, or too many coats of it'),
      practice('Two glazes over one another that melt each other further'),
      books('More heat-work than it bears'),
      practice('Steep walls'),
    ],
    tries: [
      practice('Hold the glaze back further from the foot, and stand the piece on a catcher'),
      books('Lay on fewer coats'),
      books('Fire with less heat-work'),
    ],
    cautions: [SHARP, DUST],
  },
  stuck: {
    seen: 'A piece welded to shelf, stilt or neighbour, or chips torn out of its foot.',
    suspects: [
      books('Glaze that ran'),
      practice('A shelf without kiln wash'),
      practice('Pieces that touched'),
    ],
    tries: [
      practice('Leave more room between pieces'),
      practice('Wash the shelves, and wipe the foot'),
      practice('Stilts or wads under what is glazed all over; grind what is left'),
    ],
    cautions: [SHARP, DUST, SUPPLY],
  },
  'stilt-marks': {
    seen: 'Sharp points or small scars where a stilt stood.',
    suspects: [practice('A stilt: some mark is usual')],
    tries: [
      practice('Grind and polish the points'),
      practice('Stand it on fewer or finer points, where nobody looks'),
    ],
    cautions: [SHARP, DUST],
  },
  crack: {
    seen: 'A crack at the rim, in the base (often like an S) or at a join, usually there before the glaze melted.',
    suspects: [
      books('Drying too quickly or unevenly'),
      books('Joins made of clays of different wetness'),
      books('Walls and base of unequal thickness'),
    ],
    tries: [
      books('Dry more slowly and evenly'),
      books('Compress the base well'),
      practice('Score and wet the joins, and keep them covered'),
    ],
    cautions: [],
  },
  dunting: {
    seen: 'One clean crack through body and glaze. A sharp edge tells of cooling; an edge healed over, of a crack before the glaze melted.',
    suspects: [
      books(
        'Cooled or heated too quickly through 573 °C, where quartz changes, or near 226 °C, where cristobalite does',
      ),
      practice('A draught on hot ware, or a kiln opened too soon'),
    ],
    tries: [books('Cool more slowly'), practice('Close what lets a draught in, and open the kiln cold')],
    cautions: [SUPPLY, SHARP],
  },
  bloating: {
    seen: 'Swellings in the body itself, under a whole skin.',
    suspects: [books('A body fired past its range'), books('Gas shut into the body by a quick bisque')],
    tries: [books('Fire to a lower cone'), books('Fire the bisque more slowly')],
    cautions: [HANDBOOK],
  },
  warping: {
    seen: 'Out of round, or no longer flat.',
    suspects: [
      books('Walls of unequal thickness'),
      practice('Handling while soft, which the clay remembers'),
      books('Too little support in the kiln'),
      books('A body fired past its range'),
    ],
    tries: [
      practice('Dry slowly, and flat ware between boards'),
      books('Support it in the kiln'),
      books('Fire to a lower cone'),
    ],
    cautions: [],
  },
  dry: {
    seen: 'Matt and rough where the glaze should have melted.',
    suspects: [
      books('Too little heat-work'),
      books('Glaze laid on too thin'),
      practice('A cool place in the kiln'),
    ],
    tries: [books('Fire again, hotter or with a soak'), books('Lay the glaze on thicker')],
    cautions: [NOT_FOR_FOOD, HANDBOOK],
  },
  'colour-off': {
    seen: 'Not the colour that was wanted.',
    suspects: [
      practice('Another body than the test tile’s'),
      books('Thickness of the glaze, or what lies under it'),
      books('Atmosphere, or the place in the kiln'),
    ],
    tries: [
      practice('Fire a test tile of the same body beside it'),
      practice('Ask the client before a commissioned piece is changed'),
      practice('Glaze over and fire again: it will run further'),
    ],
    cautions: [DAMP],
  },
  specks: {
    seen: 'Foreign spots in or on the glaze.',
    suspects: [
      practice('Flakes of kiln wash, crumbs of brick'),
      practice('A bucket or brush that was not clean'),
      books('Iron in clay or glaze'),
    ],
    tries: [practice('Sieve the glaze'), practice('Vacuum the kiln, wipe the shelves’ undersides')],
    cautions: [SUPPLY],
  },
  'metal-scum': {
    seen: 'A lustre or metal that came out dull, scummed or full of pinholes.',
    suspects: [practice('Laid on too thick'), practice('The soak'), practice('Fumes that were not led away')],
    tries: [
      practice('Lay it on thinner'),
      practice('Change the soak'),
      practice('Stand it on a catcher always'),
    ],
    cautions: [
      'Lustres give off fumes of metals and solvents: ventilate, and let nobody work or sleep beside the kiln.',
      NOT_FOR_FOOD,
    ],
  },
  broken: {
    seen: 'Chipped or broken by a hand, a fall or a neighbour.',
    suspects: [practice('Handling, packing, a shelf that shifted')],
    tries: [
      practice('Note where it happened: on the bench, in the kiln, on the way'),
      practice('Leave more room in packing'),
    ],
    cautions: [SHARP],
  },
  other: {
    seen: 'A fault that has no page of its own in the books.',
    suspects: [
      practice(
        'Nothing is known of it in general: what it goes with in this studio’s record is the only lead',
      ),
    ],
    tries: [
      practice('Note where on the pot it is seen, every time'),
      practice('Change one thing at a time, on test tiles of the same clay'),
    ],
    cautions: [],
  },
};

const isFault = (id: string): id is Fault => (FAULTS as readonly string[]).includes(id);

/** A fault of the user's own is read like 'other'. */
export const textbookOf = (fault: string): Known => TEXTBOOK[isFault(fault) ? fault : 'other'];
