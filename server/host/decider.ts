/** Decides orders in turn on one desk, each after those before it, and finds claims that are taken. */
import type { Entry } from '../contract/entry.ts';
import { type Refusal, refuse } from '../contract/streams.ts';
import type { Append } from '../log/log.ts';
import { type Accepted, decide, named } from './decide.ts';
import type { Desk } from './desk.ts';
import type { Outcome, Refused } from './host.ts';
import { againstIt, alike, meanwhile, shown } from './meanwhile.ts';
import type { ReadyOrder } from './read-order.ts';
import type { Registry } from './registry.ts';
import { decideStrike } from './strike.ts';
import { STRIKE } from './strike-events.ts';
import { View } from './view.ts';

export interface Waiting {
  readonly at: number;
  readonly ready: ReadyOrder;
}

/** An outcome, or the error that the one who asked for it meets. */
export type Settled = Outcome | Error;

/** An order that is to be recorded. */
export interface Draft extends Waiting {
  readonly append: Append & { readonly first: number };
  /** Seqs of what another device said alike in the meantime. */
  readonly alike: readonly number[];
}

type Decision = Accepted | Refused;

/** A decider that finds no free claim in so many attempts will not find one. */
const MOST_ATTEMPTS = 48;
/** A plugin that keeps asking for more streams is at fault. */
const MOST_LOADS = 200;

export class Decider {
  /** Claims that the log says are held. */
  private readonly held = new Map<string, number>();
  private readonly lookedUp = new Set<string>();

  constructor(
    private readonly registry: Registry,
    private readonly desk: Desk,
    private readonly now: string,
  ) {}

  /**
   * The claims of all are looked up in the log at once; where some are taken, all are decided again
   * with that known, since later orders may rest on what the first decision was.
   */
  async decideAll(
    waiting: readonly Waiting[],
    settle: (at: number, settled: Settled) => void,
    reopen: (at: number) => void,
  ): Promise<Draft[]> {
    await this.desk.begin();
    await this.loadAhead(waiting);
    for (;;) {
      const drafts: Draft[] = [];
      for (const { at, ready } of waiting) {
        reopen(at);
        const decided = await this.decideOne(ready);
        if (decided instanceof Error || 'outcome' in decided) settle(at, decided);
        else drafts.push({ at, ready, append: this.take(ready, decided), alike: decided.alike });
      }
      if (!(await this.someAreHeld(drafts))) return drafts;
      this.desk.rollBack();
    }
  }

  /** Loads what the orders ask for at first sight in one go. */
  private async loadAhead(waiting: readonly Waiting[]): Promise<void> {
    const streams = waiting.flatMap(({ ready }) => {
      const { it: command } = this.registry.command(ready.order.command)!;
      try {
        const place = { happenedAt: ready.happenedAt, rank: Number.POSITIVE_INFINITY };
        return command.streams(ready.input, new View(place, this.desk.history));
      } catch {
        // It will fail again in its turn, and be answered for there.
        return [];
      }
    });
    await this.desk.load(streams);
  }

  private async someAreHeld(drafts: readonly Draft[]): Promise<boolean> {
    const claims = drafts.flatMap(({ append }) => append.entries.flatMap((entry) => entry.claims ?? []));
    const unknown = [...new Set(claims)].filter((claim) => !this.lookedUp.has(claim));
    if (unknown.length === 0) return false;
    const held = await this.desk.heldInLog(unknown);
    for (const claim of unknown) this.lookedUp.add(claim);
    for (const [claim, seq] of held) this.held.set(claim, seq);
    return drafts.some(({ append }) =>
      append.entries.some((entry) => entry.claims?.some((claim) => held.has(claim))),
    );
  }

