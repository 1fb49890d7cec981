/**
 * The floor a disc can stand on, by growing every obstacle by half its width and taking that from the room, all
 * in one boolean operation of the clipping library. Shares no code with the ways it validates: no gaps, no rings
 * of obstacles, only areas. Doors are lengthened outward a little, so that someone may stand in them.
 */
import { Clipper64, ClipType, EndType, FillRule, inflatePaths, JoinType, type Paths64 } from "clipper2-ts";

export type Ring = readonly (readonly [number, number])[];

export interface Floor {
  /** The room with its open passages, in any number of overlapping rings. */
  readonly rooms: readonly Ring[];
  /** Everything that must not be touched: closed walls as thin rings, pieces. */
  readonly obstacles: readonly Ring[];
}

const MICRO = 1000;

export type Answer = "passes" | "stopped" | "cannot stand";

/** Whether a disc of a width can move from one point to another without touching an obstacle, or stand there at all. */
export function discPasses(floor: Floor, width: number, ends: readonly [Ring[number], Ring[number]]): Answer {
  const free = difference(union(floor.rooms), grown(floor.obstacles, width / 2));
  const [start, end] = ends.map((point) => componentOf(free, point));
  if (start === undefined || end === undefined) return "cannot stand";
  return start === end ? "passes" : "stopped";
}

/**
 * Whether a disc of a width can move from a point until it touches one of the targets, a millimetre more or less.
 * The targets are obstacles of the floor like all others.
 */
export function discTouches(
  floor: Floor,
  width: number,
  [from, targets]: readonly [Ring[number], readonly Ring[]],
): Answer {
  const free = difference(union(floor.rooms), grown(floor.obstacles, width / 2));
  const start = componentOf(free, from);
  if (start === undefined) return "cannot stand";
  const near = run(ClipType.Intersection, free, grown(targets, width / 2 + 1));
  const touches = near.some((path) => {
    const inside = insideOf(path);
    return inside !== undefined && componentOf(free, inside) === start;
  });
  return touches ? "passes" : "stopped";
}

/** Whether two rings have area in common. */
export function ringsMeet(one: Ring, other: Ring): boolean {
  return run(ClipType.Intersection, union([one]), union([other])).length > 0;
}

/** A point inside a ring, mm: the middle of a corner and its neighbours that lies in it. */
function insideOf(path: Paths64[number]): Ring[number] | undefined {
  const count = path.length;
  for (let i = 0; i < count; i++) {
    const [p, q, r] = [path[i]!, path[(i + 1) % count]!, path[(i + 2) % count]!];
    const [x, y] = [(p.x + q.x + r.x) / 3, (p.y + q.y + r.y) / 3];
    if (holds(path, x, y)) return [x / MICRO, y / MICRO];
  }
  return undefined;
}

function grid(rings: readonly Ring[]): Paths64 {
  return rings.map((ring) => ring.map(([x, y]) => ({ x: Math.round(x * MICRO), y: Math.round(y * MICRO) })));
}

function run(how: ClipType, subject: Paths64, clip: Paths64): Paths64 {
  const clipper = new Clipper64();
  clipper.addSubject(subject);
  if (clip.length > 0) clipper.addClip(clip);
  const solution: Paths64 = [];
  clipper.execute(how, FillRule.NonZero, solution);
  return solution;
}

/** Rings may run either way; each is filled. */
function union(rings: readonly Ring[]): Paths64 {
  return run(ClipType.Union, grid(rings).map(leftTurning), []);
}

function leftTurning(path: Paths64[number]): Paths64[number] {
  return doubled(path) < 0 ? path.toReversed() : path;
}

function doubled(path: Paths64[number]): number {
  return path.reduce((sum, p, i) => {
    const q = path[(i + 1) % path.length]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);
}

function grown(rings: readonly Ring[], by: number): Paths64 {
  return run(
    ClipType.Union,
    grid(rings).flatMap((ring) =>
      inflatePaths([leftTurning(ring)], by * MICRO, JoinType.Round, EndType.Polygon, 2, 20),
    ),
    [],
  );
}

function difference(subject: Paths64, clip: Paths64): Paths64 {
  return run(ClipType.Difference, subject, clip);
}

/** The smallest outer ring around a point that no hole takes it out of: the part of the floor it lies in. */
function componentOf(free: Paths64, [x, y]: readonly [number, number]): number | undefined {
  const around = free
    .map((path, index) => ({ index, area: doubled(path), holds: holds(path, x * MICRO, y * MICRO) }))
    .filter(({ holds: inside }) => inside)
    .toSorted((a, b) => Math.abs(a.area) - Math.abs(b.area));
  const closest = around[0];
  return closest && closest.area > 0 ? closest.index : undefined;
}

function holds(path: Paths64[number], x: number, y: number): boolean {
  let inside = false;
  path.forEach((p, i) => {
    const q = path[(i + 1) % path.length]!;
    if (p.y > y !== q.y > y && x < p.x + ((y - p.y) * (q.x - p.x)) / (q.y - p.y)) inside = !inside;
  });
  return inside;
}
