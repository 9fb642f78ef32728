import { useEffect, useRef, useState } from 'preact/hooks';
import { find as words } from '../words/find.ts';
import { openReader } from './decode.ts';

/** Times a second that the camera's picture is looked at. */
const LOOKS = 6;

interface Props {
  /** Told what a code holds. */
  readonly onCode: (text: string) => void;
  readonly onClose: () => void;
}

/** The camera's picture, looked through until a code is read. */
export function Camera({ onCode, onClose }: Props) {
  const video = useRef<HTMLVideoElement>(null);
  const told = useRef(onCode);
  told.current = onCode;
  const [problem, setProblem] = useState<string>();
  useEffect(() => {
    let stream: MediaStream | undefined;
    let next: ReturnType<typeof setTimeout> | undefined;
    let over = false;
    const open = async () => {
      const read = await openReader();
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
      if (over || !video.current) return stop();
      video.current.srcObject = stream;
      await video.current.play();
      const look = async () => {
        const text = video.current ? await read(video.current) : undefined;
        if (over) return;
        if (text) return told.current(text);
        next = setTimeout(look, 1000 / LOOKS);
      };
      await look();
    };
    const stop = () => {
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    open().catch(() => {
      if (!over) setProblem(words.refused);
    });
    return () => {
      over = true;
      clearTimeout(next);
      stop();
    };
  }, []);
  return (
    <>
      {problem ? (
        <p class="problem" role="alert">
          {problem}
        </p>
      ) : (
        <div class="camera">
          <video ref={video} muted playsInline aria-label={words.aim} />
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <path d="M1 6V1h5M18 1h5v5M23 18v5h-5M6 23H1v-5" />
          </svg>
        </div>
      )}
      <p class="buttons">
        <button type="button" onClick={onClose}>
          {words.stop}
        </button>
      </p>
    </>
  );
}
