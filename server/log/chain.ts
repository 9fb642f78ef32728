/**
 * The chain: each entry's body is canonical JSON that holds the hash of the entry before it, and its
 * own hash is the SHA-256 of that body.
 */
import { hash } from 'node:crypto';
import type { Entry } from '../contract/entry.ts';
import { canonical } from './canonical.ts';
import type { Head } from './log.ts';

/** The head of an empty log. */
export const NOTHING: Head = { count: 0, hash: '0'.repeat(64) };

/** An entry as its body holds it: with its place in the chain, and the command's fingerprint on part 0. */
export interface Sealed extends Entry {
  readonly previous: string;
  readonly fingerprint?: string;
}

/** The body in the three pieces around what is only known when the entry gets its place. */
export interface Blank {
  /** Up to and with the opening quote of `previous`. */
  readonly start: string;
  /** From the closing quote of `recordedAt` up to the number of `seq`. */
  readonly middle: string;
  readonly end: string;
}

export function sha256(text: string): string {
  return hash('sha256', text, 'hex');
}

/**
 * Everything of the body that does not depend on the entry's place. The members stand in RFC 8785's
 * order by hand; a test holds it against the canonical form of the whole entry.
 */
export function blank(
  entry: Omit<Entry, 'seq' | 'recordedAt'> & { fingerprint: string | undefined },
  at: string,
): Blank {
  const { claims, clock, command, data, device, fingerprint, happenedAt, name, part } = entry;
  const { releases, streams, version, who } = entry;
  const held = claims === undefined ? '' : `"claims":${canonical(claims, at)},`;
  const noted = clock === undefined ? '' : `"clock":${canonical(clock, at)},`;
  const head = `{${held}${noted}"command":${canonical(command, at)},`;
  const what = `"data":${canonical(data, `${at}.data`)},"device":${canonical(device, at)},`;
  const proof = fingerprint === undefined ? '' : `"fingerprint":${canonical(fingerprint, at)},`;
  const when = `"happenedAt":${canonical(happenedAt, at)},"name":${canonical(name, at)},"part":${part},"previous":"`;
  return {
    start: head + what + proof + when,
    middle: `",${releases === undefined ? '' : `"releases":${canonical(releases, at)},`}"seq":`,
    end: `,"streams":${canonical(streams, at)},"version":${version},"who":${canonical(who, at)}}`,
  };
}

export function seal(
  blank: Blank,
  seq: number,
  recordedAt: string,
  previous: string,
): { body: string; hash: string } {
  const body = `${blank.start}${previous}","recordedAt":"${recordedAt}${blank.middle}${seq}${blank.end}`;
  return { body, hash: sha256(body) };
}

/** The entry as readers see it: without the chain's own members. */
export function entryOf(sealed: Sealed): Entry {
  const { seq, command, part, name, version, happenedAt, recordedAt, who, device, streams, data } = sealed;
  const { claims, clock, releases } = sealed;
  const entry = { seq, command, part, name, version, happenedAt, recordedAt, who, device, streams, data };
  if (clock !== undefined) Object.assign(entry, { clock });
  if (claims !== undefined) Object.assign(entry, { claims });
  if (releases !== undefined) Object.assign(entry, { releases });
  return entry;
}
