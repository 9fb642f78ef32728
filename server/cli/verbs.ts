/** All verbs, in the order in which they are shown. */
import { backup } from './backup.ts';
import { demo } from './demo.ts';
import { exportVerb } from './export.ts';
import { forget } from './forget.ts';
import { importVerb } from './import.ts';
import { newVerb } from './new.ts';
import { paper } from './paper.ts';
import { passphrase } from './passphrase.ts';
import { rebuild } from './rebuild.ts';
import { report } from './report.ts';
import { restore } from './restore.ts';
import { serve } from './serve.ts';
import { template } from './template.ts';
import type { Verb } from './verb.ts';
import { verify } from './verify.ts';

export const VERBS: readonly Verb[] = [
  serve,
  demo,
  importVerb,
  exportVerb,
  report,
  paper,
  verify,
  backup,
  restore,
  rebuild,
  forget,
  passphrase,
  template,
  newVerb,
];
