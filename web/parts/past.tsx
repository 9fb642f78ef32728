import { useLocation } from 'preact-iso';
import { queryOf } from '../api/client.ts';
import { today } from '../words/numbers.ts';
import { past as words } from '../words/past.ts';
import { TextField } from './field.tsx';

type Query = Readonly<Record<string, string | undefined>>;

/** The two questions about the past, of those that are asked in an address. */
export const pastOf = (query: Query) => ({ 'as-at': query['as-at'], 'known-at': query['known-at'] });

export const isPast = (query: Query): boolean => !!(query['as-at'] || query['known-at']);

/** An address that stays in the past that is looked at. */
export function inPast(path: string, query: Query): string {
  const kept = queryOf(pastOf(query));
  return kept ? `${path}?${kept}` : path;
}

interface Props {
  readonly query: Query;
  readonly set: (name: 'as-at' | 'known-at') => (value: string) => void;
}

/** What had happened by a day, and what had been written down by a day: two questions, kept apart. */
export const PastFields = ({ query, set }: Props) => (
  <details class="no-paper" open={isPast(query)}>
    <summary>{words.title}</summary>
    <div class="side-by-side">
      <TextField
        label={words.asAt}
        hint={words.asAtHint}
        type="date"
        value={query['as-at'] ?? ''}
        onValue={set('as-at')}
        input={{ max: today() }}
      />
      <TextField
        label={words.knownAt}
        hint={words.knownAtHint}
        type="date"
        value={query['known-at'] ?? ''}
        onValue={set('known-at')}
        input={{ max: today() }}
      />
    </div>
  </details>
);

/** Says that the screen shows the past, and leads back. */
export function PastSaid({ query }: { readonly query: Query }) {
  const { path } = useLocation();
  if (!isPast(query)) return null;
  const { 'as-at': _, 'known-at': __, ...rest } = query;
  const now = queryOf(rest);
  return (
    <p class="past-said">
      <span class="needs-you">{words.looking(query['as-at'], query['known-at'])}.</span> {words.nothing}{' '}
      <a class="no-paper" href={now ? `${path}?${now}` : path}>
        {words.now}
      </a>
    </p>
  );
}

/** The fields for a page of its own (a piece, a firing), which keep the rest of its address. */
export function PastHere() {
  const { path, query, route } = useLocation();
  const set = (name: string) => (value: string) => {
    const next = queryOf({ ...query, [name]: value || undefined });
    route(next ? `${path}?${next}` : path, true);
  };
  return <PastFields query={query} set={set} />;
}
