import './pictures.css';
import { useLocation } from 'preact-iso';
import type { Grade } from '../../server/contract/trade.ts';
import { queryOf } from '../api/client.ts';
import { type Materials, useMaterials } from '../api/use-materials.ts';
import { useReport } from '../api/use-report.ts';
import { Page } from '../app/page.tsx';
import { Shown as Answered } from '../parts/asked.tsx';
import { Choices } from '../parts/choices.tsx';
import { Empty } from '../parts/empty.tsx';
import { pictures as words } from '../words/pictures.ts';
import { gradeNames } from '../words/trade.ts';
import { ware } from '../words/ware.ts';
import { FromBuyers } from './from-buyers.tsx';
import { type Shown, whatOf } from './shown.ts';
import { Strip } from './strip.tsx';

interface Hung {
  readonly seq: number;
  readonly sha256: string;
  readonly at: string;
  readonly piece: string | null;
  readonly mark: string | null;
  readonly form: string | null;
  readonly count: number | null;
  readonly clayName: string | null;
  readonly glazeNames: readonly string[];
  readonly firing: string | null;
  readonly grade: Grade | null;
  readonly fault: string | null;
  readonly repair: string | null;
  readonly shows: string | null;
  readonly width: number | null;
  readonly height: number | null;
}

interface Group {
  readonly key: string;
  readonly name: string;
  readonly many: number;
  readonly pictures: readonly Hung[];
}

const WAYS = [
  { value: 'glaze', label: words.byGlaze },
  { value: 'glaze-on-clay', label: words.byGlazeOnClay },
  { value: 'firing', label: words.byFiring },
] as const;

function hung(picture: Hung, materials: Materials): Shown {
  const { seq, sha256, at, width, height, piece, firing } = picture;
  const thing = [picture.mark, picture.form].filter(Boolean).join(' ') || words.plain;
  const href = piece
    ? { href: `/ware/${encodeURIComponent(piece)}`, hrefName: words.toPiece }
    : firing
      ? { href: `/kilns/${encodeURIComponent(firing)}`, hrefName: words.toFiring }
      : {};
  return { seq, sha256, at, width, height, what: whatOf(picture, thing, materials), ...href };
}

const captionOf = ({ mark, form, grade, count }: Hung): string =>
  [mark, words.caption(form, count), grade && gradeNames[grade]].filter(Boolean).join(' · ');

function Pictures({ list, label }: { readonly list: readonly Hung[]; readonly label: string }) {
  const materials = useMaterials();
  const captions = new Map(list.map((each) => [each.seq, captionOf(each)]));
  return (
    <Strip
      pictures={list.map((each) => hung(each, materials))}
      caption={({ seq }) => captions.get(seq) ?? ''}
      label={label}
    />
  );
}

/** Fired ware side by side: by glaze, by glaze on clay, by firing. */
export default function Wall() {
  const { query, route } = useLocation();
  const by = query.by ?? 'glaze';
  return (
    <Page
      title={words.wallTitle}
      back={
        query.key
          ? { href: `/ware/pictures?${queryOf({ by })}`, to: words.wallTitle }
          : { href: '/ware', to: ware.title }
      }
    >
      {query.key ? (
        <One by={by} of={query.key} after={query.after} />
      ) : (
        <>
          <p class="lead">{words.wallLead}</p>
          <Choices
            legend={words.by}
            value={by}
            onValue={(value) => route(`/ware/pictures?${queryOf({ by: value })}`, true)}
            options={WAYS}
          />
          <Groups by={by} />
          <FromBuyers />
        </>
      )}
    </Page>
  );
}

function Groups({ by }: { readonly by: string }) {
  const asked = useReport<Group>('studio/picture-wall', { by });
  return (
    <Answered of={asked}>
      {({ rows }) =>
        rows.length === 0 ? (
          <Empty what={words.wallEmpty}>
            <a href="/ware">{words.wallEmptyDo}</a>.
          </Empty>
        ) : (
          rows.map(({ key, name, many, pictures }) => (
            <section key={key} class="part">
              <h2>{name}</h2>
              <Pictures list={pictures} label={name} />
              {many > pictures.length && (
                <p>
                  <a
                    class="reach-line"
                    href={`/ware/pictures?${queryOf({ by, key })}`}
                    aria-label={`${name}: ${words.all(many)}`}
                  >
                    {words.all(many)}
                  </a>
                </p>
              )}
            </section>
          ))
        )
      }
    </Answered>
  );
}

function One({ by, of, after }: { readonly by: string; readonly of: string; readonly after?: string }) {
  const asked = useReport<Hung, { readonly title: string | null; readonly next?: number }>(
    'studio/pictures',
    {
      by,
      key: of,
      after,
    },
  );
  return (
    <Answered of={asked}>
      {({ rows, more }) => (
        <section class="part">
          <h2>{more.title}</h2>
          {rows.length === 0 && <p class="soft">{words.none}</p>}
          <Pictures list={rows} label={more.title ?? words.title} />
          <p class="buttons">
            {after && (
              <a class="button" href={`/ware/pictures?${queryOf({ by, key: of })}`}>
                {words.newest}
              </a>
            )}
            {more.next && (
              <a class="button" href={`/ware/pictures?${queryOf({ by, key: of, after: String(more.next) })}`}>
                {words.more}
              </a>
            )}
          </p>
        </section>
      )}
    </Answered>
  );
}
