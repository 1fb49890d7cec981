/**
 * First shapes of a room from its readings alone, in whatever order they came: corners are placed one by one
 * where circles (distances) and rays (inside angles) from placed corners meet. Two circles meet twice; each way
 * is followed, and the few that misfit the rest least are kept (a beam search). A tape lies inside the room, so
 * of any three corners with all three distances measured, taken in naming order, the triangle turns as the room
 * does: that settles most mirror choices. Corners without enough ties are placed as if square, sketch by sketch.
 * The results only start the adjustment; nothing here decides a figure.
 */
import type { Point } from "../plane/point.ts";
import type { Network, Shape, Tie } from "./network.ts";
import {
  along,
  between,
  byCircles,
  rayMeetsCircle,
  raysMeet,
  settledAmong,
  type Circle,
  type Ray,
} from "./meeting.ts";
import { addedMisfit, type Known } from "./misfit.ts";

/** A shape and how badly it misfits: smaller is better, only good for comparing. */
export interface StartingShape {
  readonly shape: Shape;
  readonly misfit: number;
}

/** A room nobody has measured is drawn this long a side: mm. */
const UNKNOWN_SIDE = 3000;
/** Part-built shapes followed at a time. */
const BEAM = 12;
/** First edges tried. */
const SEEDS = 3;
/** A shape that misfits less than this a tie was spoiled by nothing. */
const FAIR = 0.5;
/** A part that misfits by so much more than the best is followed no further: more than three blunders. */
const HOPELESS = 1500;
/** Two places for a corner nearer than this are one: mm. */
const SAME_PLACE = 20;

interface Part {
  readonly points: (Point | undefined)[];
  readonly misfit: number;
}

/** Starting shapes, best first; always at least one for three corners or more. */
export function startingShapes(network: Network): readonly StartingShape[] {
  const known = gather(network);
  const shapes: StartingShape[] = [];
  for (const edge of firstEdges(known)) {
    shapes.push(...grow(known, edge));
    // Growing from another edge helps only where something spoiled the growth from this one.
    if (Math.min(...shapes.map(({ misfit }) => misfit)) < FAIR * network.ties.length) break;
  }
  return distinct(shapes.toSorted((a, b) => a.misfit - b.misfit));
}

/** Drops shapes that hardly differ from a better one. */
export function distinct(shapes: readonly StartingShape[]): StartingShape[] {
  const kept: StartingShape[] = [];
  for (const one of shapes) if (!kept.some((other) => apart(one.shape, other.shape) < 30)) kept.push(one);
  return kept;
}

/** The largest difference of any distance between corners of two shapes, mm: 0 where they are the same room or its mirror image. */
export function apart(a: Shape, b: Shape): number {
  let most = 0;
  for (let i = 0; i < a.length; i++) {
    for (let j = i + 1; j < a.length; j++)
      most = Math.max(most, Math.abs(between(a[i]!, a[j]!) - between(b[i]!, b[j]!)));
  }
  return most;
}

/** The mean of the measured distances, or a usual side where there are none: mm. */
export function usualSide(ties: readonly Tie[]): number {
  const values = ties.flatMap((tie) => (tie.kind === "distance" ? [tie.value] : []));
  return values.length === 0 ? UNKNOWN_SIDE : values.reduce((sum, value) => sum + value, 0) / values.length;
}

function gather(network: Network): Known {
  const sums = Array.from({ length: network.size }, () => new Map<number, [number, number]>());
  const turns = Array.from({ length: network.size }, (): [number, number] => [0, 0]);
  for (const tie of network.ties) {
    if (tie.kind === "distance") {
      addTo(sums[tie.a]!, tie.b, tie.value);
      addTo(sums[tie.b]!, tie.a, tie.value);
    } else if (tie.kind === "angle") {
      turns[tie.at]![0] += tie.value;
      turns[tie.at]![1]++;
    }
  }
  return {
    network,
    reach: sums.map((map) => new Map([...map].map(([to, [sum, count]]) => [to, sum / count] as const))),
    angles: turns.map(([sum, count]) => (count === 0 ? undefined : sum / count)),
    usual: usualSide(network.ties),
  };
}

function addTo(map: Map<number, [number, number]>, key: number, value: number): void {
  const [sum, count] = map.get(key) ?? [0, 0];
  map.set(key, [sum + value, count + 1]);
}

/** The measured edges with most company, longest first; the first wall where nothing is measured. */
function firstEdges({ network, reach }: Known): readonly (readonly [number, number])[] {
  const edges: { a: number; b: number; company: number; length: number }[] = [];
  reach.forEach((map, a) => {
    for (const [b, length] of map) {
      if (b < a) continue;
      const company = [...map.keys()].filter((c) => reach[b]!.has(c)).length;
      edges.push({ a, b, company: Math.min(company, 3), length });
    }
  });
  edges.sort((p, q) => q.company - p.company || q.length - p.length || p.a - q.a || p.b - q.b);
  const chosen: (readonly [number, number])[] = [];
  for (const { a, b } of edges) {
    // Edges far apart in the room fail for different reasons, so seeds share no corner.
    if (chosen.length < SEEDS && !chosen.some(([c, d]) => a === c || a === d || b === c || b === d))
      chosen.push([a, b]);
  }
  return chosen.length > 0 || network.size < 2 ? chosen : [[0, 1]];
}

