/**
 * A room and all that stands in it as flat faces in room axes, mm, for the model in three dimensions. Walls, floor,
 * glass and wall coverings are single faces to be seen from inside the room; all else is a solid. Every ring runs
 * counterclockwise seen from the side it is seen from, its holes clockwise, and lies in one plane. Coverings of the
 * walls and mounts lie exactly in the plane of the wall: whoever draws them moves them forward by a hair.
 *
 * A door or window is a hole in its wall; a window has its pane. One that reaches past its wall's edge (a door to the
 * floor does) is a notch of the ring, so that holes never touch their ring.
 */
import type { ShowDocument, Trim } from "../document/tables.ts";
import type { Arrangement } from "../arrange/model.ts";
import type { Making, TrimRun, WallWork } from "../make/model.ts";
import { edgesOf, facingWall, type FacingWall } from "../measure/facing.ts";
import { alongWall } from "../measure/frame.ts";
import type { TrueFixture, TrueOpening, TrueRoom } from "../measure/model.ts";
import { cut, shared } from "../plane/clip.ts";
import { counterclockwise, inRing, ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { heightAlong } from "./joints.ts";
import type { SpaceFace, SpacePoint } from "./model.ts";
import { runEdges } from "./runs.ts";
import { between, prism, type Shown } from "./solid.ts";

/** A wall with the way from its face into the room's axes. */
interface Side {
  readonly facing: FacingWall;
  readonly outline: readonly Point[];
  readonly ceiling: (x: number) => number;
  readonly openings: readonly TrueOpening[];
  /** A place on the face, x from its left end, y up, and so far out from it into the room. */
  readonly inSpace: (place: Point, out?: number) => SpacePoint;
}

/** All faces of a room; none for a room without a shape. Without a making neither strips nor trims are there. */
export function roomFaces(
  arrangement: Arrangement,
  document: ShowDocument,
  making: Making | undefined,
): readonly SpaceFace[] {
  const { room, standing, mounted, coverings, neighbours } = arrangement;
  if (room.corners.length < 3 || ringArea(room.corners) === 0) return [];
  const sides = room.walls.flatMap((wall) => sideOf(room, wall.id));
  return [
    floorFace(room),
    ...sides.flatMap((side) => withWall(side, wallFaces(side))),
    ...sides.flatMap((side) => withWall(side, stripFaces(side, making))),
    ...sides.flatMap((side) => withWall(side, trimFaces(side, document, making))),
    ...coverings.flatMap(({ covering, outline }) =>
      prism({ record: covering.id, of: "covering" }, outline, 0, covering.thickness),
    ),
    ...room.fixtures.flatMap((fixture) => fixtureFaces(sides, fixture)),
    ...neighbours.flatMap(({ neighbour, outline }) =>
      prism({ record: neighbour.id, of: "neighbour" }, outline, 0, neighbour.height),
    ),
    ...standing.flatMap(({ placement, blocks }) =>
      blocks.flatMap(({ outline, low, high }) =>
        prism({ record: placement.id, of: "piece" }, outline, low, high),
      ),
    ),
    ...mounted.flatMap(({ mount, wall, blocks }) =>
      blocks.flatMap(({ outline, low, high }) =>
        prism({ record: mount.id, of: "fitting" }, outline, low, high).map((face) => ({ ...face, wall })),
      ),
    ),
  ];
}

function withWall({ facing }: Side, faces: readonly SpaceFace[]): readonly SpaceFace[] {
  return faces.map((face) => ({ ...face, wall: facing.line.wall.id }));
}

function floorFace(room: TrueRoom): SpaceFace {
  const ring = counterclockwise(room.corners.map(({ x, y }) => ({ x, y }))).map(({ x, y }) => ({
    x,
    y,
    z: 0,
  }));
  return { record: room.room.id, of: "floor", ring, holes: [] };
}

function sideOf(room: TrueRoom, id: string): readonly Side[] {
  const facing = facingWall(room, id);
  if (!facing || facing.line.wall.open || facing.length <= 0) return [];
  const { line, length, leftHeight, rightHeight } = facing;
  const outline = [
    { x: 0, y: 0 },
    { x: length, y: 0 },
    { x: length, y: rightHeight },
    { x: 0, y: leftHeight },
  ];
  return [
    {
      facing,
      outline,
      ceiling: heightAlong(room, line.wall),
      openings: room.openings.filter((opening) => opening.wall === id),
      inSpace: ({ x, y }, out = 0) => ({ ...alongWall(line, facing.x(x), -out), z: y }),
    },
  ];
}

function wallFaces({ facing, outline, openings, inSpace }: Side): readonly SpaceFace[] {
  const { wall } = facing.line;
  const whole = facesOf(
    { record: wall.id, of: wall.glass ? "glass" : "wall" },
    outline,
    openings.map((one) => holeOf(facing, one)),
    inSpace,
  );
  const panes = openings
    .filter(({ opening }) => opening.kind === "window")
    .flatMap((one) =>
      shared([outline], [holeOf(facing, one)]).map((ring): SpaceFace => ({
        record: one.opening.id,
        of: "glass",
        ring: counterclockwise(ring).map((place) => inSpace(place)),
        holes: [],
      })),
    );
  return [...whole, ...panes];
}

function holeOf(facing: FacingWall, seen: TrueOpening): readonly Point[] {
  const [left, right] = edgesOf(facing, seen);
  const { sill, height } = seen.opening;
  return rectangleOf(left, right, sill, sill + height);
}

function rectangleOf(left: number, right: number, low: number, high: number): readonly Point[] {
  return [
    { x: left, y: low },
    { x: right, y: low },
    { x: right, y: high },
    { x: left, y: high },
  ];
}

/** An outline with its holes cut, as one face for each part that is left. Exact where nothing is cut. */
function facesOf(
  shown: Shown,
  outline: readonly Point[],
  holes: readonly (readonly Point[])[],
  inSpace: Side["inSpace"],
): readonly SpaceFace[] {
  const rings = holes.length === 0 ? [outline] : cut([outline], holes);
  const inner = rings.filter((ring) => ringArea(ring) < 0);
  return rings
    .filter((ring) => ringArea(ring) > 0)
    .map((ring) => ({
      ...shown,
      ring: ring.map((place) => inSpace(place)),
      holes: inner
        .filter((hole) => hole[0] && inRing(ring, hole[0]))
        .map((hole) => hole.map((place) => inSpace(place))),
    }));
}

/** Each strip as it is seen on the wall: cut round the openings; what turns the corner or hangs over is not shown. */
function stripFaces(
  { facing, outline, openings, inSpace }: Side,
  making: Making | undefined,
): readonly SpaceFace[] {
  const { wall } = facing.line;
  const holes = openings.map((one) => holeOf(facing, one));
  const of = ({ covering, strips }: WallWork): readonly SpaceFace[] =>
    strips.flatMap(({ left, right, low, highLeft, highRight }) => {
      const hung = [
        { x: left, y: low },
        { x: right, y: low },
        { x: right, y: highRight },
        { x: left, y: highLeft },
      ];
      return shared([hung], [outline]).flatMap((ring) =>
        facesOf({ record: covering.id, of: "strip" }, counterclockwise(ring), holes, inSpace),
      );
    });
  return (making?.walls ?? []).filter((work) => work.wall === wall.id).flatMap(of);
}

function trimFaces(side: Side, document: ShowDocument, making: Making | undefined): readonly SpaceFace[] {
  return (making?.trims ?? []).flatMap(({ trim, runs }) =>
    document.trims[trim.id] === undefined
      ? []
      : runs
          .filter((run) => run.wall === side.facing.line.wall.id)
          .flatMap((run) => runFaces(side, trim, run)),
  );
}

/** A length of trim, its front drawn back at an inside corner and let past at an outside one, as its mitres want. */
function runFaces({ inSpace, ceiling }: Side, trim: Trim, run: TrimRun): readonly SpaceFace[] {
  const [under, over] = runEdges(trim, run, ceiling);
  const slants = run.ends.map(({ kind, angle }) =>
    kind === "square" ? 0 : trim.depth / Math.tan((angle * Math.PI) / 360),
  );
  if (trim.depth <= 0 || run.to <= run.from) return [];
  const [left, right] = [slants[0] ?? 0, slants[1] ?? 0];
  const back = [under[0], under[1], over[1], over[0]];
  if (left + right >= run.to - run.from) return [];
  const front = back.map((place, index) =>
    inSpace({ x: place.x + (index === 0 || index === 3 ? left : -right), y: place.y }, trim.depth),
  );
  return between(
    { record: trim.id, of: "trim" },
    back.map((place) => inSpace(place)),
    front,
  );
}

/** A thing of the venue's with a size: a box, or where it lies flat on its wall, its face. */
function fixtureFaces(
  sides: readonly Side[],
  { fixture, wall, footprint, low, high, along }: TrueFixture,
): readonly SpaceFace[] {
  const shown: Shown = { record: fixture.id, of: "venue" };
  if (footprint.length < 3 || high <= low) return [];
  if (ringArea(footprint) !== 0) return prism(shown, footprint, low, high);
  const side = sides.find(({ facing }) => facing.line.wall.id === wall);
  if (!side || fixture.width <= 0) return [];
  const ends = [side.facing.x(along), side.facing.x(along + fixture.width)];
  const ring = rectangleOf(Math.min(...ends), Math.max(...ends), low, high);
  return [{ ...shown, ring: ring.map((place) => side.inSpace(place, fixture.out)), holes: [] }];
}
