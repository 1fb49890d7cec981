/**
 * Which of many boxes are near each other: all are sorted by their left edge and swept to the right, so that
 * only those whose spans meet are compared. Source: sort and sweep, C. Ericson, Real-Time Collision Detection, 7.5.
 */
import type { Bounds } from "./outline.ts";

/**
 * Calls `visit(i, j)` once for every two boxes no further apart than `within` on either axis, i before j in the
 * list. A visit that answers false ends the sweep.
 */
export function eachNearPair(
  boxes: readonly Bounds[],
  within: number,
  visit: (i: number, j: number) => boolean,
): void {
  const order = boxes.map((_, index) => index).toSorted((i, j) => boxes[i]!.left - boxes[j]!.left);
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    const box = boxes[i]!;
    for (let m = k + 1; m < order.length; m++) {
      const j = order[m]!;
      const other = boxes[j]!;
      if (other.left > box.right + within) break;
      if (other.bottom > box.top + within || box.bottom > other.top + within) continue;
      if (!visit(Math.min(i, j), Math.max(i, j))) return;
    }
  }
}
