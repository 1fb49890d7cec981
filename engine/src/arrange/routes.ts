/**
 * The widest way for a disc between two places, exactly and without a grid. A disc of width w is stopped when
 * obstacles whose gaps are all narrower than w close round one of the places. So gaps are taken from the
 * narrowest up, and obstacles joined across them; each joint carries whether the straight path over it (heart to
 * near point to near point to heart) crosses the line from start to goal an odd number of times. The first joint
 * that closes an odd ring is the pinch: that ring has the goal inside it and the start outside, or the reverse.
 * Obstacles are convex, so a joint has one way round only and the answer is exact. Sources: widest-path duality
 * in the plane (minimum cut by shortest odd ring; J. Reif, 1983); union-find with parity is textbook.
 *
 * While few things move, most gaps stay. Of those, a question needs only the ones that joined two obstacles and
 * the one that closed its first odd ring: a gap that closes an even ring says nothing that the earlier ones do not
 * say, whatever else is joined. They are kept with the question, and the gaps of what moves are woven in.
 *
 *     start ●━━━━━━━━━━┿━━━━━━━● goal       ┿: the ring of gaps a-b-c crosses the line once
 *                  a ╌╌┘╌╌ b
 */
import type { Point } from "../plane/point.ts";
import { side } from "../plane/side.ts";
import { inOrder, type Edge, type Gaps } from "./gaps.ts";
import type { Obstacle } from "./obstacles.ts";

/** Asks for the way between two places. */
export interface WayAsked {
  readonly from: Point;
  readonly to: Point;
  /** Ids of doors and open sides that stand open here. */
  readonly open: ReadonlySet<string>;
}

/** The pinch of a way, "wide" where none of the gaps pinches it, "shut" where walls alone part the places. */
export type Pinch = Edge | "wide" | "shut";

/** Answers questions over a room's gaps; quick where the very same question was asked over the same settled gaps. */
export function createWays({ settled, loose }: Omit<Gaps, "all">): (asked: WayAsked) => Pinch {
  const base = bases.get(settled) ?? { net: netOf(settled), questions: new WeakMap() };
  bases.set(settled, base);
  if (loose.length === 0) return (asked) => pinchAlone(base, prepared(base, asked));
  const weave = weaveOf(base, loose);
  return (asked) => woven(weave, asked, prepared(base, asked));
}

/** What stays, and the questions asked of it. */
interface Base {
  readonly net: Net;
  readonly questions: WeakMap<WayAsked, Prepared>;
}

/** The gaps of a question that count, each as twice its index plus its oddness; the last closes a ring or not. */
interface Prepared {
  readonly kept: Int32Array;
  readonly closes: boolean;
}

const bases = new WeakMap<readonly Edge[], Base>();

function prepared(base: Base, asked: WayAsked): Prepared {
  const known = base.questions.get(asked) ?? prepare(base.net, asked);
  base.questions.set(asked, known);
  return known;
}

function prepare(net: Net, asked: WayAsked): Prepared {
  const rings = ringsOf(net.obstacles.length);
  const sight = sightOf(net, asked);
  const kept: number[] = [];
  for (let index = 0; index < net.edges.length; index++) {
    const odd = oddnessOf(net, sight, index);
    if (odd === IDLE) continue;
    const joined = rings.join(net.first[index]!, net.second[index]!, odd);
    if (joined === EVEN_RING) continue;
    kept.push(2 * index + odd);
    if (joined === ODD_RING) return { kept: Int32Array.from(kept), closes: true };
  }
  return { kept: Int32Array.from(kept), closes: false };
}

function pinchAlone({ net }: Base, { kept, closes }: Prepared): Pinch {
  return closes ? pinchAt(net, kept.at(-1)! >> 1) : "wide";
}

function pinchAt({ edges }: Pick<Net, "edges">, index: number): Pinch {
  const edge = edges[index]!;
  return edge.joint ? "shut" : edge;
}

interface Weave {
  readonly base: Base;
  readonly moving: Net;
  /** Numbers of the moving gaps' obstacles among the settled ones; those that move come after these. */
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** How many settled gaps are narrower than each moving one. */
  readonly ranks: Int32Array;
  readonly rings: Rings;
}

function weaveOf(base: Base, loose: readonly Edge[]): Weave {
  const moving = netOf(loose);
  const { indexOf, obstacles } = base.net;
  let count = obstacles.length;
  const numbers = moving.obstacles.map((obstacle) => indexOf.get(obstacle) ?? count++);
  return {
    base,
    moving,
    first: moving.first.map((index) => numbers[index]!),
    second: moving.second.map((index) => numbers[index]!),
    ranks: ranksOf(base.net.edges, loose),
    rings: ringsOf(count),
  };
}

/** The pinch where kept gaps and moving ones are joined in one order. */
function woven(weave: Weave, asked: WayAsked, { kept, closes }: Prepared): Pinch {
  const { base, moving, first, second, ranks, rings } = weave;
  const { net } = base;
  const last = kept.length === 0 || !closes ? Infinity : kept.at(-1)! >> 1;
  if (ranks[0]! > last) return pinchAlone(base, { kept, closes });
  const sight = sightOf(moving, asked);
  rings.clear();
  let next = 0;
  for (let index = 0; index <= ranks.length; index++) {
    const until = index < ranks.length ? 2 * ranks[index]! : Infinity;
    for (; next < kept.length && kept[next]! < until; next++) {
      const [at, odd] = [kept[next]! >> 1, (kept[next]! & 1) as 0 | 1];
      if (rings.join(net.first[at]!, net.second[at]!, odd) === ODD_RING) return pinchAt(net, at);
    }
    if (index === ranks.length) break;
    const odd = oddnessOf(moving, sight, index);
    if (odd === IDLE) continue;
    if (rings.join(first[index]!, second[index]!, odd) === ODD_RING) return pinchAt(moving, index);
  }
  return "wide";
}

