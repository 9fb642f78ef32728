import './pictures.css';
import { useState } from 'preact/hooks';
import type { Shown } from './shown.ts';
import { Thumb } from './thumb.tsx';
import { Viewer } from './viewer.tsx';

interface Props {
  readonly pictures: readonly Shown[];
  /** What is said under each; nothing when left out. */
  readonly caption?: (picture: Shown) => string;
  readonly label: string;
}

/** Pictures in a row that wraps, each of which opens larger. */
export function Strip({ pictures, caption, label }: Props) {
  const [at, setAt] = useState<number>();
  if (pictures.length === 0) return null;
  return (
    <>
      <ul class="strip" aria-label={label}>
        {pictures.map((picture, n) => (
          <li key={picture.seq}>
            <Thumb picture={picture} caption={caption?.(picture)} onOpen={() => setAt(n)} />
          </li>
        ))}
      </ul>
      {at !== undefined && <Viewer list={pictures} at={at} onAt={setAt} onClose={() => setAt(undefined)} />}
    </>
  );
}
