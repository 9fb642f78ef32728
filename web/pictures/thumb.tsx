import { useState } from 'preact/hooks';
import { pictures as words } from '../words/pictures.ts';
import { smallAddress } from './addresses.ts';
import type { Shown } from './shown.ts';

interface Props {
  readonly picture: Shown;
  readonly onOpen: () => void;
  /** Said under it. */
  readonly caption?: string;
}

/** A small picture that opens larger. */
export function Thumb({ picture, onOpen, caption }: Props) {
  const [gone, setGone] = useState(false);
  if (gone) return <p class="thumb gone small soft">{words.missing}</p>;
  return (
    <figure class="thumb">
      <button
        type="button"
        onClick={onOpen}
        aria-label={words.open(`${picture.what}, ${words.taken(picture.at)}`)}
      >
        <img
          src={smallAddress(picture.sha256)}
          alt=""
          loading="lazy"
          decoding="async"
          width={picture.width ?? undefined}
          height={picture.height ?? undefined}
          onError={() => setGone(true)}
        />
      </button>
      {caption && <figcaption class="small">{caption}</figcaption>}
    </figure>
  );
}
