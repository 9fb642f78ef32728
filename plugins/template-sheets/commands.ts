/** Keeping templates by name. */
import { z } from 'zod';
import { command } from '../../server/contract/plugin.ts';
import { type Refusal, refuse } from '../../server/contract/streams.ts';
import { handle, handleOf } from '../../server/contract/studio/values.ts';
import { freeText } from '../../server/contract/text.ts';
import { drawn, givenOut, records } from './events.ts';
import { develop } from './forms/develop.ts';
import { type Kept, keptKind } from './kept.ts';
import { readSpec } from './spec/read-spec.ts';

const howTo = freeText(3_000).optional();

const idOf = ({ template, name }: { template?: string; name: string }): string => template ?? handleOf(name);
const streamOf = (template: string): string => `template:${template}`;

/** A template that cannot be made is not kept. */
function cannotBe(given: unknown): Refusal | undefined {
  const read = readSpec(given);
  const developed = 'spec' in read ? develop(read.spec) : read;
  return 'wrong' in developed ? refuse('cannot-be-made', developed.wrong.join(' '), 'spec') : undefined;
}

const noSuch = (template: string): Refusal =>
  refuse('no-such-template', `There is no template ${template} at that time; draw it first.`, 'template');

export const drawTemplate = command({
  title: 'Draw a template',
  input: z.strictObject({ ...drawn.shape, template: handle.optional(), howTo }),
  texts: ['howTo'],
  streams: (input) => [streamOf(idOf(input))],
  decide: (input, streams) => {
    const template = idOf(input);
    if (template === '') return refuse('bad-name', 'A name needs at least one letter or digit.', 'name');
    if (streams.of<Kept>(keptKind, template).facts)
      return refuse('already-there', `There is already a template called “${input.name}”.`, 'name');
    return cannotBe(input.spec) ?? [records('template.drawn', { ...input, template })];
  },
});

export const changeTemplate = command({
  title: 'Change a template',
  input: z.strictObject({ ...drawn.shape, howTo }),
  texts: ['howTo'],
  streams: (input) => [streamOf(input.template)],
  decide: (input, streams) => {
    if (!streams.of<Kept>(keptKind, input.template).facts) return noSuch(input.template);
    return cannotBe(input.spec) ?? [records('template.changed', input)];
  },
});

export const giveOut = command({
  title: 'Give out a template',
  input: givenOut.partial({ version: true, count: true }),
  streams: (input) => [streamOf(input.template)],
  decide: (input, streams) => {
    const kept = streams.of<Kept>(keptKind, input.template);
    if (!kept.facts) return noSuch(input.template);
    const { version = kept.version, count = 1 } = input;
    if (version > kept.version)
      return refuse(
        'no-such-version',
        `There ${kept.version === 1 ? 'is only 1 version' : `are only ${kept.version} versions`} at that time.`,
        'version',
      );
    return [records('template.given-out', { ...input, version, count })];
  },
});

export const putAway = command({
  title: 'Put a template away',
  input: z.strictObject({ template: handle }),
  streams: (input) => [streamOf(input.template)],
  decide: (input, streams) => {
    const kept = streams.of<Kept>(keptKind, input.template);
    if (!kept.facts) return noSuch(input.template);
    return kept.putAway ? [] : [records('template.put-away', input)];
  },
});
