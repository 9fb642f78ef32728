/** All fonts together: finds for each letter the face that has it, and reads no more files than a text needs. */
import { LRUCache } from 'lru-cache';
import { Face } from './face.ts';
import { FAMILIES, type Family } from './families.ts';
import { mayHold, readSlice, type Slice, slicesOf } from './slices.ts';

/** Faces that stay in memory; most slices are under 200 kB, the Arabic and emoji ones some 400 kB. */
const KEPT = 80;
const faces = new LRUCache<string, Promise<Face>>({ max: KEPT });

function faceOf(slice: Slice): Promise<Face> {
  const before = faces.get(slice.id);
  if (before) return before;
  const loading = readSlice(slice).then((data) => new Face(slice, data));
  loading.catch(() => faces.delete(slice.id));
  faces.set(slice.id, loading);
  return loading;
}

const IGNORED = /\p{Default_Ignorable_Code_Point}/u;
const KANA = /[\p{Script=Hiragana}\p{Script=Katakana}]/u;
const HANGUL = /\p{Script=Hangul}/u;

/** The order of the families for a text: its own writing of Han characters comes first among the four. */
export function familiesFor(text: string, language = ''): readonly Family[] {
  const own = hanOf(text, language);
  if (own === undefined) return FAMILIES;
  const first = FAMILIES.findIndex(({ han }) => han !== undefined);
  const rest = FAMILIES.filter(({ han }) => han !== own);
  const mine = FAMILIES.filter(({ han }) => han === own);
  return [...rest.slice(0, first), ...mine, ...rest.slice(first)];
}

/** The language that a text's Han characters are in, as far as it can be told; else the language that was said. */
export const languageOf = (text: string, language?: string): string | undefined =>
  hanOf(text, language ?? '') ?? language;

function hanOf(text: string, language: string): string | undefined {
  if (/^ja\b/i.test(language)) return 'ja';
  if (/^ko\b/i.test(language)) return 'ko';
  if (/^zh-(Hant|TW|HK|MO)\b/i.test(language)) return 'zh-Hant';
  if (/^zh\b/i.test(language)) return 'zh-Hans';
  if (KANA.test(text)) return 'ja';
  return HANGUL.test(text) ? 'ko' : undefined;
}

/** What is drawn for a letter that no font here has; the text itself stays in the PDF. */
const UNKNOWN = '\ufffd';

/** Part of a text that one face sets. `drawn` is the text, but for letters that no font has. */
export interface Piece {
  readonly face: Face;
  readonly text: string;
  readonly drawn: string;
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });
/** Words, and each letter that is part of none: a word is set in one family where that is possible. */
const TOKEN = /[\p{L}\p{M}\p{N}\p{Join_Control}]+|./gsu;

/** The faces that the texts of one paper need, and which letter is in which of them. */
export class FontBook {
  /** By family and code point; null where the family has no such letter. */
  private readonly found = new Map<string, Face | null>();
  private readonly tokens = new Map<string, readonly Piece[]>();

  /** Reads what `text` needs; afterwards `pieces` knows it. */
  async prepare(text: string, language?: string): Promise<void> {
    const families = familiesFor(text, language);
    for (const token of tokensOf(text)) {
      const key = keyOf(families, token);
      if (!this.tokens.has(key)) this.tokens.set(key, await this.setToken(families, token));
    }
  }

  /** The text cut by face; it must have been prepared with the same language. */
  pieces(text: string, language?: string): Piece[] {
    const families = familiesFor(text, language);
    const pieces: Piece[] = [];
    for (const token of tokensOf(text)) {
      for (const piece of this.token(families, token)) append(pieces, piece);
    }
    return pieces;
  }

  private token(families: readonly Family[], token: string): readonly Piece[] {
    const known = this.tokens.get(keyOf(families, token)) ?? this.tokens.get(keyOf(FAMILIES, token));
    if (known !== undefined) return known;
    // Numbers that the host counts itself: each figure was prepared.
    const letters = [...token];
    if (letters.length === 1) throw new Error(`the text “${token}” was not prepared`);
    return letters.flatMap((letter) => this.token(families, letter));
  }

  private async setToken(families: readonly Family[], token: string): Promise<Piece[]> {
    const letters = [...graphemes.segment(token)].map(({ segment }) => segment);
    for (const family of families) {
      const whole = await this.inFamily(family, letters);
      if (whole !== undefined) return whole;
    }
    if (letters.length > 1)
      return (await Promise.all(letters.map((it) => this.setToken(families, it)))).flat();
    const parts = [...token];
    // A letter with a mark, or a picture made of several, that no single face has: part by part.
    if (parts.length > 1) return (await Promise.all(parts.map((it) => this.setToken(families, it)))).flat();
    const [mark] = await this.setToken(families, UNKNOWN);
    return [{ face: mark!.face, text: token, drawn: UNKNOWN }];
  }

  private async inFamily(family: Family, letters: readonly string[]): Promise<Piece[] | undefined> {
    const pieces: Piece[] = [];
    for (const letter of letters) {
      let face: Face | undefined;
      for (const one of letter) {
        if (IGNORED.test(one)) continue;
        const here = await this.look(family, one.codePointAt(0)!);
        if (here === null || (face !== undefined && here !== face)) return undefined;
        face = here;
      }
      // Only marks that are never drawn: any face does.
      face ??= pieces.at(-1)?.face ?? (await this.look(FAMILIES[0]!, 0x20))!;
      append(pieces, { face, text: letter, drawn: letter });
    }
    return pieces;
  }

  private async look(family: Family, codePoint: number): Promise<Face | null> {
    const key = `${family.file} ${codePoint}`;
    const before = this.found.get(key);
    if (before !== undefined) return before;
    let found: Face | null = null;
    for (const slice of slicesOf(family)) {
      if (found !== null || !mayHold(slice, codePoint)) continue;
      const face = await faceOf(slice);
      if (face.has(codePoint)) found = face;
    }
    this.found.set(key, found);
    return found;
  }
}

const tokensOf = (text: string): string[] => text.match(TOKEN) ?? [];
const keyOf = (families: readonly Family[], token: string) =>
  `${families.find(({ han }) => han !== undefined)!.han} ${token}`;

/** A piece that follows in the same face becomes part of the one before. */
function append(pieces: Piece[], { face, text, drawn }: Piece): void {
  const last = pieces.at(-1);
  if (last?.face !== face || drawn !== text || last.drawn !== last.text) pieces.push({ face, text, drawn });
  else pieces[pieces.length - 1] = { face, text: last.text + text, drawn: last.drawn + drawn };
}
