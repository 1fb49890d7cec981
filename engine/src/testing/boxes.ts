/**
 * Turned boxes asked plain questions: by their own axes, edge by edge, or point by point over a grid. It validates the
 * rules of space, and shares no code with the shapes and the clipping they use.
 */
import type { Pair } from "./arranged.ts";

export interface TurnedBox {
  readonly x: number;
  readonly y: number;
  /** Counterclockwise, degrees. */
  readonly turn: number;
  readonly width: number;
  readonly depth: number;
}

/** A place in the box's own axes, from its middle. */
function own({ x, y, turn }: TurnedBox, [px, py]: Pair): Pair {
  const radians = (turn * Math.PI) / 180;
  const [dx, dy] = [px - x, py - y];
  return [dx * Math.cos(radians) + dy * Math.sin(radians), dy * Math.cos(radians) - dx * Math.sin(radians)];
}

/** The four corners, counterclockwise from the near left one. */
export function cornersOf({ x, y, turn, width, depth }: TurnedBox): readonly Pair[] {
  const radians = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  const signs: readonly Pair[] = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ];
  return signs.map(([right, back]): Pair => {
    const [u, v] = [(right * width) / 2, (back * depth) / 2];
    return [x + u * cos - v * sin, y + u * sin + v * cos];
  });
}

/** Distance from a place to the box, 0 in it. */
export function distanceToBox(box: TurnedBox, place: Pair): number {
  const [u, v] = own(box, place);
  return Math.hypot(Math.max(0, Math.abs(u) - box.width / 2), Math.max(0, Math.abs(v) - box.depth / 2));
}

/**
 * Distance from a hinge at the origin to the nearest of a box in the quarter x > 0, y < 0 (a door in a wall along
 * +x that opens downwards); Infinity where none of it is there.
 */
export function nearestInQuarter(box: TurnedBox): number {
  if (distanceToBox(box, [0, 0]) === 0) return 0;
  const corners = cornersOf(box);
  const edges = corners.map((from, index) => [from, corners[(index + 1) % 4]!] as const);
  return Math.min(...edges.map(([from, to]) => nearestOfEdge(from, to)));
}

/** The stretch of an edge inside the quarter, and the least distance along it: at its foot, or at one of its ends. */
function nearestOfEdge([ax, ay]: Pair, [bx, by]: Pair): number {
  const [dx, dy] = [bx - ax, by - ay];
  let [first, last] = [0, 1];
  for (const [at, along] of [
    [ax, dx],
    [-ay, -dy],
  ] as const) {
    if (along === 0 && at <= 0) return Infinity;
    if (along > 0) first = Math.max(first, -at / along);
    if (along < 0) last = Math.min(last, -at / along);
  }
  if (first >= last) return Infinity;
  const foot = -(ax * dx + ay * dy) / (dx * dx + dy * dy);
  const share = Math.min(last, Math.max(first, foot));
  return Math.hypot(ax + share * dx, ay + share * dy);
}

/** Share of a box that lies over none of the others, by so many places each way. */
export function shareBeyond(box: TurnedBox, others: readonly TurnedBox[], places = 200): number {
  const corners = cornersOf(box);
  const [origin, right, , back] = corners as [Pair, Pair, Pair, Pair];
  let beyond = 0;
  for (let i = 0; i < places; i++) {
    for (let j = 0; j < places; j++) {
      const [u, v] = [(i + 0.5) / places, (j + 0.5) / places];
      const place: Pair = [
        origin[0] + u * (right[0] - origin[0]) + v * (back[0] - origin[0]),
        origin[1] + u * (right[1] - origin[1]) + v * (back[1] - origin[1]),
      ];
      if (others.every((other) => distanceToBox(other, place) > 0)) beyond++;
    }
  }
  return beyond / places ** 2;
}
