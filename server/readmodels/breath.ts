/** Long work gives way to the event loop now and then, so that requests are answered meanwhile. */

/** Milliseconds of work in one go. */
const SPELL = 12;

export class Breath {
  private since = performance.now();

  /** Whether it is time to call `take`. */
  get due(): boolean {
    return performance.now() - this.since > SPELL;
  }

  async take(meanwhile?: () => Promise<void>): Promise<void> {
    await new Promise(setImmediate);
    await meanwhile?.();
    this.since = performance.now();
  }
}
