/**
 * Setting out by two tapes: every mark on the floor is where two arcs cross, each struck from a corner of the room.
 * That needs no true right angle, as measuring along and out would. An error of a tape moves the mark by its
 * size over the sine of the angle at which the arcs cross, so the two corners are chosen by their worst crossing.
 * Common practice, no source. How sure a tape length is follows from the room's covariance by the law of
 * propagation of variances (Ghilani, Adjustment Computations, chapter 6): the mark stays where the plan says.
 */
import type { Arrangement, LaidCovering, Standing } from "../arrange/model.ts";
import { listed } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { sees, segmentsMeet } from "../measure/outline.ts";
import { boundsOf, middleOf, placed } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { varianceOf } from "../solve/least-squares.ts";
import { CROSSES_ALIKE, TOUCH } from "../tolerances.ts";
import type { Mark, SetOut } from "./model.ts";

const known = new WeakMap<Arrangement, SetOut | undefined>();

/** The marks of a room; undefined where it has no shape or nothing to mark. Worked out once for each arrangement value. */
export function setOutOf(arrangement: Arrangement): SetOut | undefined {
  if (!known.has(arrangement)) known.set(arrangement, drawSetOut(arrangement));
  return known.get(arrangement);
}

/** How many marks a room's things call for, whether or not its corners are known yet. */
export function countMarks(arrangement: Arrangement): number {
  return spotsOf(arrangement).length;
}

function drawSetOut(arrangement: Arrangement): SetOut | undefined {
  const { room } = arrangement;
  const spots = spotsOf(arrangement);
  if (room.corners.length < 3 || spots.length === 0) return undefined;
  const [first, second] = bestCorners(
    room,
    spots.map(({ at }) => at),
  );
  const [a, b] = [room.corners[first]!, room.corners[second]!];
  return {
    room: room.room.id,
    from: [a.id, b.id],
    names: [a.name, b.name],
    marks: spots.map((one, index): Mark => ({
      ...one,
      number: index + 1,
      tapes: [distance(a, one.at), distance(b, one.at)],
      doubts: [tapeDoubt(room, first, one.at), tapeDoubt(room, second, one.at)],
      crossing: crossingAt(one.at, a, b),
    })),
  };
}

/** Angle at which arcs about two corners cross at a point, 0 to 90 degrees; 90 at a corner itself, which needs no arc. */
export function crossingAt(at: Point, a: Point, b: Point): number {
  const [toA, toB] = [distance(a, at), distance(b, at)];
  if (toA < TOUCH || toB < TOUCH) return 90;
  const sine = Math.abs((a.x - at.x) * (b.y - at.y) - (a.y - at.y) * (b.x - at.x));
  const cosine = Math.abs((a.x - at.x) * (b.x - at.x) + (a.y - at.y) * (b.y - at.y));
  return (Math.atan2(sine, cosine) * 180) / Math.PI;
}

/** One standard deviation of the distance from a corner (by index) to a point fixed in the room's axes, mm. */
export function tapeDoubt(room: TrueRoom, corner: number, at: Point): number {
  const from = room.corners[corner];
  if (!from) throw new Error(`room ${room.room.id} has no corner ${corner}`);
  const length = distance(from, at);
  if (length < TOUCH) return Math.hypot(from.sdX, from.sdY);
  const slopes = [(from.x - at.x) / length, (from.y - at.y) / length];
  return Math.sqrt(varianceOf(room.covariance, { at: [2 * corner, 2 * corner + 1], slopes }));
}

/**
 * The two corners (indices) the tapes are held at: first those from which the most marks are seen over the floor,
 * then those with the best worst crossing, then the longest base, then as they are named. Throws for fewer than two.
 */
export function bestCorners(room: TrueRoom, marks: readonly Point[]): readonly [number, number] {
  const { corners } = room;
  const seen = sightOf(room, marks);
  let best: Pair | undefined;
  for (let first = 0; first < corners.length; first++)
    for (let second = first + 1; second < corners.length; second++) {
      if (!sees(corners, first, second)) continue;
      const pair = pairOf({ corners, seen, marks, first, second });
      if (!best || isBetter(pair, best)) best = pair;
    }
  if (best) return [best.first, best.second];
  if (corners.length < 2) throw new Error(`room ${room.room.id} has ${corners.length} corners`);
  return [0, 1];
}

interface Pair {
  readonly first: number;
  readonly second: number;
  readonly hidden: number;
  readonly worst: number;
  readonly base: number;
}

interface PairWish {
  readonly corners: readonly Point[];
  readonly seen: readonly (readonly boolean[])[];
  readonly marks: readonly Point[];
  readonly first: number;
  readonly second: number;
}

