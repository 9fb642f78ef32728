/** What earlier imports recorded of a row, and how it differs from what the row says now. */
import type { Entry } from '../../contract/entry.ts';
import type { TextRef } from '../../contract/text.ts';
import { struck } from '../../host/order.ts';
import type { FileFiring } from './firings.ts';
import type { StepKind } from './ids.ts';
import { commandId, contentOf, readCommandId } from './ids.ts';
import type { PlannedRow, Step } from './steps.ts';
import { stepsOf } from './steps.ts';

/** One command of an earlier import. */
export interface Earlier {
  readonly kind: StepKind;
  readonly command: string;
  readonly content: string;
  /** Its entries that count. */
  readonly seqs: readonly number[];
  /** An import took it back: it is no part of the notebook as last read. */
  readonly takenBack: boolean;
  /** Id of a note's text in the erasable store. */
  readonly text?: string;
}

export function earlierOf(of: string, entries: readonly Entry[]): Earlier[] {
  const gone = struck(entries);
  const commandOf = new Map(entries.map((entry) => [entry.seq, entry.command]));
  const byCommand = new Map<string, Entry[]>();
  for (const entry of entries) {
    const id = readCommandId(entry.command);
    if (id?.of !== of || id.step === 'strike') continue;
    const there = byCommand.get(entry.command);
    if (there === undefined) byCommand.set(entry.command, [entry]);
    else there.push(entry);
  }
  const byImport = (seq: number): boolean => {
    const strike = gone.get(seq);
    return strike !== undefined && readCommandId(commandOf.get(strike) ?? '')?.step === 'strike';
  };
  return [...byCommand].map(([command, parts]) => {
    const { step: kind, content } = readCommandId(command)!;
    const note = kind === 'note' ? (parts[0]!.data as { note: TextRef }).note.text : undefined;
    return {
      kind,
      command,
      content,
      seqs: parts.filter(({ seq }) => !gone.has(seq)).map(({ seq }) => seq),
      takenBack: parts.every(({ seq }) => byImport(seq)),
      ...(note === undefined ? {} : { text: note }),
    };
  });
}

/** The last day on which something that no import recorded happened to the piece itself. */
export function lastByHand(entries: readonly Entry[]): string | undefined {
  const gone = struck(entries);
  let last: string | undefined;
  for (const { seq, name, command, happenedAt } of entries) {
    if (gone.has(seq) || name === 'entry.struck' || name.startsWith('firing.') || readCommandId(command))
      continue;
    const day = happenedAt.slice(0, 10);
    if (last === undefined || day > last) last = day;
  }
  return last;
}

/** A step that is to be recorded, with its command's id. */
export interface Fresh {
  readonly step: Step;
  readonly id: string;
}

/** What follows on what. */
const AFTER: readonly StepKind[] = ['bisque', 'glaze', 'glaze-fire', 'fault', 'repair', 'grade', 'left'];

/** The steps of a row that are recorded already, those that are not, and those that the row no longer says. */
export class Amendment {
  #made: readonly Step[] | undefined;
  readonly #kept = new Map<Step, Earlier>();
  readonly #struck = new Set<Earlier>();
  /** Why the row cannot be amended. */
  refused: string | undefined;

  /** `texts`: what the notes say; null for one that was erased. */
  constructor(
    readonly planned: PlannedRow,
    readonly earlier: readonly Earlier[],
    texts: ReadonlyMap<string, string | null>,
    /** The last day on which something was noted of it by hand. */
    readonly byHand?: string,
  ) {
    if (earlier.length === 0) return;
    const open = new Set(earlier.filter(({ takenBack }) => !takenBack));
    for (const step of this.#steps) {
      const same = [...open].find((one) => one.kind === step.kind && sameContent(one, step, texts));
      if (same === undefined) continue;
      this.#kept.set(step, same);
      open.delete(same);
    }
    for (const one of open) this.#struck.add(one);
    this.#follow();
  }

