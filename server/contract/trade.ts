/** The trade's own words, as ids. Users add faults, repairs and zones of their own (`word.added`). */

export const STAGES = [
  'made',
  'leather-hard',
  'bone-dry',
  'bisque-fired',
  'glazed',
  'glaze-fired',
  'graded',
  'mending',
  'left',
] as const;
export type Stage = (typeof STAGES)[number];

export const FAULTS = [
  'pinholes',
  'blisters',
  'crawling',
  'crazing',
  'shivering',
  'runs',
  'stuck',
  'stilt-marks',
  'crack',
  'dunting',
  'bloating',
  'warping',
  'dry',
  'colour-off',
  'specks',
  'metal-scum',
  'broken',
  'other',
] as const;

export const REPAIRS = [
  'grind',
  'fill-and-reglaze',
  'reglaze-over',
  'refire',
  'refire-inverted',
  'cold-finish',
  'other',
] as const;

export const ZONES = ['inside', 'outside', 'rim', 'foot', 'base', 'handle', 'lid', 'detail'] as const;

export const GRADES = ['first', 'second', 'waster'] as const;
export type Grade = (typeof GRADES)[number];

export const METHODS = ['brushed', 'dipped', 'poured', 'sprayed', 'trailed'] as const;

export const FIRING_ROLES = ['bisque', 'glaze', 'lustre', 'other'] as const;
export type FiringRole = (typeof FIRING_ROLES)[number];

/** What stands under a piece in the kiln. */
export const FURNITURE = ['wash', 'catcher', 'stilt', 'wad', 'bar'] as const;

export const LEAVINGS = ['sold', 'collected', 'posted', 'given', 'broken-up', 'lost'] as const;

export const OWNER_ROLES = ['commission', 'student', 'hire'] as const;
