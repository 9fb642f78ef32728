import './key-grid.css';
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

export interface Key {
  readonly value: string;
  readonly label: string;
  readonly mark?: ComponentChildren;
  readonly main?: boolean;
  /** Takes two places. */
  readonly wide?: boolean;
}

interface Props {
  readonly legend: string;
  readonly keys: readonly Key[];
  readonly onPick: (value: string) => void;
  readonly onBack?: () => void;
  readonly columns?: number;
  readonly disabled?: boolean;
  /** The second of a double tap is not for these: it was meant for what stood there before. */
  readonly onceOnly?: boolean;
  /** Takes the focus as it comes, when what had it is gone. */
  readonly takesFocus?: boolean;
}

/** Milliseconds within which letters belong to one word. */
const ONE_WORD = 800;

/** The key in that direction from this one, by where they stand on the screen. */
function beside(keys: readonly HTMLElement[], from: HTMLElement, arrow: string): HTMLElement | undefined {
  const at = from.getBoundingClientRect();
  const across = arrow === 'ArrowLeft' || arrow === 'ArrowRight';
  const sign = arrow === 'ArrowLeft' || arrow === 'ArrowUp' ? -1 : 1;
  const away = (key: HTMLElement) => {
    const box = key.getBoundingClientRect();
    const x = box.x + box.width / 2 - at.x - at.width / 2;
    const y = box.y + box.height / 2 - at.y - at.height / 2;
    const along = (across ? x : y) * sign;
    const aside = Math.abs(across ? y : x);
    return along < 4 ? Number.POSITIVE_INFINITY : along + 3 * aside;
  };
  const nearest = keys.toSorted((a, b) => away(a) - away(b))[0];
  return nearest && Number.isFinite(away(nearest)) ? nearest : undefined;
}

/**
 * Large keys for a thumb, ruled like a printed table. On a keyboard the arrows go from key to key, letters
 * go to the key that begins with them, Escape goes a step back; all of it only while the focus is in it.
 */
export function KeyGrid({
  legend,
  keys,
  onPick,
  onBack,
  columns = 4,
  disabled,
  onceOnly,
  takesFocus,
}: Props) {
  const grid = useRef<HTMLFieldSetElement>(null);
  const typed = useRef({ letters: '', at: 0 });
  const all = () => [...(grid.current?.querySelectorAll<HTMLElement>('button') ?? [])];
  // Before the next letter can come: whoever types quickly loses none.
  useLayoutEffect(() => {
    const held = document.activeElement;
    if (takesFocus && (held === document.body || held?.tagName === 'H1'))
      all()[0]?.focus({ preventScroll: true });
  }, []);

  const letter = (pressed: string) => {
    const now = performance.now();
    const before = now - typed.current.at < ONE_WORD ? typed.current.letters : '';
    typed.current = { letters: before + pressed.toLowerCase(), at: now };
    const n = keys.findIndex(({ label }) => label.toLowerCase().startsWith(typed.current.letters));
    if (n >= 0) all()[n]?.focus();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Escape' && onBack) {
      event.preventDefault();
      onBack();
    } else if (event.key.startsWith('Arrow')) {
      event.preventDefault();
      beside(all(), event.target as HTMLElement, event.key)?.focus();
    } else if (event.key === 'Enter' && event.repeat) event.preventDefault();
    else if (/^\p{L}$/u.test(event.key)) letter(event.key);
  };
  return (
    <fieldset ref={grid} class="key-grid" onKeyDown={onKeyDown}>
      <legend>{legend}</legend>
      <div class={`keys keys-${columns}`}>
        {keys.map((key) => (
          <button
            key={key.value}
            type="button"
            class={[key.main && 'main', key.wide && 'two-wide'].filter(Boolean).join(' ') || undefined}
            disabled={disabled}
            onClick={(event) => {
              if (!onceOnly || event.detail <= 1) onPick(key.value);
            }}
          >
            {key.mark}
            <span>{key.label}</span>
          </button>
        ))}
      </div>
    </fieldset>
  );
}