function grow(known: Known, [a, b]: readonly [number, number]): StartingShape[] {
  const { size } = known.network;
  const points: (Point | undefined)[] = Array.from({ length: size });
  points[a] = { x: 0, y: 0 };
  points[b] = { x: known.reach[a]!.get(b) ?? known.usual, y: 0 };
  let parts: Part[] = [{ points, misfit: 0 }];
  const placed = new Set([a, b]);
  while (placed.size < size) {
    const corner = nextCorner(known, placed);
    parts = parts
      .flatMap((part) => candidates(known, part, corner).map((point) => extended(known, part, corner, point)))
      .toSorted((p, q) => p.misfit - q.misfit)
      .slice(0, BEAM);
    const hopeless = parts[0]!.misfit + HOPELESS;
    parts = parts.filter(({ misfit }) => misfit <= hopeless);
    placed.add(corner);
  }
  return parts.map((part) => ({ shape: part.points.map((point) => point!), misfit: part.misfit }));
}

/** The corner best tied to what stands: angles give a ray, distances a circle, and walls next door a guess. */
function nextCorner({ network: { size }, reach, angles }: Known, placed: ReadonlySet<number>): number {
  let best = -1;
  let strength = -1;
  for (let corner = 0; corner < size; corner++) {
    if (placed.has(corner)) continue;
    let ties = 0;
    for (const other of reach[corner]!.keys()) if (placed.has(other)) ties++;
    let near = 0;
    for (const [side, far] of arms(corner, size)) {
      if (!placed.has(side)) continue;
      near += 0.1;
      if (placed.has(far) && angles[side] !== undefined) ties++;
      else if (placed.has(far)) near += 0.3;
    }
    if (ties + near > strength) [best, strength] = [corner, ties + near];
  }
  return best;
}

/** Each neighbour of a corner and the corner beyond it. */
function arms(corner: number, size: number): readonly (readonly [number, number])[] {
  return [
    [(corner + 1) % size, (corner + 2) % size],
    [(corner + size - 1) % size, (corner + size - 2) % size],
  ];
}

function candidates(known: Known, part: Part, corner: number): readonly Point[] {
  const circles: Circle[] = [];
  for (const [other, radius] of known.reach[corner]!) {
    const middle = part.points[other];
    if (middle) circles.push({ middle, radius });
  }
  const rays = raysTo(known, part, corner);
  const found = [...byRays(known, rays, circles, corner), ...byCircles(circles)];
  if (found.length === 0) return bySquares(known, part, corner, circles);
  if (circles.length < 3) return found;
  const settled = found.map((point) => settledAmong(circles, point));
  return settled.filter(
    (point, k) => !settled.slice(0, k).some((other) => between(point, other) < SAME_PLACE),
  );
}

function raysTo(known: Known, part: Part, corner: number, inside?: number): Ray[] {
  const { size, turn } = known.network;
  return arms(corner, size).flatMap(([side, far]) => {
    const from = part.points[side];
    const beyond = part.points[far];
    const angle = inside ?? known.angles[side];
    if (!from || !beyond || angle === undefined) return [];
    // From the wall to the next corner, the inside lies counterclockwise in a counterclockwise room.
    const sense = (side + 1) % size === corner ? -turn : turn;
    const base = Math.atan2(beyond.y - from.y, beyond.x - from.x);
    return [{ from, angle: base + (sense * angle * Math.PI) / 180, corner: side }];
  });
}

function byRays(
  known: Known,
  rays: readonly Ray[],
  circles: readonly Circle[],
  corner: number,
): readonly Point[] {
  const found = rays.flatMap((ray) => {
    const own = known.reach[corner]!.get(ray.corner);
    if (own !== undefined) return [along(ray, own)];
    return circles.flatMap((circle) => rayMeetsCircle(ray, circle));
  });
  const [first, second] = rays;
  if (found.length === 0 && first && second) return raysMeet(first, second);
  return found;
}

/** A corner with too few ties: square to the walls that stand, inner or outer, or anywhere round its one circle. */
function bySquares(known: Known, part: Part, corner: number, circles: readonly Circle[]): readonly Point[] {
  const { size } = known.network;
  const rays = [90, 270].flatMap((inside) => raysTo(known, part, corner, inside));
  const circle = circles[0];
  if (rays.length > 0) {
    return rays.flatMap((ray) => {
      const own = known.reach[corner]!.get(ray.corner);
      if (own === undefined && circle) {
        const met = rayMeetsCircle(ray, circle);
        if (met.length > 0) return met;
      }
      return [along(ray, own ?? known.usual)];
    });
  }
  const side = arms(corner, size)
    .map(([neighbour]) => part.points[neighbour])
    .find((point) => point !== undefined);
  const middle = circle?.middle ?? side ?? part.points.find((point) => point !== undefined) ?? { x: 0, y: 0 };
  const radius = circle?.radius ?? known.usual;
  return [0, 1, 2, 3].map((quarter) =>
    along({ from: middle, angle: known.network.turn * ((quarter * Math.PI) / 2 + 0.3), corner }, radius),
  );
}

function extended(known: Known, part: Part, corner: number, point: Point): Part {
  const points = [...part.points];
  points[corner] = point;
  return { points, misfit: part.misfit + addedMisfit(known, points, corner) };
}
