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
  readonly first: number | undefined;
  readonly entries: readonly PreparedEntry[];
}

/** @throws Unkeepable */
export function prepare(append: Append): Prepared {
  const { command, fingerprint, expect, entries } = append;
  named(command, 'command');
  named(fingerprint, 'fingerprint');
  named(append.who, 'who');
  named(append.device, 'device');
  if (append.clock !== undefined) named(append.clock, 'clock');
  if (entries.length === 0) throw new Unkeepable('entries', 'is empty: there is nothing to record');
  const prepared: PreparedEntry[] = [];
  for (let part = 0; part < entries.length; part++) prepared.push(prepareEntry(append, entries[part]!, part));
  return { command, fingerprint, expect: expectations(expect), first: append.first, entries: prepared };
}

const NONE: readonly string[] = [];

function prepareEntry(append: Append, entry: NewEntry, part: number): PreparedEntry {
  const at = `entries[${part}]`;
  const { name, version, happenedAt, streams, claims, releases, data } = entry;
  named(name, at);
  named(happenedAt, at);
  if (!Number.isSafeInteger(version) || version < 1)
    throw new Unkeepable(`${at}.version`, 'is not a whole number from 1');
  distinct(streams, at);
  if (claims !== undefined) distinct(claims, at);
  if (releases !== undefined) distinct(releases, at);
  const { command, who, device, clock } = append;
  const fingerprint = part === 0 ? append.fingerprint : undefined;
  const { start, middle, end } = blank(
    {
      command,
      part,
      name,
      version,
      happenedAt,
      who,
      device,
      clock,
      streams,
      claims,
      releases,
      data,
      fingerprint,
    },
    at,
  );
  return { start, middle, end, part, streams, claims: claims ?? NONE, releases: releases ?? NONE };
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

/** What its letters are is looked at when the body is written. */
function named(value: unknown, at: string): void {
  if (typeof value !== 'string' || value === '')
    throw new Unkeepable(at, 'has a name or a time that is not a text of at least one letter');
}

function distinct(names: readonly string[], at: string): void {
  for (let index = 0; index < names.length; index++) {
    named(names[index], at);
    if (index > 0 && names.indexOf(names[index]!) !== index)
      throw new Unkeepable(at, `names ${names[index]} twice`);
  }
}
