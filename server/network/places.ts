/** By which names and numbers this machine is found on its own network, and which numbers are of such a network at all. */
import { BlockList, isIPv4 } from 'node:net';
import type { NetworkInterfaceInfo } from 'node:os';

/**
 * Numbers that no machine of the open internet has: RFC 1918, link-local (RFC 3927, RFC 4291), unique local
 * (RFC 4193), shared (RFC 6598), and this machine itself.
 */
export const OWN_RANGES = [
  '127.0.0.0/8',
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '169.254.0.0/16',
  '100.64.0.0/10',
  '::1/128',
  'fc00::/7',
  'fe80::/10',
] as const;

const own = new BlockList();
for (const range of OWN_RANGES) {
  const [base, bits] = range.split('/') as [string, string];
  own.addSubnet(base, Number(bits), isIPv4(base) ? 'ipv4' : 'ipv6');
}

/** Whether a number is of a network of one's own; '::ffff:10.0.0.1' is read as 10.0.0.1. */
export function isOwnNetwork(address: string | undefined): boolean {
  if (address === undefined) return false;
  const plain = address.toLowerCase().startsWith('::ffff:') ? address.slice(7) : address;
  return own.check(plain, isIPv4(plain) ? 'ipv4' : 'ipv6');
}

export interface Machine {
  readonly hostname: string;
  readonly interfaces: Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>;
}

/** 'ansas-laptop.local', as it announces itself; undefined where its name is no name of a network. */
export function localName({ hostname }: Machine): string | undefined {
  const first = hostname.toLowerCase().split('.')[0] ?? '';
  return /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/.test(first) && first !== 'localhost'
    ? `${first}.local`
    : undefined;
}

/** IPv4 numbers on its own network, those of cables and wireless before those of machines within the machine. */
export function ownNumbers({ interfaces }: Machine): string[] {
  const found = Object.entries(interfaces).flatMap(([name, all = []]) =>
    all
      .filter(({ family, internal, address }) => family === 'IPv4' && !internal && isOwnNetwork(address))
      .map(({ address }) => ({ name, address })),
  );
  const within = ({ name }: { name: string }) =>
    /^(docker|br-|veth|virbr|vmnet|vboxnet)/.test(name) ? 1 : 0;
  return [...new Set(found.sort((a, b) => within(a) - within(b)).map(({ address }) => address))];
}
