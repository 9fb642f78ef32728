/** Papers of other parts that an item of the shop can come from, and noting there that one went out. */
import type { Wish } from '../api/orders.ts';
import { useAddress } from '../api/use-report.ts';

/** A paper of whichever plugin; see server/contract/handout.ts. */
export interface PaperRef {
  readonly plugin: string;
  readonly paper: string;
  readonly input: Readonly<Record<string, string>>;
}

export interface OfferedPaper extends PaperRef {
  readonly title: string;
  /** Address of its page. */
  readonly to: string;
  readonly sizes: readonly string[];
}

export const usePapers = () =>
  useAddress<{ readonly papers: readonly OfferedPaper[] }>('/api/handouts/papers');

/** The same for the same paper. */
export const paperKey = ({ plugin, paper, input }: PaperRef): string =>
  JSON.stringify([plugin, paper, Object.entries(input).sort()]);

export const refOf = ({ plugin, paper, input }: PaperRef): PaperRef => ({ plugin, paper, input });

export const findPaper = (
  papers: readonly OfferedPaper[] | undefined,
  wanted: PaperRef | null | undefined,
): OfferedPaper | undefined =>
  wanted ? papers?.find((one) => paperKey(one) === paperKey(wanted)) : undefined;

export const templatePaper = (template: string): PaperRef => ({
  plugin: 'template-sheets',
  paper: 'kept',
  input: { template },
});

interface Went {
  readonly size?: string;
  readonly how: 'download' | 'printed';
  readonly count: number;
  /** Number of the order that it went with. */
  readonly order?: string;
}

/** What the paper's own part notes of it; nothing where it keeps no count. */
export function wentOut(paper: PaperRef | null | undefined, went: Went): Omit<Wish, 'happenedAt'>[] {
  if (paper?.plugin !== 'template-sheets' || paper.paper !== 'kept') return [];
  const { size = 'A4', ...rest } = went;
  return [{ command: 'template.give-out', input: { template: paper.input.template, paper: size, ...rest } }];
}

/** A print run: the stock of the item goes up, and the template has its count. */
export const printRun = (
  item: string,
  count: number,
  paper: PaperRef | null | undefined,
  size?: string,
): Omit<Wish, 'happenedAt'>[] => [
  { command: 'stock.print', input: { item, count } },
  ...wentOut(paper, { how: 'printed', count, ...(size ? { size } : {}) }),
];
