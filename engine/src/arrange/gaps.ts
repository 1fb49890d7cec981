/** Gaps between obstacles: all of them below a reach, kept sorted, and only those of what changed worked out again. */
import type { TrueRoom } from "../measure/model.ts";
import { narrowerThan, type Stretch } from "../plane/facing.ts";
import { eachNearPair } from "../plane/pairs.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, nearest, reach } from "../plane/rounded.ts";
import { varianceOf } from "../solve/least-squares.ts";
import { GAP_LIMIT, SURE, TOUCH } from "../tolerances.ts";
import type { Gap } from "./model.ts";
import type { Obstacle, RingPart, Thing } from "./obstacles.ts";

/** Two obstacles and their nearest points. `joint`: neighbours in the ring of walls, which always touch. */
export interface Edge {
  readonly a: Obstacle;
  readonly b: Obstacle;
  readonly width: number;
  readonly from: Point;
  readonly to: Point;
  readonly joint: boolean;
  /** The door or open side whose own width this gap is: no gap while that stands open. */
  readonly doorway?: string;
}

/** All gaps below the reach, narrowest first, and the same in two parts while few things move. */
export interface Gaps {
  readonly all: readonly Edge[];
  /** Gaps between what stays where it is: the very same list for as long as it does. Without a history, all. */
  readonly settled: readonly Edge[];
  /** Gaps of what moves. */
  readonly loose: readonly Edge[];
}

/** Few enough changed things to be held against all others one by one. */
const FEW = 8;

interface Base {
  readonly things: ReadonlySet<Thing>;
  readonly edges: readonly Edge[];
}

/**
 * Finds the gaps of a room's things, remembering those between things that are the very same as last time.
 * Undefined where there are too many gaps to tell.
 */
export function createGaps(): (
  things: readonly Thing[],
  ring: readonly RingPart[],
  within: number,
) => Gaps | undefined {
  let settled: Base | undefined;
  let last: Base | undefined;
  let lastRing: readonly RingPart[] = [];
  let lastWithin = 0;
  return (things, ring, within) => {
    const now = new Set(things);
    if (within !== lastWithin || ring !== lastRing) settled = last = undefined;
    [lastRing, lastWithin] = [ring, within];
    if (!settled || !staysIn(settled, now)) settled = last && unmovedOf(last, now);
    const gaps = settled ? around(settled, things, within) : anew(things, ring, within);
    last = gaps && { things: now, edges: gaps.all };
    return gaps;
  };
}

function staysIn({ things }: Base, now: ReadonlySet<Thing>): boolean {
  if (now.size - things.size > FEW) return false;
  for (const thing of things) if (!now.has(thing)) return false;
  return true;
}

/** What has not changed since last time, where that is nearly all. */
function unmovedOf({ things, edges }: Base, now: ReadonlySet<Thing>): Base | undefined {
  const gone = [...things].filter((thing) => !now.has(thing));
  if (gone.length > FEW || now.size - things.size + gone.length > FEW) return undefined;
  const without = new Set(gone.flatMap(({ obstacles }) => obstacles));
  return {
    things: new Set([...things].filter((thing) => now.has(thing))),
    edges: edges.filter(({ a, b }) => !without.has(a) && !without.has(b)),
  };
}

function around(settled: Base, things: readonly Thing[], within: number): Gaps {
  const added = things.filter((thing) => !settled.things.has(thing));
  const loose = edgesOf(things, added, within);
  return { all: merged(settled.edges, loose), settled: settled.edges, loose };
}

function anew(things: readonly Thing[], ring: readonly RingPart[], within: number): Gaps | undefined {
  const found = allEdges(things, within);
  if (!found) return undefined;
  const all = [...joints(ring), ...found].toSorted(inOrder);
  return { all, settled: all, loose: [] };
}

function joints(ring: readonly RingPart[]): readonly Edge[] {
  return ring.map(({ obstacle, end }, index) => {
    const next = ring[(index + 1) % ring.length]!;
    return { a: obstacle, b: next.obstacle, width: 0, from: end, to: next.start, joint: true };
  });
}

function edgesOf(things: readonly Thing[], added: readonly Thing[], within: number): readonly Edge[] {
  const found: Edge[] = [];
  const fresh = new Set(added);
  const newcomers = added.flatMap((thing) => thing.obstacles);
  const settled = things.filter((thing) => !fresh.has(thing));
  newcomers.forEach((a, index) => {
    for (const thing of settled) for (const b of thing.obstacles) pushEdge(found, a, b, within);
    for (const b of newcomers.slice(index + 1)) pushEdge(found, a, b, within);
  });
  return found.toSorted(inOrder);
}

