/** Keeps the authority and the server's certificate in the data folder, and makes the latter anew in time. */
import { X509Certificate } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fingerprintOf, makeAuthority, makeLeaf, type Pair } from './authority.ts';
import { localName, type Machine, ownNumbers } from './places.ts';
import { readPrivate, writePrivate } from './private-file.ts';

/** A server certificate with fewer milliseconds left than this is made anew. */
const TIME_LEFT = 30 * 86_400_000;

export interface Certified {
  readonly authority: Pick<Pair, 'certificate'>;
  readonly leaf: Pair;
  /** SHA-256 of the authority's certificate. */
  readonly fingerprint: string;
  /** The name that the authority was made for, when it had one. */
  readonly name?: string;
  /** Every name and number in the server's certificate. */
  readonly names: readonly string[];
}

/** @param folder `network` in the data folder; @throws when the authority's files are there but cannot be read */
export async function certified(folder: string, machine: Machine, now: Date): Promise<Certified> {
  const authority = await keptPair(folder, 'authority', () => makeAuthority(localName(machine), now));
  const name = nameOf(authority);
  const names = ['localhost', ...(name === undefined ? [] : [name]), '127.0.0.1', ...ownNumbers(machine)];
  const kept = readPair(folder, 'server');
  const good = kept !== undefined && holds(kept, authority, names, now);
  const leaf = good ? kept : writePair(folder, 'server', await makeLeaf(authority, names, now));
  return { authority, leaf, fingerprint: fingerprintOf(authority), name, names };
}

function holds(leaf: Pair, authority: Pair, names: readonly string[], now: Date): boolean {
  const certificate = new X509Certificate(leaf.certificate);
  const left = new Date(certificate.validTo).getTime() - now.getTime();
  const begun = new Date(certificate.validFrom).getTime() <= now.getTime();
  const its = new X509Certificate(authority.certificate);
  return (
    begun &&
    left > TIME_LEFT &&
    certificate.checkIssued(its) &&
    certificate.verify(its.publicKey) &&
    namesIn(certificate).sort().join() === [...names].sort().join()
  );
}

/** 'DNS:localhost, IP Address:127.0.0.1' without the kinds. */
const namesIn = (certificate: X509Certificate): string[] =>
  (certificate.subjectAltName ?? '').split(', ').map((each) => each.replace(/^(DNS|IP Address):/, ''));

/** The authority says in its own name which machine it was made for. */
function nameOf(authority: Pair): string | undefined {
  const called = /CN=Wareboard of (.+)/.exec(new X509Certificate(authority.certificate).subject)?.[1];
  return called === undefined || called === 'this studio' ? undefined : `${called}.local`;
}

const paths = (folder: string, what: string) =>
  [join(folder, `${what}.pem`), join(folder, `${what}.key`)] as const;

function readPair(folder: string, what: string): Pair | undefined {
  const [certificate, key] = paths(folder, what).map(readPrivate) as [string?, string?];
  return certificate === undefined || key === undefined ? undefined : { certificate, key };
}

/** The key first: a certificate without its key would be taken for a whole pair by nobody. */
function writePair(folder: string, what: string, pair: Pair): Pair {
  const [certificate, key] = paths(folder, what);
  writePrivate(key, pair.key);
  writePrivate(certificate, pair.certificate);
  return pair;
}

async function keptPair(folder: string, what: string, make: () => Promise<Pair>): Promise<Pair> {
  const kept = readPair(folder, what);
  if (kept !== undefined) return kept;
  const [certificate] = paths(folder, what);
  // Devices trust the certificate that is there; a new one in its place would lock them out without a word.
  if (existsSync(certificate))
    throw new Error(
      `${certificate} is there, but its key is not. Put the key back, or take the folder ${folder} away: every device then has to trust Wareboard anew.`,
    );
  return writePair(folder, what, await make());
}
