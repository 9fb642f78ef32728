/** What can be asked of the studio that runs: its plugins, their commands and reports. */
import { z } from 'zod';
import type { Plugin, Report } from '../contract/plugin.ts';
import type { Host } from '../host/host.ts';

export type JsonSchema = Readonly<Record<string, unknown>>;

export function pluginsOf(host: Host): readonly Plugin[] {
  return host.registry.plugins;
}

export function findReport(host: Host, plugin: string, report: string): Report | undefined {
  const reports = pluginsOf(host).find(({ id }) => id === plugin)?.reports ?? {};
  return Object.hasOwn(reports, report) ? reports[report] : undefined;
}

/** JSON Schema (2020-12) of what goes in. */
export function inputSchema(input: z.ZodType): JsonSchema {
  const { $schema: _, ...schema } = z.toJSONSchema(input, { io: 'input', unrepresentable: 'any' });
  return schema;
}

/** All commands with the shapes of their inputs, the host's own among them. */
export function commandsOf(
  host: Host,
): { command: string; title: string; plugin: string; input: JsonSchema }[] {
  const known = host.registry.commands().map((name) => host.registry.command(name)!);
  return known.map(({ name, plugin, it }) => ({
    command: name,
    title: it.title,
    plugin,
    input: inputSchema(it.input),
  }));
}
