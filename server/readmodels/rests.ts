/** When a read model that failed is tried again: ever more seldom, until it succeeds. */
import type { ReadModel } from './model.ts';

/** After n failures a model is left alone for 2^n appends, at most for this many. */
const LONGEST = 256;

interface Rest {
  readonly failures: number;
  /** Entries in the log when it failed. */
  readonly at: number;
  appends: number;
}

export class Rests {
  private readonly rests = new Map<ReadModel, Rest>();

  /** What came of an attempt on a log of so many entries. */
  note(model: ReadModel, at: number): void {
    if (!model.failed) {
      this.rests.delete(model);
      return;
    }
    const failures = (this.rests.get(model)?.failures ?? 0) + 1;
    this.rests.set(model, { failures, at, appends: Math.min(2 ** failures, LONGEST) });
  }

  appended(): void {
    for (const rest of this.rests.values()) rest.appends--;
  }

  isAble(model: ReadModel): boolean {
    return !model.failed || (this.rests.get(model)?.appends ?? 0) <= 0;
  }

  /** With nothing recorded since, it would only fail again. */
  wouldFailAgain(model: ReadModel, at: number): boolean {
    return model.failed !== undefined && this.rests.get(model)?.at === at;
  }

  tryAgain(model: ReadModel): void {
    this.rests.delete(model);
    model.failed = undefined;
  }
}
