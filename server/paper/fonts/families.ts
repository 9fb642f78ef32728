/**
 * The font families that words are set in, in the order in which they are tried: the look's own first, then
 * one for each script, then symbols. All are open fonts (SIL OFL) that come as npm packages, cut by
 * their makers into slices by range of characters; a slice is only read when a paper needs it.
 */

export interface Family {
  /** As it is named in the PDF. */
  readonly name: string;
  readonly npm: string;
  /** Start of the names of its files. */
  readonly file: string;
  /** Slices to use; all of them when not said. */
  readonly slices?: readonly string[];
  /** Has its weights along an axis; the others come in one weight. */
  readonly variable: boolean;
  /** Its slice holds more characters than its table of ranges says: look into it. */
  readonly looked?: boolean;
  /** BCP 47 language whose Han characters it writes. */
  readonly han?: string;
}

const noto = (script: string, ...slices: string[]): Family => ({
  name: `NotoSans-${script}`,
  npm: `@fontsource-variable/noto-sans-${script}`,
  file: `noto-sans-${script}`,
  slices: slices.length > 0 ? slices : [script],
  variable: true,
});

const han = (region: string, language: string): Family => ({
  name: `NotoSans-${region}`,
  npm: `@fontsource-variable/noto-sans-${region}`,
  file: `noto-sans-${region}`,
  variable: true,
  han: language,
});

const still = (id: string, slice: string): Family => ({
  name: id,
  npm: `@fontsource/${id}`,
  file: id,
  slices: [slice],
  variable: false,
  looked: true,
});

const ATKINSON = 'atkinson-hyperlegible-next';

export const FAMILIES: readonly Family[] = [
  {
    name: 'AtkinsonHyperlegibleNext',
    npm: `@fontsource-variable/${ATKINSON}`,
    file: ATKINSON,
    slices: ['latin', 'latin-ext'],
    variable: true,
  },
  {
    name: 'NotoSans',
    npm: '@fontsource-variable/noto-sans',
    file: 'noto-sans',
    slices: ['latin', 'latin-ext', 'vietnamese', 'greek', 'greek-ext', 'cyrillic', 'cyrillic-ext'],
    variable: true,
  },
  noto('arabic'),
  noto('hebrew'),
  noto('devanagari'),
  noto('bengali'),
  noto('gurmukhi'),
  noto('gujarati'),
  noto('oriya'),
  noto('tamil'),
  noto('telugu'),
  noto('kannada'),
  noto('malayalam'),
  noto('sinhala'),
  noto('thai'),
  noto('lao'),
  noto('khmer'),
  noto('myanmar'),
  noto('georgian'),
  noto('armenian'),
  noto('ethiopic'),
  noto('thaana'),
  {
    name: 'NotoSerifTibetan',
    npm: '@fontsource-variable/noto-serif-tibetan',
    file: 'noto-serif-tibetan',
    slices: ['tibetan'],
    variable: true,
  },
  still('noto-sans-math', 'latin'),
  noto('symbols'),
  still('noto-sans-symbols-2', 'symbols'),
  han('sc', 'zh-Hans'),
  han('tc', 'zh-Hant'),
  han('jp', 'ja'),
  han('kr', 'ko'),
  {
    name: 'NotoEmoji',
    npm: '@fontsource-variable/noto-emoji',
    file: 'noto-emoji',
    variable: true,
  },
];
