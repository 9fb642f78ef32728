import { useState } from 'preact/hooks';
import { pictures as words } from '../words/pictures.ts';
import { Picture } from './picture.tsx';
import type { Shown } from './shown.ts';

interface Props {
  readonly picture: Shown;
  readonly onOpen: () => void;
  /** Said under it. */
  readonly caption?: string;
  /** Something else is shown in its place; without it, a line that it is not to be seen. */
  readonly onGone?: () => void;
}

/** A small picture that opens larger. */
export function Thumb({ picture, onOpen, caption, onGone }: Props) {
  const [gone, setGone] = useState(false);
  if (gone) return <p class="thumb gone small soft">{words.missing}</p>;
  return (
    <figure class="thumb">
      <button
        type="button"
        onClick={onOpen}
        aria-label={words.open(`${picture.what}, ${words.taken(picture.at)}`)}
      >
        <Picture
          key={picture.sha256}
          sha256={picture.sha256}
          size="small"
          alt=""
          width={picture.width}
          height={picture.height}
          onGone={onGone ?? (() => setGone(true))}
        />
      </button>
      {caption && <figcaption class="small">{caption}</figcaption>}
    </figure>
  );
}
