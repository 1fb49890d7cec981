/**
 * Nonlinear weighted least squares: the parameters for which the squared misfits of all observations, each
 * divided by its own standard deviation, add up to the least.
 *
 * Gauss-Newton steps on column-scaled normal equations (Cholesky); where a step does not help it is damped
 * after Levenberg and Marquardt until it does. Normal equations are the quick way and lose digits only in the
 * step, never in the answer, because misfits are computed afresh each time. Only where the pivots say that the
 * parameters may not all be determined is the Jacobian itself taken apart (SVD): that gives the rank, the
 * undetermined directions and a cofactor matrix in full precision.
 *
 * Sources: Ghilani, Adjustment Computations (observation equations, cofactors, redundancy numbers);
 * Moré, The Levenberg-Marquardt algorithm: implementation and theory (1978) for the scaling and the tests.
 */
import { Matrix, SVD } from "ml-matrix";
import { factor, inverseOf, solveWith } from "./cholesky.ts";

/** What the parameters say an observation should be, with the derivatives that are not 0. */
export interface Prediction {
  readonly value: number;
  /** Indices of the parameters it depends on, each at most once. */
  readonly at: readonly number[];
  /** The derivative by each of them. */
  readonly slopes: readonly number[];
}

export interface Problem {
  readonly start: readonly number[];
  readonly observed: readonly number[];
  /** A priori standard deviation of each observation, > 0. */
  readonly sigmas: readonly number[];
  /** One prediction an observation, in their order. */
  readonly predict: (parameters: readonly number[]) => readonly Prediction[];
  /**
   * A direction counts as undetermined when its singular value, columns scaled to unit length, falls below this
   * part of the largest; 1e-12 where it is not said.
   */
  readonly rankTolerance?: number;
  /**
   * For parameters that share one unit, instead: a direction is undetermined when its standard deviation is
   * larger than this.
   */
  readonly looseBeyond?: number;
  /** Steps taken at most; 400 where it is not said. */
  readonly iterationLimit?: number;
}

export interface Judgement {
  /** Predicted - observed. */
  readonly residuals: readonly number[];
  /** Sum of (residual / sigma)². */
  readonly sum: number;
  /** Largest cosine between the misfits and a column of the Jacobian: 0 at a minimum (or a perfect fit). */
  readonly slant: number;
}

export interface Solution extends Judgement {
  readonly parameters: readonly number[];
  /** Covariance of the parameters for the sigmas as given; the pseudo-inverse where the rank is short. */
  readonly cofactor: readonly (readonly number[])[];
  /** How much the other observations control each one, 0 to 1. They add up to observations - rank. */
  readonly redundancy: readonly number[];
  readonly rank: number;
  /** Unit vectors spanning what is undetermined, in parameters scaled by nothing; empty at full rank. */
  readonly loose: readonly (readonly number[])[];
  readonly iterations: number;
  /** False when the iterations ran out first; the best found is still given. */
  readonly converged: boolean;
}

const ITERATION_LIMIT = 400;
/** Steps shorter than this part of the parameters are the last (both scaled). */
const STEP_END = 1e-12;
/** A promised gain smaller than this part of the sum drowns in rounding. */
const GAIN_END = 1e-14;
/** Least squared pivot of a step, columns scaled to 1. */
const PIVOT_END = 1e-14;
/** Above this least squared pivot the normal matrix alone gives rank and cofactors to seven digits. */
const PIVOT_SAFE = 1e-8;
/** Above this one the rank is full for certain, whatever the digits of the cofactors. */
const PIVOT_SURE = 1e-12;
/** A fit this good (sigma units, whole sum) cannot be bettered in double precision. */
const SUM_END = 1e-24;

/**
 * Solves from the start given; finds the minimum that is downhill from there. Never returns NaN where start and
 * predictions are numbers. Throws where the lists of the problem do not match in length.
 */
export function solve(problem: Problem): Solution {
  checkLengths(problem);
  let here = evaluate(problem, [...problem.start]);
  const scale = new Float64Array(problem.start.length);
  let damping = 0;
  let iterations = 0;
  let converged = problem.start.length === 0;
  const limit = problem.iterationLimit ?? ITERATION_LIMIT;
  for (; !converged && iterations < limit; iterations++) {
    const normal = normalOf(here, problem.sigmas);
    growScale(scale, normal);
    const tried = improve({ problem, here, normal, scale, damping });
    converged = tried.converged;
    damping = tried.damping;
    here = tried.here;
  }
  return { ...describe(problem, here), iterations, converged };
}

/** How good any parameters are, whoever found them. */
export function judge(problem: Problem, parameters: readonly number[]): Judgement {
  checkLengths(problem);
  const state = evaluate(problem, [...parameters]);
  return { residuals: state.residuals, sum: state.sum, slant: slantOf(state, problem.sigmas) };
}

