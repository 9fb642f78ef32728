/** What the how-tos on templates say that the checks say, they say. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { templateFor } from '../../plugins/template-sheets/template.ts';
import { JUG_WITH_HANDLE } from '../support/faceted-jug.ts';

const JUG = {
  ...JUG_WITH_HANDLE,
  shrinkage: 0.12,
};
const BOW = { form: 'drawing', pieces: [{ name: 'bow', outline: 'M0 0L90 90L90 0L0 90Z' }] };

const said = [JUG, { ...JUG, shrinkage: 1 }, BOW].flatMap((spec) => {
  const made = templateFor(spec, 'A4');
  return 'wrong' in made ? made.wrong : made.sheets.checks.map(({ sentence }) => sentence);
});

describe.each(['make-a-template', 'print-true-size'])('the how-to %s', (page) => {
  const text = readFileSync(new URL(`../../docs/how-to/${page}.md`, import.meta.url), 'utf8');
  const quoted = [...text.matchAll(/^ *> (.+)$/gm)].map((found) => found[1]!);

  it.each(quoted)('is told: %s', (line) => {
    expect(said).toContain(line);
  });
});