  /**
   * In the order of a piece's way; the parts of a mixed lot have no ids yet. Held only where some of
   * them are kept: a first import has a hundred thousand rows of which none is.
   */
  get #steps(): readonly Step[] {
    if (this.earlier.length === 0) return stepsOf(this.planned);
    this.#made ??= stepsOf(this.planned);
    return this.#made;
  }

  /** Seqs that are to be struck out. */
  strikes(): number[] {
    return [...this.#struck].flatMap(({ seqs }) => seqs);
  }

  get repeated(): number {
    return this.#kept.size;
  }

  /**
   * The firing that the piece is to be packed into, not over yet, before something noted by hand: that
   * could not be while it stands in the kiln.
   */
  inTheWay(): FileFiring | undefined {
    if (this.byHand === undefined) return undefined;
    const packing = this.fresh().find(
      ({ step: { firing } }) =>
        firing !== undefined && firing.late === undefined && (firing.day ?? '') <= this.byHand!,
    );
    return packing?.step.firing;
  }

  /** The row says what it said before. */
  get unchanged(): boolean {
    if (this.earlier.length === 0) return false;
    return this.#struck.size === 0 && this.#kept.size === this.#steps.length;
  }

  /** The step that recorded this entry is to be struck out and recorded anew; false when it is none of this row's. */
  anew(seq: number): boolean {
    for (const [step, one] of this.#kept) {
      if (!one.seqs.includes(seq)) continue;
      this.#kept.delete(step);
      this.#struck.add(one);
      this.#follow();
      return true;
    }
    return [...this.#struck].some(({ seqs }) => seqs.includes(seq));
  }

  /**
   * A piece that is packed anew stands in an unlit kiln for a while, in which nothing else can be done with
   * it: what came later is recorded anew after the firing. Where a lot of mixed grades is graded anew its
   * parts get other ids, so their leaving is noted anew; and another fault has to be shared out among the
   * parts by a new grading.
   */
  #follow(): void {
    const changed = (kind: StepKind) =>
      [...this.#struck].some((one) => one.kind === kind) ||
      this.#steps.some((step) => step.kind === kind && !this.#kept.has(step));
    for (const [at, kind] of AFTER.entries()) {
      if ((kind === 'bisque' || kind === 'glaze-fire') && changed(kind))
        for (const later of AFTER.slice(at + 1)) this.#forget(later);
    }
    const mixed = this.earlier.some(({ kind, seqs }) => kind === 'grade' && seqs.length > 1);
    if (mixed && changed('fault')) this.#forget('grade');
    if (mixed && changed('grade')) this.#forget('left');
  }

  #forget(kind: StepKind): void {
    for (const [step, one] of this.#kept) {
      if (step.kind !== kind) continue;
      this.#kept.delete(step);
      this.#struck.add(one);
    }
  }

  /** What is to be recorded, in the order of a piece's way, as its firings stand now. */
  fresh(): Fresh[] {
    const steps = this.#steps;
    const id = (step: Step) => this.#kept.get(step)?.command ?? this.#newId(step);
    const grade = steps.find(({ kind }) => kind === 'grade');
    /* The parts of a lot are named after the command that graded it. */
    const named = grade !== undefined && this.planned.row.left !== undefined && this.planned.row.count > 1;
    const now = named || this.earlier.length > 0 ? stepsOf(this.planned, grade && id(grade)) : steps;
    return steps.flatMap((step, at) => (this.#kept.has(step) ? [] : [{ step: now[at]!, id: id(step) }]));
  }

  #newId({ kind, content }: Step): string {
    const generation = this.earlier.filter((one) => one.kind === kind).length;
    return commandId({ of: this.planned.of, step: kind, generation, content: contentOf(content) });
  }
}

/** A note that was erased stays erased: the notebook does not bring it back. */
function sameContent(one: Earlier, step: Step, texts: ReadonlyMap<string, string | null>): boolean {
  if (one.kind !== 'note') return one.content === contentOf(step.content);
  const text = texts.get(one.text ?? '') ?? null;
  return text === null || text === (step.input as { note: string }).note;
}
