/** All rows of a plugin's read model, table by table, in an order of their own. */
import { join } from 'node:path';
import Database from 'libsql';

export function dumpOf(dir: string, plugin: string): Record<string, string[]> {
  const db = new Database(join(dir, 'read', `${plugin}.db`));
  try {
    const tables = db
      .prepare("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'")
      .all() as { name: string }[];
    return Object.fromEntries(
      tables
        .filter(({ name }) => !name.startsWith('_') && name !== 'checkpoint')
        .map(({ name }) => [
          name,
          (db.prepare(`SELECT * FROM "${name}"`).all() as object[]).map((row) => JSON.stringify(row)).sort(),
        ]),
    );
  } finally {
    db.close();
  }
}