function pairOf({ corners, seen, marks, first, second }: PairWish): Pair {
  const [a, b] = [corners[first]!, corners[second]!];
  let [hidden, worst] = [0, 90];
  marks.forEach((mark, index) => {
    if (!seen[first]![index] || !seen[second]![index]) hidden += 1;
    else worst = Math.min(worst, crossingAt(mark, a, b));
  });
  return { first, second, hidden, worst, base: distance(a, b) };
}

function isBetter(pair: Pair, than: Pair): boolean {
  if (pair.hidden !== than.hidden) return pair.hidden < than.hidden;
  if (Math.abs(pair.worst - than.worst) >= CROSSES_ALIKE) return pair.worst > than.worst;
  return pair.base > than.base + TOUCH;
}

/** For every corner, which marks a tape reaches straight over the floor. In a room without a corner turned outward, all. */
function sightOf(room: TrueRoom, marks: readonly Point[]): readonly (readonly boolean[])[] {
  const { corners } = room;
  const turned = corners.some(({ angle }) => angle > 180);
  return corners.map((corner, index) =>
    marks.map((mark) => !turned || reaches(corners, index, pulledIn(mark, corner))),
  );
}

/** A hair short of the mark, so that one on a wall is not hidden by that wall. */
function pulledIn(mark: Point, corner: Point): Point {
  const length = distance(mark, corner);
  const part = length > TOUCH ? TOUCH / length : 0;
  return { x: mark.x + (corner.x - mark.x) * part, y: mark.y + (corner.y - mark.y) * part };
}

function reaches(corners: readonly Point[], corner: number, mark: Point): boolean {
  const from = corners[corner]!;
  return corners.every((start, wall) => {
    const next = (wall + 1) % corners.length;
    return wall === corner || next === corner || !segmentsMeet(from, mark, start, corners[next]!);
  });
}

type Spot = Pick<Mark, "id" | "name" | "record" | "at">;

/** Where marks go: floor coverings by their corners, then what stands, then what hangs, each in listed order. */
function spotsOf({ coverings, standing }: Arrangement): readonly Spot[] {
  const onFloor = standing
    .filter(({ placement }) => placement.on === undefined)
    .toSorted(
      (a, b) =>
        Number(hangs(a)) - Number(hangs(b)) ||
        a.piece.order - b.piece.order ||
        a.placement.number - b.placement.number ||
        (a.placement.id < b.placement.id ? -1 : 1),
    );
  const byId = new Map(coverings.map((laid) => [laid.covering.id, laid]));
  const laid = listed(Object.fromEntries(coverings.map(({ covering }) => [covering.id, covering])));
  return [...laid.flatMap(({ id }) => coveringSpots(byId.get(id)!)), ...onFloor.flatMap(standingSpots)];
}

/** Whether a copy hangs: said to, or said with its underside above the floor. */
export function hangs({ placement, piece }: Standing): boolean {
  return placement.on === undefined && (piece.layer === "hung" || placement.up > 0);
}

/** The four corners, named as one faces its front. */
function coveringSpots({ covering }: LaidCovering): readonly Spot[] {
  const { width, depth } = covering;
  return [
    spot(covering, "front left", { x: -width / 2, y: -depth / 2 }),
    spot(covering, "front right", { x: width / 2, y: -depth / 2 }),
    spot(covering, "back right", { x: width / 2, y: depth / 2 }),
    spot(covering, "back left", { x: -width / 2, y: depth / 2 }),
  ];
}

/** The two front corners of the box round it; the middle of what is round, of what hangs, and of what has no size yet. */
function standingSpots(standing: Standing): readonly Spot[] {
  const { placement, name, blocks, outline } = standing;
  const stand = { ...placement, name };
  const round = blocks.every((block) => block.round !== undefined);
  if (blocks.length === 0) return [spot(stand, "middle", { x: 0, y: 0 })];
  const { left, right, bottom, top } = boundsOf(ownFrame(outline.flat(), placement));
  if (hangs(standing) || round)
    return [
      spot(
        stand,
        "middle",
        middleOf([
          { x: left, y: bottom },
          { x: right, y: top },
        ]),
      ),
    ];
  return [
    spot(stand, "front left", { x: left, y: bottom }),
    spot(stand, "front right", { x: right, y: bottom }),
  ];
}

interface Stood extends Point {
  readonly id: string;
  readonly name: string;
  readonly turn: number;
}

function spot(stand: Stood, part: string, at: Point): Spot {
  return {
    id: `${stand.id}~${part.replace(" ", "-")}`,
    name: `${stand.name}, ${part}`,
    record: stand.id,
    at: placed([at], stand)[0]!,
  };
}

/** Points of the room in the frame of what stands there. */
function ownFrame(points: readonly Point[], { x, y, turn }: Omit<Stood, "id" | "name">): readonly Point[] {
  return placed(
    points.map((point) => ({ x: point.x - x, y: point.y - y })),
    { x: 0, y: 0, turn: -turn },
  );
}

function distance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
