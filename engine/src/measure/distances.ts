/**
 * How far a point fixed in the room's axes lies from a wall, and how sure that is: the wall moves with its two
 * corners, whose covariance is carried through the linear part of the distance. The point is where the plan
 * says it is, so it adds no doubt of its own. Source: law of propagation of variances (Ghilani, Adjustment
 * Computations, chapter 6).
 */
import type { Point } from "../plane/point.ts";
import { varianceOf } from "../solve/least-squares.ts";
import type { TrueRoom } from "./model.ts";

/** mm; `sd` is one standard deviation. */
export interface DoubtfulDistance {
  readonly distance: number;
  readonly sd: number;
}

/** Signed distance of a point from the line of a wall (by index), above 0 on the room's side. Throws for a wall that is not there. */
export function wallDistanceDoubt(room: TrueRoom, wallIndex: number, point: Point): DoubtfulDistance {
  const next = (wallIndex + 1) % room.corners.length;
  const [from, to] = [room.corners[wallIndex], room.corners[next]];
  if (!from || !to) throw new Error(`room ${room.room.id} has no wall ${wallIndex}`);
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length === 0)
    return { distance: Math.hypot(point.x - from.x, point.y - from.y), sd: Math.hypot(from.sdX, from.sdY) };
  const inward = room.room.turn === "clockwise" ? -1 : 1;
  const normal = { x: (-(to.y - from.y) / length) * inward, y: ((to.x - from.x) / length) * inward };
  const distance = (point.x - from.x) * normal.x + (point.y - from.y) * normal.y;
  const share = ((point.x - from.x) * (to.x - from.x) + (point.y - from.y) * (to.y - from.y)) / length ** 2;
  // Near the foot of the point the wall line moves with both corners by their shares; the turn of the normal is in them.
  const at = [2 * wallIndex, 2 * wallIndex + 1, 2 * next, 2 * next + 1];
  const slopes = [-(1 - share) * normal.x, -(1 - share) * normal.y, -share * normal.x, -share * normal.y];
  return { distance, sd: Math.sqrt(varianceOf(room.covariance, { at, slopes })) };
}

/** Standard deviations of a point that keeps its place along a wall (0 at its first corner, 1 at its second), by axis. */
export function pointDoubt(
  room: TrueRoom,
  wallIndex: number,
  share: number,
): { readonly sdX: number; readonly sdY: number } {
  const next = (wallIndex + 1) % room.corners.length;
  const by = (axis: 0 | 1): number =>
    Math.sqrt(
      varianceOf(room.covariance, {
        at: [2 * wallIndex + axis, 2 * next + axis],
        slopes: [1 - share, share],
      }),
    );
  return { sdX: by(0), sdY: by(1) };
}
