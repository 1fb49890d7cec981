/** How much of each wall is covered: what a fire officer asks first. */
import type { ShowDocument } from "../document/tables.ts";
import { facingWall } from "../measure/facing.ts";
import type { TrueRoom } from "../measure/model.ts";
import { cut, shared, united } from "../plane/clip.ts";
import { ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import type { CoverShare, WallWork } from "./model.ts";
import { boxOnWall, massesOn } from "./walls-face.ts";

/** One for each wall that has a covering, walls in the order their coverings are listed. */
export function coverShares(
  works: readonly WallWork[],
  rooms: readonly TrueRoom[],
  document: Pick<ShowDocument, "rooms">,
): readonly CoverShare[] {
  const walls = new Map<string, WallWork[]>();
  for (const work of works) {
    const key = `${work.room} ${work.wall}`;
    walls.set(key, [...(walls.get(key) ?? []), work]);
  }
  return [...walls.values()].flatMap((on) => {
    const room = rooms.find((one) => one.room.id === on[0]?.room);
    return room === undefined || document.rooms[room.room.id] === undefined ? [] : shareOf(on, room);
  });
}

function shareOf(works: readonly WallWork[], room: TrueRoom): readonly CoverShare[] {
  const [first] = works;
  const facing = first && facingWall(room, first.wall);
  if (!first || !facing) return [];
  const wall: readonly Point[] = [
    { x: 0, y: 0 },
    { x: facing.length, y: 0 },
    { x: facing.length, y: facing.rightHeight },
    { x: 0, y: facing.leftHeight },
  ];
  const openings = room.openings
    .filter((one) => one.wall === first.wall)
    .map(({ along, opening }) =>
      boxOnWall(facing, [along, along + opening.width], [opening.sill, opening.sill + opening.height]),
    );
  const wallArea = areaOf(cut([wall], openings));
  const hung = works.filter((work) => work.strips.length > 0);
  const outlines = shared(united(hung.map((work) => work.outline)), [wall]);
  // A mass stays bare, and is still wall to whoever looks at it.
  const bare = [...openings, ...massesOn(room, facing).map(({ outline }) => outline)];
  const covered = hung.length === 0 ? 0 : areaOf(cut(outlines, bare));
  return [
    {
      wall: first.wall,
      name: first.name,
      room: first.room,
      wallArea,
      covered,
      share: wallArea > 0 ? covered / wallArea : 0,
      pasted: works.every((work) => work.covering.fixing === "pasted"),
      flame: works.every((work) => work.stock.flame),
      because: works.flatMap((work) => [work.covering.id, work.stock.id]),
    },
  ];
}

/** Outer rings run counterclockwise and holes clockwise, so that the signed areas add up. */
function areaOf(rings: readonly (readonly Point[])[]): number {
  return rings.reduce((sum, ring) => sum + ringArea(ring), 0);
}
