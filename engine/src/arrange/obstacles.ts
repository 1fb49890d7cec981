/** What stands in the way of a visitor, as convex obstacles: walls in parts, the venue's things, pieces, coverings, neighbours. */
import type { Fixture } from "../document/tables.ts";
import { wallLines, type WallLine } from "../measure/frame.ts";
import type { TrueFixture, TrueRoom } from "../measure/model.ts";
import { counterclockwise } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { rounded, type Rounded } from "../plane/rounded.ts";
import { convexParts } from "../plane/convex.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Block, LaidCovering, Mounted, Standing, StandingNeighbour } from "./model.ts";

/** A thing with a name, and its obstacles. */
export interface Thing {
  readonly id: string;
  readonly name: string;
  readonly kind: "wall" | "fixture" | "piece" | "covering" | "neighbour";
  readonly obstacles: readonly Obstacle[];
}

export interface Obstacle {
  readonly id: string;
  readonly name: string;
  readonly shape: Rounded;
  /** A point inside it that stands for it in questions of "which way round". */
  readonly heart: Point;
  /** Index of the wall it moves with: its readings are the obstacle's doubt. */
  readonly wall?: number;
  /** The door or open side it closes. */
  readonly entry?: string;
  /** Where it ends beside doors and open sides: their ids and the points. */
  readonly jambs?: readonly Jamb[];
  /** Nothing closes it: the edge of our zone only. */
  readonly open?: boolean;
}

export interface Jamb {
  readonly entry: string;
  readonly at: Point;
}

/** A way into the room: a door, or an open side. */
export interface Entry {
  readonly id: string;
  readonly name: string;
  /** A hair outside the middle of it. */
  readonly threshold: Point;
}

/** The venue's part of the obstacles: it changes only with the room. */
export interface Ground {
  readonly things: readonly Thing[];
  /** The closed ring of wall parts: each is joined to the next at these two points. */
  readonly ring: readonly RingPart[];
  readonly entries: readonly Entry[];
}

export interface RingPart {
  readonly obstacle: Obstacle;
  readonly start: Point;
  readonly end: Point;
  /** Unit vector square to it, out of the room. */
  readonly out: Point;
}

/** mm: visitors walk under what hangs higher. */
const HEADROOM = figureOf("narrow-route", "headroom", "");

/** A way in is entered from just outside, and the ring of walls closes behind that, mm. */
const THRESHOLD = 10;
const BEHIND = 20;
/** Off the middle by a share no drawing has, so that nothing lines up with it by chance. */
const OFF_MIDDLE = 0.013_728_1;

/** What the venue puts in the way. A room without a settled shape gives nothing. */
export function groundOf(room: TrueRoom): Ground {
  const lines = room.settled ? wallLines(room) : [];
  const parts = ringOf(room, room.baseDepth);
  const walls = lines.map(({ wall }): Thing => {
    const obstacles = parts.filter(({ obstacle }) => obstacle.id === wall.id).map(({ obstacle }) => obstacle);
    return { id: wall.id, name: wallName(wall.name), kind: "wall", obstacles };
  });
  const doors = parts.filter(({ obstacle }) => obstacle.entry !== undefined);
  const things = [
    ...walls,
    ...doors.filter(({ obstacle }) => obstacle.id !== wallIdOf(lines, obstacle)).map(doorThing),
  ];
  return {
    things: [...things, ...fixtureThings(room, lines)],
    ring: parts,
    entries: doors.map((part) => entryOf(part, lines[part.obstacle.wall!]!)),
  };
}

/**
 * The walls of a settled room as a closed ring of faces, each standing in by a depth (mm) except in doors and
 * open sides; mitred where walls meet.
 */
