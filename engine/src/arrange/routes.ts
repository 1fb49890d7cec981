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
  const indexOf = new Map<Obstacle, number>();
  const obstacles: Obstacle[] = [];
  const number = (obstacle: Obstacle): number => {
    const known = indexOf.get(obstacle);
    if (known !== undefined) return known;
    indexOf.set(obstacle, obstacles.length);
    return obstacles.push(obstacle) - 1;
  };
  const first = Int32Array.from(edges, ({ a }) => number(a));
  const second = Int32Array.from(edges, ({ b }) => number(b));
  const count = obstacles.length;
  const rings = ringsOf(count);
  const away = new Uint8Array(count);
  const sideOfHeart = new Int8Array(count);
  return ({ from, to, goal, open }) => {
    rings.clear();
    away.fill(0);
    obstacles.forEach((obstacle, index) => {
      if (goal.has(obstacle)) away[index] = GONE;
      else if (obstacle.entry !== undefined && open.has(obstacle.entry)) away[index] = OPEN;
      sideOfHeart[index] = side(from, to, obstacle.heart);
    });
    for (let index = 0; index < edges.length; index++) {
      const [a, b] = [first[index]!, second[index]!];
      const lacks = away[a]! | away[b]!;
      const edge = edges[index]!;
      // An open door is no obstacle, but the ring of walls still closes behind whoever stands in it.
      if (lacks !== 0 && (lacks >= GONE || !edge.joint)) continue;
      const odd = crossings(edge, { from, to }, sideOfHeart[a]!, sideOfHeart[b]!);
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

/** How often, modulo 2, the path over a joint crosses the line from start to goal. */
function crossings({ a, b, from, to }: Edge, line: Line, heartA: number, heartB: number): 0 | 1 {
  const near = side(line.from, line.to, from);
  const far = from === to ? near : side(line.from, line.to, to);
  const odd =
    crosses(line, { from: a.heart, to: from }, heartA, near) ^
    crosses(line, { from, to }, near, far) ^
    crosses(line, { from: to, to: b.heart }, far, heartB);
  return odd as 0 | 1;
}

/** Points on the line count as left of it: the same for every path through them, so rings stay even or odd. */
function crosses(line: Line, path: Line, sideFrom: number, sideTo: number): 0 | 1 {
  if (sideFrom >= 0 === sideTo >= 0) return 0;
  return side(path.from, path.to, line.from) >= 0 === side(path.from, path.to, line.to) >= 0 ? 0 : 1;
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
