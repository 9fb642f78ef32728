/** Moments as entries hold them: wall-clock time with its offset. */

/** What a clock shows, with its offset: '2026-05-01T10:15:00.000+01:00'. */
export function clockText(now: Date): string {
  const minutes = -now.getTimezoneOffset();
  const two = (n: number) => String(n).padStart(2, '0');
  const size = Math.abs(minutes);
  const wall = new Date(now.getTime() + minutes * 60_000).toISOString().slice(0, -1);
  return `${wall}${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** '2026-05-01' and '10:15' on this device's clock as '2026-05-01T10:15:00+01:00'. */
export function momentOf(day: string, time: string): string {
  const minutes = -new Date(`${day}T${time}`).getTimezoneOffset();
  const two = (n: number) => String(n).padStart(2, '0');
  const size = Math.abs(minutes);
  return `${day}T${time}:00${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
