/**
 * The room folded flat: the floor in the middle and every wall laid outwards from its foot, with strips, seams, trim,
 * openings and the venue's things at true scale. Where walls laid so would lie on each other (a room with a corner that
 * comes in) they stand in a row beneath the floor instead.
 *
 *                 ┌────────┐
 *                 │  A-B   │
 *            ┌────┼────────┼────┐
 *            │D-A │ floor  │B-C │
 *            └────┼────────┼────┘
 *                 │  C-D   │
 *                 └────────┘
 */
import type { Arrangement } from "../arrange/model.ts";
import { showOf, type ShowDocument } from "../document/tables.ts";
import { ceilingAt, facingWall, type FacingWall } from "../measure/facing.ts";
import { alongWall } from "../measure/frame.ts";
import type { TrueRoom } from "../measure/model.ts";
import { fixtureSign, isMass } from "../measure/signs.ts";
import { shared } from "../plane/clip.ts";
import { boundsOf, ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import {
  between,
  CAP_HEIGHT,
  letters,
  line,
  moved,
  readableTurn,
  shape,
  shownBy,
  towards,
} from "../sheet/drafting.ts";
import type { Paper } from "../sheet/papers.ts";
import { gridScales, largestThatFits } from "../sheet/scales.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { textWidth } from "../sheet/type.ts";
import type { Item, KnownLength } from "../sheet/vocabulary.ts";
import { CLOSE_TO_WALL, TOUCH } from "../tolerances.ts";
import { printLength } from "../units/length.ts";
import type { Making } from "./model.ts";
import { inTheWayOf, stripsOnWall } from "./strip-items.ts";

export interface UnfoldedWish {
  readonly document: ShowDocument;
  readonly arrangement: Arrangement;
  readonly making: Making;
  readonly paper: Paper;
}

/** A wall and where its face lies once it is laid flat, mm, y up. */
export interface LaidWall {
  readonly facing: FacingWall;
  /** Where a place on the wall lies: x from its left end as seen from inside, y above the floor. */
  readonly lies: (x: number, y: number) => Point;
  readonly ring: readonly Point[];
}

/** The walls of a room laid flat round its floor, or in a row beneath it; no two lie on each other. */
export function laidWalls(room: TrueRoom): readonly LaidWall[] {
  const facings = room.walls.flatMap(({ id }) => facingWall(room, id) ?? []);
  const outward = facings.map(laidOutward);
  const rings = [...outward.map(({ ring }) => ring), room.corners];
  const crossed = rings.some((ring, index) =>
    rings.slice(0, index).some((other) => areaOf(shared([ring], [other])) > TOUCH * TOUCH * 100),
  );
  return crossed ? inARow(facings, room) : outward;
}

function areaOf(rings: readonly (readonly Point[])[]): number {
  return Math.abs(rings.reduce((sum, ring) => sum + ringArea(ring), 0));
}

function faceRing({ length, leftHeight, rightHeight }: FacingWall, lies: LaidWall["lies"]): readonly Point[] {
  return [lies(0, 0), lies(length, 0), lies(length, rightHeight), lies(0, leftHeight)];
}

function laidOutward(facing: FacingWall): LaidWall {
  // `x` turns a distance along the wall into one from the left; it is its own inverse.
  const lies = (x: number, y: number): Point => alongWall(facing.line, facing.x(x), y);
  return { facing, lies, ring: faceRing(facing, lies) };
}

/** Room between walls in a row, mm in the room. */
const APART = 600;

function inARow(facings: readonly FacingWall[], room: TrueRoom): readonly LaidWall[] {
  const floor = boundsOf(room.corners);
  const highest = Math.max(
    ...facings.map(({ leftHeight, rightHeight }) => Math.max(leftHeight, rightHeight)),
  );
  let left = floor.left;
  return facings.map((facing) => {
    const start = left;
    left += facing.length + APART;
    const foot = floor.bottom - APART - highest;
    const lies = (x: number, y: number): Point => ({ x: start + x, y: foot + y });
    return { facing, lies, ring: faceRing(facing, lies) };
  });
}

/** Paper beyond the top of a wall for its name, mm. */
const NAMED = 5;

/** The room folded flat on one leaf, at the largest grid scale that fits. */
export function unfoldedLeaf({ document, arrangement, making, paper }: UnfoldedWish): Leaf {
  const { room } = arrangement;
  const box = leafBox(paper);
  const title = `${room.room.name}: unfolded`;
  const walls = laidWalls(room);
  const bounds = boundsOf([...room.corners, ...walls.flatMap(({ ring }) => ring)]);
  // Round the walls their names want room, and above them the title.
  const free = {
    left: box.left + NAMED,
    right: box.right - NAMED,
    top: box.top + 9 + NAMED,
    bottom: box.bottom - NAMED,
  };
  const squares = largestThatFits(
    gridScales(showOf(document)),
    ({ scale }) =>
      (bounds.right - bounds.left) / scale <= free.right - free.left &&
      (bounds.top - bounds.bottom) / scale <= free.bottom - free.top,
  );
  const { scale } = squares;
  const origin = {
    x: (free.left + free.right) / 2 - (bounds.left + bounds.right) / 2 / scale,
    y: (free.top + free.bottom) / 2 + (bounds.top + bounds.bottom) / 2 / scale,
  };
  const paperAt = ({ x, y }: Point): Point => ({ x: origin.x + x / scale, y: origin.y - y / scale });
  const drawn = walls.map((wall) => wallItems({ document, room, making, scale, paperAt }, wall));
  return {
    id: `unfolded.${room.room.id}`,
    title,
    paper,
    scale,
    scaleSentence: squares.sentence,
    items: [
      titleOf(title, box),
      shape(room.corners.map(paperAt), "wall", shownBy(room.room.id, "floor")),
      letters(paperAt(middleOf(room.corners)), "floor", 3, { align: "middle", ink: "graphite-soft" }),
      ...drawn.flatMap(({ items }) => items),
    ],
    known: drawn.map(({ known }) => known),
    frames: [],
  };
}

function middleOf(points: readonly Point[]): Point {
  const sum = points.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 });
  return { x: sum.x / Math.max(1, points.length), y: sum.y / Math.max(1, points.length) };
}

