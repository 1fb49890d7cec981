/**
 * On which side of a line a point lies, decided exactly. A floating determinant is trusted where it is larger
 * than its own worst rounding; else the coordinates are rounded to whole micrometres and the sign is worked out
 * in integers. Source: the error bound of J. R. Shewchuk, Adaptive Precision Floating-Point Arithmetic (1997),
 * "orient2d" stage A.
 */
import type { Point } from "./point.ts";

const ROUNDING = 3.3306690738754716e-16;

/** Micrometres in a millimetre: the grid of every exact answer of the plane. */
export const GRID = 1000;

/** 1 where c lies left of the line from a to b, -1 right, 0 on it. */
export function side(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const left = (b.x - a.x) * (c.y - a.y);
  const right = (b.y - a.y) * (c.x - a.x);
  const determinant = left - right;
  if (Math.abs(determinant) > ROUNDING * (Math.abs(left) + Math.abs(right))) return determinant > 0 ? 1 : -1;
  return exactSide(a, b, c);
}

function exactSide(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const [ax, ay, bx, by, cx, cy] = [a.x, a.y, b.x, b.y, c.x, c.y].map((value) =>
    BigInt(Math.round(value * GRID)),
  ) as [bigint, bigint, bigint, bigint, bigint, bigint];
  const determinant = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  if (determinant === 0n) return 0;
  return determinant > 0n ? 1 : -1;
}
