/**
 * Where a visitor may stand to be at a work. Nobody has to reach its middle: someone as wide as a standing person
 * needs, who touches its edge, is there. So places are tried all round it at half that width from its edge, near
 * enough together that none with the room of a way is missed; those with something else in them fall away; and of
 * every stretch of neighbouring places the roomiest speaks for all. Whoever can stand there has room to turn to
 * either side, so the way up to it is judged by the gaps alone.
 *
 *        ○ ○ ○ ○
 *      ○ ┌─────┐ ○        ○ places    ✕ not free: the table is nearer than half a width
 *      ✕ │ work│ ○
 *      ✕ └─────┘ ○
 *    ▒▒table▒▒
 */
import type { Point } from "../plane/point.ts";
import { distanceTo, type Rounded } from "../plane/rounded.ts";
import { PLACES_APART, TOUCH } from "../tolerances.ts";
import type { Obstacle } from "./obstacles.ts";

/** A place to stand, and in which stretch round which part of the work it lies: neighbours differ by one. */
interface Place {
  readonly at: Point;
  readonly part: number;
}

/** All places round convex parts reached together, in order round each. `half` is half a standing width, mm. */
export function placesRound(parts: readonly Obstacle[], half: number): readonly Place[] {
  return parts.flatMap(({ shape }, part) =>
    ringAround(shape, half)
      .filter((at) => parts.every((other, index) => index === part || isClear(other.shape, at, half)))
      .map((at) => ({ at, part })),
  );
}

function isClear(shape: Rounded, at: Point, half: number): boolean {
  return distanceTo(shape, at) >= half - TOUCH;
}

/** The roomiest place of every stretch of places that nothing else stands in, in order. */
export function freePlaces(
  places: readonly Place[],
  others: readonly Obstacle[],
  half: number,
): readonly Point[] {
  if (others.length === 0) return places.slice(0, 1).map(({ at }) => at);
  const room = places.map(({ at }) =>
    others.reduce((least, { shape }) => Math.min(least, distanceTo(shape, at)), Infinity),
  );
  const found: number[] = [];
  let best: number | undefined;
  places.forEach(({ at, part }, index) => {
    const before = places[index - 1];
    const goesOn = before?.part === part && apart(before.at, at) <= 1.5 * PLACES_APART;
    if (best !== undefined && (room[index]! < half || !goesOn)) {
      found.push(best);
      best = undefined;
    }
    if (room[index]! >= half && (best === undefined || room[index]! > room[best]!)) best = index;
  });
  if (best !== undefined) found.push(best);
  return found.toSorted((p, q) => room[q]! - room[p]! || p - q).map((index) => places[index]!.at);
}

function apart(p: Point, q: Point): number {
  return Math.hypot(p.x - q.x, p.y - q.y);
}

/** Points round a convex shape at a distance from its edge, no further apart than `PLACES_APART`. */
function ringAround({ core, radius }: Rounded, distance: number): readonly Point[] {
  const out = radius + distance;
  const points: Point[] = [];
  core.forEach((corner, index) => {
    const next = core[(index + 1) % core.length]!;
    const before = core[(index + core.length - 1) % core.length]!;
    const [from, to] = [headingOut(before, corner), headingOut(corner, next)];
    const bend = core.length === 1 ? 2 * Math.PI : (to - from + 4 * Math.PI) % (2 * Math.PI);
    const turns = Math.max(1, Math.ceil((bend * out) / PLACES_APART));
    for (let turn = 0; turn < turns; turn++) points.push(beyond(corner, from + (bend * turn) / turns, out));
    if (core.length === 1) return;
    const steps = Math.max(1, Math.ceil(apart(corner, next) / PLACES_APART));
    for (let step = 0; step < steps; step++) {
      const share = step / steps;
      const foot = {
        x: corner.x + share * (next.x - corner.x),
        y: corner.y + share * (next.y - corner.y),
      };
      points.push(beyond(foot, to, out));
    }
  });
  return points;
}

/** Angle square to an edge, out of a ring that runs counterclockwise. */
function headingOut(from: Point, to: Point): number {
  return Math.atan2(from.x - to.x, to.y - from.y);
}

function beyond({ x, y }: Point, heading: number, by: number): Point {
  return { x: x + by * Math.cos(heading), y: y + by * Math.sin(heading) };
}
