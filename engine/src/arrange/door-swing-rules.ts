/**
 * The quarter disc that the leaf of a door sweeps as it opens into the room, from the wall line to square with
 * it, about the hinge. What stands in it stops the leaf. Where nobody said on which side a door hangs, both sides
 * are tried, and only what stops it either way is told. How a door opens that nobody said is not guessed.
 *
 *     ────hinge●━━━━━━━━━leaf━━━━━━○────wall line
 *              ┃                 ·
 *              ┃              ·
 *              ┃         · ┌───┐
 *              ○  ·        │   │
 */
import { alongWall, wallLines, type WallLine } from "../measure/frame.ts";
import type { TrueOpening } from "../measure/model.ts";
import { shared } from "../plane/clip.ts";
import { counterclockwise } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, distanceTo, rounded, type Rounded } from "../plane/rounded.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { mountedBody, neighbourBodies, standingBody, type Body, type BodyPart } from "./bodies.ts";
import { opening, printSlide, type Judging } from "./judging.ts";

/** What stands in the way of the leaf of every door that is said to open into the room. */
export function doorSwingSnags(judging: Judging): readonly Snag[] {
  const { arrangement } = judging;
  const { room } = arrangement;
  const doors = room.settled
    ? room.openings.filter(({ opening: { kind, opens } }) => kind === "door" && opens === "in")
    : [];
  if (doors.length === 0) return [];
  const bodies = [
    ...arrangement.standing.map(standingBody),
    ...arrangement.mounted.map(mountedBody),
    ...neighbourBodies(arrangement),
  ];
  const lines = new Map(wallLines(room).map((line) => [line.wall.id, line]));
  return doors.flatMap((door) => {
    const line = lines.get(door.wall);
    return line ? doorStopped(judging, door, { line, bodies }) : [];
  });
}

interface Around {
  readonly line: WallLine;
  readonly bodies: readonly Body[];
}

/** A thing in the way, and how far from the hinge it begins. */
interface Hit {
  readonly body: Body;
  readonly clear: number;
}

function doorStopped(judging: Judging, door: TrueOpening, around: Around): readonly Snag[] {
  const { hinge } = door.opening;
  const { from, to } = around.line.wall;
  const tried = hinge === from || hinge === to ? [hinge] : [from, to];
  const stopped = tried.map((side) => hitsOf(door, around, side));
  if (stopped.some((hits) => hits.length === 0)) return [];
  // Hung on its better side the leaf opens furthest.
  const [best] = stopped.toSorted((a, b) => leastClear(b) - leastClear(a));
  return best!.map((hit) => swingSnag(judging, door, hit, tried.length === 1));
}

function leastClear(hits: readonly Hit[]): number {
  return Math.min(...hits.map(({ clear }) => clear));
}

function hitsOf(door: TrueOpening, { line, bodies }: Around, side: string): readonly Hit[] {
  const { width, sill, height } = door.opening;
  const head = sill + height;
  const atStart = side === line.wall.from;
  const hinge = alongWall(line, door.along + (atStart ? 0 : width));
  const latch = atStart ? line.along : { x: -line.along.x, y: -line.along.y };
  const sector = sectorOf(hinge, { latch, inward: { x: -line.out.x, y: -line.out.y } }, width);
  return bodies.flatMap((body) => {
    const reached = body.parts
      .filter(({ low, high }) => low < head - TOUCH && high > sill + TOUCH)
      .map((part) => nearestInSector(part, sector));
    const clear = Math.min(Infinity, ...reached);
    return clear < width - TOUCH ? [{ body, clear }] : [];
  });
}

interface Sector {
  readonly hinge: Point;
  readonly latch: Point;
  readonly inward: Point;
  readonly leaf: number;
  /** The square round the quarter disc; what only touches its sides does not stand in it. */
  readonly square: Rounded;
}

function sectorOf(
  hinge: Point,
  { latch, inward }: { readonly latch: Point; readonly inward: Point },
  leaf: number,
): Sector {
  const at = (u: number, v: number): Point => ({
    x: hinge.x + latch.x * u + inward.x * v,
    y: hinge.y + latch.y * u + inward.y * v,
  });
  const [near, far] = [TOUCH, leaf];
  const square = rounded(counterclockwise([at(near, near), at(far, near), at(far, far), at(near, far)]));
  return { hinge, latch, inward, leaf, square };
}

/** Distance from the hinge to the nearest of a part that lies within the quarter; Infinity where none does. */
function nearestInSector({ shape, outline }: BodyPart, sector: Sector): number {
  if (boundsGap(shape.bounds, sector.square.bounds) > 0) return Infinity;
  if (shape.core.length === 1) return nearestOfCircle(shape, sector);
  const within = shared([outline], [sector.square.core]);
  return Math.min(Infinity, ...within.map((ring) => distanceTo(rounded(ring), sector.hinge)));
}

/** A circle's nearest point lies towards its middle, or where it crosses the nearer side of the quarter. */
function nearestOfCircle({ core, radius }: Rounded, { hinge, latch, inward }: Sector): number {
  const [x, y] = [core[0]!.x - hinge.x, core[0]!.y - hinge.y];
  const u = x * latch.x + y * latch.y;
  const v = x * inward.x + y * inward.y;
  if (u >= 0 && v >= 0)
    return isBeside(Math.min(u, v), radius) ? Infinity : Math.max(0, Math.hypot(u, v) - radius);
  const [beside, before] = u < v ? [u, v] : [v, u];
  const half = radius * radius - beside * beside;
  if (isBeside(beside, radius) || before + Math.sqrt(half) <= TOUCH) return Infinity;
  return Math.max(0, before - Math.sqrt(half));
}

/** Whether a circle whose middle is so far inside the nearer side of a quarter only touches it, or not even that. */
function isBeside(inside: number, radius: number): boolean {
  return inside + radius <= TOUCH;
}

function swingSnag(judging: Judging, door: TrueOpening, { body, clear }: Hit, known: boolean): Snag {
  const { print } = judging;
  const { id, name, width } = door.opening;
  const either = known ? "" : ", on whichever side it hangs";
  const ours = body.kind === "neighbour" ? "Ask the neighbour" : "Move it";
  const slide = `${ours} ${body.kind === "neighbour" ? "to move it " : ""}${printSlide(judging, width - clear)} away from the hinge`;
  return {
    rule: "door-swing",
    level: "stop",
    sentence: `${opening(name)} opens against ${body.name}${either}: its leaf needs ${print(width)} and has ${print(clear)}.`,
    things: [id, body.id],
    room: judging.arrangement.room.room.id,
    at: { x: (door.start.x + door.end.x) / 2, y: (door.start.y + door.end.y) / 2 },
    measured: clear,
    doubt: 0,
    wanted: width,
    mend: known ? `${slide}.` : `${slide}, or ask the venue on which side the door hangs.`,
  };
}
