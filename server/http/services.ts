/** What the http routes need beside the host: work on the data folder, and the notebook's import. */
import type { Host, Progress } from '../host/host.ts';
import type { Network } from '../network/network.ts';
import type { PluginJobs } from '../timed/jobs.ts';
import type { UploadOptions } from './upload.ts';

export interface ImportRequest {
  readonly host: Host;
  /** The file, as it was received. */
  readonly source: string;
  /** What would be recorded, without recording it. */
  readonly dryRun: boolean;
  /** Column of the notebook by the file's own heading; the one remembered for these headings when left out. */
  readonly mapping?: Readonly<Record<string, string>>;
  /** Take in again what was struck out here. */
  readonly again?: boolean;
  /** The data folder, where mappings are remembered. */
  readonly folder: string;
  readonly who: string;
  readonly device: string;
  readonly progress: Progress;
}

/** Resolves with a summary that can be sent as JSON. */
export type Import = (request: ImportRequest) => Promise<unknown>;

export interface Keeping {
  /** Told apart from any other server that may have had this address before. */
  readonly instance: string;
  readonly version: string;
  /** The data folder. */
  readonly folder: string;
  readonly uploads: UploadOptions;
  /** The real one when left out. */
  readonly clock?: () => Date;
  /** Imports by kind of file; 'notebook' is the studio's own. */
  readonly imports: Readonly<Record<string, Import>>;
  /** Passphrase, devices and addresses; without it nothing but this machine is spoken of. */
  readonly network?: Network;
  /** What plugins do by themselves; without it nothing is. */
  readonly timed?: PluginJobs;
  /** Makes a verified copy of the data inside the data folder and says where it is. */
  backup(progress: Progress): Promise<{ readonly folder: string; readonly entries: number }>;
}