/** Rank of the observations at given parameters, and the undetermined directions there. */
export function rankAt(
  problem: Problem,
  parameters: readonly number[],
): { readonly rank: number; readonly loose: readonly (readonly number[])[] } {
  const { rank, loose } = cofactorOf(problem, evaluate(problem, [...parameters]), PIVOT_SURE);
  return { rank, loose };
}

interface State {
  readonly parameters: number[];
  readonly predictions: readonly Prediction[];
  readonly residuals: readonly number[];
  readonly sum: number;
}

interface Normal {
  readonly matrix: Float64Array;
  readonly gradient: Float64Array;
}

function checkLengths({ observed, sigmas, predict, start }: Problem): void {
  const rows = predict(start).length;
  if (rows !== observed.length || rows !== sigmas.length)
    throw new Error(`${rows} predictions for ${observed.length} observations and ${sigmas.length} sigmas`);
  const bad = sigmas.find((sigma) => !(sigma > 0));
  if (bad !== undefined) throw new Error(`a standard deviation must be above 0, not ${bad}`);
}

function evaluate(problem: Problem, parameters: number[]): State {
  const predictions = problem.predict(parameters);
  const residuals: number[] = [];
  let sum = 0;
  for (let row = 0; row < predictions.length; row++) {
    const residual = predictions[row]!.value - problem.observed[row]!;
    residuals.push(residual);
    sum += (residual / problem.sigmas[row]!) ** 2;
  }
  return { parameters, predictions, residuals, sum };
}

function normalOf(state: State, sigmas: readonly number[]): Normal {
  const size = state.parameters.length;
  const matrix = new Float64Array(size * size);
  const gradient = new Float64Array(size);
  for (let row = 0; row < state.predictions.length; row++) {
    const { at, slopes } = state.predictions[row]!;
    const weight = 1 / sigmas[row]! ** 2;
    for (let i = 0; i < at.length; i++) {
      const weighted = slopes[i]! * weight;
      gradient[at[i]!]! += weighted * state.residuals[row]!;
      for (let j = 0; j < at.length; j++) matrix[at[i]! * size + at[j]!]! += weighted * slopes[j]!;
    }
  }
  return { matrix, gradient };
}

/** Moré's scaling: column lengths, never shrinking, so that a flat spot does not invite a leap. */
function growScale(scale: Float64Array, { matrix }: Normal): void {
  const size = scale.length;
  for (let k = 0; k < size; k++) scale[k] = Math.max(scale[k]!, Math.sqrt(matrix[k * size + k]!));
}

interface Attempt {
  readonly problem: Problem;
  readonly here: State;
  readonly normal: Normal;
  readonly scale: Float64Array;
  readonly damping: number;
}

/** One accepted step, or the finding that there is none left worth taking. */
function improve({ problem, here, normal, scale, damping: first }: Attempt): {
  here: State;
  damping: number;
  converged: boolean;
} {
  if (here.sum < SUM_END) return { here, damping: first, converged: true };
  for (let damping = first; damping < 1e16; damping = Math.max(damping * 10, 1e-6)) {
    const step = dampedStep(normal, scale, damping);
    if (!step) continue;
    const next = evaluate(
      problem,
      here.parameters.map((value, k) => value - step[k]!),
    );
    const short = lengthOf(step, scale) <= STEP_END * (lengthOf(here.parameters, scale) + STEP_END);
    if (next.sum <= here.sum)
      return { here: next, damping: damping < 1e-9 ? 0 : damping / 10, converged: short };
    // Every further step is shorter still, and rounding alone keeps this one from helping.
    if (short || gainOf(step, normal) <= GAIN_END * here.sum) return { here, damping, converged: true };
  }
  return { here, damping: first, converged: false };
}

function dampedStep(
  { matrix, gradient }: Normal,
  scale: Float64Array,
  damping: number,
): Float64Array | undefined {
  const size = scale.length;
  const scaled = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    const by = scale[row]! || 1;
    right[row] = gradient[row]! / by;
    for (let column = 0; column <= row; column++) {
      const value = matrix[row * size + column]! / (by * (scale[column]! || 1));
      scaled[row * size + column] = value;
    }
    scaled[row * size + row]! += damping;
  }
  const factored = factor(scaled, size, PIVOT_END);
  if (factored.smallest <= PIVOT_END) return undefined;
  return solveWith(factored, right).map((value, k) => value / (scale[k]! || 1));
}

function lengthOf(vector: ArrayLike<number>, scale: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < scale.length; k++) sum += (vector[k]! * scale[k]!) ** 2;
  return Math.sqrt(sum);
}

/** What the linear model promises a step will gain. */
function gainOf(step: Float64Array, { gradient }: Normal): number {
  let sum = 0;
  for (let k = 0; k < step.length; k++) sum += step[k]! * gradient[k]!;
  return Math.abs(sum);
}