interface Drawing {
  readonly document: ShowDocument;
  readonly room: TrueRoom;
  readonly making: Making;
  readonly scale: number;
  readonly paperAt: (point: Point) => Point;
}

function wallItems(
  drawing: Drawing,
  laid: LaidWall,
): { readonly items: readonly Item[]; readonly known: KnownLength } {
  const { making, room, scale, paperAt } = drawing;
  const { facing, lies, ring } = laid;
  const { wall } = facing.line;
  const at = (x: number, y: number): Point => paperAt(lies(x, y));
  const strips = making.walls
    .filter((work) => work.wall === wall.id && work.room === room.room.id)
    .flatMap((work) =>
      stripsOnWall(work, { at, scale, length: facing.length, inTheWay: inTheWayOf(room, facing, scale) }),
    );
  const items = [
    ...strips,
    ...trimItems(drawing, facing, at),
    ...openingItems(room, facing, at),
    ...fixtureItems(room, facing, at),
    shape(ring.map(paperAt), wall.open || wall.glass ? "fold" : "outline", { record: wall.id, part: "face" }),
    ...nameItems(drawing, facing, at),
  ];
  const known = { name: `wall ${wall.name}`, from: at(0, 0), to: at(facing.length, 0), real: facing.length };
  return { items, known };
}

type At = (x: number, y: number) => Point;

/** Both edges of every run of trim, as the saw will cut it. */
function trimItems({ making, room }: Drawing, { line: { wall } }: FacingWall, at: At): readonly Item[] {
  return making.trims.flatMap(({ trim, runs }) =>
    runs
      .filter((run) => run.wall === wall.id && run.room === room.room.id)
      .map((run) => {
        const top = run.up + trim.height;
        return shape(
          [at(run.from, run.up), at(run.to, run.up), at(run.to, top), at(run.from, top)],
          "dimension",
          {
            record: trim.id,
            part: run.id,
            ink: "graphite-soft",
            fill: { ink: "sheet" },
          },
        );
      }),
  );
}

