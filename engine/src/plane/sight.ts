/**
 * How much of an upright thing is seen from an eye. The lowest line that must be seen and the eye span one
 * tilted plane of sight; a block hides where it cuts that plane between eye and thing. Over the plan the plane's
 * height is a linear function, so the hiding part of a convex block is the block cut by straight lines, and what
 * it hides is one interval of angles. Exact, no rays are cast.
 *
 *      eye ●╌╌╌╌╌╌╌╌╌╌╌
 *          │      ┌─┐  ╌╌╌╌╌╌╌┐ what must be seen
 *          │      │ │ block   │
 */
import type { Point } from "./point.ts";

export interface Eye extends Point {
  readonly height: number;
}

/** What must be seen: a convex outline, from this height up. */
export interface Target {
  readonly outline: readonly Point[];
  readonly low: number;
}

/** What may hide it: a convex outline from `low` to `high`. */
export interface Blind {
  readonly outline: readonly Point[];
  readonly low: number;
  readonly high: number;
}

/** What is seen of a target, 0 to 1 of its angular width, and the indices of the blinds that hide some of it. */
export interface Sight {
  readonly seen: number;
  readonly hiddenBy: readonly number[];
}

type Span = readonly [number, number];

/** The sight of a target past blinds. From inside the target all of it is seen. */
export function sightOf(eye: Eye, target: Target, blinds: readonly Blind[]): Sight {
  const facing = bearing(eye, target.outline);
  if (!facing) return { seen: 1, hiddenBy: [] };
  const whole = facing.to - facing.from;
  const hidden: Span[] = [];
  const hiddenBy: number[] = [];
  blinds.forEach((blind, index) => {
    const span = hiddenSpan(eye, { ...facing, low: target.low }, blind);
    if (!span || span[1] - span[0] <= HAIR) return;
    hidden.push(span);
    hiddenBy.push(index);
  });
  return { seen: Math.max(0, 1 - lengthOf(hidden) / whole), hiddenBy };
}

/** Angles smaller than this are a line of sight that grazes an edge. Radians. */
const HAIR = 1e-9;

interface Facing {
  /** The target's extreme corners as the eye sees them, right and left, and the way to its middle. */
  readonly right: Point;
  readonly left: Point;
  readonly ahead: Point;
  /** Angles from `ahead`. */
  readonly from: number;
  readonly to: number;
}

function bearing(eye: Point, outline: readonly Point[]): Facing | undefined {
  const ahead = { x: 0, y: 0 };
  for (const point of outline) {
    ahead.x += (point.x - eye.x) / outline.length;
    ahead.y += (point.y - eye.y) / outline.length;
  }
  let [right, left] = [outline[0]!, outline[0]!];
  let [from, to] = [Infinity, -Infinity];
  for (const point of outline) {
    const angle = angleFrom(eye, ahead, point);
    if (angle < from) [from, right] = [angle, point];
    if (angle > to) [to, left] = [angle, point];
  }
  return to - from < Math.PI && to - from > HAIR ? { right, left, ahead, from, to } : undefined;
}

function angleFrom(eye: Point, ahead: Point, point: Point): number {
  const [x, y] = [point.x - eye.x, point.y - eye.y];
  return Math.atan2(ahead.x * y - ahead.y * x, ahead.x * x + ahead.y * y);
}

function hiddenSpan(eye: Eye, facing: Facing & { readonly low: number }, blind: Blind): Span | undefined {
  const way = wayTo(eye, facing);
  if (!way) return undefined;
  const sight = (point: Point): number => eye.height + (facing.low - eye.height) * way(point);
  const cuts: readonly ((point: Point) => number)[] = [
    (point) => way(point),
    (point) => 1 - way(point),
    (point) => blind.high - sight(point),
    (point) => sight(point) - blind.low,
  ];
  const part = cuts.reduce<readonly Point[]>(keptWhere, blind.outline);
  if (part.length === 0) return undefined;
  const angles = part
    .filter((point) => point.x !== eye.x || point.y !== eye.y)
    .map((point) => angleFrom(eye, facing.ahead, point));
  // A blind that holds the eye itself hides everything.
  if (angles.length < part.length || Math.max(...angles) - Math.min(...angles) > Math.PI)
    return [facing.from, facing.to];
  const span: Span = [Math.max(facing.from, Math.min(...angles)), Math.min(facing.to, Math.max(...angles))];
  return span[0] < span[1] ? span : undefined;
}

/** Share of the way from the eye to the target's chord: linear over the plan, 0 at the eye, 1 on the chord. */
function wayTo(eye: Point, { right, left }: Facing): ((point: Point) => number) | undefined {
  const normal = { x: left.y - right.y, y: right.x - left.x };
  const whole = (right.x - eye.x) * normal.x + (right.y - eye.y) * normal.y;
  if (whole === 0) return undefined;
  return (point) => ((point.x - eye.x) * normal.x + (point.y - eye.y) * normal.y) / whole;
}

/** A convex ring cut to where a linear function is not below 0. Source: Sutherland and Hodgman (1974). */
function keptWhere(ring: readonly Point[], by: (point: Point) => number): readonly Point[] {
  const kept: Point[] = [];
  ring.forEach((point, index) => {
    const next = ring[(index + 1) % ring.length]!;
    const [here, there] = [by(point), by(next)];
    if (here >= 0) kept.push(point);
    if (here * there < 0) {
      const share = here / (here - there);
      kept.push({ x: point.x + share * (next.x - point.x), y: point.y + share * (next.y - point.y) });
    }
  });
  return kept;
}

/** Length of a union of intervals. */
function lengthOf(spans: readonly Span[]): number {
  let total = 0;
  let reached = -Infinity;
  for (const [from, to] of spans.toSorted((a, b) => a[0] - b[0])) {
    total += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return total;
}