function allEdges(things: readonly Thing[], within: number): readonly Edge[] | undefined {
  const obstacles = things.flatMap((thing) => thing.obstacles);
  const found: Edge[] = [];
  eachNearPair(
    obstacles.map((obstacle) => obstacle.shape.bounds),
    within,
    (i, j) => {
      pushEdge(found, obstacles[i]!, obstacles[j]!, within);
      return found.length <= GAP_LIMIT;
    },
  );
  return found.length > GAP_LIMIT ? undefined : found;
}

/** Narrowest first; names and places settle ties, so that the order never depends on what was looked at first. */
export function inOrder(p: Edge, q: Edge): number {
  if (p.width !== q.width) return p.width - q.width;
  if (p.joint !== q.joint) return p.joint ? -1 : 1;
  return compare(p.a, q.a) || compare(p.b, q.b) || comparePlaces(p.from, q.from) || comparePlaces(p.to, q.to);
}

/** What can be moved goes before walls, else by id, and parts of one thing by where they are. */
function compare(p: Obstacle, q: Obstacle): number {
  if ((p.wall === undefined) !== (q.wall === undefined)) return p.wall === undefined ? -1 : 1;
  return p.id < q.id ? -1 : p.id > q.id ? 1 : comparePlaces(p.heart, q.heart);
}

function comparePlaces(p: Point, q: Point): number {
  return p.x - q.x || p.y - q.y;
}

function pushEdge(list: Edge[], one: Obstacle, other: Obstacle, within: number): void {
  if (boundsGap(one.shape.bounds, other.shape.bounds) >= within) return;
  const [a, b] = compare(one, other) <= 0 ? [one, other] : [other, one];
  const { width, a: from, b: to } = nearest(a.shape, b.shape);
  if (width >= within) return;
  const doorway = doorwayOf(a, b, from, to);
  list.push(
    doorway === undefined
      ? { a, b, width, from, to, joint: false }
      : { a, b, width, from, to, joint: false, doorway },
  );
}

/** The door whose two jambs a gap runs between. */
function doorwayOf(a: Obstacle, b: Obstacle, from: Point, to: Point): string | undefined {
  if (!a.jambs || !b.jambs) return undefined;
  return a.jambs.find(
    (one) =>
      samePlace(one.at, from) &&
      b.jambs!.some((other) => other.entry === one.entry && samePlace(other.at, to)),
  )?.entry;
}

/** Two sorted lists as one. */
function merged(p: readonly Edge[], q: readonly Edge[]): readonly Edge[] {
  if (q.length === 0) return p;
  const all: Edge[] = [];
  let [i, j] = [0, 0];
  while (i < p.length || j < q.length) {
    const takeFirst = j >= q.length || (i < p.length && inOrder(p[i]!, q[j]!) <= 0);
    all.push(takeFirst ? p[i++]! : q[j++]!);
  }
  return all;
}

function samePlace(p: Point, q: Point): boolean {
  return Math.hypot(p.x - q.x, p.y - q.y) < TOUCH;
}

/** What a gap needs to know of the room round it. `clear` is the width the place asks, mm. */
export interface GapScene {
  readonly room: TrueRoom;
  readonly gaps: Pick<Gaps, "settled" | "loose">;
  readonly clear: number;
}

interface Remembered {
  readonly room: TrueRoom;
  readonly clear: number;
  readonly settled: readonly Edge[];
  /** Gaps beside it, those that stay and those that move. */
  readonly stays: readonly Edge[];
  readonly moves: readonly Edge[];
  readonly gap: Gap;
}

const remembered = new WeakMap<Edge, Remembered>();

/** The gap of an edge with its doubt and its run; the very same value while nothing it rests on changed. */
export function gapOf(edge: Edge, { room, gaps, clear }: GapScene): Gap {
  const { a, b, from, to, width } = edge;
  const last = remembered.get(edge);
  const known = last?.room === room && last.clear === clear ? last : undefined;
  const doubt = known?.gap.doubt ?? doubtOf(edge, room);
  // What may be narrow for all that is known counts as narrow, or a long way just wide enough would pass as short.
  const asked = clear + SURE * doubt;
  const { settled, loose } = gaps;
  const stays = known?.settled === settled ? known.stays : besideOf(edge, settled, asked);
  const moves = besideOf(edge, loose, asked);
  const same = known && sameList(known.stays, stays) && sameList(known.moves, moves);
  const names = { a: a.id, b: b.id, aName: a.name, bName: b.name };
  const run = same ? known.gap.run : runOf(edge, [...stays, ...moves], asked);
  const gap = same ? known.gap : { ...names, at: [from, to] as const, width, doubt, run };
  remembered.set(edge, { room, clear, settled, stays, moves, gap });
  return gap;
}

