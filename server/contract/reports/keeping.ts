/** Reports that are heavy to work out and answer the same as long as nothing has changed. */
import type { Answered, Ask } from '../plugin.ts';

/**
 * The same report, its answers kept by input until a table of the plugin changes. For reports that
 * rest on nothing but their tables, the input and the settings: not on today, stories or texts.
 */
export const keeping =
  <Input>(name: string, run: (ask: Ask, input: Input) => Promise<Answered>) =>
  (ask: Ask, input: Input): Promise<Answered> =>
    ask.kept(JSON.stringify([name, input, ask.settings]), () => run(ask, input));
