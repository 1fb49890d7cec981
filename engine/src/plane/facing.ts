/**
 * Two convex shapes facing each other across a way. Seen along the way, the near faces are two profiles; the
 * width between them is a convex function of the place along the way, so it is least in one stretch and every
 * "narrower than" is one interval, found by halving.
 *
 *        ┌───────┐                 n: across, from a to b
 *        │   b   │                 t: along the way
 *        └───────┘   ▲
 *          width     │ n
 *      ┌─────────┐   └──▶ t
 *      │    a    │
 */
import type { Point } from "./point.ts";
import { reach, type Rounded } from "./rounded.ts";

/** From and to along the way, mm; `to` is not below `from`. */
export type Stretch = readonly [number, number];

/** Halvings of a stretch until a millionth of a millimetre of ten metres is left. */
const HALVINGS = 34;

/** The stretch along the way that both shapes stand beside; undefined where they are not side by side. */
export function sideBySide(a: Rounded, b: Rounded, across: Point): Stretch | undefined {
  const along = { x: -across.y, y: across.x };
  const [lowA, highA] = reach(a, along);
  const [lowB, highB] = reach(b, along);
  const from = Math.max(lowA, lowB);
  const to = Math.min(highA, highB);
  return from <= to ? [from, to] : undefined;
}

/** Where the way is narrower than a width: one stretch, or undefined. `across` is a unit vector from a to b. */
export function narrowerThan(a: Rounded, b: Rounded, across: Point, width: number): Stretch | undefined {
  const beside = sideBySide(a, b, across);
  if (!beside || reach(b, across)[0] - reach(a, across)[1] >= width) return undefined;
  const wide = (place: number): number => facingWidth(a, b, across, place);
  const [from, to] = beside;
  const [fromNarrow, toNarrow] = [wide(from) < width, wide(to) < width];
  // A convex width is greatest at an end: narrow at both ends is narrow all along.
  if (fromNarrow && toNarrow) return beside;
  if (fromNarrow) return [from, edgeOf(wide, from, to, width)];
  if (toNarrow) return [edgeOf(wide, to, from, width), to];
  const inside = narrowPlace(wide, beside, width);
  if (inside === undefined) return undefined;
  return [edgeOf(wide, inside, from, width), edgeOf(wide, inside, to, width)];
}

/** The narrowest place of the way and its width; undefined where the shapes are not side by side. */
export function narrowest(
  a: Rounded,
  b: Rounded,
  across: Point,
): { readonly width: number; readonly a: Point; readonly b: Point } | undefined {
  const beside = sideBySide(a, b, across);
  if (!beside) return undefined;
  const least = leastOf((place) => facingWidth(a, b, across, place), beside);
  const along = { x: -across.y, y: across.x };
  const at = (n: number): Point => ({
    x: along.x * least + across.x * n,
    y: along.y * least + across.y * n,
  });
  const [low, high] = [face(a, across, least, 1), face(b, across, least, -1)];
  return { width: high - low, a: at(low), b: at(high) };
}

/** Width between the facing profiles at a place along the way; below 0 where they overlap. */
export function facingWidth(a: Rounded, b: Rounded, across: Point, place: number): number {
  return face(b, across, place, -1) - face(a, across, place, 1);
}

/** How far out a shape stands along `across` at a place along the way: its far face (1) or its near one (-1). */
function face({ core, radius }: Rounded, across: Point, place: number, sign: 1 | -1): number {
  let best = -Infinity;
  const count = core.length;
  for (let i = 0; i < count; i++) {
    const p = core[i]!;
    const q = core[(i + 1) % count]!;
    best = Math.max(best, faceOfEdge(p, q, { across, place, sign, radius }));
  }
  return sign * best;
}

interface Look {
  readonly across: Point;
  readonly place: number;
  readonly sign: 1 | -1;
  readonly radius: number;
}

/** Highest point at a place of a stadium: both round ends, and the side between them. */
function faceOfEdge(p: Point, q: Point, { across, place, sign, radius }: Look): number {
  const [tp, np] = [across.x * p.y - across.y * p.x, sign * (across.x * p.x + across.y * p.y)];
  const [tq, nq] = [across.x * q.y - across.y * q.x, sign * (across.x * q.x + across.y * q.y)];
  const best = Math.max(roundEnd(place - tp, np, radius), roundEnd(place - tq, nq, radius));
  const length = Math.hypot(tq - tp, nq - np);
  if (length === 0 || tq === tp) return best;
  // The side that looks up, moved out square by the radius.
  const up = Math.sign(tq - tp);
  const [st, sn] = [(-up * (nq - np) * radius) / length, (up * (tq - tp) * radius) / length];
  const share = (place - tp - st) / (tq - tp);
  // A hair beyond an end is rounding, not another place.
  if (share < -1e-12 || share > 1 + 1e-12) return best;
  return Math.max(best, np + sn + Math.min(1, Math.max(0, share)) * (nq - np));
}

function roundEnd(off: number, n: number, radius: number): number {
  const squared = radius * radius - off * off;
  if (squared >= 0) return n + Math.sqrt(squared);
  return Math.abs(off) <= radius + 1e-9 ? n : -Infinity;
}

/** Any place where a convex function is below a width: the search for its least one ends as soon as it meets one. */
function narrowPlace(
  wide: (place: number) => number,
  [from, to]: Stretch,
  width: number,
): number | undefined {
  let [low, high] = [from, to];
  while (high - low > 1e-6) {
    const [left, right] = [low + (high - low) / 3, high - (high - low) / 3];
    const [atLeft, atRight] = [wide(left), wide(right)];
    if (atLeft < width) return left;
    if (atRight < width) return right;
    if (atLeft <= atRight) high = right;
    else low = left;
  }
  return undefined;
}

/** Where a convex function is least on a stretch, by thirds; its ends are tried too. */
function leastOf(wide: (place: number) => number, [from, to]: Stretch): number {
  let [low, high] = [from, to];
  while (high - low > 1e-6) {
    const [left, right] = [low + (high - low) / 3, high - (high - low) / 3];
    if (wide(left) <= wide(right)) high = right;
    else low = left;
  }
  const middle = (low + high) / 2;
  return [from, to].reduce((best, end) => (wide(end) < wide(best) ? end : best), middle);
}

/** Furthest place from the least one towards an end that is still narrower than the width. */
function edgeOf(wide: (place: number) => number, least: number, end: number, width: number): number {
  let [inside, outside] = [least, end];
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (inside + outside) / 2;
    if (wide(middle) < width) inside = middle;
    else outside = middle;
  }
  return inside;
}
