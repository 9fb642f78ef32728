import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Props {
  readonly summary: string;
  readonly open?: boolean;
  /** Made only when it is opened for the first time: many of these stand in one list. */
  readonly children: () => ComponentChildren;
}

/** What is one step behind. */
export function FoldOut({ summary, open = false, children }: Props) {
  const [opened, setOpened] = useState(open);
  return (
    <details open={open} onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>{summary}</summary>
      {opened && children()}
    </details>
  );
}
