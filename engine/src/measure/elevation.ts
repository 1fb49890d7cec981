/**
 * One wall seen square-on from inside the room: floor, sloping ceiling, openings with casing, the venue's
 * things at their heights, trim, and the dimensions. x runs from the wall's left end as seen from inside
 * (in a room named clockwise its first corner), y is the height above the floor.
 */
import { boxOfPoints, shape, shownBy } from "../sheet/drafting.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { CLOSE_TO_WALL } from "../tolerances.ts";
import { elevationDimensions, elevationWords } from "./elevation-words.ts";
import { fixtureFace, glassStrokes, openingFace, trimLines } from "./face.ts";
import { corners, facingWall, type ElevationWish, type Scene } from "./facing.ts";
import { onPaper } from "./frame.ts";
import type { Drawn } from "./sheet.ts";

/** Paper an elevation needs round the wall itself for its dimensions and its title, mm. */
export const ELEVATION_SURROUND = { left: 10, right: 10, top: 3, bottom: 15.5 } as const;

/** The elevation with all its lettering. Empty where the frame names no wall of the room. */
export function wallElevation(wish: ElevationWish): Drawn {
  const facing = facingWall(wish.room, wish.frame.wall ?? "");
  if (!facing) return { items: [], known: [] };
  const scene: Scene = { wish, facing, at: (x, y) => onPaper(wish.frame, { x, y }) };
  const wall = facing.line.wall.id;
  const openings = wish.room.openings.filter((opening) => opening.wall === wall);
  const fixtures = wish.room.fixtures.filter(
    ({ wall: on, fixture }) => on === wall && fixture.out < CLOSE_TO_WALL,
  );
  const dimensions = elevationDimensions(scene, openings);
  const drawn = openings.map((opening) => openingFace(scene, opening));
  return {
    items: [
      ...trimLines(scene),
      ...drawn.flatMap((one) => one.items),
      ...fixtures.flatMap((fixture) => fixtureFace(scene, fixture)),
      ...standingBefore(scene),
      ...wallFace(scene),
      ...dimensions.items,
      ...elevationWords(scene, openings, fixtures),
    ],
    known: [...dimensions.known, ...drawn.flatMap((one) => one.known)],
  };
}

/** The wall's edge; a side of glass bears two strokes in its corner, as a window does. */
function wallFace({ facing, at }: Scene): readonly Item[] {
  const { length, leftHeight, rightHeight, line: wallLine } = facing;
  const { id, open, glass } = wallLine.wall;
  const points = [at(0, 0), at(0, leftHeight), at(length, rightHeight), at(length, 0)];
  const edge = shape(points, open ? "fold" : glass ? "outline" : "wall", shownBy(id));
  return glass ? [edge, ...glassStrokes(at(0, Math.min(leftHeight, rightHeight)), id)] : [edge];
}

function standingBefore(scene: Scene): readonly Item[] {
  return (scene.wish.before ?? []).map((seen) => {
    const points = corners(scene, seen);
    const box = boxOfPoints(points);
    const small = (box.right - box.left) * (box.bottom - box.top) < SMALL_FACE;
    scene.wish.field.keepClear(box, small ? OVER_SMALL : OVER_LARGE);
    return shape(points, "dimension", { ...shownBy(seen.record, "seen"), ink: "graphite-soft" });
  });
}

/** A name would cover all of a face smaller than this, mm² on paper; it had better not. */
const SMALL_FACE = 60;
const OVER_SMALL = 2;
const OVER_LARGE = 0.02;
