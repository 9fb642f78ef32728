/** What of Today has come up since it was last told. Pure. */
import type { Heading } from '../today/lines.ts';

export interface News {
  /** The same as long as it waits for the same. */
  readonly key: string;
  readonly title: string;
  readonly body: string;
  readonly to: string;
}

/** Parcels, kilns, people: what one waits for. That ware dries or is to be graded is no news. */
const QUIET: readonly string[] = ['dry', 'grade', 'light', 'end'];

export const newsOf = (headings: readonly Heading[]): readonly News[] =>
  headings
    .filter(({ does }) => !QUIET.includes(does))
    .flatMap(({ does, title, lines }) =>
      lines.map((line) => ({
        key: `${does} ${line.to}`,
        title,
        body: [line.mark, line.what, line.where !== line.what && line.where].filter(Boolean).join(' · '),
        to: line.to,
      })),
    );

export const unheard = (news: readonly News[], heard: readonly string[]): readonly News[] =>
  news.filter(({ key }) => !heard.includes(key));
