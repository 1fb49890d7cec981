/** Plain facts about outlines: rings of points, closed without repeating the first, mm. */
import type { Point } from "./point.ts";

/** An upright box round something, mm. */
export interface Bounds {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** Signed area, mm²: above 0 where the ring runs counterclockwise with y up. */
export function ringArea(ring: readonly Point[]): number {
  let twice = 0;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    twice += ring[j]!.x * ring[i]!.y - ring[i]!.x * ring[j]!.y;
  }
  return twice / 2;
}

/** The ring counterclockwise: itself, or its reverse. */
export function counterclockwise(ring: readonly Point[]): readonly Point[] {
  return ringArea(ring) < 0 ? ring.toReversed() : ring;
}

/** Whether a point lies inside a ring (even-odd); on the ring either may be answered. */
export function inRing(ring: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const p = ring[i]!;
    const q = ring[j]!;
    if (p.y > y !== q.y > y && x < p.x + ((y - p.y) * (q.x - p.x)) / (q.y - p.y)) inside = !inside;
  }
  return inside;
}

/** Mean of the points: inside where they are the corners of something convex. Throws for none. */
export function middleOf(points: readonly Point[]): Point {
  if (points.length === 0) throw new Error("no points have no middle");
  let x = 0;
  let y = 0;
  for (const point of points) {
    x += point.x;
    y += point.y;
  }
  return { x: x / points.length, y: y / points.length };
}

/** Bounds of points grown by a margin; of no points, an empty box turned inside out. */
export function boundsOf(points: readonly Point[], margin = 0): Bounds {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { x, y } of points) {
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < bottom) bottom = y;
    if (y > top) top = y;
  }
  return { left: left - margin, right: right + margin, bottom: bottom - margin, top: top + margin };
}

/** Where something stands: its origin moved to (x, y) and turned counterclockwise, degrees. */
export interface Stand {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** Points of a thing's own frame where the thing stands. Quarter turns are exact. */
export function placed(points: readonly Point[], { x, y, turn }: Stand): readonly Point[] {
  const { x: cos, y: sin } = direction(turn);
  return points.map((p) => ({ x: x + p.x * cos - p.y * sin, y: y + p.x * sin + p.y * cos }));
}

/** Unit vector at an angle counterclockwise from +x, degrees. Exact at quarter turns, where floating sines are not. */
export function direction(degrees: number): Point {
  const turn = ((degrees % 360) + 360) % 360;
  if (turn % 90 === 0) return QUARTERS[turn / 90]!;
  const radians = (turn * Math.PI) / 180;
  return { x: Math.cos(radians), y: Math.sin(radians) };
}

const QUARTERS: readonly Point[] = [
  { x: 1, y: 0 },
  { x: 0, y: 1 },
  { x: -1, y: 0 },
  { x: 0, y: -1 },
];

/** A rectangle about the origin, counterclockwise from its lower left corner. */
export function rectangle(width: number, depth: number): readonly Point[] {
  const [x, y] = [width / 2, depth / 2];
  return [
    { x: -x, y: -y },
    { x, y: -y },
    { x, y },
    { x: -x, y },
  ];
}

/**
 * A circle about a point as a regular polygon of the same area, counterclockwise, its chords nowhere further
 * than `error` from the true circle (mm).
 */
export function circle(middle: Point, radius: number, error: number): readonly Point[] {
  // A chord of the inscribed polygon is off by r(1 - cos(π/n)); the polygon of equal area by about two thirds of it.
  const bend = Math.acos(Math.max(0, 1 - Math.min(error / radius, 1)));
  const count = Math.max(12, Math.ceil(Math.PI / Math.max(bend, 0.01)));
  const reach = radius * Math.sqrt((2 * Math.PI) / (count * Math.sin((2 * Math.PI) / count)));
  return Array.from({ length: count }, (_, index) => {
    const angle = (2 * Math.PI * index) / count;
    return { x: middle.x + reach * Math.cos(angle), y: middle.y + reach * Math.sin(angle) };
  });
}
