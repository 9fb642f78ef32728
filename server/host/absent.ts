/**
 * JSON knows no absent value: fields that are undefined are left out. What has none is given back
 * as it is, since most values have none and copying them all would cost.
 */
export function withoutAbsent<T>(value: T): T {
  return hasAbsent(value) ? (copy(value) as T) : value;
}

function hasAbsent(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  for (const key in value) {
    const inner = (value as Record<string, unknown>)[key];
    if (inner === undefined || hasAbsent(inner)) return true;
  }
  return false;
}

function copy(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(copy);
  if (typeof value !== 'object' || value === null) return value;
  const present = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return Object.fromEntries(present.map(([key, inner]) => [key, copy(inner)]));
}
