/**
 * The widest way for a disc between two places, exactly and without a grid. A disc of width w is stopped when
 * obstacles whose gaps are all narrower than w close round one of the places. So gaps are taken from the
 * narrowest up, and obstacles joined across them; each joint carries whether the straight path over it (heart to
 * near point to near point to heart) crosses the line from start to goal an odd number of times. The first joint
 * that closes an odd ring is the pinch: that ring has the goal inside it and the start outside, or the reverse.
 * Obstacles are convex, so a joint has one way round only and the answer is exact. Sources: widest-path duality
 * in the plane (minimum cut by shortest odd ring; J. Reif, 1983); union-find with parity is textbook.
 *
 *     start ●━━━━━━━━━━┿━━━━━━━● goal       ┿: the ring of gaps a-b-c crosses the line once
 *                  a ╌╌┘╌╌ b
 */
import type { Point } from "../plane/point.ts";
import { side } from "../plane/side.ts";
import type { Edge } from "./gaps.ts";
import type { Obstacle } from "./obstacles.ts";

/** Asks for the way between two places, some obstacles taken away. */
export interface WayAsked {
  readonly from: Point;
  readonly to: Point;
  /** Obstacles that are no obstacle here: the goal itself. */
  readonly goal: ReadonlySet<Obstacle>;
  /** Ids of doors and open sides that stand open here. */
  readonly open: ReadonlySet<string>;
}

/** The pinch of a way, "wide" where none of the gaps pinches it, "shut" where walls alone part the places. */
export type Pinch = Edge | "wide" | "shut";

/** Prepares gaps (narrowest first) for many questions. */
export function createWays(edges: readonly Edge[]): (asked: WayAsked) => Pinch {
  const { obstacles, first, second } = numbered(edges);
  const places = placesOf(edges);
  const rings = ringsOf(obstacles.length);
  const away = new Uint8Array(obstacles.length);
  const sideOfHeart = new Int8Array(obstacles.length);
  return ({ from, to, goal, open }) => {
    rings.clear();
    const line = { from, to };
    obstacles.forEach((obstacle, index) => {
      const stands = obstacle.entry === undefined || !open.has(obstacle.entry);
      away[index] = goal.has(obstacle) ? GONE : stands ? 0 : OPEN;
      sideOfHeart[index] = side(from, to, obstacle.heart);
    });
    for (let index = 0; index < edges.length; index++) {
      const [a, b] = [first[index]!, second[index]!];
      const edge = edges[index]!;
      if (away[a] !== 0 || away[b] !== 0) {
        // An open door is no obstacle, but the ring of walls still closes behind whoever stands in it.
        if (away[a] === GONE || away[b] === GONE || !edge.joint) continue;
      }
      if (edge.doorway !== undefined && open.has(edge.doorway)) continue;
      const near = sideOf(line, places, 4 * index);
      const far = sideOf(line, places, 4 * index + 2);
      const odd = crossings(edge, line, [sideOfHeart[a]!, near, far, sideOfHeart[b]!]);
      if (rings.join(a, b, odd)) return edge.joint ? "shut" : edge;
    }
    return "wide";
  };
}

const OPEN = 1;
const GONE = 2;

interface Line {
  readonly from: Point;
  readonly to: Point;
}

function numbered(edges: readonly Edge[]): {
  readonly obstacles: readonly Obstacle[];
  readonly first: Int32Array;
  readonly second: Int32Array;
} {
  const indexOf = new Map<Obstacle, number>();
  const obstacles: Obstacle[] = [];
  const number = (obstacle: Obstacle): number => {
    const known = indexOf.get(obstacle);
    if (known !== undefined) return known;
    indexOf.set(obstacle, obstacles.length);
    return obstacles.push(obstacle) - 1;
  };
  const first = new Int32Array(edges.length);
  const second = new Int32Array(edges.length);
  edges.forEach(({ a, b }, index) => {
    first[index] = number(a);
    second[index] = number(b);
  });
  return { obstacles, first, second };
}

/** Near points of all gaps in one row (x, y, x, y): asked of by every question, so kept where they are read fastest. */
function placesOf(edges: readonly Edge[]): Float64Array {
  const places = new Float64Array(4 * edges.length);
  edges.forEach(({ from, to }, index) => {
    places[4 * index] = from.x;
    places[4 * index + 1] = from.y;
    places[4 * index + 2] = to.x;
    places[4 * index + 3] = to.y;
  });
  return places;
}

/** `side` for a point in the row; only what is too close to call for doubles is asked of `side` itself. */
function sideOf({ from, to }: Line, places: Float64Array, at: number): number {
  const [x, y] = [places[at]!, places[at + 1]!];
  const left = (to.x - from.x) * (y - from.y);
  const right = (to.y - from.y) * (x - from.x);
  const difference = left - right;
  // A thousand times the rounding: crude, and still hardly ever not enough.
  if (Math.abs(difference) > 4e-13 * (Math.abs(left) + Math.abs(right))) return difference;
  return side(from, to, { x, y });
}

/** How often, modulo 2, the path over a joint (heart, near point, near point, heart) crosses the line. */
function crossings(
  { a, b, from, to }: Edge,
  line: Line,
  sides: readonly [number, number, number, number],
): 0 | 1 {
  const [heartA, near, far, heartB] = sides;
  let odd = 0;
  // Points on the line count as left of it: the same for every path through them, so rings stay even or odd.
  if (heartA >= 0 !== near >= 0) odd ^= parts(line, a.heart, from);
  if (near >= 0 !== far >= 0) odd ^= parts(line, from, to);
  if (far >= 0 !== heartB >= 0) odd ^= parts(line, to, b.heart);
  return odd as 0 | 1;
}

/** Whether a path that crosses the line's whole length crosses it between start and goal. */
function parts(line: Line, from: Point, to: Point): 0 | 1 {
  return side(from, to, line.from) >= 0 === side(from, to, line.to) >= 0 ? 0 : 1;
}

/** Union-find that keeps for every member whether its path to the root is odd. */
function ringsOf(count: number): {
  readonly clear: () => void;
  /** Joins two members; true where that closes an odd ring. */
  readonly join: (a: number, b: number, odd: 0 | 1) => boolean;
} {
  const parent = new Int32Array(count);
  const parity = new Uint8Array(count);
  const size = new Int32Array(count);
  const rootOf = (member: number): number => {
    let root = member;
    let odd = 0;
    while (parent[root] !== root) {
      odd ^= parity[root]!;
      root = parent[root]!;
    }
    // Every member on the way now hangs from the root itself.
    for (let at = member; at !== root;) {
      const [next, own] = [parent[at]!, parity[at]!];
      parent[at] = root;
      parity[at] = odd;
      odd ^= own;
      at = next;
    }
    return root;
  };
  return {
    clear: () => {
      for (let i = 0; i < count; i++) parent[i] = i;
      parity.fill(0);
      size.fill(1);
    },
    join: (a, b, odd) => {
      const [rootA, rootB] = [rootOf(a), rootOf(b)];
      const whole = parity[a]! ^ parity[b]! ^ odd;
      if (rootA === rootB) return whole === 1;
      const [small, large] = size[rootA]! < size[rootB]! ? [rootA, rootB] : [rootB, rootA];
      parent[small] = large;
      parity[small] = whole;
      size[large] = size[large]! + size[small]!;
      return false;
    },
  };
}