export function ringOf(room: TrueRoom, depth: number): readonly RingPart[] {
  const lines = room.settled ? wallLines(room) : [];
  const spans = lines.map((line) => spansOf(room, line, depth));
  const parts = lines.flatMap((line, index) => {
    const before = (index + lines.length - 1) % lines.length;
    const after = (index + 1) % lines.length;
    const corners = {
      start: mitre(lines[before]!, line, [spans[before]!.at(-1)?.depth ?? 0, spans[index]![0]?.depth ?? 0]),
      end: mitre(line, lines[after]!, [spans[index]!.at(-1)?.depth ?? 0, spans[after]![0]?.depth ?? 0]),
    };
    return spans[index]!.map((span, at, all) =>
      partOf({ line, index }, span, {
        ...(at === 0 ? { start: corners.start } : {}),
        ...(at === all.length - 1 ? { end: corners.end } : {}),
      }),
    );
  });
  return parts.map((part, index) =>
    withJambs(part, parts.at(index - 1)!, parts[(index + 1) % parts.length]!),
  );
}

function withJambs(part: RingPart, before: RingPart, after: RingPart): RingPart {
  const jambs: Jamb[] = [];
  if (before.obstacle.entry !== undefined) jambs.push({ entry: before.obstacle.entry, at: part.start });
  if (after.obstacle.entry !== undefined) jambs.push({ entry: after.obstacle.entry, at: part.end });
  return jambs.length === 0 ? part : { ...part, obstacle: { ...part.obstacle, jambs } };
}

function wallIdOf(lines: readonly WallLine[], obstacle: Obstacle): string | undefined {
  return obstacle.wall === undefined ? undefined : lines[obstacle.wall]?.wall.id;
}

function doorThing({ obstacle }: RingPart): Thing {
  return { id: obstacle.id, name: obstacle.name, kind: "wall", obstacles: [obstacle] };
}

/** "wall D-A". */
export function wallName(name: string): string {
  return `wall ${name}`;
}

/** A stretch of a wall with one face: how far that face stands in, and the way in it closes. */
interface Span {
  readonly from: number;
  readonly to: number;
  readonly depth: number;
  readonly entry?: { readonly id: string; readonly name: string };
}

function spansOf(room: TrueRoom, { wall }: WallLine, depth: number): readonly Span[] {
  if (wall.open)
    return [{ from: 0, to: wall.length, depth: 0, entry: { id: wall.id, name: `open side ${wall.name}` } }];
  const doors = room.openings
    .filter(({ opening, wall: on }) => on === wall.id && opening.kind === "door")
    .toSorted((a, b) => a.along - b.along);
  const spans: Span[] = [];
  let reached = 0;
  for (const { opening, along } of doors) {
    const from = Math.max(reached, along);
    const to = Math.min(wall.length, along + opening.width);
    if (to <= from) continue;
    if (from > reached) spans.push({ from: reached, to: from, depth });
    spans.push({ from, to, depth: 0, entry: opening });
    reached = to;
  }
  if (reached < wall.length) spans.push({ from: reached, to: wall.length, depth });
  return spans;
}

function partOf(
  { line, index }: { readonly line: WallLine; readonly index: number },
  span: Span,
  ends: { readonly start?: Point; readonly end?: Point },
): RingPart {
  const start = ends.start ?? inFrom(line, span.from, span.depth);
  const end = ends.end ?? inFrom(line, span.to, span.depth);
  const shape = rounded([start, end]);
  const { wall } = line;
  const obstacle: Obstacle = span.entry
    ? {
        id: span.entry.id,
        name: span.entry.name,
        shape,
        heart: inFrom(line, (span.from + span.to) / 2, -BEHIND),
        wall: index,
        entry: span.entry.id,
        open: wall.open,
      }
    : { id: wall.id, name: wallName(wall.name), shape, heart: shape.middle, wall: index };
  return { obstacle, start, end, out: line.out };
}

function inFrom({ from, along, out }: WallLine, at: number, depth: number): Point {
  return { x: from.x + along.x * at - out.x * depth, y: from.y + along.y * at - out.y * depth };
}

/** Where the faces of two neighbouring walls meet, each standing in by its own depth. */
function mitre(
  before: WallLine,
  after: WallLine,
  [depthBefore, depthAfter]: readonly [number, number],
): Point {
  const turn = before.along.x * after.along.y - before.along.y * after.along.x;
  const p = inFrom(before, 0, depthBefore);
  const q = inFrom(after, 0, depthAfter);
  // Walls in one line have no mitre; either face will do.
  if (Math.abs(turn) < 0.02) return q;
  const share = ((q.x - p.x) * after.along.y - (q.y - p.y) * after.along.x) / turn;
  return { x: p.x + before.along.x * share, y: p.y + before.along.y * share };
}

