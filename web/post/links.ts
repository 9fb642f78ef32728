/** Signed addresses of files, and from where they can be opened. */
import { useEffect, useState } from 'preact/hooks';
import { ask, Failed } from '../api/client.ts';
import { useAddress } from '../api/use-report.ts';

export interface Reach {
  /** Where the world reaches this server; null: it does not. */
  readonly outside: string | null;
  readonly network: readonly string[];
}

export const useReach = () => useAddress<Reach>('/api/handouts');

export interface Link {
  readonly path: string;
  /** Papers that a buyer may choose from. */
  readonly sizes: readonly string[];
}

export const linkAddress = (download: string): string =>
  `/api/handouts/shop-orders/download/${encodeURIComponent(download)}`;
/** The PDF as the buyer gets it; nothing is counted. */
export const fileAddress = (download: string, paper?: string): string =>
  `${linkAddress(download)}/file${paper ? `?paper=${encodeURIComponent(paper)}` : ''}`;

/** The whole address, as it is sent to a buyer. */
export const wholeAddress = (reach: Reach | undefined, path: string): string =>
  new URL(path, reach?.outside ?? reach?.network[0] ?? location.origin).href;

const MARK = /\{link:([^}]+)\}/g;

/** A text with its links put in; undefined until they are there. */
export function useWithLinks(text: string): string | undefined {
  const reach = useReach();
  const [filled, fill] = useState<{ text: string; with: string }>();
  const answer = reach.answer;
  useEffect(() => {
    const wanted = [...text.matchAll(MARK)].map(([, download]) => download!);
    if (wanted.length > 0 && !answer) return;
    const asked = wanted.map(async (download): Promise<[string, string]> => {
      const { path } = await ask<Link>(linkAddress(download));
      return [download, wholeAddress(answer, path)];
    });
    let left = false;
    Promise.all(asked)
      .then((links) => {
        const by = new Map(links);
        if (!left) fill({ text, with: text.replaceAll(MARK, (_, download) => by.get(download) ?? '') });
      })
      .catch((failure: unknown) => {
        if (!(failure instanceof Failed)) throw failure;
      });
    return () => {
      left = true;
    };
  }, [text, answer?.outside]);
  return filled?.text === text ? filled.with : undefined;
}
