/** `npm run bench [FOLDER] [EVENTS]`: measures on the disk of FOLDER (default dist/bench) and prints tables. */
import { mkdirSync, rmSync } from 'node:fs';
import { cpus } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { benchLog } from './log.ts';
import { table } from './measure.ts';
import { benchPapers } from './papers.ts';
import { benchReadModels } from './readmodels-table.ts';
import { benchShop } from './shop.ts';

const folder = join(
  resolve(process.argv[2] ?? fileURLToPath(new URL('../../dist', import.meta.url))),
  'bench',
);
mkdirSync(folder, { recursive: true });
const progress = (what: string) => {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${what}`);
};
try {
  const { lines, remark } = await benchLog(folder, progress);
  progress('');
  console.log(
    `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, ${folder}\n`,
  );
  console.log(table(lines));
  if (remark) console.log(`\nThe peer: ${remark}.`);
  progress('read models');
  const read = await benchReadModels(folder, Number(process.argv[3] ?? 1_000_000));
  progress('');
  console.log(`\n${read.text}`);
  const shop = await benchShop(folder, progress);
  progress('');
  console.log(`\n${shop.text}`);
  progress('papers');
  const papers = await benchPapers();
  progress('');
  console.log(`\n${papers.text}`);
  process.exitCode =
    read.reached && shop.reached && papers.reached && lines.every((line) => line.reached !== false) ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
