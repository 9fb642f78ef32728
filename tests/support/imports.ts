/** Who imports whom, read from the source text; paths from the project's root. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface Import {
  readonly from: string;
  readonly to: string;
  /** Types alone are gone when the program runs. */
  readonly typeOnly: boolean;
}

const STATEMENT = /^(?:import|export)\s+(type\s)?(?:[^'";]*?\sfrom\s+)?['"](\.[^'"]+)['"]/gms;
const DYNAMIC = /\bimport\(\s*['"](\.[^'"]+)['"]\s*\)/g;

export function sourceFiles(...folders: readonly string[]): string[] {
  return folders.flatMap((folder) =>
    (readdirSync(join(ROOT, folder), { recursive: true }) as string[])
      .filter((file) => /\.tsx?$/.test(file))
      .map((file) => join(folder, file)),
  );
}

export function importsOf(file: string): Import[] {
  const text = readFileSync(join(ROOT, file), 'utf8');
  const to = (path: string) => normalize(join(dirname(file), path));
  return [
    ...[...text.matchAll(STATEMENT)].map(([, type, path]) => ({
      from: file,
      to: to(path!),
      typeOnly: type !== undefined,
    })),
    ...[...text.matchAll(DYNAMIC)].map(([, path]) => ({ from: file, to: to(path!), typeOnly: false })),
  ];
}

/** Imports that lead to no file: the reader above has missed something. */
export const lost = (imports: readonly Import[]): Import[] =>
  imports.filter(({ to }) => !existsSync(join(ROOT, to)));

/** A way round from a file back to itself, or undefined. */
export function circleIn(imports: readonly Import[]): string[] | undefined {
  const next = new Map<string, Import[]>();
  for (const it of imports) next.set(it.from, [...(next.get(it.from) ?? []), it]);
  const state = new Map<string, 'open' | 'done'>();
  const path: string[] = [];
  const visit = (file: string): string[] | undefined => {
    if (state.get(file) === 'done') return undefined;
    if (state.get(file) === 'open') return [...path.slice(path.indexOf(file)), file];
    state.set(file, 'open');
    path.push(file);
    for (const { to } of next.get(file) ?? []) {
      const found = visit(to);
      if (found) return found;
    }
    path.pop();
    state.set(file, 'done');
    return undefined;
  };
  for (const file of next.keys()) {
    const found = visit(file);
    if (found) return found;
  }
  return undefined;
}
