/** Openings and the venue's things put on the adjusted walls: offsets run along the wall from the corner they were taken from. */
import type { Fixture, Opening } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import type { TrueCorner, TrueFixture, TrueOpening, TrueWall } from "./model.ts";

/** Walls and corners of one room, in room order. */
export interface Walled {
  readonly corners: readonly TrueCorner[];
  readonly walls: readonly TrueWall[];
  /** 1 where the inside lies left of a wall walked in room order, -1 where it lies right. */
  readonly turn: 1 | -1;
}

/** The openings whose wall stands in the room, in the order given; one that runs past its wall is placed all the same. */
export function placeOpenings(walled: Walled, openings: readonly Opening[]): readonly TrueOpening[] {
  return openings.flatMap((opening) => {
    const found = wallOf(walled, opening);
    if (!found) return [];
    const along = alongWall(found.wall, opening, opening.width);
    const start = pointAt(walled, found.index, along, 0);
    const end = pointAt(walled, found.index, along + opening.width, 0);
    return [{ opening, wall: found.wall.id, start, end, along }];
  });
}

/** The fixtures whose wall stands in the room, in the order given. */
export function placeFixtures(walled: Walled, fixtures: readonly Fixture[]): readonly TrueFixture[] {
  return fixtures.flatMap((fixture) => {
    const found = wallOf(walled, fixture);
    if (!found) return [];
    const along = alongWall(found.wall, fixture, fixture.width);
    const footprint = footprintOf(walled, found.index, along, fixture);
    return [
      {
        fixture,
        wall: found.wall.id,
        footprint,
        along,
        low: fixture.up,
        high: topOf(walled, found.index, fixture),
      },
    ];
  });
}

/** The wall between two corners, named either way round. */
export function wallOf(
  { walls }: Pick<Walled, "walls">,
  ends: { readonly from: string; readonly to: string },
): { readonly wall: TrueWall; readonly index: number } | undefined {
  const index = walls.findIndex(
    ({ from, to }) => (from === ends.from && to === ends.to) || (from === ends.to && to === ends.from),
  );
  const wall = walls[index];
  return wall && { wall, index };
}

function alongWall(
  wall: TrueWall,
  { datum, offset }: { datum: string; offset: number },
  width: number,
): number {
  return datum === wall.to ? wall.length - offset - width : offset;
}

function pointAt({ corners, turn }: Walled, index: number, along: number, inward: number): Point {
  const from = corners[index]!;
  const to = corners[(index + 1) % corners.length]!;
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  return { x: from.x + ux * along - turn * uy * inward, y: from.y + uy * along + turn * ux * inward };
}

/** Counterclockwise or clockwise as the room; a line where it has no depth, a point where it has no width. */
function footprintOf(
  walled: Walled,
  index: number,
  along: number,
  { width, depth, out }: Fixture,
): readonly Point[] {
  const near = [pointAt(walled, index, along, out)];
  if (width === 0) return near;
  near.push(pointAt(walled, index, along + width, out));
  if (depth === 0) return near;
  return [
    ...near,
    pointAt(walled, index, along + width, out + depth),
    pointAt(walled, index, along, out + depth),
  ];
}

/** A projection or column nobody gave a height runs to the ceiling: to the higher end of its wall. */
function topOf({ corners }: Walled, index: number, { kind, up, height }: Fixture): number {
  if (height > 0 || (kind !== "projection" && kind !== "column")) return up + height;
  return Math.max(corners[index]!.height, corners[(index + 1) % corners.length]!.height);
}
