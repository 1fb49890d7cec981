/** Plain facts about the outline of a room: its area, which way it turns, whether its walls cross. */
import type { Point } from "../plane/point.ts";
import { TOUCH } from "../tolerances.ts";

/** Signed area, mm²: above 0 where the corners run counterclockwise with y up. */
export function signedArea(shape: readonly Point[]): number {
  let twice = 0;
  shape.forEach((p, i) => {
    const q = shape[(i + 1) % shape.length]!;
    twice += p.x * q.y - q.x * p.y;
  });
  return twice / 2;
}

/** Twice the signed area of a triangle: above 0 where a, b, c turn left. */
export function cross(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/** Whether two segments share a point. */
export function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  const [p, q, r, s] = [cross(a, b, c), cross(a, b, d), cross(c, d, a), cross(c, d, b)];
  if (p * q < 0 && r * s < 0) return true;
  return (
    (p === 0 && within(a, b, c)) ||
    (q === 0 && within(a, b, d)) ||
    (r === 0 && within(c, d, a)) ||
    (s === 0 && within(c, d, b))
  );
}

/** Pairs of walls (by index) that meet elsewhere than at the corner they share. */
export function crossings(shape: readonly Point[]): readonly (readonly [number, number])[] {
  const size = shape.length;
  const found: (readonly [number, number])[] = [];
  for (let i = 0; i < size; i++) {
    for (let j = i + 1; j < size; j++) {
      if (wallsCross(shape, i, j)) found.push([i, j]);
    }
  }
  return found;
}

/** Whether walls meet only at the corners they share. */
export function isSimple(shape: readonly Point[]): boolean {
  return crossings(shape).length === 0;
}

/** Whether the straight line between two corners runs inside the room, walls themselves counting as inside. */
export function sees(shape: readonly Point[], a: number, b: number): boolean {
  const size = shape.length;
  if ((a + 1) % size === b || (b + 1) % size === a) return true;
  const [p, q] = [shape[a]!, shape[b]!];
  for (let wall = 0; wall < size; wall++) {
    const next = (wall + 1) % size;
    if (wall === a || next === a || wall === b || next === b) continue;
    if (segmentsMeet(p, q, shape[wall]!, shape[next]!)) return false;
  }
  return contains(shape, { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });
}

/** Whether a point lies inside the outline (even-odd); on the outline either may be answered. */
export function contains(shape: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  shape.forEach((p, i) => {
    const q = shape[(i + 1) % shape.length]!;
    if (p.y > y !== q.y > y && x < p.x + ((y - p.y) * (q.x - p.x)) / (q.y - p.y)) inside = !inside;
  });
  return inside;
}

function wallsCross(shape: readonly Point[], i: number, j: number): boolean {
  const size = shape.length;
  const [a, b, c, d] = [shape[i]!, shape[(i + 1) % size]!, shape[j]!, shape[(j + 1) % size]!];
  // Neighbours share a corner; they cross only where one folds back along the other.
  if (j === i + 1) return foldsBack(a, b, d);
  if (i === 0 && j === size - 1) return foldsBack(b, a, c);
  return segmentsMeet(a, b, c, d);
}

/** One wall lies back along the other: the end of the shorter touches the longer. */
function foldsBack(from: Point, corner: Point, to: Point): boolean {
  const longer = Math.max(
    Math.hypot(from.x - corner.x, from.y - corner.y),
    Math.hypot(to.x - corner.x, to.y - corner.y),
  );
  if (Math.abs(cross(from, corner, to)) > TOUCH * longer) return false;
  return (from.x - corner.x) * (to.x - corner.x) + (from.y - corner.y) * (to.y - corner.y) >= 0;
}

/** Whether c, known to lie on the line of a and b, lies between them. */
function within(a: Point, b: Point, c: Point): boolean {
  return (
    Math.min(a.x, b.x) <= c.x &&
    c.x <= Math.max(a.x, b.x) &&
    Math.min(a.y, b.y) <= c.y &&
    c.y <= Math.max(a.y, b.y)
  );
}
