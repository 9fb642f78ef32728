/** Who may come in from the network: the passphrase once on each device, then that device's own secret. */
import { type Device, Devices } from './devices.ts';
import { type Cost, Passphrase } from './passphrase.ts';
import { Tries } from './tries.ts';

export type SignedIn =
  | { readonly outcome: 'in'; readonly token: string; readonly device: Device }
  | { readonly outcome: 'wrong' }
  /** Seconds. */
  | { readonly outcome: 'wait'; readonly seconds: number };

export interface SignIn {
  readonly passphrase: string;
  /** What the device is to be called. */
  readonly name: string;
  readonly address: string;
  /** Of an earlier time. */
  readonly token?: string;
}

export class Door {
  readonly passphrase: Passphrase;
  private readonly devices: Devices;
  private readonly tries: Tries;
  private readonly listeners = new Set<(device: string) => void>();

  /** @param folder `network` in the data folder */
  constructor(folder: string, clock: () => Date, cost?: Cost) {
    this.passphrase = new Passphrase(folder, cost);
    this.devices = new Devices(folder, clock);
    this.tries = new Tries(clock);
  }

  async signIn({ passphrase, name, address, token }: SignIn): Promise<SignedIn> {
    const before = this.devices.known(token)?.id;
    const trier = { device: before, address };
    const seconds = this.tries.begin(trier);
    if (seconds > 0) return { outcome: 'wait', seconds };
    const version = this.passphrase.version();
    if (version === undefined || !(await this.passphrase.fits(passphrase))) return { outcome: 'wrong' };
    this.tries.right(trier);
    return { outcome: 'in', ...this.devices.add(name, version, before) };
  }

  who(token: string | undefined): Device | undefined {
    return this.devices.signedIn(token, this.passphrase.version());
  }

  list(): Device[] {
    return this.devices.list(this.passphrase.version());
  }

  signOut(id: string): void {
    this.devices.signOut(id);
    this.gone(id);
  }

  /** False when there is no such device. */
  sendAway(id: string): boolean {
    const was = this.devices.remove(id);
    if (was) this.gone(id);
    return was;
  }

  /** A new passphrase signs every device out. @throws BadPassphrase */
  async setPassphrase(passphrase: string): Promise<void> {
    const before = this.list();
    await this.passphrase.set(passphrase);
    for (const { id } of before) this.gone(id);
  }

  /** Told the id of every device that may no longer come in. */
  onGone(listener: (device: string) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private gone(id: string): void {
    for (const listener of this.listeners) listener(id);
  }
}
