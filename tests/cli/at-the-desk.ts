/** A command line without a process: what is typed goes in, what is printed and the exit code come out. */
import { join } from 'node:path';
import type { Parts } from '../../server/cli/parts.ts';
import { run } from '../../server/cli/run.ts';
import type { Desk } from '../../server/cli/verb.ts';
import { SmallStudio } from '../http/small-studio.ts';
import { temporary } from '../support/folder.ts';

export interface AtTheDesk {
  readonly studio: SmallStudio;
  /** The data folder. */
  readonly dir: string;
  readonly opened: { dir: string; thread: boolean; plugins: string[] }[];
  type(...words: string[]): Promise<{ code: number; out: string; err: string }>;
  /** Lets a running `serve` end. */
  stop(): void;
  /** Resolves with the address once `serve` has printed it. */
  readonly address: Promise<string>;
}

export function atTheDesk(
  changed: Partial<Parts> & {
    env?: Record<string, string>;
    watched?: boolean;
    dir?: string;
    /** What is typed unseen, an answer to each question. */
    secrets?: string[];
    /** A certificate is good only at the real time. */
    now?: Date;
  } = {},
): AtTheDesk {
  const { env = {}, watched = false, dir = join(temporary(), 'data'), secrets = [], now, ...parts } = changed;
  const studio = new SmallStudio();
  const opened: AtTheDesk['opened'] = [];
  let stop = () => {};
  const stopped = new Promise<void>((resolve) => {
    stop = resolve;
  });
  let known: (address: string) => void = () => {};
  const address = new Promise<string>((resolve) => {
    known = resolve;
  });
  const type = async (...words: string[]) => {
    let out = '';
    let err = '';
    const desk: Desk = {
      terminal: {
        out: (text) => {
          out += text;
          const at = /http:\/\/[\d.:]+/.exec(out)?.[0];
          if (at !== undefined) known(at);
        },
        err: (text) => {
          err += text;
        },
        watched,
        secret: async () => secrets.shift(),
      },
      env: { WAREBOARD_DATA: dir, PORT: '0', ...env },
      cwd: temporary(),
      clock: () => now ?? new Date('2026-05-01T09:15:00.000Z'),
      stopped: () => stopped,
      parts: {
        version: '0.1.0',
        plugins: studio.registry.plugins,
        imports: {},
        web: join(dir, 'no-page'),
        passphraseCost: { N: 2 ** 10, r: 8, p: 1 },
        openHost: async ({ dir, thread, plugins }) => {
          opened.push({ dir, thread, plugins: plugins.map(({ id }) => id) });
          return studio.host;
        },
        ...parts,
      },
    };
    const code = await run(words, desk);
    return { code, out, err };
  };
  return { studio, dir, opened, type, stop, address };
}
