/** Stretches along a wall. */

/** What is left of a wall's length between its gaps. */
export function spans(
  length: number,
  gaps: readonly (readonly [number, number])[],
): readonly (readonly [number, number])[] {
  const out: [number, number][] = [];
  let at = 0;
  for (const [start, end] of gaps.toSorted((a, b) => a[0] - b[0])) {
    if (start > at) out.push([at, Math.min(start, length)]);
    at = Math.max(at, end);
  }
  if (at < length) out.push([at, length]);
  return out.filter(([start, end]) => end > start);
}
