/**
 * Where a corner may stand: crossings of circles (a distance from a placed corner) and rays (an inside angle at
 * one). Closed form, plane geometry; only `settledAmong` iterates.
 */
import type { Point } from "../plane/point.ts";

/** All places at one distance from a placed corner: mm. */
export interface Circle {
  readonly middle: Point;
  readonly radius: number;
}

/** All places in one direction (radians) from a placed corner, given by its index too. */
export interface Ray {
  readonly from: Point;
  readonly angle: number;
  readonly corner: number;
}

/** The point of a ray at a distance from its start. */
export function along({ from, angle }: Ray, distance: number): Point {
  return { x: from.x + distance * Math.cos(angle), y: from.y + distance * Math.sin(angle) };
}

/** Where a ray meets a circle, nearest first; where it misses, the point of the ray nearest to the middle. */
export function rayMeetsCircle(ray: Ray, { middle, radius }: Circle): readonly Point[] {
  const dx = middle.x - ray.from.x;
  const dy = middle.y - ray.from.y;
  const foot = dx * Math.cos(ray.angle) + dy * Math.sin(ray.angle);
  const half = Math.sqrt(Math.max(0, radius * radius - (dx * dx + dy * dy - foot * foot)));
  return [foot - half, foot + half]
    .filter((distance) => distance > 1)
    .map((distance) => along(ray, distance));
}

/** Where two rays meet: none where they run nearly alike or part. */
export function raysMeet(a: Ray, b: Ray): readonly Point[] {
  const turn = Math.sin(b.angle - a.angle);
  if (Math.abs(turn) < 0.05) return [];
  const distance =
    ((b.from.x - a.from.x) * Math.sin(b.angle) - (b.from.y - a.from.y) * Math.cos(b.angle)) / turn;
  return distance > 1 ? [along(a, distance)] : [];
}

/** Where pairs of circles meet: the best-conditioned pair and the next, so that one blunder does not rule. */
export function byCircles(circles: readonly Circle[]): readonly Point[] {
  const pairs: { a: Circle; b: Circle; skew: number }[] = [];
  circles.forEach((a, i) => {
    for (const b of circles.slice(i + 1)) pairs.push({ a, b, skew: skewOf(a, b) });
  });
  pairs.sort((p, q) => p.skew - q.skew);
  return pairs.slice(0, 2).flatMap(({ a, b }) => circlesMeet(a, b));
}

/**
 * The point nearest to all its circles (Gauss-Newton, from a crossing of two). Without this every corner would
 * inherit the error of the two that placed it, and a long chain of them would stray.
 */
export function settledAmong(circles: readonly Circle[], start: Point): Point {
  let { x, y } = start;
  for (let pass = 0; pass < 4; pass++) {
    let [xx, xy, yy, gx, gy] = [1e-6, 0, 1e-6, 0, 0];
    for (const { middle, radius } of circles) {
      const [dx, dy] = [x - middle.x, y - middle.y];
      const distance = Math.hypot(dx, dy) || 1;
      // A blunder pulls less the further it is out.
      const off = distance - radius;
      const weight = 1 / (1 + (off / 50) ** 2);
      const [ux, uy] = [dx / distance, dy / distance];
      xx += weight * ux * ux;
      xy += weight * ux * uy;
      yy += weight * uy * uy;
      gx += weight * ux * off;
      gy += weight * uy * off;
    }
    const determinant = xx * yy - xy * xy;
    x -= (yy * gx - xy * gy) / determinant;
    y -= (xx * gy - xy * gx) / determinant;
  }
  return Math.hypot(x - start.x, y - start.y) < 500 ? { x, y } : start;
}

/** Distance of two points. */
export function between(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** |cosine| of the angle at which two circles cross: 0 is best; above 1 they miss. */
function skewOf(a: Circle, b: Circle): number {
  const apartSquared = (a.middle.x - b.middle.x) ** 2 + (a.middle.y - b.middle.y) ** 2;
  return Math.abs(a.radius ** 2 + b.radius ** 2 - apartSquared) / (2 * a.radius * b.radius);
}

/** Both crossings; where circles miss, the one point between them that misses both least. */
function circlesMeet(a: Circle, b: Circle): readonly Point[] {
  const dx = b.middle.x - a.middle.x;
  const dy = b.middle.y - a.middle.y;
  const base = Math.hypot(dx, dy);
  if (base < 1) return [];
  const foot = (base + (a.radius ** 2 - b.radius ** 2) / base) / 2;
  const squared = a.radius ** 2 - foot ** 2;
  const at = (f: number, h: number): Point => ({
    x: a.middle.x + (f * dx - h * dy) / base,
    y: a.middle.y + (f * dy + h * dx) / base,
  });
  if (squared > 0) return [at(foot, Math.sqrt(squared)), at(foot, -Math.sqrt(squared))];
  const inner = base < Math.abs(a.radius - b.radius);
  const reach = inner ? Math.sign(a.radius - b.radius) * b.radius : -b.radius;
  const middle = (a.radius * (inner ? Math.sign(a.radius - b.radius) : 1) + base + reach) / 2;
  // Off the line by a little, so that the adjustment has a side to fall to.
  return [at(middle, base * 0.05), at(middle, -base * 0.05)];
}
