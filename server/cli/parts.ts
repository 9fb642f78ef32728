/** The parts that the command line puts together, as it sees them. */
import type { Plugin } from '../contract/plugin.ts';
import type { Host, Progress } from '../host/host.ts';
import type { Import } from '../http/services.ts';
import type { Clock } from '../log/log.ts';
import type { Cost } from '../network/passphrase.ts';
import type { Machine } from '../network/places.ts';

export interface OpenOptions {
  /** The data folder. */
  readonly dir: string;
  /** Of a libsql server that keeps the log; it is in the folder when absent. */
  readonly url?: string;
  readonly clock: Clock;
  /** Write on a thread of its own, so that requests are not held up. */
  readonly thread: boolean;
  /** In the order in which they are loaded. */
  readonly plugins: readonly Plugin[];
}

export interface Parts {
  readonly version: string;
  openHost(options: OpenOptions): Promise<Host>;
  /** The plugins that Wareboard comes with. */
  readonly plugins: readonly Plugin[];
  /** By kind of file. */
  readonly imports: Readonly<Record<string, Import>>;
  /** Records the demo studio in an empty folder, dated back from `today` ('2026-05-01'). */
  demo?(dir: string, today: string, progress: Progress): Promise<void>;
  /** The machine's name and numbers on its networks; its own when left out. */
  readonly machine?: () => Machine;
  /** Of the passphrase's hash; the full one when left out. */
  readonly passphraseCost?: Cost;
  /** Folder of the built page. */
  readonly web: string;
}
