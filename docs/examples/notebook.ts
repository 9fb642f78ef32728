/** Writes docs/examples/notebook.csv: `node --import tsx docs/examples/notebook.ts`. A test compares the two. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { demoNotebook } from '../../server/demo/notebook.ts';

export const EXAMPLE = fileURLToPath(new URL('notebook.csv', import.meta.url));

/** About 40 rows of the demo studio's spring. */
export const exampleNotebook = (): string => demoNotebook('2026-05-04', 75);

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(EXAMPLE, exampleNotebook());
