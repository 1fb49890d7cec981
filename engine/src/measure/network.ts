/**
 * A room as a plane network: corners joined by measured distances and inside angles, and its adjustment by
 * least squares. The datum is the first corner at the origin and the first wall along +x, so n corners have
 * 2n - 3 unknowns. Source: Ghilani, Adjustment Computations (trilateration, horizontal networks).
 */
import type { Corner, Reading, Room } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { solve, type Prediction, type Problem, type Solution } from "../solve/least-squares.ts";
import { ANGLE_SIGMA, INSTRUMENTS, LOOSE_BEYOND } from "../tolerances.ts";

/** Something that ties corners (by index) together. `value` and `sigma` in mm, or degrees for an angle. */
export type Tie =
  | {
      readonly kind: "distance";
      readonly a: number;
      readonly b: number;
      readonly value: number;
      readonly sigma: number;
    }
  | { readonly kind: "angle"; readonly at: number; readonly value: number; readonly sigma: number }
  /** Holds one coordinate (2 corner + 0 or 1) near a value: only for what nothing else holds. */
  | { readonly kind: "hold"; readonly coordinate: number; readonly value: number; readonly sigma: number };

export interface Network {
  readonly size: number;
  /** -1 where corners run clockwise as seen from above with y up, 1 where counterclockwise. */
  readonly turn: 1 | -1;
  readonly ties: readonly Tie[];
  /** Where a sketch put the corners; undefined where any corner has no sketch. */
  readonly sketch: readonly Point[] | undefined;
}

/** A shape is the corners' places in naming order. */
export type Shape = readonly Point[];

export interface Adjustment {
  readonly shape: Shape;
  readonly solution: Solution;
}

const DEGREES = 180 / Math.PI;

/** A room that can be adjusted is so in ten steps; readings no room can have creep for ever. */
const STEPS = 50;

/** One standard deviation of a reading by its instrument: mm, or degrees for an angle. */
export function sigmaOf(reading: Reading): number {
  if (reading.kind === "angle") return ANGLE_SIGMA;
  const { fixed, perMetre } = INSTRUMENTS[reading.instrument];
  return Math.hypot(fixed, (perMetre * reading.value) / 1000);
}

/** The tie a reading makes, undefined for a height and for a reading whose corners are not (both) in the room. */
export function tieOf(reading: Reading, indexOf: ReadonlyMap<string, number>): Tie | undefined {
  const from = indexOf.get(reading.from);
  if (from === undefined) return undefined;
  const { value } = reading;
  const sigma = sigmaOf(reading);
  if (reading.kind === "angle") return { kind: "angle", at: from, value, sigma };
  const to = reading.to === undefined ? undefined : indexOf.get(reading.to);
  if (reading.kind === "height" || to === undefined || to === from) return undefined;
  return { kind: "distance", a: Math.min(from, to), b: Math.max(from, to), value, sigma };
}

/** The network of a room from its corners in naming order and its ties, in any order. */
export function networkOf(room: Room, corners: readonly Corner[], ties: readonly Tie[]): Network {
  const sketch = corners.flatMap(({ sketchX: x, sketchY: y }) =>
    x === undefined || y === undefined ? [] : [{ x, y }],
  );
  return {
    size: corners.length,
    turn: room.turn === "clockwise" ? -1 : 1,
    ties,
    sketch: sketch.length === corners.length ? sketch : undefined,
  };
}

/** The most likely shape near a starting one. Ties may be others than the network's own; needs at least two corners. */
export function adjust(network: Network, ties: readonly Tie[], start: Shape): Adjustment {
  const placed = toDatum(start);
  const parameters = placed.flatMap(({ x, y }) => [x, y]).filter((_, coordinate) => column(coordinate) >= 0);
  const solution = solve(problemOf(network, ties, parameters));
  return { shape: toDatum(shapeOf(network.size, solution.parameters)), solution };
}

/** The least-squares problem of a network in its datum. */
export function problemOf(network: Network, ties: readonly Tie[], start: readonly number[]): Problem {
  return {
    start,
    observed: ties.map((tie) => tie.value),
    sigmas: ties.map((tie) => tie.sigma),
    looseBeyond: LOOSE_BEYOND,
    iterationLimit: STEPS,
    predict: (parameters) => {
      const shape = shapeOf(network.size, parameters);
      return ties.map((tie) => inParameters(predictTie(tie, shape, network.turn)));
    },
  };
}