function slantOf(state: State, sigmas: readonly number[]): number {
  if (state.sum < SUM_END) return 0;
  const { matrix, gradient } = normalOf(state, sigmas);
  const size = gradient.length;
  let worst = 0;
  for (let k = 0; k < size; k++) {
    const column = Math.sqrt(matrix[k * size + k]!);
    if (column > 0) worst = Math.max(worst, Math.abs(gradient[k]!) / (column * Math.sqrt(state.sum)));
  }
  return worst;
}

function describe(problem: Problem, state: State): Omit<Solution, "iterations" | "converged"> {
  const { cofactor, rank, loose } = cofactorOf(problem, state, PIVOT_SAFE);
  return {
    parameters: state.parameters,
    residuals: state.residuals,
    sum: state.sum,
    slant: slantOf(state, problem.sigmas),
    cofactor,
    rank,
    loose,
    redundancy: state.predictions.map((prediction, row) => {
      const hold = varianceOf(cofactor, prediction) / problem.sigmas[row]! ** 2;
      return Math.min(1, Math.max(0, 1 - hold));
    }),
  };
}

/** Variance of a figure whose derivatives by the parameters are given: the law of propagation. */
export function varianceOf(
  cofactor: readonly (readonly number[])[],
  { at, slopes }: Pick<Prediction, "at" | "slopes">,
): number {
  let sum = 0;
  for (let i = 0; i < at.length; i++) {
    const row = cofactor[at[i]!]!;
    for (let j = 0; j < at.length; j++) sum += slopes[i]! * row[at[j]!]! * slopes[j]!;
  }
  return Math.max(0, sum);
}

interface Cofactor {
  readonly cofactor: readonly (readonly number[])[];
  readonly rank: number;
  readonly loose: readonly (readonly number[])[];
}

/** `least`: the squared pivot (columns scaled to 1) below which the Jacobian is taken apart. */
function cofactorOf(problem: Problem, state: State, least: number): Cofactor {
  const size = state.parameters.length;
  if (size === 0) return { cofactor: [], rank: 0, loose: [] };
  const { matrix } = normalOf(state, problem.sigmas);
  const scale = Float64Array.from({ length: size }, (_, k) => Math.sqrt(matrix[k * size + k]!) || 1);
  const scaled = matrix.map((value, k) => value / (scale[Math.floor(k / size)]! * scale[k % size]!));
  const factored = factor(scaled, size, least);
  if (factored.smallest <= least) return takenApart(problem, state, scale);
  const inverse = inverseOf(factored);
  const cofactor = rowsOf(
    size,
    (row, column) => inverse[row * size + column]! / (scale[row]! * scale[column]!),
  );
  // No direction is less sure than all parameters together.
  const together = Math.sqrt(cofactor.reduce((sum, row, k) => sum + row[k]!, 0));
  if (together > (problem.looseBeyond ?? Number.POSITIVE_INFINITY)) return takenApart(problem, state, scale);
  return { cofactor, rank: size, loose: [] };
}

/** The careful way: singular values of the Jacobian, its columns scaled unless the parameters share one unit. */
function takenApart(problem: Problem, state: State, columns: Float64Array): Cofactor {
  const size = columns.length;
  const scale = problem.looseBeyond === undefined ? columns : new Float64Array(size).fill(1);
  // Rows of 0 make it at least square, so that every direction gets its singular value.
  const jacobian = Matrix.zeros(Math.max(state.predictions.length, size), size);
  state.predictions.forEach(({ at, slopes }, row) => {
    at.forEach((k, i) => jacobian.set(row, k, slopes[i]! / (problem.sigmas[row]! * scale[k]!)));
  });
  const { diagonal, rightSingularVectors: right } = new SVD(jacobian, {
    computeLeftSingularVectors: false,
    autoTranspose: false,
  });
  const limit =
    problem.looseBeyond === undefined
      ? Math.max(...diagonal) * (problem.rankTolerance ?? 1e-12)
      : 1 / problem.looseBeyond;
  const kept = diagonal.flatMap((value, k) => (value > limit && value > 0 ? [k] : []));
  const lost = diagonal.flatMap((value, k) => (value > limit && value > 0 ? [] : [k]));
  const cofactor = rowsOf(size, (row, column) => {
    let sum = 0;
    for (const k of kept) sum += (right.get(row, k) * right.get(column, k)) / diagonal[k]! ** 2;
    return sum / (scale[row]! * scale[column]!);
  });
  const loose = lost.map((k) => unit(Array.from(scale, (by, row) => right.get(row, k) / by)));
  return { cofactor, rank: kept.length, loose };
}

function rowsOf(size: number, entry: (row: number, column: number) => number): number[][] {
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (__, column) => entry(row, column)),
  );
}

function unit(vector: readonly number[]): number[] {
  const length = Math.hypot(...vector) || 1;
  return vector.map((value) => value / length);
}