function entryOf({ obstacle, start, end }: RingPart, line: WallLine): Entry {
  const middle = {
    x: (start.x + end.x) / 2 + (end.x - start.x) * OFF_MIDDLE,
    y: (start.y + end.y) / 2 + (end.y - start.y) * OFF_MIDDLE,
  };
  const threshold = { x: middle.x + line.out.x * THRESHOLD, y: middle.y + line.out.y * THRESHOLD };
  return { id: obstacle.entry!, name: obstacle.name, threshold };
}

function fixtureThings(room: TrueRoom, lines: readonly WallLine[]): readonly Thing[] {
  return room.fixtures.flatMap((fixture) => {
    if (!standsOnFloorPlan(fixture) || fixture.low >= HEADROOM) return [];
    const wall = lines.findIndex((line) => line.wall.id === fixture.wall);
    const [id, name] = [fixture.fixture.id, fixtureName(fixture.fixture)];
    const obstacles = convexParts(fixture.footprint).map((core): Obstacle => {
      const shape = rounded(core);
      return { id, name, shape, heart: shape.middle, ...(wall < 0 ? {} : { wall }) };
    });
    return obstacles.length === 0 ? [] : [{ id, name, kind: "fixture" as const, obstacles }];
  });
}

/** Whether a fixture takes room on the plan at all. */
export function standsOnFloorPlan({ fixture, footprint }: TrueFixture): boolean {
  return footprint.length > 2 && fixture.depth > 0 && fixture.width > 0;
}

/** Its name, or its kind where it has none. */
export function fixtureName({ name, kind }: Fixture): string {
  return name === "" ? kind : name;
}

/** A block as a rounded shape: a cylinder by its true circle. */
export function shapeOf({ outline, round }: Block): Rounded {
  return round ? rounded([round.middle], round.radius) : rounded(outline);
}

/**
 * Whether a thing on a wall narrows the way past it: it reaches down to where a cane finds it, or stands out into the
 * way below headroom by more than the 4 in that may (2010 ADA Standards 307.2; elsewhere from memory).
 */
export function narrows({ low, depth }: Mounted): boolean {
  return low < HEADROOM && (low <= CANE || depth > MAY_STAND_OUT);
}

const MAY_STAND_OUT = figureOf("protrusion", "out", "");
const CANE = figureOf("protrusion", "low", "");

/** What is fixed to a wall, as an obstacle: its blocks below headroom. `wall` is the index of that wall, with which it moves. */
export function mountThing({ mount, name, blocks }: Mounted, wall: number): Thing {
  const { id } = mount;
  const obstacles = blocks
    .filter((block) => block.low < HEADROOM)
    .map((block): Obstacle => {
      const shape = shapeOf(block);
      return { id, name, shape, heart: shape.middle, ...(wall < 0 ? {} : { wall }) };
    });
  return { id, name, kind: "fixture", obstacles };
}

/** A piece as an obstacle: its blocks below headroom. */
export function pieceThing({ placement, name, blocks }: Standing): Thing {
  const { id } = placement;
  const obstacles = blocks
    .filter((block) => block.low < HEADROOM)
    .map((block): Obstacle => {
      const shape = shapeOf(block);
      return { id, name, shape, heart: shape.middle };
    });
  return { id, name, kind: "piece", obstacles };
}

/** A covering nobody may walk on. */
export function coveringThing({ covering, outline }: LaidCovering): Thing {
  const shape = rounded(counterclockwise(outline));
  const { id, name } = covering;
  return { id, name, kind: "covering", obstacles: [{ id, name, shape, heart: shape.middle }] };
}

export function neighbourThing({ neighbour, outline }: StandingNeighbour): Thing {
  const { id, name, round, x, y, width } = neighbour;
  const shape = round ? rounded([{ x, y }], width / 2) : rounded(outline);
  return { id, name, kind: "neighbour", obstacles: [{ id, name, shape, heart: shape.middle }] };
}
