/** The kinds of file that can be imported. */
import type { Parts } from './parts.ts';

export const importsOffered = ({ imports, plugins }: Parts): string[] => [
  ...Object.keys(imports),
  ...plugins.flatMap((plugin) => Object.keys(plugin.imports ?? {})),
];

export const notImported = (kind: string, offered: readonly string[]): string =>
  `No plugin here imports ${kind}; what can be imported: ${offered.join(', ')}.`;
