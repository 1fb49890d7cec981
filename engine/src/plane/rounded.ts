/**
 * Rounded convex shapes and the clear distance between them. A shape is a convex core (a point, a segment or a
 * polygon) grown by a radius: a box is a polygon of radius 0, a cylinder a point with its true radius, a wall a
 * segment. The distance of two shapes is the distance of their cores less both radii, so round things are exact
 * and never a polygon. Cores here have few corners, so every pair of edges is looked at; source: the distance of
 * two segments in C. Ericson, Real-Time Collision Detection, 5.1.9.
 *
 *        core ●────── gap ──────● core          width = |core to core| − radius − radius
 */
import { boundsOf, middleOf, type Bounds } from "./outline.ts";
import type { Point } from "./point.ts";

export interface Rounded {
  /** One point, two, or the corners of a convex polygon counterclockwise. */
  readonly core: readonly Point[];
  readonly radius: number;
  /** A point inside it. */
  readonly middle: Point;
  readonly bounds: Bounds;
}

/** The two nearest points and their distance; 0 where the shapes meet, and then both points lie in both. */
export interface Nearest {
  readonly width: number;
  readonly a: Point;
  readonly b: Point;
}

/** A rounded shape. Throws for no points. */
export function rounded(core: readonly Point[], radius = 0): Rounded {
  return { core, radius, middle: middleOf(core), bounds: boundsOf(core, radius) };
}

/** No more than the true distance of two boxes' contents, and cheap: the distance of the boxes. */
export function boundsGap(a: Bounds, b: Bounds): number {
  const x = Math.max(0, a.left - b.right, b.left - a.right);
  const y = Math.max(0, a.bottom - b.top, b.bottom - a.top);
  return x === 0 ? y : y === 0 ? x : Math.hypot(x, y);
}

/** The nearest points of two shapes. */
export function nearest(a: Rounded, b: Rounded): Nearest {
  const cores = nearestCores(a.core, b.core);
  if (cores.width === 0) return cores;
  if (a.radius === 0 && b.radius === 0) return cores;
  const width = cores.width - a.radius - b.radius;
  const along = { x: (cores.b.x - cores.a.x) / cores.width, y: (cores.b.y - cores.a.y) / cores.width };
  if (width > 0) return { width, a: onward(cores.a, along, a.radius), b: onward(cores.b, along, -b.radius) };
  // They overlap: on the line between the cores, the middle of the overlap lies in both.
  const place = (a.radius + cores.width - b.radius) / 2;
  const within = onward(cores.a, along, Math.min(Math.max(0, place), cores.width));
  return { width: 0, a: within, b: within };
}

/** How deep two shapes stand in each other, mm: the shortest slide that parts them; below 0 they are apart. */
export function overlapDepth(a: Rounded, b: Rounded): { readonly depth: number; readonly away: Point } {
  const apart = nearest(a, b);
  if (apart.width > 0) return { depth: -apart.width, away: { x: 0, y: 0 } };
  let best = { depth: Infinity, away: { x: 0, y: 0 } };
  for (const axis of axes(a, b)) {
    const [lowA, highA] = reach(a, axis);
    const [lowB, highB] = reach(b, axis);
    // Sliding `a` either way along the axis until the shadows part.
    const back = highA - lowB;
    const forth = highB - lowA;
    if (back < best.depth) best = { depth: back, away: { x: -axis.x, y: -axis.y } };
    if (forth < best.depth) best = { depth: forth, away: axis };
  }
  return best;
}

/** Lowest and highest place of a shape along a unit vector. */
export function reach({ core, radius }: Rounded, axis: Point): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const point of core) {
    const place = point.x * axis.x + point.y * axis.y;
    if (place < low) low = place;
    if (place > high) high = place;
  }
  return [low - radius, high + radius];
}

/** Whether a point lies in a shape or on its edge. */
export function covers(shape: Rounded, point: Point): boolean {
  if (shape.core.length > 2 && inConvex(shape.core, point)) return true;
  return nearestCores([point], shape.core).width <= shape.radius;
}

/** Distance from a point to a shape, mm; 0 in it or on its edge. */
export function distanceTo({ core, radius }: Rounded, point: Point): number {
  if (core.length > 2 && inConvex(core, point)) return 0;
  let least = Infinity;
  for (let i = 0; i < core.length; i++) {
    const p = core[i]!;
    const q = core[(i + 1) % core.length]!;
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const [x, y] = [point.x - p.x, point.y - p.y];
    const squared = dx * dx + dy * dy;
    const share = squared === 0 ? 0 : Math.min(1, Math.max(0, (x * dx + y * dy) / squared));
    least = Math.min(least, (x - share * dx) ** 2 + (y - share * dy) ** 2);
  }
  return Math.max(0, Math.sqrt(least) - radius);
}

