/** The face of a wall as a covering finds it: how high it reaches, what opens in it, and what of the venue's stands against it. */
import type { Stock, WallCovering } from "../document/tables.ts";
import type { FacingWall } from "../measure/facing.ts";
import type { TrueFixture, TrueRoom } from "../measure/model.ts";
import { spans } from "../measure/spans.ts";
import type { Point } from "../plane/point.ts";
import { TAPE_GAP, TOUCH } from "../tolerances.ts";

/** A covering, the roll it comes from and the wall it hangs on. */
export interface Hanging {
  readonly room: TrueRoom;
  readonly covering: WallCovering;
  readonly stock: Stock;
  readonly facing: FacingWall;
}

/** Top of the covering over a place on the wall: the ceiling, or as high as was said. */
export function topAt({ covering, facing }: Hanging, x: number): number {
  const part = facing.length > 0 ? Math.min(1, Math.max(0, x / facing.length)) : 0;
  const ceiling = facing.leftHeight + (facing.rightHeight - facing.leftHeight) * part;
  return Math.max(covering.low, Math.min(covering.high ?? Infinity, ceiling));
}

/** What is covered before openings: the foot from left to right, then the top back again, with a bend where it meets the ceiling. */
export function outlineOf(hanging: Hanging): readonly Point[] {
  const { covering, facing } = hanging;
  const { length, leftHeight, rightHeight } = facing;
  const bend =
    covering.high === undefined || leftHeight === rightHeight
      ? -1
      : ((covering.high - leftHeight) / (rightHeight - leftHeight)) * length;
  const tops = bend > 0 && bend < length ? [length, bend, 0] : [length, 0];
  return [
    { x: 0, y: covering.low },
    { x: length, y: covering.low },
    ...tops.map((x) => ({ x, y: topAt(hanging, x) })),
  ];
}

/** A rectangle on the wall that stays bare: an opening, or a mass of the venue's; `opening` is the record of either. */
export interface Hole {
  readonly opening: string;
  readonly outline: readonly Point[];
  readonly mass: boolean;
}

/** Openings and the venue's masses that lie in the covering, as rectangles on the wall. */
export function holesOf({ room, facing, covering }: Hanging, outline: readonly Point[]): readonly Hole[] {
  const high = Math.max(...outline.map(({ y }) => y));
  const wall = facing.line.wall.id;
  const openings = room.openings
    .filter((one) => one.wall === wall)
    .map(({ opening, along }) => ({
      opening: opening.id,
      mass: false,
      outline: boxOnWall(
        facing,
        [along, along + opening.width],
        [opening.sill, opening.sill + opening.height],
      ),
    }));
  const masses = massesOn(room, facing).map((one) => ({ ...one, mass: true }));
  return [...openings, ...masses].filter(({ outline: ring }) => {
    const ys = ring.map(({ y }) => y);
    return Math.min(...ys) < high - TOUCH && Math.max(...ys) > covering.low + TOUCH;
  });
}

/** The venue's masses against a wall, as rectangles on it: they stay bare. */
export function massesOn(
  room: TrueRoom,
  facing: FacingWall,
): readonly { readonly opening: string; readonly outline: readonly Point[] }[] {
  return room.fixtures
    .filter((one) => one.wall === facing.line.wall.id && isMass(one))
    .map((one) => ({
      opening: one.fixture.id,
      outline: boxOnWall(facing, stretchOf(facing, one), [one.low, one.high]),
    }));
}

/** Where a mass stands along the wall in room order: to the very corner where only the tape left a gap. */
function stretchOf({ length }: FacingWall, { along, fixture }: TrueFixture): readonly [number, number] {
  const end = along + fixture.width;
  return [Math.abs(along) < TAPE_GAP ? 0 : along, Math.abs(length - end) < TAPE_GAP ? length : end];
}

/** A mass of the venue's against the wall: paper ends at it. */
function isMass({ fixture }: TrueFixture): boolean {
  return (
    (fixture.kind === "projection" || fixture.kind === "column") && fixture.width > 0 && fixture.out <= TOUCH
  );
}

/** An upright rectangle on a wall from a stretch along it (in room order) and two heights, from its lower left round. */
export function boxOnWall(
  facing: FacingWall,
  along: readonly [number, number],
  [low, high]: readonly [number, number],
): readonly Point[] {
  const xs = along.map((at) => facing.x(at));
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  return [
    { x: left, y: low },
    { x: right, y: low },
    { x: right, y: high },
    { x: left, y: high },
  ];
}

/** The faces of the wall between masses that stand before the covering's whole height. */
export function facesOf(hanging: Hanging): readonly (readonly [number, number])[] {
  const { room, facing, covering } = hanging;
  const masses = room.fixtures.filter(
    (one) =>
      one.wall === facing.line.wall.id &&
      isMass(one) &&
      one.low <= covering.low + TOUCH &&
      one.high >= Math.min(covering.high ?? Infinity, facing.leftHeight, facing.rightHeight) - TOUCH,
  );
  return spans(
    facing.length,
    masses.map((one) => {
      const xs = stretchOf(facing, one).map((at) => facing.x(at));
      return [Math.min(...xs), Math.max(...xs)] as const;
    }),
  ).filter(([from, to]) => to - from > TOUCH);
}
