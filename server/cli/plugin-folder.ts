/**
 * Plugins of others: each folder of `--plugins DIR`, in the order of their names,
 * declares one as the default export of its index file. They run in this process
 * and with all of its rights: load only what you trust.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Plugin } from '../contract/plugin.ts';
import { type Desk, Failed, type Words } from './verb.ts';

const INDEX = ['index.js', 'index.mjs', 'index.ts'] as const;

/** The plugins that Wareboard comes with, then those of the folder. @throws Failed, naming the folder that is no plugin */
export async function pluginsFor(words: Words, { parts, cwd }: Desk): Promise<readonly Plugin[]> {
  const folder = words.text('plugins');
  if (folder === undefined) return parts.plugins;
  const own = new Set(parts.plugins.map(({ id }) => id));
  const found = await loadPlugins(resolve(cwd, folder));
  return [...parts.plugins, ...found.filter(({ id }) => !own.has(id))];
}

export async function loadPlugins(folder: string): Promise<Plugin[]> {
  if (!existsSync(folder)) throw new Failed(`The folder of plugins ${folder} is not there.`);
  const names = readdirSync(folder, { withFileTypes: true })
    .filter((each) => each.isDirectory() && !each.name.startsWith('.'))
    .map(({ name }) => name)
    .sort();
  const plugins: Plugin[] = [];
  for (const name of names) plugins.push(await loadOne(join(folder, name)));
  return plugins;
}

async function loadOne(folder: string): Promise<Plugin> {
  const file = INDEX.map((name) => join(folder, name)).find((path) => existsSync(path));
  if (file === undefined)
    throw new Failed(`${folder} has no index.ts or index.js, so there is no plugin in it.`);
  const made = await bring(file).catch((error: Error) => {
    throw new Failed(`The plugin in ${folder} could not be loaded: ${error.message}`);
  });
  const plugin = made.default as Partial<Plugin> | undefined;
  if (typeof plugin?.id !== 'string' || typeof plugin.contract !== 'number') {
    throw new Failed(`${file} has no plugin as its default export; it is made with definePlugin.`);
  }
  return plugin as Plugin;
}

/** The bundled server does not read TypeScript by itself. */
async function bring(file: string): Promise<{ default?: unknown }> {
  const address = pathToFileURL(file).href;
  if (!file.endsWith('.ts') || import.meta.url.endsWith('.ts')) return import(/* @vite-ignore */ address);
  const { tsImport } = await import('tsx/esm/api');
  return tsImport(address, import.meta.url);
}
