#!/usr/bin/env node
/** The command line. */
import { parts } from './assemble.ts';
import { run } from './run.ts';
import { secrets } from './secret.ts';

const stopped = () =>
  new Promise<void>((stop) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => stop());
  });

process.exitCode = await run(process.argv.slice(2), {
  terminal: {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    watched: process.stderr.isTTY === true,
    secret: secrets(process.stdin, process.stderr),
  },
  env: process.env,
  cwd: process.cwd(),
  clock: () => new Date(),
  parts,
  stopped,
});
