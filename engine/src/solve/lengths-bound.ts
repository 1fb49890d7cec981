/**
 * How many sticks are needed at least. The bound is the greatest of: all lengths over the stick's; Martello and
 * Toth's L2 (1990), for every threshold: parts above half a stick cannot share one, and what room they leave
 * must hold the middling ones; and dual feasible functions (Fekete and Schepers 2001; Carlier, Clautiaux and
 * Moukrim 2007), which stretch some sizes and shrink others so that whatever fits in a stick still fits. All of it
 * is whole numbers, so nothing is lost to rounding.
 */
import type { Kinds } from "./lengths-fill.ts";

/** Thresholds tried at most; beyond it they are taken evenly from all. */
const THRESHOLDS = 400;

/** Steps of a stair function tried: parts of a stick from halves to this. */
const STAIRS = 60;

/** Sticks no packing can do without; 0 without parts. */
export function boundOf(kinds: Kinds): number {
  const { capacity, sizes, counts } = kinds;
  if (sizes.length === 0) return 0;
  let best = weighed(kinds, (size) => size, capacity);
  const middling = thinned(sizes.filter((size) => 2 * size <= capacity));
  for (const low of [0, ...middling]) best = Math.max(best, martelloToth(kinds, low));
  for (const low of middling) {
    const stairs = Math.floor(capacity / low);
    best = Math.max(
      best,
      weighed(kinds, (size) => carlier(size, capacity, low), 2 * stairs),
    );
  }
  for (let k = 1; k <= STAIRS; k++)
    best = Math.max(
      best,
      weighed(kinds, (size) => stair(size, capacity, k), k * capacity),
    );
  return Math.max(best, counts.some((count) => count > 0) ? 1 : 0);
}

function thinned(sizes: readonly number[]): readonly number[] {
  const every = Math.ceil(sizes.length / THRESHOLDS);
  return sizes.filter((_, place) => place % every === 0);
}

function weighed({ sizes, counts }: Kinds, weight: (size: number) => number, capacity: number): number {
  let sum = 0;
  for (let kind = 0; kind < sizes.length; kind++) sum += counts[kind]! * weight(sizes[kind]!);
  return Math.ceil(sum / capacity);
}

/** L2 for one threshold: parts above capacity - low stand alone, those from low to a half go with the rest of the large ones. */
function martelloToth({ capacity, sizes, counts }: Kinds, low: number): number {
  let [alone, large, room, middling] = [0, 0, 0, 0];
  for (let kind = 0; kind < sizes.length && sizes[kind]! >= low; kind++) {
    const [size, count] = [sizes[kind]!, counts[kind]!];
    if (size > capacity - low) alone += count;
    else if (2 * size > capacity) {
      large += count;
      room += count * (capacity - size);
    } else middling += count * size;
  }
  return alone + large + Math.max(0, Math.ceil((middling - room) / capacity));
}

/** Fekete and Schepers' stair with k steps, times k times the capacity. */
function stair(size: number, capacity: number, k: number): number {
  const steps = (k + 1) * size;
  return steps % capacity === 0 ? k * size : Math.floor(steps / capacity) * capacity;
}

/** Carlier, Clautiaux and Moukrim's f2 for a low size of at most half the capacity; a full stick is 2 ⌊capacity / low⌋. */
function carlier(size: number, capacity: number, low: number): number {
  const full = Math.floor(capacity / low);
  if (2 * size > capacity) return 2 * (full - Math.floor((capacity - size) / low));
  if (2 * size === capacity) return full;
  return 2 * Math.floor(size / low);
}
