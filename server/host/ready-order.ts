/** Makes a read order ready to be decided, and tells a repeat from an id that was used for something else. */
import { createHash } from 'node:crypto';
import { type Refusal, refuse } from '../contract/streams.ts';
import type { TextRef } from '../contract/text.ts';
import { canonical } from '../log/canonical.ts';
import { Unkeepable } from '../log/log.ts';
import type { Referred } from '../people/people.ts';
import { withoutAbsent } from './absent.ts';
import type { ReadOrder, ReadyOrder } from './read-order.ts';
import { withReferences } from './texts.ts';

/** The order with references in the place of its texts, and the fingerprint that tells a repeat from a reused id. */
export function readyOrder(read: ReadOrder, referred: readonly Referred[]): ReadyOrder | Refusal {
  const { order, command, happenedAt } = read;
  if (referred.some((text) => text.kept === 'another')) return reused(order.id);
  const refs = new Map<string, TextRef>(referred.map((text) => [text.id, text.ref]));
  const told = {
    command: order.command,
    happenedAt: order.happenedAt ?? null,
    // As it was sent, so that a new default in a later release does not change it.
    input: withReferences(command, order.input, order.id, refs),
  };
  const fingerprint = fingerprintOf(told);
  if (typeof fingerprint !== 'string') return fingerprint;
  const input = withReferences(command, read.input, order.id, refs);
  return { order, input, happenedAt, fingerprint, texts: referred };
}

function fingerprintOf(told: object): string | Refusal {
  try {
    return createHash('sha256')
      .update(canonical(withoutAbsent(told), 'input'))
      .digest('hex');
  } catch (error) {
    if (error instanceof Unkeepable) return unkeepable(error);
    throw error;
  }
}

export const unkeepable = (error: Unkeepable): Refusal =>
  refuse(
    'bad-input',
    `Something in it cannot be kept as it is: ${error.message}. Enter it again without that.`,
  );

export const reused = (id: string): Refusal =>
  refuse(
    'command-reused',
    `The id ${id} was used before for something else; send this with a new one.`,
    'id',
  );
