/** The studio's network as the server keeps it: the door, the certificates, the addresses to give out. */
import { type Certified, certified } from './certificates.ts';
import { Door } from './door.ts';
import type { Cost } from './passphrase.ts';
import type { Machine } from './places.ts';
import { type NetworkSettings, readSettings, writeSettings } from './settings.ts';

/** Folder of the data folder that holds keys, the passphrase's hash and the devices. It is not of the record. */
export const NETWORK = 'network';

export interface Standing {
  /** Asked for on the command line; it opens as soon as there is a passphrase. */
  readonly asked: boolean;
  /** Devices on the network can come in. */
  readonly on: boolean;
  readonly passphrase: boolean;
  /** Where the page is on the network, the one to use first. Empty while it is not on. */
  readonly addresses: readonly string[];
  /** Where the certificate of the authority is handed out. */
  readonly trust?: string;
  /** SHA-256 of that certificate. */
  readonly fingerprint?: string;
  /** The address that devices came in by and that this machine no longer has. */
  readonly lost?: string;
  /** Why the network could not be opened. */
  readonly trouble?: string;
}

export interface NetworkOptions {
  /** NETWORK in the data folder. */
  readonly folder: string;
  readonly clock: () => Date;
  readonly machine: () => Machine;
  readonly asked: boolean;
  /** For tests. */
  readonly cost?: Cost;
}

export class Network {
  readonly door: Door;
  readonly folder: string;
  readonly asked: boolean;
  private readonly clock: () => Date;
  private readonly machine: () => Machine;
  private ports: Pick<NetworkSettings, 'https' | 'trust'> | undefined;
  private now: Certified | undefined;
  private trouble: string | undefined;
  private readonly ready = new Set<() => void>();

  constructor({ folder, clock, machine, asked, cost }: NetworkOptions) {
    this.folder = folder;
    this.asked = asked;
    this.clock = clock;
    this.machine = machine;
    this.door = new Door(folder, clock, cost);
  }

  /** As the certificates are now; new ones are made where they have to be. */
  async certificates(): Promise<Certified> {
    this.now = await certified(this.folder, this.machine(), this.clock());
    return this.now;
  }

  /** It listens at these ports, and will again. */
  opened(ports: Pick<NetworkSettings, 'https' | 'trust'>): void {
    this.ports = ports;
    this.trouble = undefined;
    writeSettings(this.folder, { ...readSettings(this.folder), ...ports });
  }

  closed(trouble?: string): void {
    this.ports = undefined;
    this.trouble = trouble;
  }

  /** A device came in by this name or number ('ansas-laptop.local'): it is the one to go on with. */
  cameInBy(host: string): void {
    const settings = readSettings(this.folder);
    if (settings !== undefined && settings.host === undefined && this.reachable().includes(host))
      writeSettings(this.folder, { ...settings, host });
  }

  standing(): Standing {
    const passphrase = this.door.passphrase.version() !== undefined;
    const base = { asked: this.asked, passphrase, trouble: this.trouble };
    if (this.ports === undefined || this.now === undefined) return { ...base, on: false, addresses: [] };
    const host = readSettings(this.folder)?.host;
    const hosts = this.reachable();
    const lost = host !== undefined && !hosts.includes(host) ? host : undefined;
    const ordered = [...hosts].sort((a, b) => Number(b === host) - Number(a === host));
    // A phone that cannot find the name can still ask the number for the certificate.
    const plain = hosts.find((each) => /^\d/.test(each)) ?? hosts[0];
    return {
      ...base,
      on: true,
      addresses: ordered.map((each) => `https://${each}:${this.ports!.https}`),
      ...(plain === undefined ? {} : { trust: `http://${plain}:${this.ports.trust}` }),
      fingerprint: this.now.fingerprint,
      ...(lost === undefined ? {} : { lost }),
    };
  }

  /** Calls back once, when a passphrase has been set. */
  whenReady(callback: () => void): void {
    if (this.door.passphrase.version() !== undefined) callback();
    else this.ready.add(callback);
  }

  /** @throws BadPassphrase */
  async setPassphrase(passphrase: string): Promise<void> {
    await this.door.setPassphrase(passphrase);
    for (const callback of this.ready) callback();
    this.ready.clear();
  }

  /** Names and numbers that another device can use, the name first. */
  private reachable(): string[] {
    return (this.now?.names ?? []).filter((name) => name !== 'localhost' && name !== '127.0.0.1');
  }
}