function ranksOf(settled: readonly Edge[], loose: readonly Edge[]): Int32Array {
  return Int32Array.from(loose, (edge) => {
    let [low, high] = [0, settled.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (inOrder(settled[middle]!, edge) <= 0) low = middle + 1;
      else high = middle;
    }
    return low;
  });
}

/** Gaps with their obstacles by number and their near points in one row: asked of by every question. */
interface Net {
  readonly edges: readonly Edge[];
  readonly obstacles: readonly Obstacle[];
  readonly indexOf: ReadonlyMap<Obstacle, number>;
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** x, y, x, y of every gap. */
  readonly places: Float64Array;
}

function netOf(edges: readonly Edge[]): Net {
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
  const places = new Float64Array(4 * edges.length);
  edges.forEach(({ from, to }, index) => {
    places[4 * index] = from.x;
    places[4 * index + 1] = from.y;
    places[4 * index + 2] = to.x;
    places[4 * index + 3] = to.y;
  });
  return { edges, obstacles, indexOf, first, second, places };
}

/** A question seen from every obstacle: whether it is away, and on which side of the line its heart lies. */
interface Sight {
  readonly asked: WayAsked;
  readonly away: Uint8Array;
  readonly hearts: Int8Array;
}

function sightOf({ obstacles }: Net, asked: WayAsked): Sight {
  const away = new Uint8Array(obstacles.length);
  const hearts = new Int8Array(obstacles.length);
  for (let index = 0; index < obstacles.length; index++) {
    const { entry, heart } = obstacles[index]!;
    away[index] = entry !== undefined && asked.open.has(entry) ? 1 : 0;
    hearts[index] = side(asked.from, asked.to, heart);
  }
  return { asked, away, hearts };
}

/** Whether the path over a gap crosses the line an odd number of times; IDLE where the gap is none here. */
function oddnessOf(net: Net, { asked, away, hearts }: Sight, index: number): 0 | 1 | typeof IDLE {
  const edge = net.edges[index]!;
  const [a, b] = [net.first[index]!, net.second[index]!];
  // An open door is no obstacle, but the ring of walls still closes behind whoever stands in it.
  if ((away[a] !== 0 || away[b] !== 0) && !edge.joint) return IDLE;
  if (edge.doorway !== undefined && asked.open.has(edge.doorway)) return IDLE;
  const near = sideOf(asked, net.places, 4 * index);
  const far = sideOf(asked, net.places, 4 * index + 2);
  const heartA = hearts[a]! >= 0;
  const heartB = hearts[b]! >= 0;
  let odd = 0;
  // Points on the line count as left of it: the same for every path through them, so rings stay even or odd.
  if (heartA !== near >= 0) odd ^= parts(asked, edge.a.heart, edge.from);
  if (near >= 0 !== far >= 0) odd ^= parts(asked, edge.from, edge.to);
  if (far >= 0 !== heartB) odd ^= parts(asked, edge.to, edge.b.heart);
  return odd as 0 | 1;
}

const IDLE = 2;
type Line = Pick<WayAsked, "from" | "to">;

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

/** Whether a path that crosses the line's whole length crosses it between start and goal. */
function parts(line: Line, from: Point, to: Point): 0 | 1 {
  return side(from, to, line.from) >= 0 === side(from, to, line.to) >= 0 ? 0 : 1;
}

/** What joining two obstacles found: they were apart, or already joined by a path as even or odd as this one or not. */
const JOINED = 0;
const EVEN_RING = 1;
const ODD_RING = 2;

interface Rings {
  readonly clear: () => void;
  readonly join: (a: number, b: number, odd: 0 | 1) => typeof JOINED | typeof EVEN_RING | typeof ODD_RING;
}

/** Union-find that keeps for every member whether its path to the root is odd. */
function ringsOf(count: number): Rings {
  const alone = Int32Array.from({ length: count }, (_, member) => member);
  const parent = alone.slice();
  const parity = new Uint8Array(count);
  const size = new Int32Array(count).fill(1);
  const rootOf = (member: number): number => {
    let root = member;
    let odd = 0;
    while (parent[root] !== root) {
      odd ^= parity[root]!;
      root = parent[root]!;
    }
    // Every member on the way now hangs from the root itself.
    for (let at = member; at !== root;) {
      const next = parent[at]!;
      const own = parity[at]!;
      parent[at] = root;
      parity[at] = odd;
      odd ^= own;
      at = next;
    }
    return root;
  };
  return {
    clear: () => {
      parent.set(alone);
      parity.fill(0);
      size.fill(1);
    },
    join: (a, b, odd) => {
      const rootA = rootOf(a);
      const rootB = rootOf(b);
      const whole = parity[a]! ^ parity[b]! ^ odd;
      if (rootA === rootB) return whole === 1 ? ODD_RING : EVEN_RING;
      const joins = size[rootA]! < size[rootB]!;
      const small = joins ? rootA : rootB;
      const large = joins ? rootB : rootA;
      parent[small] = large;
      parity[small] = whole;
      size[large] = size[large]! + size[small]!;
      return JOINED;
    },
  };
}
