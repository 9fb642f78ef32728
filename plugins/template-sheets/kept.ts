/** A template that is kept by name: its newest version, and what was given out of it. */
import type { StreamKind } from '../../server/contract/streams.ts';
import type { TemplateData } from './events.ts';

export interface Kept {
  readonly template: string;
  readonly facts?: TemplateData<'template.drawn'>;
  readonly version: number;
  readonly downloads: number;
  readonly printed: number;
  readonly putAway: boolean;
}

function evolve(state: Kept, name: string, data: unknown): Kept {
  switch (name) {
    case 'template.drawn':
    case 'template.changed':
      return {
        ...state,
        facts: data as TemplateData<'template.drawn'>,
        version: state.version + 1,
        putAway: false,
      };
    case 'template.given-out': {
      const { how, count } = data as TemplateData<'template.given-out'>;
      return how === 'download'
        ? { ...state, downloads: state.downloads + count }
        : { ...state, printed: state.printed + count };
    }
    case 'template.put-away':
      return { ...state, putAway: true };
    default:
      return state;
  }
}

export const keptKind: StreamKind<Kept> = {
  prefix: 'template',
  initial: (template) => ({ template, version: 0, downloads: 0, printed: 0, putAway: false }),
  evolve: (state, { name, data }) => evolve(state, name, data),
  legal: (state, { name, data }) => {
    if (name === 'template.drawn')
      return state.facts ? `There is already a template called ${state.facts.name}.` : undefined;
    if (!state.facts) return `There is no template ${state.template} at that time; draw it first.`;
    if (name === 'template.given-out') {
      const { version } = data as TemplateData<'template.given-out'>;
      return version > state.version
        ? `There are only ${state.version} versions of ${state.facts.name} at that time.`
        : undefined;
    }
    return undefined;
  },
};
