/**
 * Guillotine placement: a sheet is a set of free rectangles; a part goes into the left bottom corner of one of them,
 * and one straight cut along one of the part's edges divides what is left in two. So whatever lies so can be cut
 * edge to edge. Which rectangle a part takes and which way the rest is cut are rules; many are tried (Jylänki
 * 2010 compares them).
 *
 *     ┌───────────────┐      ┌───────┬───────┐
 *     │               │      │       │       │
 *     ├───────┬───────┤  or  ├───────┤       │
 *     │ part  │       │      │ part  │       │
 *     └───────┴───────┘      └───────┴───────┘
 */

/** What is to be cut from what: whole numbers, kerf counted in on every side. Each kind fits the sheet. */
export interface Shop {
  readonly width: number;
  readonly depth: number;
  /** Thousandths of the job's unit that one of these numbers stands for. */
  readonly measure: number;
  readonly turning: boolean;
  /** Wider first; where turning is allowed each lies long side along the width. */
  readonly kinds: readonly { readonly width: number; readonly depth: number }[];
  readonly counts: readonly number[];
}

/** A part as it lies. */
export interface Placed {
  readonly kind: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly depth: number;
}

export type Layout = readonly (readonly Placed[])[];

export function areaOf(sheet: readonly Placed[]): number {
  let sum = 0;
  for (const { width, depth } of sheet) sum += width * depth;
  return sum;
}

/** Which free rectangle a part takes: the one of least area, least rest on the shorter side, on the longer, or the first of the earliest sheet. */
export const FITS = ["area", "short", "long", "first"] as const;

/** How the rest is cut: along the width or depth always, along the shorter or the longer rest, or to leave the largest or the evenest two. */
export const SPLITS = ["largest", "shorter", "across", "up", "longer", "even"] as const;

export interface Rule {
  readonly fit: (typeof FITS)[number];
  readonly split: (typeof SPLITS)[number];
}

export interface Laid {
  readonly sheets: Placed[][];
  /** Kinds that found no place on the sheets allowed, one entry a part. */
  readonly rest: number[];
  /** Free rectangles looked at. */
  readonly steps: number;
}

interface Free {
  x: number;
  y: number;
  width: number;
  depth: number;
  sheet: number;
}

/** Lays kinds (one entry a part) in the given order by one rule, on at most `most` sheets. */
export function laid(shop: Shop, order: readonly number[], rule: Rule, most = Infinity): Laid {
  const sheets: Placed[][] = [];
  const rest: number[] = [];
  const free: Free[] = [];
  const least = leastSide(shop, order);
  let steps = 0;
  for (const kind of order) {
    steps += free.length + 1;
    let place = bestPlace(shop, free, kind, rule);
    if (place === undefined && sheets.length < most) {
      free.push({ x: 0, y: 0, width: shop.width, depth: shop.depth, sheet: sheets.length });
      sheets.push([]);
      place = bestPlace(shop, free, kind, rule);
    }
    if (place === undefined) {
      rest.push(kind);
      continue;
    }
    const { x, y, sheet } = free[place.at]!;
    sheets[sheet]!.push({ kind, x, y, width: place.width, depth: place.depth });
    divide(free, place, rule.split, least);
  }
  return { sheets, rest, steps };
}

function leastSide({ kinds }: Shop, order: readonly number[]): number {
  let least = Infinity;
  for (const kind of order) least = Math.min(least, kinds[kind]!.width, kinds[kind]!.depth);
  return least;
}

interface Place {
  readonly at: number;
  readonly width: number;
  readonly depth: number;
}

