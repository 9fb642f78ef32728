/** Works in the data folder itself, with the lock held. */

import { join } from 'node:path';
import { makeBackup } from '../backup/make.ts';
import type { Host, Progress } from '../host/host.ts';
import { newId } from '../host/ids.ts';
import { findImport, importFile, importKinds } from '../import/plugin-import.ts';
import { Door } from '../network/door.ts';
import { NETWORK } from '../network/network.ts';
import { notImported } from './imports-offered.ts';
import type { Lock } from './lock.ts';
import { type Desk, Failed, WrongWords } from './verb.ts';
import type { ImportAsked, Workplace } from './workplace.ts';

const FROM = { who: 'maker', device: 'command-line' } as const;

export function inFolder(dir: string, host: Host, lock: Lock, { clock, parts }: Desk): Workplace {
  return {
    import({ kind, file, ...asked }: ImportAsked, progress: Progress) {
      const request = { host, source: file, ...asked, folder: dir, ...FROM, progress };
      if (Object.hasOwn(parts.imports, kind)) return parts.imports[kind]!(request);
      const declared = findImport(host.registry, kind);
      if (declared === undefined)
        throw new WrongWords(
          notImported(kind, [...Object.keys(parts.imports), ...importKinds(host.registry)]),
        );
      return importFile(kind, declared, { ...request, now: clock });
    },
    report: (plugin, report, params) => host.report(plugin, report, params),
    paper: async (plugin, paper, params) => (await host.paper(plugin, paper, params)).pdf,
    verify: (progress) => host.verify(progress),
    rebuild: (plugin, progress) => host.rebuild(plugin, progress),
    backup: async (into) => (await makeBackup({ dir, into, clock })).entries,
    forget: (person) => host.forget(person, { id: newId(clock()), ...FROM }),
    passphrase: (said) => new Door(join(dir, NETWORK), clock, parts.passphraseCost).setPassphrase(said),
    pictures: async () =>
      (await host.pictures.files.list())
        .filter((each) => each.standing === 'kept')
        .map(({ sha256 }) => sha256),
    picture: async (sha256) => {
      const bytes = await host.pictures.files.read(sha256);
      if (bytes === undefined) throw new Failed(`The picture ${sha256} is gone.`);
      return bytes;
    },
    entries: (after, limit) => host.log.read(after, limit),
    async close() {
      await host.close();
      lock.release();
    },
  };
}
