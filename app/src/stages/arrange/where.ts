/** Where copies are: in room axes as the finger sees it, and as their records say it. */
import {
  type Arrangement,
  type Point,
  type ShowDocument,
  type Standing,
  toHost,
  type TrueRoom,
} from "@cornerwise/engine";
import type { Stand } from "./commands.ts";

/** A copy's place in room axes: as its record says now, or for one on another copy as it was derived. */
export function standNow(document: ShowDocument, standing: Standing): Stand {
  if (standing.on !== undefined) return standing.stand;
  return document.placements[standing.placement.id] ?? standing.stand;
}

/** A place in room axes as the copy's record says it: in the frame of what it stands on. */
export function asSaid(arrangement: Arrangement, id: string, to: Stand): Stand {
  const standing = arrangement.standing.find((one) => one.placement.id === id);
  const host = arrangement.standing.find((one) => one.placement.id === standing?.on);
  return host ? { ...to, ...toHost(to, host) } : to;
}

/** The wall nearest to a point of the room that can take a fitting, and how far along it that is from its first corner. */
export function nearestWall(
  room: TrueRoom,
  point: Point,
): { readonly from: string; readonly to: string; readonly offset: number } | undefined {
  const corners = new Map(room.corners.map((corner) => [corner.id, corner]));
  let best:
    | { readonly from: string; readonly to: string; readonly offset: number; readonly away: number }
    | undefined;
  for (const wall of room.walls) {
    const [from, to] = [corners.get(wall.from), corners.get(wall.to)];
    if (!from || !to || wall.open || wall.glass || wall.refused || wall.length === 0) continue;
    const along = { x: (to.x - from.x) / wall.length, y: (to.y - from.y) / wall.length };
    const at = (point.x - from.x) * along.x + (point.y - from.y) * along.y;
    const offset = Math.max(0, Math.min(wall.length, at));
    const away = Math.hypot(point.x - from.x - along.x * offset, point.y - from.y - along.y * offset);
    if (!best || away < best.away) best = { from: wall.from, to: wall.to, offset, away };
  }
  return best;
}
