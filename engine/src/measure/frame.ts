/** From room axes (mm, y up) to paper (mm, y down), and what the plan and the elevations need to know of a wall. */
import { moved } from "../sheet/drafting.ts";
import type { Frame } from "../sheet/vocabulary.ts";
import type { Point } from "../plane/point.ts";
import type { TrueCorner, TrueRoom, TrueWall } from "./model.ts";

/** A point of the room (plan), or of a wall's face (elevation), on paper. */
export function onPaper(frame: Frame, point: Point): Point {
  return moved(frame.origin, point.x / frame.scale, -point.y / frame.scale);
}

/** A wall with its ends and directions in room axes. */
export interface WallLine {
  readonly wall: TrueWall;
  readonly from: TrueCorner;
  readonly to: TrueCorner;
  /** Unit vector from first to second corner. */
  readonly along: Point;
  /** Unit vector square to the wall, out of the room. */
  readonly out: Point;
}

/** The room's walls as lines, in room order; none where the room has no shape yet. Worked out once for each room value. */
export function wallLines(room: TrueRoom): readonly WallLine[] {
  const lines = linesOf.get(room) ?? drawLines(room);
  linesOf.set(room, lines);
  return lines;
}

const linesOf = new WeakMap<TrueRoom, readonly WallLine[]>();

function drawLines(room: TrueRoom): readonly WallLine[] {
  const corners = new Map(room.corners.map((corner) => [corner.id, corner]));
  const sign = clockwise(room) ? 1 : -1;
  return room.walls.flatMap((wall) => {
    const from = corners.get(wall.from);
    const to = corners.get(wall.to);
    if (!from || !to) return [];
    const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
    const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
    return [{ wall, from, to, along, out: { x: -along.y * sign, y: along.x * sign } }];
  });
}

/** Whether the corners run clockwise seen from above (y up). */
export function clockwise(room: TrueRoom): boolean {
  const { corners } = room;
  let doubled = 0;
  corners.forEach((a, index) => {
    const b = corners[(index + 1) % corners.length];
    if (b) doubled += a.x * b.y - b.x * a.y;
  });
  return doubled === 0 ? room.room.turn === "clockwise" : doubled < 0;
}

/** The point of a wall line at a distance along it and out of the room (mm, room axes). */
export function alongWall(line: WallLine, along: number, out = 0): Point {
  return {
    x: line.from.x + line.along.x * along + line.out.x * out,
    y: line.from.y + line.along.y * along + line.out.y * out,
  };
}
