/**
 * The most valuable stick: which parts, together no longer than it, are worth most. Taken in the order of worth for
 * their length, as many as go, stepping back while what room is left could still be worth enough (Gilmore and
 * Gomory 1963).
 */
import type { Kinds } from "./lengths-fill.ts";

/** One stick's parts: how many of each kind. */
export type Pattern = Int32Array;

export interface Worth {
  readonly pattern: Pattern;
  readonly value: number;
}

export interface Asked {
  /** One for each kind; kinds worth nothing are left out. */
  readonly worths: ArrayLike<number>;
  /** Only a stick worth more than this is wanted. */
  readonly above: number;
  /** Counts one step; false once there have been enough. */
  readonly step: () => boolean;
}

/** The best stick worth more than asked, or none; `sure` unless the steps ran out before all were looked at. */
export function mostWorth(
  { capacity, sizes, counts }: Kinds,
  { worths, above, step }: Asked,
): { readonly best: Worth | undefined; readonly sure: boolean } {
  const order = sizes
    .map((_, kind) => kind)
    .filter((kind) => worths[kind]! > 0 && counts[kind]! > 0)
    .toSorted((a, b) => worths[b]! / sizes[b]! - worths[a]! / sizes[a]! || a - b);
  const rates = order.map((kind) => worths[kind]! / sizes[kind]!);
  // The least length from each place of the order on: where it does not fit, nothing more does.
  const least = order.map(() => Infinity);
  for (let at = order.length - 1; at >= 0; at--)
    least[at] = Math.min(sizes[order[at]!]!, least[at + 1] ?? Infinity);
  const times = new Int32Array(order.length);
  let found: Int32Array | undefined;
  let most = above;
  let sure = true;
  const deeper = (from: number, room: number, value: number): void => {
    if (value > most) {
      most = value;
      found = times.slice();
    }
    let at = from;
    while (at < order.length && sizes[order[at]!]! > room && room >= least[at]!) at++;
    if (at >= order.length || room < least[at]! || value + room * rates[at]! <= most) return;
    if (!step()) {
      sure = false;
      return;
    }
    const [size, worth] = [sizes[order[at]!]!, worths[order[at]!]!];
    for (let k = Math.min(counts[order[at]!]!, Math.floor(room / size)); k >= 0; k--) {
      if (!sure) break;
      times[at] = k;
      // With fewer of the best by rate, what is left is worth at most the next rate.
      if (k > 0 || value + room * (rates[at + 1] ?? 0) > most)
        deeper(at + 1, room - k * size, value + k * worth);
    }
    times[at] = 0;
  };
  deeper(0, capacity, 0);
  if (!found) return { best: undefined, sure };
  const pattern = new Int32Array(sizes.length);
  found.forEach((k, at) => (pattern[order[at]!] = k));
  return { best: { pattern, value: most }, sure };
}
