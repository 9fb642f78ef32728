/** Hatching and dots for the bars of figures, so that parts tell apart in black and white. */
export const Patterns = () => (
  <svg class="unseen" width="0" height="0" aria-hidden="true">
    <defs>
      <pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line class="pen" x1="0" x2="0" y1="0" y2="5" />
      </pattern>
      <pattern id="dots" width="5" height="5" patternUnits="userSpaceOnUse">
        <circle class="dot" cx="2.5" cy="2.5" r="0.6" />
      </pattern>
    </defs>
  </svg>
);
