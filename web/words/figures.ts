import { pieces } from './numbers.ts';

export const figures = {
  none: 'There is nothing to count in this time yet.',
  interval: (low: string, high: string) => `${low} to ${high}`,
  few: (n: number) => `from ${pieces(n)} only`,
  fewKey: 'An open dot: few pieces, so the true rate may be far from it.',
  unknown: 'not known',
  forgotten: 'name erased',
  asTable: 'The same as a table',
  of: 'of',
  total: 'all',
  out: 'outside the limits',
  upper: 'upper limit',
  lower: 'lower limit',
  centre: 'centre',
  pdf: 'Open the document (PDF)',
  behind: (what: string, column: string) => `${what}, ${column}: the pieces behind it`,
  millimetres: (width: string, height: string) => `${width} × ${height} mm`,
} as const;
