/** A described paper as a file. */
import type { Paper } from '../contract/paper.ts';
import { drawPaper, type Printing } from './draw.ts';

/**
 * @param failure what a paper that cannot be drawn is told as
 * @param name of the file without its ending, where the paper does not say one
 */
export async function printPaper(
  { paper, ...printing }: Printing & { readonly paper: Paper },
  failure: (cause: unknown) => Error,
  name: string,
): Promise<{ name: string; pdf: Uint8Array }> {
  try {
    return { name: `${paper.file ?? name}.pdf`, pdf: await drawPaper(paper, printing) };
  } catch (cause) {
    throw failure(cause);
  }
}
