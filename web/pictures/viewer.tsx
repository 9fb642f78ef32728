import { useEffect, useRef, useState } from 'preact/hooks';
import { pictures as words } from '../words/pictures.ts';
import { Picture } from './picture.tsx';
import type { Shown } from './shown.ts';

interface Props {
  readonly list: readonly Shown[];
  /** Place in the list. */
  readonly at: number;
  readonly onAt: (at: number) => void;
  readonly onClose: () => void;
}

/** One picture at a time over the page; arrows and Escape do what they say. */
export function Viewer({ list, at, onAt, onClose }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [gone, setGone] = useState(false);
  useEffect(() => dialog.current?.showModal(), []);
  useEffect(() => setGone(false), [at]);
  const picture = list[at];
  if (!picture) return null;
  const go = (by: number) => {
    if (list[at + by]) onAt(at + by);
  };
  const keys = (event: KeyboardEvent) => {
    if (event.key === 'ArrowLeft') go(-1);
    if (event.key === 'ArrowRight') go(1);
  };
  return (
    <dialog ref={dialog} class="viewer no-paper" aria-label={picture.what} onClose={onClose} onKeyDown={keys}>
      {gone ? (
        <p>{words.missing}</p>
      ) : (
        <Picture
          key={picture.sha256}
          sha256={picture.sha256}
          size="whole"
          alt={`${picture.what}, ${words.taken(picture.at)}`}
          onGone={() => setGone(true)}
        />
      )}
      <p>
        <strong>{picture.what}</strong>, {words.taken(picture.at)}
        {list.length > 1 && <span class="soft"> · {words.of(at + 1, list.length)}</span>}
      </p>
      <p class="buttons">
        <button type="button" class="main" onClick={() => dialog.current?.close()}>
          {words.close}
        </button>
        {list.length > 1 && (
          <>
            <button type="button" disabled={at === 0} onClick={() => go(-1)}>
              {words.previous}
            </button>
            <button type="button" disabled={at === list.length - 1} onClick={() => go(1)}>
              {words.next}
            </button>
          </>
        )}
        {picture.href && (
          <a class="button" href={picture.href}>
            {picture.hrefName}
          </a>
        )}
      </p>
    </dialog>
  );
}
