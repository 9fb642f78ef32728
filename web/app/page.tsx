import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { dayText, today } from '../words/numbers.ts';
import { shell } from '../words/shell.ts';
import { studioName } from './places.tsx';

let first = true;

interface Props {
  readonly title: ComponentChildren;
  /** The title as plain words, for the window's title. */
  readonly name?: string;
  readonly back?: { readonly href: string; readonly to: string };
  readonly aside?: ComponentChildren;
  readonly children: ComponentChildren;
  /** Large targets and full ink, for a wet hand in sunlight. */
  readonly atKiln?: boolean;
}

/** One screen: its title takes the focus when one comes to it from another screen. */
export function Page({ title, name, back, aside, children, atKiln }: Props) {
  const studio = studioName();
  const heading = useRef<HTMLHeadingElement>(null);
  const text = name ?? (typeof title === 'string' ? title : shell.name);
  useEffect(() => {
    if (!first) heading.current?.focus({ preventScroll: true });
    first = false;
  }, []);
  useEffect(() => {
    document.title = `${text} · ${studio}`;
  }, [text, studio]);
  return (
    <article class={atKiln ? 'at-kiln' : undefined}>
      <p class="on-paper">
        {studio} <span>{shell.printed(dayText(today()))}</span>
      </p>
      <header class="title">
        {back && (
          <p class="back">
            <a href={back.href}>{shell.back(back.to)}</a>
          </p>
        )}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {aside && <div class="aside">{aside}</div>}
      </header>
      {children}
    </article>
  );
}
