import type { ComponentChildren } from 'preact';

interface Props {
  /** What will be here. */
  readonly what: string;
  /** The one thing to do first. */
  readonly children?: ComponentChildren;
}

export const Empty = ({ what, children }: Props) => (
  <div class="empty">
    <p>{what}</p>
    {children && <p>{children}</p>}
  </div>
);
