/**
 * What is believed of each cause before the record is read: the chance that it alone spoils a piece
 * follows a Beta distribution. Our own choice, no source; docs/explanation/worst-glaze.md shows how
 * much the answer moves when they are changed.
 */
export type Kind = 'glaze' | 'clay' | 'bisque' | 'schedule' | 'firing' | 'background';

export interface Beta {
  readonly a: number;
  readonly b: number;
}

export type Priors = Readonly<Record<Kind, Beta>>;

/**
 * Most glazes, clays and schedules do little harm and a few do much: means of 5 %, most of it near
 * nothing. A single firing: a mean of 2 %, held down harder, so that it takes a shelf full of
 * seconds to blame one. Background: a mean of 10 %, spread wide.
 */
export const PRIORS: Priors = {
  glaze: { a: 0.5, b: 9.5 },
  clay: { a: 0.5, b: 9.5 },
  bisque: { a: 0.5, b: 9.5 },
  schedule: { a: 0.5, b: 9.5 },
  firing: { a: 0.2, b: 9.8 },
  background: { a: 1, b: 9 },
};

/** Every chance from 0 to 1 is as likely as another: the fit by EM is then plain maximum likelihood. */
export const FLAT: Priors = {
  glaze: { a: 1, b: 1 },
  clay: { a: 1, b: 1 },
  bisque: { a: 1, b: 1 },
  schedule: { a: 1, b: 1 },
  firing: { a: 1, b: 1 },
  background: { a: 1, b: 1 },
};

/** Of the strikes of all that is no glaze, the share that gives faults of which no glaze is suspected. */
export const BODY: Beta = { a: 1, b: 1 };
