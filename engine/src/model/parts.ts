/**
 * The card model as flat parts, in mm of board, at the scale of the show's grid paper. The floor plate is the
 * inside outline of the room, exactly. The walls stand round its edge, outside the inside faces, with their feet
 * flush with its underside: each wall is taller than its room by one board. How walls meet is told in `joints.ts`.
 *
 *        │ wall │                     y
 *        │      │   room              │ ╭───────── top, sloping from corner to corner
 *        │      ├────────────── floor │ │  ┌────┐
 *        │      │ floor plate         │ │  │door│
 *        └──────┴──────────────       │ │  └────┘  a strip one board high stays under every door
 *                                     └─┴──────── x
 *
 * A wall is seen from inside. Openings are holes; one that reaches past the edge of its wall is cut out of its
 * outline. Open sides and glass have no board: their lines stand on the floor plate.
 */
import { listed, showOf, type ShowDocument } from "../document/tables.ts";
import type { Making, Strip } from "../make/model.ts";
import { facingWall, edgesOf, type FacingWall } from "../measure/facing.ts";
import { clockwise } from "../measure/frame.ts";
import { spans } from "../measure/spans.ts";
import type { TrueFixture, TrueOpening, TrueRoom, TrueWall } from "../measure/model.ts";
import { cut } from "../plane/clip.ts";
import { boundsOf, counterclockwise, placed, rectangle, ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { hasBoard, heightAlong, panelEnds, type PanelEnd } from "./joints.ts";
import type { CardModel, CardPart } from "./model.ts";
import { runEdges } from "./runs.ts";

type Drawn = CardPart["drawn"][number];
type Hole = CardPart["holes"][number];

/** What is the same for all parts of a room. */
interface Bench {
  readonly room: TrueRoom;
  readonly document: ShowDocument;
  readonly making: Making | undefined;
  readonly scale: number;
  readonly board: number;
}

/**
 * The card models of the rooms, one for each whose corners make a simple outline. Strips' seams and trims are drawn
 * where there is a making. The scale is the show's grid: what a square stands for over its side.
 */
export function cardModels(
  document: ShowDocument,
  rooms: readonly TrueRoom[],
  making: Making | undefined,
): readonly CardModel[] {
  const { gridSquare, gridPitch, cardThickness } = showOf(document);
  // Nine digits: a quarter inch for a foot is 48 and not a hair more.
  const scale = Number((gridSquare / gridPitch).toPrecision(9));
  return rooms
    .filter((room) => room.corners.length > 2 && room.crossings.length === 0 && ringArea(room.corners) !== 0)
    .map((room) => modelOf({ room, document, making, scale, board: cardThickness }));
}

/** `cardModels` with a memory of the last document: keep one for each live document. */
export function createModels(): typeof cardModels {
  let last: { readonly key: readonly unknown[]; readonly models: readonly CardModel[] } | undefined;
  return (document, rooms, making) => {
    const key = [showOf(document), document.coverings, rooms, making];
    if (!last?.key.every((part, index) => part === key[index]))
      last = { key, models: cardModels(document, rooms, making) };
    return last.models;
  };
}

function modelOf(bench: Bench): CardModel {
  const { room, scale, board } = bench;
  return {
    room: room.room.id,
    name: room.room.name,
    scale,
    board,
    floor: floorPart(bench),
    walls: room.walls.filter(hasBoard).map((wall) => wallPart(bench, wall)),
  };
}

function floorPart({ room, document, scale }: Bench): CardPart {
  const bounds = boundsOf(room.corners);
  const onPlate = ({ x, y }: Point): Point => ({
    x: (x - bounds.left) / scale,
    y: (y - bounds.bottom) / scale,
  });
  const corners = new Map(room.corners.map((corner) => [corner.id, onPlate(corner)]));
  const sides = room.walls.map(({ id, from, to }): Drawn => {
    const [left, right] = clockwise(room) ? [from, to] : [to, from];
    return { record: id, points: [corners.get(left)!, corners.get(right)!] };
  });
  const laid = listed(document.coverings).filter((one) => one.room === room.room.id);
  const masses = room.fixtures.filter(({ footprint }) => footprint.length > 2 && ringArea(footprint) !== 0);
  return {
    id: `card~${room.room.id}`,
    name: "Floor",
    outline: counterclockwise(room.corners.map(onPlate)),
    holes: [],
    drawn: [
      ...sides,
      ...masses.map(({ fixture, footprint }) => closed(fixture.id, footprint.map(onPlate))),
      ...laid.map((one) => closed(one.id, placed(rectangle(one.width, one.depth), one).map(onPlate))),
    ],
    joints: ["butts", "butts"],
    because: [
      room.room.id,
      ...room.corners.map(({ id }) => id),
      ...masses.map(({ fixture }) => fixture.id),
      ...laid.map(({ id }) => id),
    ],
  };
}

/** A line that comes back to where it began. */
function closed(record: string, ring: readonly Point[]): Drawn {
  return { record, points: [...ring, ...ring.slice(0, 1)] };
}

function wallPart(bench: Bench, wall: TrueWall): CardPart {
  const { room, scale, board } = bench;
  const facing = facingWall(room, wall.id);
  if (!facing) throw new Error(`room ${room.room.id} has no wall ${wall.id}`);
  const ends = panelEnds(room, wall, board);
  const [start, end] = extentOf(wall.length / scale, ends);
  const onBoard = ({ x, y }: Point): Point => ({ x: x / scale - start, y: y / scale + board });
  const top = heightAlong(room, wall);
  const stops = [end, wall.length / scale, 0, start].filter((x) => x >= start && x <= end);
  const outline = [
    { x: 0, y: 0 },
    { x: end - start, y: 0 },
    ...stops.map((x) => ({ x: x - start, y: top(x * scale) / scale + board })),
  ];
  const openings = room.openings.filter((opening) => opening.wall === wall.id);
  const holes = openings.map((seen): Hole => {
    const [left, right] = edgesOf(facing, seen);
    const { sill, height, id } = seen.opening;
    return { record: id, outline: upright(left, right, sill, sill + height).map(onBoard) };
  });
  const things = room.fixtures.filter((one) => one.wall === wall.id && one.fixture.width > 0);
  const drawn = drawnOn(bench, facing, things).map(({ record, points }) => ({
    record,
    points: points.map(onBoard),
  }));
  return {
    id: `card~${wall.id}`,
    name: `Wall ${wall.name}`,
    ...withHoles(withoutStraight(outline), holes),
    drawn: [...cornerLines(ends, outline, wall.length / scale - start, -start), ...drawn],
    joints: [ends[0].words, ends[1].words],
    because: [
      ...new Set([
        room.room.id,
        wall.from,
        wall.to,
        ...holes.map(({ record }) => record),
        ...drawn.map(({ record }) => record),
      ]),
    ],
  };
}

/** Where the board begins and ends along its wall, mm of board; one that stops short keeps half its wall at least. */
function extentOf(length: number, [left, right]: readonly [PanelEnd, PanelEnd]): readonly [number, number] {
  return [Math.min(-left.past, length / 2), length + right.past];
}

function upright(left: number, right: number, low: number, high: number): readonly Point[] {
  return [
    { x: left, y: low },
    { x: right, y: low },
    { x: right, y: high },
    { x: left, y: high },
  ];
}

/** The ring without points that lie on the line between their neighbours, and without repeats. */
function withoutStraight(ring: readonly Point[]): readonly Point[] {
  const apart = ring.filter((point, index) => {
    const next = ring[(index + 1) % ring.length]!;
    return Math.hypot(point.x - next.x, point.y - next.y) > 1e-9;
  });
  return apart.filter((here, index) => {
    const [a, b] = [apart.at(index - 1)!, apart[(index + 1) % apart.length]!];
    return Math.abs((here.x - a.x) * (b.y - a.y) - (here.y - a.y) * (b.x - a.x)) > 1e-9;
  });
}

/** The holes that lie wholly inside stay holes, as exact as they are; the others are taken off the outline. */
function withHoles(outline: readonly Point[], holes: readonly Hole[]): Pick<CardPart, "outline" | "holes"> {
  const across = holes.filter((hole) => !liesInside(outline, hole.outline));
  if (across.length === 0) return { outline, holes };
  const rest = cut(
    [outline],
    across.map((hole) => hole.outline),
  );
  // The strip under the doors holds all of a wall together, so the largest ring is the wall.
  const largest = rest.toSorted((a, b) => ringArea(b) - ringArea(a))[0] ?? outline;
  return { outline: counterclockwise(largest), holes: holes.filter((hole) => !across.includes(hole)) };
}

/** Whether a ring keeps a hair's breadth inside a wall's outline, which is convex but for its top past the corners. */
function liesInside(outline: readonly Point[], ring: readonly Point[]): boolean {
  return cut([ring], [outline]).length === 0 && ring.every((point) => farFrom(outline, point, 1e-3));
}

function farFrom(outline: readonly Point[], { x, y }: Point, least: number): boolean {
  return outline.every((a, index) => {
    const b = outline[(index + 1) % outline.length]!;
    const squared = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
    const part = squared > 0 ? ((x - a.x) * (b.x - a.x) + (y - a.y) * (b.y - a.y)) / squared : 0;
    const at = Math.min(1, Math.max(0, part));
    return Math.hypot(x - a.x - at * (b.x - a.x), y - a.y - at * (b.y - a.y)) > least;
  });
}

/** The inside corners that lie on the board: where the neighbour's face meets it, or where a bevel begins. */
function cornerLines(
  ends: readonly [PanelEnd, PanelEnd],
  outline: readonly Point[],
  right: number,
  left: number,
): readonly Drawn[] {
  return ends.flatMap(({ corner }, index) => {
    const x = index === 0 ? left : right;
    const crossing = outline.slice(2).find((point) => Math.abs(point.x - x) < 1e-9);
    const { left: first, right: last } = boundsOf(outline);
    if (!crossing || x < first + 1e-6 || x > last - 1e-6) return [];
    return [
      {
        record: corner,
        points: [
          { x, y: 0 },
          { x, y: crossing.y },
        ],
      },
    ];
  });
}

/** Trims, seams and the venue's things on a wall's face, mm of the wall. */
function drawnOn(
  { room, making }: Bench,
  facing: FacingWall,
  things: readonly TrueFixture[],
): readonly Drawn[] {
  const wall = facing.line.wall;
  const openings = room.openings.filter((opening) => opening.wall === wall.id);
  const ceiling = heightAlong(room, wall);
  const runs = (making?.trims ?? []).flatMap(({ trim, runs: all }) =>
    all
      .filter((run) => run.wall === wall.id && run.room === room.room.id)
      .flatMap((run) => runEdges(trim, run, ceiling).map((points) => ({ record: trim.id, points }))),
  );
  const seams = (making?.walls ?? [])
    .filter((work) => work.wall === wall.id && work.room === room.room.id)
    .flatMap(({ covering, strips }) =>
      strips
        .slice(1)
        .flatMap((strip) =>
          seamOf(strip, facing, openings).map((points) => ({ record: covering.id, points })),
        ),
    );
  return [...runs, ...seams, ...things.map((seen) => closed(seen.fixture.id, faceOf(facing, ceiling, seen)))];
}

/** The left edge of a strip, broken where an opening is cut out. */
function seamOf(
  strip: Strip,
  facing: FacingWall,
  openings: readonly TrueOpening[],
): readonly (readonly Point[])[] {
  const x = strip.left;
  const gaps = openings.flatMap((seen): readonly [number, number][] => {
    const [left, right] = edgesOf(facing, seen);
    const { sill, height } = seen.opening;
    return x > left && x < right ? [[sill - strip.low, sill + height - strip.low]] : [];
  });
  return spans(strip.highLeft - strip.low, gaps).map(([from, to]) => [
    { x, y: strip.low + from },
    { x, y: strip.low + to },
  ]);
}

function faceOf(
  facing: FacingWall,
  ceiling: (x: number) => number,
  { fixture, along, low, high }: TrueFixture,
): readonly Point[] {
  const ends = [facing.x(along), facing.x(along + fixture.width)];
  const top = Math.min(high, ...ends.map(ceiling));
  return upright(Math.min(...ends), Math.max(...ends), Math.min(low, top), top);
}
