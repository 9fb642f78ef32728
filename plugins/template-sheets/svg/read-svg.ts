/** An SVG file as a spec of drawn pieces in mm. */
import type { Of } from '../spec/spec.ts';
import { sortOut } from './sort-out.ts';
import { linesOf } from './subpaths.ts';
import { BadDrawing, treeOf } from './tree.ts';
import { walk } from './walk.ts';

export type SvgRead =
  | {
      readonly spec: Of<'drawing'>;
      /** What was left out and why, in sentences that name the element. */
      readonly dropped: readonly string[];
    }
  | { readonly wrong: readonly string[] };

/** @param text the file; @param name of the template, the drawing's title when left out */
export function readSvg(text: string, name?: string): SvgRead {
  try {
    const root = treeOf(text.replace(/^\uFEFF/, ''));
    const walked = walk(root);
    const sorted = sortOut(linesOf(walked.shapes));
    const title =
      name ??
      root.children
        .find((child) => child.name === 'title')
        ?.text.trim()
        .slice(0, 120);
    return {
      spec: { form: 'drawing', pieces: [...sorted.pieces], ...(title ? { name: title } : {}) },
      dropped: [...walked.dropped, ...sorted.dropped],
    };
  } catch (cause) {
    if (cause instanceof BadDrawing) return { wrong: [cause.message] };
    throw cause;
  }
}
