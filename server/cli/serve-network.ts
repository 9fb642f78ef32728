/** `serve --network`: lets the workshop's network in as soon as there is a passphrase. */
import { hostname, networkInterfaces } from 'node:os';
import { join } from 'node:path';
import type { Serving } from '../http/serve.ts';
import type { NetworkPorts } from '../http/serve-network.ts';
import { NETWORK, Network } from '../network/network.ts';
import { readSettings } from '../network/settings.ts';
import { type Desk, Failed } from './verb.ts';

export function networkOf(dir: string, asked: boolean, { clock, parts }: Desk): Network {
  return new Network({
    folder: join(dir, NETWORK),
    clock,
    machine: parts.machine ?? (() => ({ hostname: hostname(), interfaces: networkInterfaces() })),
    asked,
    cost: parts.passphraseCost,
  });
}

/** @param port of the page on this machine; the network's follow it when it is opened for the first time */
export async function letIn(
  serving: Serving,
  network: Network,
  port: number,
  { terminal }: Desk,
): Promise<void> {
  if (network.door.passphrase.version() !== undefined) return open(serving, network, port, terminal);
  terminal.out(
    `No passphrase is set yet, so nothing on the network can come in. Set one at ${serving.address}/settings/phone, or with: wareboard passphrase\n`,
  );
  network.whenReady(() => {
    // The server goes on without the network; the page says what is wrong.
    open(serving, network, port, terminal).catch((error: Error) => {
      network.closed(error.message);
      terminal.err(`${error.message}\n`);
    });
  });
}

async function open(
  serving: Serving,
  network: Network,
  port: number,
  terminal: Desk['terminal'],
): Promise<void> {
  const kept = readSettings(network.folder);
  const ports = kept ?? { https: port === 0 ? 0 : port + 1, trust: port === 0 ? 0 : port + 2 };
  await serving.openNetwork(ports).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'EADDRINUSE') throw error;
    throw new Failed(taken(ports, kept !== undefined, network.folder));
  });
  const { addresses, trust } = network.standing();
  const [first, ...others] = addresses;
  const also = others.length > 0 ? ` (or ${others.join(', ')})` : '';
  terminal.out(
    first === undefined
      ? 'This machine is in no network at present; devices can come in as soon as it is.\n'
      : `On the workshop’s network: ${first}${also}\nOnce for each device, to trust it: ${trust}\n`,
  );
}

const taken = ({ https, trust }: NetworkPorts, kept: boolean, folder: string): string =>
  kept
    ? `Port ${https} or ${trust} is taken by another program. Devices know this studio by these ports, and what waits on them is kept for that address: end the other program. Only if no device is in use, take ${join(folder, 'network.json')} away to begin with others.`
    : `Port ${https} or ${trust} is taken by another program. Choose another one for the page, the two after it are the network’s: PORT=${https + 9}.`;