const OPENING_TYPE = 2.2;

/** Openings with their names, where these fit in them. */
function openingItems(room: TrueRoom, facing: FacingWall, at: At): readonly Item[] {
  return room.openings
    .filter((one) => one.wall === facing.line.wall.id)
    .flatMap(({ opening, along }) => {
      const [a, b] = [facing.x(along), facing.x(along + opening.width)];
      const [low, high] = [opening.sill, opening.sill + opening.height];
      const ring = [at(a, low), at(b, low), at(b, high), at(a, high)];
      const edge = shape(ring, "outline", { ...shownBy(opening.id), fill: { ink: "sheet" } });
      const middle = at((a + b) / 2, (low + high) / 2);
      const { left, right } = boundsOf(ring);
      if (textWidth(opening.name, "sans", OPENING_TYPE) + 1 > right - left) return [edge];
      const base = moved(middle, 0, (OPENING_TYPE * CAP_HEIGHT) / 2);
      return [
        edge,
        letters(base, opening.name, OPENING_TYPE, { ...shownBy(opening.id, "name"), align: "middle" }),
      ];
    });
}

function fixtureItems(room: TrueRoom, facing: FacingWall, at: At): readonly Item[] {
  return room.fixtures
    .filter((one) => one.wall === facing.line.wall.id && one.fixture.out < CLOSE_TO_WALL)
    .flatMap(({ fixture, along, low, high: said }) => {
      const [a, b] = [facing.x(along), facing.x(along + fixture.width)];
      // Under a sloping ceiling it ends where the ceiling is lower.
      const high = Math.min(said, ceilingAt({ facing }, a), ceilingAt({ facing }, b));
      const sign = fixtureSign(fixture.kind, at((a + b) / 2, (low + high) / 2), fixture.id);
      if (fixture.width === 0 || high <= low) return sign;
      const edge = shape([at(a, low), at(b, low), at(b, high), at(a, high)], "outline", {
        ...shownBy(fixture.id),
        fill: isMass(fixture.kind)
          ? { ink: "graphite-soft", hatch: { turn: 45, apart: 2.4 } }
          : { ink: "sheet" },
      });
      return [edge, ...sign];
    });
}

/** The wall's name and length along its top edge, outside it, and a line where its foot is folded. */
function nameItems({ document }: Drawing, facing: FacingWall, at: At): readonly Item[] {
  const { wall } = facing.line;
  const { units } = showOf(document);
  const high = (facing.leftHeight + facing.rightHeight) / 2;
  const foot = line([at(0, 0), at(facing.length, 0)], "fold", { record: wall.id, part: "foot" });
  const kind = wall.refused ? ", refused" : wall.glass ? ", glass" : wall.open ? ", open" : "";
  return [
    foot,
    lettered(`${wall.name} ${printLength(wall.length, units)}${kind}`, {
      along: [at(0, high), at(facing.length, high)],
      from: at(facing.length / 2, 0),
      record: wall.id,
    }),
  ];
}

interface Along {
  /** The edge it runs along, and a point on the other side of it. */
  readonly along: readonly [Point, Point];
  readonly from: Point;
  readonly record: string;
}

const NAME_TYPE = 2.6;
/** From an edge to the middle of the lettering beyond it, mm of paper. */
const BEYOND = 2.4;

/** A name that runs along an edge, beyond it. */
function lettered(text: string, { along: [a, b], from, record }: Along): Item {
  const turn = readableTurn(a, b);
  const [edge, up] = [between(a, b, 0.5), (turn * Math.PI) / 180];
  const out = towards(from, edge);
  const middle = moved(edge, out.x * BEYOND, out.y * BEYOND);
  const drop = (NAME_TYPE * CAP_HEIGHT) / 2;
  return letters(moved(middle, Math.sin(up) * drop, Math.cos(up) * drop), text, NAME_TYPE, {
    align: "middle",
    face: "sans-bold",
    turn,
    record,
    part: "name",
  });
}
