/** `template`: prints a form to scale; a plugin's, and none that offers it is here. */
import { type Verb, WrongWords } from './verb.ts';

export const template: Verb = {
  name: 'template',
  usage: 'template SPEC.json|FILE.svg --paper A4|A3|Letter|Tabloid --to OUT.pdf [--shrinkage 0.12] [--json]',
  about: 'Print a form’s pieces to scale (no plugin here offers it)',
  anyOption: true,
  async run() {
    throw new WrongWords('No plugin here makes templates.');
  },
};