function bestPlace(
  { kinds, turning }: Shop,
  free: readonly Free[],
  kind: number,
  { fit }: Rule,
): Place | undefined {
  const { width, depth } = kinds[kind]!;
  const both = turning && width !== depth;
  let [at, turned, best] = [-1, false, Infinity];
  for (let k = 0; k < free.length; k++) {
    const one = free[k]!;
    if (one.width >= width && one.depth >= depth) {
      const score = scoreOf(one, width, depth, fit);
      if (score < best) [at, turned, best] = [k, false, score];
    }
    if (both && one.width >= depth && one.depth >= width) {
      const score = scoreOf(one, depth, width, fit);
      if (score < best) [at, turned, best] = [k, true, score];
    }
  }
  if (at < 0) return undefined;
  return turned ? { at, width: depth, depth: width } : { at, width, depth };
}

function scoreOf(one: Free, width: number, depth: number, fit: Rule["fit"]): number {
  const [right, above] = [one.width - width, one.depth - depth];
  if (fit === "area") return one.width * one.depth + Math.min(right, above) / (one.width + one.depth);
  if (fit === "short") return Math.min(right, above) + Math.max(right, above) / (4 * (one.width + one.depth));
  if (fit === "long") return Math.max(right, above);
  return one.sheet + Math.min(right, above) / (one.width + one.depth);
}

/** Takes a place off the free rectangles and gives back what the cut leaves, where a part could still lie in it. */
function divide(free: Free[], { at, width, depth }: Place, split: Rule["split"], least: number): void {
  const one = free[at]!;
  const last = free.pop()!;
  if (at < free.length) free[at] = last;
  const [right, above] = [one.width - width, one.depth - depth];
  const across = cutsAcross(one, { right, above }, split);
  const { x, y, sheet } = one;
  if (above >= least) free.push({ x, y: y + depth, width: across ? one.width : width, depth: above, sheet });
  if (right >= least) free.push({ x: x + width, y, width: right, depth: across ? depth : one.depth, sheet });
}

/** Whether the one cut runs across the whole width above the part, rather than up the whole depth beside it. */
function cutsAcross(
  one: Free,
  { right, above }: { right: number; above: number },
  split: Rule["split"],
): boolean {
  if (split === "across" || split === "up") return split === "across";
  if (split === "shorter" || split === "longer") return right < above === (split === "shorter");
  return one.width * above >= right * one.depth === (split === "largest");
}

type Side = (part: { readonly width: number; readonly depth: number }) => number;

/** Orders that are tried: by area, longer side, shorter side, width, depth, girth; the largest first. */
const ORDERS: readonly Side[] = [
  ({ width, depth }) => width * depth,
  ({ width, depth }) => Math.max(width, depth),
  ({ width, depth }) => Math.min(width, depth),
  ({ width }) => width,
  ({ depth }) => depth,
  ({ width, depth }) => width + depth,
];

/** Free rectangles looked at in all the ways together; a way is tried out to its end. */
const WAYS_LIMIT = 400_000_000;

/** The best of many orders and rules; stops where the bound is met. Told the share done. */
export function manyWays(shop: Shop, bound: number, told: (share: number) => void = () => {}): Layout {
  const orders = ORDERS.map((side) => ordered(shop, side));
  const ways = FITS.flatMap((fit) =>
    SPLITS.flatMap((split) => orders.map((order) => ({ fit, split, order }))),
  );
  let best: Layout | undefined;
  let steps = 0;
  for (const [number, { order, ...rule }] of ways.entries()) {
    if (best && (best.length <= bound || steps > WAYS_LIMIT)) break;
    const way = laid(shop, order, rule);
    steps += way.steps;
    if (!best || way.sheets.length < best.length) best = way.sheets;
    told(Math.max((number + 1) / ways.length, Math.min(1, steps / WAYS_LIMIT)));
  }
  return best ?? [];
}

/** Every part, one entry each, by one measure of it, falling; equal ones by their other sides. */
export function ordered({ kinds, counts }: Shop, side: Side): number[] {
  return kinds
    .map((one, kind) => ({ kind, key: side(one), area: one.width * one.depth }))
    .toSorted((a, b) => b.key - a.key || b.area - a.area || a.kind - b.kind)
    .flatMap(({ kind }) => Array.from({ length: counts[kind]! }, () => kind));
}
