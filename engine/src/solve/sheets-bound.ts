/**
 * How many sheets are needed at least. A dual feasible function stretches or shrinks the sides of parts so that
 * parts that lie side by side along a sheet still do; one for the width and one for the depth, multiplied, give
 * areas that must still find room (Fekete and Schepers 2004). The plain area is the pair that changes nothing; the
 * pair that makes all beyond a half a whole counts the parts of which no two share a sheet. A part that may be
 * turned counts as it lies with the lesser product. Beside it, parts of which no two share a sheet in any way of
 * lying are gathered greedily.
 */
import type { Shop } from "./sheets-fill.ts";

/** Thresholds tried along each side at most; beyond it they are taken evenly from all. */
const THRESHOLDS = 24;

/** Stair functions tried along each side. */
const STAIRS = 6;

/** What sums of products may lose in binary fractions, relative: far more than they do. */
const LOST = 1e-9;

/** Sheets no layout can do without; 0 without parts. */
export function boundOf(shop: Shop): number {
  if (shop.kinds.length === 0) return 0;
  const along = stretched(shop, shop.width, "width");
  const up = stretched(shop, shop.depth, "depth");
  let best = 1;
  for (const a of along) for (const b of up) best = Math.max(best, room(shop, a, b));
  return Math.max(best, apart(shop));
}

/** What each kind's two sides come to by one function, as shares of the sheet's side: as listed, and turned. Infinite where a side does not fit. */
interface Stretched {
  readonly first: Float64Array;
  readonly second: Float64Array;
}

/** The kinds' sides by each function along one side of the sheet: `first` is the kind's own side of that name, `second` its other. */
function stretched({ kinds, turning }: Shop, full: number, side: "width" | "depth"): Stretched[] {
  const other = side === "width" ? "depth" : "width";
  const sides = [...new Set(kinds.flatMap((one) => (turning ? [one.width, one.depth] : [one[side]])))]
    .filter((length) => 2 * length <= full)
    .toSorted((a, b) => a - b);
  const every = Math.ceil(sides.length / THRESHOLDS);
  const low = sides.filter((_, place) => place % every === 0);
  const functions: ((length: number) => number)[] = [
    (length) => length / full,
    // Just above none: what is beyond a half is a whole.
    (length) => (2 * length > full ? 1 : 2 * length === full ? 0.5 : 0),
    ...low.map(
      (least) => (length: number) => (length > full - least ? 1 : length < least ? 0 : length / full),
    ),
    ...low.map((least) => (length: number) => rounded(length, full, least)),
    ...Array.from({ length: STAIRS }, (_, k) => (length: number) => stair(length, full, k + 1)),
  ];
  return functions.map((by) => ({
    first: Float64Array.from(kinds, (one) => (one[side] > full ? Infinity : by(one[side]))),
    second: Float64Array.from(kinds, (one) => (one[other] > full ? Infinity : by(one[other]))),
  }));
}

/** Carlier, Clautiaux and Moukrim's f2 (2007), as a share of the whole. */
function rounded(length: number, full: number, least: number): number {
  const most = Math.floor(full / least);
  if (2 * length > full) return 1 - Math.floor((full - length) / least) / most;
  return 2 * length === full ? 0.5 : Math.floor(length / least) / most;
}

/** Fekete and Schepers' stair with k steps, as a share of the whole. */
function stair(length: number, full: number, k: number): number {
  const steps = (k + 1) * length;
  return steps % full === 0 ? length / full : Math.floor(steps / full) / k;
}

function room({ counts, turning }: Shop, along: Stretched, up: Stretched): number {
  let sum = 0;
  for (let kind = 0; kind < counts.length; kind++) {
    const asListed = product(along.first[kind]!, up.first[kind]!);
    const turned = turning ? product(along.second[kind]!, up.second[kind]!) : Infinity;
    sum += counts[kind]! * Math.min(asListed, turned);
  }
  return Math.ceil(sum * (1 - LOST) - LOST);
}

/** Infinite where one side does not fit at all, even where the other comes to nothing. */
function product(a: number, b: number): number {
  return a === Infinity || b === Infinity ? Infinity : a * b;
}

/** Kinds compared at most in gathering parts that cannot share a sheet. */
const COMPARED = 600;

/** Parts of which no two share a sheet, gathered from the largest down. */
function apart(shop: Shop): number {
  const kinds = shop.kinds
    .map((one, kind) => ({ ...one, count: shop.counts[kind]! }))
    .toSorted((a, b) => b.width * b.depth - a.width * a.depth)
    .slice(0, COMPARED);
  const gathered: (typeof kinds)[number][] = [];
  let parts = 0;
  for (const one of kinds) {
    if (gathered.some((other) => share(shop, one, other))) continue;
    gathered.push(one);
    parts += share(shop, one, one) ? 1 : one.count;
  }
  return parts;
}

type Sides = Shop["kinds"][number];

/** Whether two parts can lie on one sheet, side by side or one above the other. */
function share(shop: Shop, one: Sides, other: Sides): boolean {
  const ways = (sides: Sides): readonly Sides[] =>
    shop.turning ? [sides, { width: sides.depth, depth: sides.width }] : [sides];
  return ways(one).some((a) =>
    ways(other).some(
      (b) =>
        Math.max(a.width, b.width) <= shop.width &&
        Math.max(a.depth, b.depth) <= shop.depth &&
        (a.width + b.width <= shop.width || a.depth + b.depth <= shop.depth),
    ),
  );
}