/** Parameter index of a coordinate (2 corner + 0 for x, 1 for y); -1 for the three the datum fixes. */
export function column(coordinate: number): number {
  if (coordinate < 2 || coordinate === 3) return -1;
  return coordinate === 2 ? 0 : coordinate - 3;
}

/** The shape in the datum: first corner at the origin, first wall along +x. */
export function toDatum(shape: Shape): Shape {
  const [first, second] = shape;
  if (!first || !second) return shape.map(() => ({ x: 0, y: 0 }));
  const along = Math.atan2(second.y - first.y, second.x - first.x);
  const cos = Math.cos(along);
  const sin = Math.sin(along);
  return shape.map(({ x, y }, corner) => {
    const dx = x - first.x;
    const dy = y - first.y;
    if (corner === 0) return { x: 0, y: 0 };
    return corner === 1
      ? { x: Math.hypot(dx, dy), y: 0 }
      : { x: dx * cos + dy * sin, y: dy * cos - dx * sin };
  });
}

/** What a tie should read in a shape, with derivatives by the coordinates (2 corner + 0 or 1). */
export function predictTie(tie: Tie, shape: Shape, turn: 1 | -1): Prediction {
  if (tie.kind === "hold") {
    const { x, y } = shape[tie.coordinate >> 1]!;
    return { value: tie.coordinate % 2 === 0 ? x : y, at: [tie.coordinate], slopes: [1] };
  }
  if (tie.kind === "distance") return predictDistance(tie.a, tie.b, shape);
  const predicted = predictAngle(tie.at, shape, turn);
  // The branch nearest to what was read, so that 359.9 and 0.1 are neighbours.
  const turns = Math.round((tie.value - predicted.value) / 360);
  return { ...predicted, value: predicted.value + turns * 360 };
}

/** Distance of two corners, mm. */
export function predictDistance(a: number, b: number, shape: Shape): Prediction {
  const dx = shape[b]!.x - shape[a]!.x;
  const dy = shape[b]!.y - shape[a]!.y;
  // Two corners in one place have no direction; any will do to part them.
  const length = Math.hypot(dx, dy);
  const [ux, uy] = length > 1e-9 ? [dx / length, dy / length] : [1, 0];
  return { value: length, at: [2 * a, 2 * a + 1, 2 * b, 2 * b + 1], slopes: [-ux, -uy, ux, uy] };
}

/** Inside angle at a corner, degrees from 0 to 360. */
export function predictAngle(at: number, shape: Shape, turn: 1 | -1): Prediction {
  const size = shape.length;
  const next = (at + 1) % size;
  const previous = (at + size - 1) % size;
  const here = shape[at]!;
  const toNext = bearing(here, shape[next]!);
  const toPrevious = bearing(here, shape[previous]!);
  const value = (((turn * (toPrevious.angle - toNext.angle)) % 360) + 360) % 360;
  // Turning a side about this corner moves its angle by across / length.
  const [nx, ny] = [-turn * toNext.slopeX, -turn * toNext.slopeY];
  const [px, py] = [turn * toPrevious.slopeX, turn * toPrevious.slopeY];
  return {
    value,
    at: [2 * at, 2 * at + 1, 2 * next, 2 * next + 1, 2 * previous, 2 * previous + 1],
    slopes: [-nx - px, -ny - py, nx, ny, px, py],
  };
}

function bearing(from: Point, to: Point): { angle: number; slopeX: number; slopeY: number } {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const squared = Math.max(dx * dx + dy * dy, 1e-6);
  return {
    angle: Math.atan2(dy, dx) * DEGREES,
    slopeX: (-dy / squared) * DEGREES,
    slopeY: (dx / squared) * DEGREES,
  };
}

/** A prediction by coordinates turned into one by parameters of the datum. */
export function inParameters({ value, at, slopes }: Prediction): Prediction {
  const columns: number[] = [];
  const kept: number[] = [];
  at.forEach((coordinate, i) => {
    const k = column(coordinate);
    if (k < 0) return;
    columns.push(k);
    kept.push(slopes[i]!);
  });
  return { value, at: columns, slopes: kept };
}

function shapeOf(size: number, parameters: readonly number[]): Shape {
  return Array.from({ length: size }, (_, corner) => ({
    x: corner === 0 ? 0 : parameters[column(2 * corner)]!,
    y: corner < 2 ? 0 : parameters[column(2 * corner + 1)]!,
  }));
}
