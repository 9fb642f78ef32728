/** The devices that were let in: each has a secret of its own, of which only the hash is kept. */
import { createHash, randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from './private-file.ts';

const device = z.object({
  id: z.string(),
  /** As its user called it ('Ansa’s phone'). */
  name: z.string(),
  secret: z.string(),
  /** Of the passphrase that let it in; with another passphrase it has to be said again. */
  passphrase: z.string(),
  /** UTC instants. */
  since: z.string(),
  seen: z.string(),
  out: z.boolean().optional(),
});
type Kept = z.infer<typeof device>;

export type Device = Pick<Kept, 'id' | 'name' | 'since' | 'seen'>;

/** A device that did not come for so many days has to say the passphrase again. */
export const KEPT_DAYS = 400;
const DAY = 86_400_000;
/** Milliseconds by which `seen` may lag behind in the file. */
const LAG = 5 * 60_000;
const MOST = 200;

const hashOf = (token: string): string => createHash('sha256').update(token).digest('base64url');

export class Devices {
  private readonly path: string;
  private readonly kept: Map<string, Kept>;

  constructor(
    folder: string,
    private readonly clock: () => Date,
  ) {
    this.path = join(folder, 'devices.json');
    const text = readPrivate(this.path);
    const all = text === undefined ? [] : z.array(device).parse(JSON.parse(text));
    this.kept = new Map(all.map((each) => [each.id, each]));
  }

  /** Lets a device in and gives its token, which is not kept here. */
  add(name: string, passphrase: string, before: string | undefined): { token: string; device: Device } {
    const token = randomBytes(32).toString('base64url');
    const now = this.clock().toISOString();
    const known = before === undefined ? undefined : this.kept.get(before);
    const id = known?.id ?? randomBytes(9).toString('base64url');
    const made: Kept = { id, name, secret: hashOf(token), passphrase, since: known?.since ?? now, seen: now };
    this.kept.set(id, made);
    this.write();
    return { token, device: shown(made) };
  }

  /** The device with this token, signed in or not; never one that was sent away. */
  known(token: string | undefined): Device | undefined {
    const found = this.find(token);
    return found && shown(found);
  }

  /** The device with this token while it is signed in; notes that it was seen. */
  signedIn(token: string | undefined, passphrase: string | undefined): Device | undefined {
    const found = this.find(token);
    if (found === undefined || found.out || found.passphrase !== passphrase) return undefined;
    const now = this.clock().getTime();
    const seen = new Date(found.seen).getTime();
    if (now - seen > KEPT_DAYS * DAY) return undefined;
    if (now - seen < LAG) return shown(found);
    const next = { ...found, seen: new Date(now).toISOString() };
    this.kept.set(found.id, next);
    this.write();
    return shown(next);
  }

  /** It has to say the passphrase again, and is still known. */
  signOut(id: string): void {
    const found = this.kept.get(id);
    if (found === undefined) return;
    this.kept.set(id, { ...found, out: true });
    this.write();
  }

  /** Sends a device away: its token is worth nothing from now on. False when there is none. */
  remove(id: string): boolean {
    const was = this.kept.delete(id);
    if (was) this.write();
    return was;
  }

  /** Those that are signed in, the last seen first. */
  list(passphrase: string | undefined): Device[] {
    return [...this.kept.values()]
      .filter((each) => !each.out && each.passphrase === passphrase)
      .sort((a, b) => (a.seen < b.seen ? 1 : -1))
      .map(shown);
  }

  private find(token: string | undefined): Kept | undefined {
    if (token === undefined || token.length > 100) return undefined;
    const secret = hashOf(token);
    return [...this.kept.values()].find((each) => each.secret === secret);
  }

  private write(): void {
    const newest = [...this.kept.values()].sort((a, b) => (a.seen < b.seen ? 1 : -1));
    for (const { id } of newest.slice(MOST)) this.kept.delete(id);
    writePrivate(this.path, JSON.stringify(newest.slice(0, MOST)));
  }
}

const shown = ({ id, name, since, seen }: Kept): Device => ({ id, name, since, seen });
