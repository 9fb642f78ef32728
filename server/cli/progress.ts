/** A bar for long work, where somebody looks on; nothing in a pipe. */
import type { Progress } from '../host/host.ts';
import type { Terminal } from './verb.ts';

const WIDTH = 30;

/** Runs the work with a bar, and takes the bar away when it ends. */
export async function withBar<T>(
  { watched, err }: Terminal,
  label: string,
  work: (progress: Progress) => Promise<T>,
): Promise<T> {
  if (!watched) return work(() => {});
  let drawn = '';
  const draw: Progress = (done, of) => {
    const line = `${label} ${bar(done, of)}`;
    if (line === drawn) return;
    drawn = line;
    err(`\r${line}`);
  };
  try {
    return await work(draw);
  } finally {
    if (drawn !== '') err(`\r${' '.repeat(drawn.length)}\r`);
  }
}

export function bar(done: number, of: number): string {
  const share = of === 0 ? 0 : Math.min(1, done / of);
  const full = Math.round(share * WIDTH);
  const percent = String(Math.floor(share * 100)).padStart(3);
  return `[${'='.repeat(full)}${' '.repeat(WIDTH - full)}] ${percent} %`;
}
