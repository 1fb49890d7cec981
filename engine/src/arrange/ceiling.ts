/**
 * The ceiling over any point of the floor from its height in the corners. Heights are blended by mean value
 * coordinates: exact in every corner and along every wall, exact everywhere under a ceiling that is a plane, and
 * good for rooms of any outline. Source: M. S. Floater, Mean value coordinates (2003); boundary cases after
 * K. Hormann and M. S. Floater (2006).
 */
import type { TrueRoom } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";

/** mm above the floor; `sd` is one standard deviation, corners read apart from each other. */
export interface Ceiling {
  readonly height: number;
  readonly sd: number;
}

/** The ceiling over a point. Throws for a room without corners. */
export function ceilingAt(room: TrueRoom, point: Point): Ceiling {
  const weights = meanValueWeights(room.corners, point);
  let [height, variance] = [0, 0];
  room.corners.forEach((corner, index) => {
    height += weights[index]! * corner.height;
    variance += (weights[index]! * corner.sdHeight) ** 2;
  });
  return { height, sd: Math.sqrt(variance) };
}

/** Weights of the corners at a point, together 1. */
function meanValueWeights(corners: readonly Point[], point: Point): readonly number[] {
  const count = corners.length;
  if (count === 0) throw new Error("a room without corners has no ceiling");
  const arms = corners.map(({ x, y }) => ({ x: x - point.x, y: y - point.y }));
  const lengths = arms.map(({ x, y }) => Math.hypot(x, y));
  const at = lengths.findIndex((length) => length < 1e-9);
  if (at >= 0) return corners.map((_, index) => (index === at ? 1 : 0));
  const weights = corners.map(() => 0);
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const [p, q, r, s] = [arms[i]!, arms[j]!, lengths[i]!, lengths[j]!];
    const cross = p.x * q.y - p.y * q.x;
    const dot = p.x * q.x + p.y * q.y;
    // On the wall itself the two ends share the weight.
    if (Math.abs(cross) < 1e-9 * r * s && dot < 0)
      return corners.map((_, k) => (k === i ? s / (r + s) : k === j ? r / (r + s) : 0));
    const tangent = cross / (r * s + dot);
    weights[i] = weights[i]! + tangent / r;
    weights[j] = weights[j]! + tangent / s;
  }
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}
