/**
 * How sure the corners are: covariance in the datum, and 95 % ellipses of the free network. The free network
 * is reached from the datum by an S-transformation, which takes out what a shift or a turn of the whole room
 * could explain. Source: Baarda, S-transformations and criterion matrices (1973); Ghilani, Adjustment
 * Computations (error ellipses, propagation of variances).
 */
import type { Point } from "../plane/point.ts";
import { varianceOf, type Prediction } from "../solve/least-squares.ts";
import { column } from "./network.ts";

export type Covariance = readonly (readonly number[])[];

export interface Ellipse {
  readonly major: number;
  readonly minor: number;
  readonly turn: number;
}

/** Radius of the region that holds 95 % of a plane normal distribution, in standard deviations: √(-2 ln 0.05). */
const ELLIPSE_RADIUS = Math.sqrt(-2 * Math.log(0.05));

/** Covariance of (x1, y1, x2, ...) from the cofactors of the parameters; the datum's own three are 0. mm². */
export function covarianceOf(size: number, cofactor: Covariance): Covariance {
  const columns = Array.from({ length: 2 * size }, (_, coordinate) => column(coordinate));
  return columns.map((row) => columns.map((other) => (row < 0 || other < 0 ? 0 : cofactor[row]![other]!)));
}

/** Standard deviation of a figure given by its derivatives by the coordinates. */
export function deviationOf(covariance: Covariance, figure: Pick<Prediction, "at" | "slopes">): number {
  return Math.sqrt(varianceOf(covariance, figure));
}

/** Area and its derivatives by the coordinates: mm², always positive. */
export function predictArea(shape: readonly Point[]): Prediction {
  const size = shape.length;
  let twice = 0;
  const slopes: number[] = [];
  shape.forEach((p, i) => {
    const next = shape[(i + 1) % size]!;
    const previous = shape[(i + size - 1) % size]!;
    twice += p.x * next.y - next.x * p.y;
    slopes.push((next.y - previous.y) / 2, (previous.x - next.x) / 2);
  });
  const sign = twice < 0 ? -1 : 1;
  return {
    value: Math.abs(twice) / 2,
    at: slopes.map((_, k) => k),
    slopes: slopes.map((slope) => sign * slope),
  };
}

/** One 95 % ellipse a corner, free network. */
export function freeEllipses(shape: readonly Point[], covariance: Covariance): readonly Ellipse[] {
  const motions = rigidMotions(shape);
  // C G and Gᵀ C G, so that S C Sᵀ with S = I - G Gᵀ costs n² and not n³.
  const moved = motions.map((motion) =>
    covariance.map((row) => row.reduce((sum, value, k) => sum + value * motion[k]!, 0)),
  );
  const inner = motions.map((a) => moved.map((b) => a.reduce((sum, value, k) => sum + value * b[k]!, 0)));
  const entry = (row: number, other: number): number => {
    let value = covariance[row]![other]!;
    for (let a = 0; a < 3; a++) {
      value -= motions[a]![row]! * moved[a]![other]! + moved[a]![row]! * motions[a]![other]!;
      for (let b = 0; b < 3; b++) value += motions[a]![row]! * inner[a]![b]! * motions[b]![other]!;
    }
    return value;
  };
  return shape.map((_, corner) => {
    const x = 2 * corner;
    return ellipseOf(entry(x, x), entry(x, x + 1), entry(x + 1, x + 1));
  });
}

/** Two shifts and a turn about the middle, as unit vectors square to each other. */
function rigidMotions(shape: readonly Point[]): readonly (readonly number[])[] {
  const size = shape.length;
  const middle = {
    x: shape.reduce((sum, { x }) => sum + x, 0) / size,
    y: shape.reduce((sum, { y }) => sum + y, 0) / size,
  };
  const step = 1 / Math.sqrt(size);
  const turn = shape.flatMap(({ x, y }) => [middle.y - y, x - middle.x]);
  const length = Math.hypot(...turn) || 1;
  return [
    shape.flatMap(() => [step, 0]),
    shape.flatMap(() => [0, step]),
    turn.map((value) => value / length),
  ];
}

function ellipseOf(xx: number, xy: number, yy: number): Ellipse {
  const middle = (xx + yy) / 2;
  const spread = Math.hypot((xx - yy) / 2, xy);
  return {
    major: ELLIPSE_RADIUS * Math.sqrt(Math.max(0, middle + spread)),
    minor: ELLIPSE_RADIUS * Math.sqrt(Math.max(0, middle - spread)),
    turn: (Math.atan2(2 * xy, xx - yy) / 2) * (180 / Math.PI),
  };
}
