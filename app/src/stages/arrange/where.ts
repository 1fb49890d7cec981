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

/** What stands under a point of the room, the smallest of them: what a thing let go there would stand on. */
export function hostAt({ standing }: Arrangement, point: Point): Standing | undefined {
  const under = standing.filter(
    (one) => one.piece.layer !== "hung" && one.outline.some((ring) => isWithin(ring, point)),
  );
  return under.toSorted((a, b) => size(a) - size(b))[0];
}

/** What a copy could stand on: everything that stands, but not itself nor what stands on it. */
export function hostsFor({ standing }: Arrangement, id: string): readonly Standing[] {
  const carried = new Set([id]);
  // Each pass takes in one more storey; what stands on what has no circle.
  for (let before = 0; before !== carried.size;) {
    before = carried.size;
    for (const one of standing)
      if (one.on !== undefined && carried.has(one.on)) carried.add(one.placement.id);
  }
  return standing.filter((one) => !carried.has(one.placement.id) && one.piece.layer !== "hung");
}

function size(one: Standing): number {
  return Math.abs(one.outline.reduce((sum, ring) => sum + areaOf(ring), 0));
}

function isWithin(ring: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  for (const [index, a] of ring.entries()) {
    const b = ring[(index + 1) % ring.length] ?? a;
    if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

function areaOf(ring: readonly Point[]): number {
  return ring.reduce((sum, a, index) => {
    const b = ring[(index + 1) % ring.length] ?? a;
    return sum + (a.x * b.y - b.x * a.y) / 2;
  }, 0);
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
