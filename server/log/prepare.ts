/** Checks an append and writes the bodies of its entries as far as they can be before their place is known. */
import type { NewEntry } from '../contract/entry.ts';
import { canonical } from './canonical.ts';
import { type Blank, blank } from './chain.ts';
import { type Append, Unkeepable } from './log.ts';

export interface PreparedEntry extends Blank {
  readonly part: number;
  readonly streams: readonly string[];
  readonly claims: readonly string[];
  readonly releases: readonly string[];
}

/** Only strings, numbers and lists, so that it crosses to another thread cheaply. */
export interface Prepared {
  readonly command: string;
  readonly fingerprint: string;
  readonly expect: readonly (readonly [stream: string, version: number])[];
  readonly entries: readonly PreparedEntry[];
}

/** @throws Unkeepable */
export function prepare(append: Append): Prepared {
  const { command, fingerprint, who, device } = append;
  for (const [at, value] of Object.entries({ command, fingerprint, who, device })) named(value, at);
  if (append.entries.length === 0) throw new Unkeepable('entries', 'is empty: there is nothing to record');
  return {
    command,
    fingerprint,
    expect: expectations(append.expect),
    entries: append.entries.map((entry, part) => prepareEntry(append, entry, part)),
  };
}

function prepareEntry(append: Append, entry: NewEntry, part: number): PreparedEntry {
  const at = `entries[${part}]`;
  named(entry.name, `${at}.name`);
  named(entry.happenedAt, `${at}.happenedAt`);
  if (!Number.isSafeInteger(entry.version) || entry.version < 1)
    throw new Unkeepable(`${at}.version`, 'is not a whole number from 1');
  const { name, version, happenedAt, streams, claims, releases, data } = entry;
  distinct(streams, `${at}.streams`);
  distinct(claims ?? [], `${at}.claims`);
  distinct(releases ?? [], `${at}.releases`);
  const { command, who, device } = append;
  const fingerprint = part === 0 ? append.fingerprint : undefined;
  const pieces = blank(
    { command, part, name, version, happenedAt, who, device, streams, claims, releases, data, fingerprint },
    at,
  );
  return { ...pieces, part, streams, claims: claims ?? [], releases: releases ?? [] };
}

function expectations(expect: Append['expect']): [string, number][] {
  const pairs = Object.entries(expect);
  for (const [stream, version] of pairs) {
    canonical(stream, 'expect');
    if (!Number.isSafeInteger(version) || version < 0)
      throw new Unkeepable(`expect.${stream}`, 'is not a whole number from 0');
  }
  return pairs;
}

function named(value: unknown, at: string): void {
  if (typeof value !== 'string' || value === '') throw new Unkeepable(at, 'is not a text of at least one letter');
  canonical(value, at);
}

function distinct(names: readonly string[], at: string): void {
  for (let index = 0; index < names.length; index++) {
    named(names[index], `${at}[${index}]`);
    if (names.indexOf(names[index]!) !== index) throw new Unkeepable(`${at}[${index}]`, `names ${names[index]} twice`);
  }
}