function onward(point: Point, along: Point, by: number): Point {
  return { x: point.x + along.x * by, y: point.y + along.y * by };
}

/** Directions that can part two shapes: square to their edges, and for round ends from corner to corner. */
function axes(a: Rounded, b: Rounded): readonly Point[] {
  const found: Point[] = [...edgeNormals(a.core), ...edgeNormals(b.core)];
  if (a.radius > 0 || b.radius > 0) {
    for (const p of a.core) for (const q of b.core) pushUnit(found, q.x - p.x, q.y - p.y);
  }
  if (found.length === 0) found.push({ x: 1, y: 0 });
  return found;
}

function edgeNormals(core: readonly Point[]): readonly Point[] {
  const found: Point[] = [];
  if (core.length < 2) return found;
  core.forEach((p, index) => {
    const q = core[(index + 1) % core.length]!;
    pushUnit(found, q.y - p.y, p.x - q.x);
  });
  return found;
}

function pushUnit(list: Point[], x: number, y: number): void {
  const length = Math.hypot(x, y);
  if (length > 0) list.push({ x: x / length, y: y / length });
}

function nearestCores(a: readonly Point[], b: readonly Point[]): Nearest {
  let best: Nearest = { width: Infinity, a: a[0]!, b: b[0]! };
  const edgesA = a.length < 3 ? 1 : a.length;
  const edgesB = b.length < 3 ? 1 : b.length;
  for (let i = 0; i < edgesA; i++) {
    for (let j = 0; j < edgesB; j++) {
      const found = nearestOfSegments(a[i]!, a[(i + 1) % a.length]!, b[j]!, b[(j + 1) % b.length]!);
      if (found.width < best.width) best = found;
      if (best.width === 0) return best;
    }
  }
  // No edges cross, so one may still lie whole inside the other.
  if (a.length > 2 && inConvex(a, b[0]!)) return { width: 0, a: b[0]!, b: b[0]! };
  if (b.length > 2 && inConvex(b, a[0]!)) return { width: 0, a: a[0]!, b: a[0]! };
  return best;
}

function inConvex(ring: readonly Point[], point: Point): boolean {
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i]!;
    const q = ring[(i + 1) % ring.length]!;
    if ((q.x - p.x) * (point.y - p.y) - (q.y - p.y) * (point.x - p.x) < 0) return false;
  }
  return true;
}

function nearestOfSegments(p: Point, p2: Point, q: Point, q2: Point): Nearest {
  const [ux, uy, vx, vy] = [p2.x - p.x, p2.y - p.y, q2.x - q.x, q2.y - q.y];
  const cross = ux * vy - uy * vx;
  if (cross !== 0) {
    const s = ((q.x - p.x) * vy - (q.y - p.y) * vx) / cross;
    const t = ((q.x - p.x) * uy - (q.y - p.y) * ux) / cross;
    if (s >= 0 && s <= 1 && t >= 0 && t <= 1) {
      const shared = { x: p.x + s * ux, y: p.y + s * uy };
      return { width: 0, a: shared, b: shared };
    }
  }
  // Segments that do not cross are nearest at an end of one of them.
  let best: Nearest | undefined;
  for (const end of [p, p2]) {
    const foot = footOn(end, q, vx, vy);
    const width = Math.hypot(foot.x - end.x, foot.y - end.y);
    if (!best || width < best.width) best = { width, a: end, b: foot };
  }
  for (const end of [q, q2]) {
    const foot = footOn(end, p, ux, uy);
    const width = Math.hypot(foot.x - end.x, foot.y - end.y);
    if (width < best!.width) best = { width, a: foot, b: end };
  }
  return best!;
}

function footOn(point: Point, from: Point, dx: number, dy: number): Point {
  const squared = dx * dx + dy * dy;
  if (squared === 0) return from;
  const share = ((point.x - from.x) * dx + (point.y - from.y) * dy) / squared;
  if (share <= 0) return from;
  if (share >= 1) return { x: from.x + dx, y: from.y + dy };
  return { x: from.x + share * dx, y: from.y + share * dy };
}
