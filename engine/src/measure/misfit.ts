/**
 * How badly a corner newly placed in a first shape misfits what is known of it: its distances, the angles about
 * it, triangles that turn against the room, walls that cross. Only good for comparing shapes of one room.
 */
import type { Point } from "../plane/point.ts";
import { between } from "./meeting.ts";
import type { Network } from "./network.ts";
import { cross, segmentsMeet } from "./outline.ts";

/** One tie can spoil a shape only so much, so that a blunder does not choose it. */
const MISFIT_CAP = 400;
/** A measured triangle the wrong way round, or two walls that cross. */
const WRONG_WAY = 60;
const CROSSING = 200;

/** A room's readings, laid out for growing shapes. */
export interface Known {
  readonly network: Network;
  /** Mean measured distance to each other corner. */
  readonly reach: readonly ReadonlyMap<number, number>[];
  /** Mean measured inside angle, degrees. */
  readonly angles: readonly (number | undefined)[];
  readonly usual: number;
}

/** What the corner adds to the misfit of a shape whose unplaced corners are undefined. */
export function addedMisfit(known: Known, points: readonly (Point | undefined)[], corner: number): number {
  return (
    distanceMisfit(known, points, corner) +
    angleMisfit(known, points, corner) +
    wrongWays(known, points, corner) +
    wallCrossings(points, corner)
  );
}

function distanceMisfit({ reach }: Known, points: readonly (Point | undefined)[], corner: number): number {
  let sum = 0;
  for (const [other, value] of reach[corner]!) {
    const there = points[other];
    // First shapes stray further than a tape does: 20 mm and 0.5 %.
    if (there)
      sum += Math.min(((between(points[corner]!, there) - value) / (20 + value * 0.005)) ** 2, MISFIT_CAP);
  }
  return sum;
}

function angleMisfit(
  { network: { size, turn }, angles }: Known,
  points: readonly (Point | undefined)[],
  corner: number,
): number {
  let sum = 0;
  for (const at of [corner, (corner + 1) % size, (corner + size - 1) % size]) {
    const [here, next, previous] = [points[at], points[(at + 1) % size], points[(at + size - 1) % size]];
    const angle = angles[at];
    if (angle === undefined || !here || !next || !previous) continue;
    const read =
      (turn *
        (Math.atan2(previous.y - here.y, previous.x - here.x) -
          Math.atan2(next.y - here.y, next.x - here.x)) *
        180) /
      Math.PI;
    const off = read - angle - 360 * Math.round((read - angle) / 360);
    sum += Math.min((off / 4) ** 2, MISFIT_CAP);
  }
  return sum;
}

/** Measured triangles that turn against the room; flat ones hardly count. */
function wrongWays(
  { network: { turn }, reach }: Known,
  points: readonly (Point | undefined)[],
  corner: number,
): number {
  let sum = 0;
  const near = [...reach[corner]!.keys()].filter((other) => points[other] !== undefined);
  near.forEach((a, i) => {
    for (const b of near.slice(i + 1)) {
      if (!reach[a]!.has(b)) continue;
      const [p, q, r] = [a, b, corner].toSorted((m, n) => m - n).map((k) => points[k]!) as [
        Point,
        Point,
        Point,
      ];
      const double = turn * cross(p, q, r);
      if (double < 0) sum += WRONG_WAY * Math.min(1, -double / 100_000);
    }
  });
  // However many triangles a corner is part of, what its other ties say weighs more.
  return Math.min(sum, 2 * WRONG_WAY);
}

function wallCrossings(points: readonly (Point | undefined)[], corner: number): number {
  const size = points.length;
  let count = 0;
  for (const mine of [corner, (corner + size - 1) % size]) {
    const [a, b] = [points[mine], points[(mine + 1) % size]];
    if (!a || !b) continue;
    for (let wall = 0; wall < size; wall++) {
      const steps = (wall - mine + size) % size;
      if (steps < 2 || steps > size - 2) continue;
      const [c, d] = [points[wall], points[(wall + 1) % size]];
      if (c && d && segmentsMeet(a, b, c, d)) count++;
    }
  }
  return count * CROSSING;
}