function sameList(p: readonly unknown[], q: readonly unknown[]): boolean {
  return p.length === q.length && p.every((one, index) => one === q[index]);
}

type Pair = Omit<Edge, "joint" | "doorway">;

/**
 * One standard deviation of a width, mm. What stands on the plan is where it was put; what belongs to a wall
 * moves with the wall's two corners, in the shares at which the near point lies between them.
 */
export function doubtOf({ a, b, from, to, width }: Pair, room: TrueRoom): number {
  if (width === 0 || (a.wall === undefined && b.wall === undefined)) return 0;
  const across = { x: (to.x - from.x) / width, y: (to.y - from.y) / width };
  const at: number[] = [];
  const slopes: number[] = [];
  const moves = (wall: number | undefined, near: Point, sign: 1 | -1): void => {
    if (wall === undefined) return;
    const next = (wall + 1) % room.corners.length;
    const share = shareAlong(room, wall, near);
    for (const [corner, part] of [[wall, 1 - share] as const, [next, share] as const]) {
      at.push(2 * corner, 2 * corner + 1);
      slopes.push(sign * part * across.x, sign * part * across.y);
    }
  };
  moves(a.wall, from, -1);
  moves(b.wall, to, 1);
  return Math.sqrt(varianceOf(room.covariance, { at, slopes }));
}

function shareAlong({ corners }: TrueRoom, wall: number, near: Point): number {
  const [p, q] = [corners[wall]!, corners[(wall + 1) % corners.length]!];
  const squared = (q.x - p.x) ** 2 + (q.y - p.y) ** 2;
  if (squared === 0) return 0.5;
  const share = ((near.x - p.x) * (q.x - p.x) + (near.y - p.y) * (q.y - p.y)) / squared;
  return Math.min(1, Math.max(0, share));
}

/** Gaps narrower than the place asks whose near points lie either side of the middle line through a pinch. */
function besideOf(pinch: Pair, edges: readonly Edge[], clear: number): readonly Edge[] {
  if (pinch.width >= clear || pinch.width === 0) return [];
  const { across, middle } = lineThrough(pinch);
  const found: Edge[] = [];
  for (const edge of edges) {
    if (edge.width >= clear) break;
    const from = across.x * edge.from.x + across.y * edge.from.y - middle;
    const to = across.x * edge.to.x + across.y * edge.to.y - middle;
    if (from * to <= 0) found.push(edge);
  }
  return found;
}

function lineThrough({ from, to, width }: Pair): { readonly across: Point; readonly middle: number } {
  const across = { x: (to.x - from.x) / width, y: (to.y - from.y) / width };
  return { across, middle: (across.x * (from.x + to.x) + across.y * (from.y + to.y)) / 2 };
}

/**
 * For how long the way through a gap is narrower than the place asks, mm: obstacles either side of the line
 * through the middle of the gap, every facing pair of them narrow over one stretch, and the stretches that hang
 * together with the pinch. 0 where the gap is wide enough; an obstacle that stands across the line ends the way.
 */
function runOf(pinch: Pair, beside: readonly Edge[], clear: number): number {
  if (beside.length === 0) return 0;
  const { across, middle } = lineThrough(pinch);
  const place = across.x * pinch.from.y - across.y * pinch.from.x;
  const stretches: Stretch[] = [];
  for (const { a, b } of beside) {
    const [low, high] = sides(a, b, across, middle);
    if (!low || !high) continue;
    const stretch = narrowerThan(low.shape, high.shape, across, clear - TOUCH);
    if (stretch) stretches.push(stretch);
  }
  return stretchAround(stretches, place);
}

/** The two obstacles in order across the middle line, or nothing where they do not lie on both sides of it. */
function sides(a: Obstacle, b: Obstacle, across: Point, middle: number): readonly [Obstacle?, Obstacle?] {
  const [lowA, highA] = reach(a.shape, across);
  const [lowB, highB] = reach(b.shape, across);
  if (highA <= middle && lowB >= middle) return [a, b];
  if (highB <= middle && lowA >= middle) return [b, a];
  return [];
}

/** Length of the union's connected part that holds a place. */
function stretchAround(stretches: readonly Stretch[], place: number): number {
  let [from, to] = [Infinity, -Infinity];
  for (const [low, high] of stretches.toSorted((p, q) => p[0] - q[0])) {
    if (low > to + TOUCH) {
      if (to >= place - TOUCH) break;
      from = low;
    }
    to = Math.max(to, high);
  }
  return to >= place - TOUCH && from <= place + TOUCH ? to - from : 0;
}
