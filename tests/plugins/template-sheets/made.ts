/** Templates made in tests: what was wrong is thrown, so that a test fails with the sentence. */
import { develop } from '../../../plugins/template-sheets/forms/develop.ts';
import type { Development, Edge, Piece } from '../../../plugins/template-sheets/piece.ts';
import { readSpec } from '../../../plugins/template-sheets/spec/read-spec.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { type Template, templateFor } from '../../../plugins/template-sheets/template.ts';

export function made(spec: Spec): Development {
  const read = readSpec(spec);
  if ('wrong' in read) throw new Error(read.wrong.join(' '));
  const developed = develop(read.spec);
  if ('wrong' in developed) throw new Error(developed.wrong.join(' '));
  return developed.made;
}

export function sheetsOf(spec: Spec, paper = 'A4'): Template {
  const template = templateFor(spec, paper);
  if ('wrong' in template) throw new Error(template.wrong.join(' '));
  return template;
}

/** What is wrong with a spec; empty when it can be made. */
export function wrongWith(spec: unknown, paper = 'A4'): readonly string[] {
  const template = templateFor(spec, paper);
  return 'wrong' in template ? template.wrong : [];
}

export function pieceOf({ pieces }: Development, name = 'wall'): Piece {
  const found = pieces.find((piece) => piece.name === name);
  if (!found) throw new Error(`no ${name} among ${pieces.map((piece) => piece.name).join(', ')}`);
  return found;
}

export function edgeOf(piece: Piece, name: string): Edge {
  const found = piece.edges.find((edge) => edge.name === name);
  if (!found) throw new Error(`no ${name} among ${piece.edges.map((edge) => edge.name).join(', ')}`);
  return found;
}