  private async decideOne(ready: ReadyOrder): Promise<(Accepted & { alike: readonly number[] }) | Settled> {
    const { id } = ready.order;
    try {
      const decided = await this.withFreeClaims(ready);
      const { it: command } = this.registry.command(ready.order.command)!;
      const others = meanwhile(ready.order, this.looked(ready, decided), this.desk.history, this.registry);
      const same = alike(command, ready.input, others);
      if ('refused' in decided) {
        if (same.length > 0) return { outcome: 'unchanged', id, alike: same };
        const refusal = others.length > 0 ? { ...decided, meanwhile: shown(others) } : decided;
        return { outcome: 'refused', id, refusal };
      }
      const against = againstIt(command, ready.input, others);
      if (against) return { outcome: 'refused', id, refusal: against };
      if (decided.entries.length > 0) return { ...decided, alike: same };
      return { outcome: 'unchanged', id, ...(same.length > 0 ? { alike: same } : {}) };
    } catch (error) {
      return error instanceof Error ? error : new Error(String(error));
    }
  }

  /** The streams in which somebody else may have spoken of the same thing. */
  private looked(ready: ReadyOrder, decided: Decision): readonly string[] {
    if (ready.order.seen === undefined || ready.order.command === STRIKE) return [];
    if (!('refused' in decided)) return [...new Set(decided.entries.flatMap((entry) => entry.streams))];
    const { it: command } = this.registry.command(ready.order.command)!;
    const place = { happenedAt: ready.happenedAt, rank: Number.POSITIVE_INFINITY };
    // The first is what it is about; the others are what that rests on.
    return command.streams(ready.input, new View(place, this.desk.history)).slice(0, 1);
  }

  private take({ order, fingerprint }: ReadyOrder, { entries, read }: Accepted): Draft['append'] {
    const { id: command, who, device, clock } = order;
    const first = this.desk.next;
    const expect = this.desk.versions(read);
    this.desk.take(entries);
    const noted = clock === undefined ? {} : { clock };
    return { command, fingerprint, who, device, ...noted, expect, first, entries };
  }

  /** Decides with one attempt after another while the decider chooses claims that are taken. */
  private async withFreeClaims(ready: ReadyOrder): Promise<Decision> {
    let before: string | undefined;
    for (let attempt = 0; attempt < MOST_ATTEMPTS; attempt++) {
      const decided = await this.loading(ready, attempt);
      if ('refused' in decided) return decided;
      const clash = this.clash(decided.entries);
      if (!clash) return decided;
      // The same claim again: it is not the decider's choice but what was asked for.
      if (clash.claim === before) return this.taken(clash.claim, clash.heldBy);
      before = clash.claim;
    }
    return refuse('none-free', `No free ${claimKind(before!)} was found in ${MOST_ATTEMPTS} attempts.`);
  }

  private async loading(ready: ReadyOrder, attempt: number): Promise<Decision> {
    const { order, input, happenedAt } = ready;

    const at = { happenedAt, command: order.id, attempt };
    const { command, who, device, clock } = order;
    const asked = { command, input, at, next: this.desk.next, recordedAt: this.now, who, device, clock };
    if (command === STRIKE) return decideStrike(this.registry, this.desk, asked);
    for (let loads = 0; loads < MOST_LOADS; loads++) {
      const decided = decide(this.registry, asked, this.desk.history);
      if (!('missing' in decided)) return decided;
      await this.desk.load(decided.missing);
    }
    throw new Error(`Command ${order.command} asks for ever more streams.`);
  }

  private clash(entries: readonly Entry[]): { claim: string; heldBy: number } | undefined {
    const own = new Map<string, number | undefined>();
    for (const [part, { claims = [], releases = [] }] of entries.entries()) {
      for (const claim of releases) own.set(claim, undefined);
      for (const claim of claims) {
        const heldBy = [own, this.desk.claims, this.held].find((some) => some.has(claim))?.get(claim);
        if (heldBy !== undefined) return { claim, heldBy };
        own.set(claim, this.desk.next + part);
      }
    }
    return undefined;
  }

  private async taken(claim: string, heldBy: number): Promise<Refusal> {
    const holder = await this.desk.entry(heldBy);
    const by = holder ? named(holder) : `entry ${heldBy}`;
    return refuse(
      'already-taken',
      `The ${claimKind(claim)} “${claim.slice(claim.indexOf(':') + 1)}” is taken already, by ${by}. Choose another one.`,
    );
  }
}

/** 'stamp label' of 'stamp-label:Fern'. */
const claimKind = (claim: string): string => claim.slice(0, claim.indexOf(':')).replaceAll('-', ' ');
