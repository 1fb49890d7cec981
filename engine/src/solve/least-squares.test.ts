import { describe, expect, test } from "vitest";
import { CERTIFIED, type CertifiedProblem } from "../testing/nist.ts";
import { judge, rankAt, solve, varianceOf, type Prediction, type Problem } from "./least-squares.ts";

function regression({ x, y, model }: CertifiedProblem, start: readonly number[]): Problem {
  return {
    start,
    observed: y,
    sigmas: y.map(() => 1),
    predict: (b) => x.map((at) => ({ ...model(b, at), at: b.map((_, k) => k) })),
  };
}

function digits(value: number, certified: number): number {
  return -Math.log10(Math.max(1e-16, Math.abs(value - certified) / Math.abs(certified)));
}

/** A straight distance in the plane from a point that is sought (parameters 0 and 1) to a known one. */
function distanceTo([x, y]: readonly [number, number]): (b: readonly number[]) => Prediction {
  return (b) => {
    const [dx, dy] = [b[0]! - x, b[1]! - y];
    const value = Math.hypot(dx, dy);
    return { value, at: [0, 1], slopes: [dx / value, dy / value] };
  };
}

/** Height of a bench mark of the level net; the one before the first is fixed at 800 m. */
function heightOf(b: readonly number[], k: number): number {
  return k < 0 ? 800 : b[k]!;
}

describe("NIST StRD nonlinear regression (certified values)", () => {
  for (const problem of CERTIFIED) {
    problem.starts.forEach((start, index) => {
      // MGH09 from its far start leads plain Levenberg-Marquardt solvers astray; NIST offers the second start for that.
      if (problem.name === "MGH09" && index === 0) return;
      test(`${problem.name} from start ${index + 1} reaches the certified values`, () => {
        const solution = solve(regression(problem, start));
        expect(solution.converged).toBe(true);
        problem.certified.forEach((value, k) =>
          expect(digits(solution.parameters[k]!, value)).toBeGreaterThan(6),
        );
        expect(digits(solution.sum, problem.sumOfSquares)).toBeGreaterThan(8);
        const variance = solution.sum / problem.freedom;
        problem.certifiedSd.forEach((sd, k) =>
          expect(digits(Math.sqrt(variance * solution.cofactor[k]![k]!), sd)).toBeGreaterThan(5),
        );
        const control = solution.redundancy.reduce((sum, one) => sum + one, 0);
        expect(control).toBeCloseTo(problem.freedom, 6);
      });
    });
  }
});

describe("survey examples", () => {
  // Ghilani and Wolf, Adjustment Computations, trilateration chapter, first example: station U from A, B and C.
  test("a point from three known stations lies where the published example puts it", () => {
    const stations = [
      [865.4, 4527.15],
      [2432.55, 2047.25],
      [2865.22, 27.15],
    ] as const;
    const lines = stations.map(distanceTo);
    const solution = solve({
      start: [6800, 3700],
      observed: [6049, 4736.83, 5446.49],
      sigmas: [1, 1, 1],
      predict: (b) => lines.map((line) => line(b)),
    });
    expect(solution.parameters[0]).toBeCloseTo(6861.317, 2);
    expect(solution.parameters[1]).toBeCloseTo(3727.819, 2);
    [-0.0374, 0.0768, -0.0474].forEach((v, k) =>
      expect(Math.abs(solution.residuals[k]! - v)).toBeLessThan(0.002),
    );
    const s0 = Math.sqrt(solution.sum / 1);
    expect(Math.abs(s0 - 0.0977)).toBeLessThan(0.002);
    expect(Math.abs(s0 * Math.sqrt(solution.cofactor[0]![0]!) - 0.0775)).toBeLessThan(0.002);
    expect(Math.abs(s0 * Math.sqrt(solution.cofactor[1]![1]!) - 0.1542)).toBeLessThan(0.002);
  });

  // Mikhail and Ackermann, Observations and Least Squares (1976), table 7-1 and example 7.11. They print observed
  // residuals with the same sign as ours: adjusted - observed.
  test("a level net of eight lines gives the published heights, residuals and redundancy numbers", () => {
    const lines = ["AB", "BC", "CA", "BD", "DE", "EC", "EA", "CD"];
    const lengths = [18.1, 9.4, 14.2, 17.6, 13.5, 9.9, 13.8, 14.0];
    const rises = [25.42, 10.34, -35.2, -15.54, 21.32, 4.82, -31.02, -26.11];
    const predict = (b: readonly number[]): Prediction[] =>
      lines.map((line) => {
        const [from, to] = [line.charCodeAt(0) - 66, line.charCodeAt(1) - 66];
        const ends = [
          [from, -1],
          [to, 1],
        ].filter(([k]) => k! >= 0);
        return {
          value: heightOf(b, to) - heightOf(b, from),
          at: ends.map(([k]) => k!),
          slopes: ends.map(([, slope]) => slope!),
        };
      });
    const sigmas = lengths.map((length) => Math.sqrt(0.1 * length));
    const solution = solve({ start: [0, 0, 0, 0], observed: rises, sigmas, predict });
    [825.2206, 835.5354, 809.5339, 830.846].forEach((h, k) =>
      expect(Math.abs(solution.parameters[k]! - h)).toBeLessThan(0.001),
    );
    [-0.1994, -0.0252, -0.3354, -0.1467, -0.0079, -0.1306, 0.174, 0.1085].forEach((v, k) =>
      expect(Math.abs(solution.residuals[k]! - v)).toBeLessThan(0.001),
    );
    expect(solution.sum / 4).toBeCloseTo(0.040428, 5);
    [0.1805, 0.1615, 0.201, 0.1711].forEach((sd, k) =>
      expect(Math.sqrt((solution.sum / 4) * solution.cofactor[k]![k]!)).toBeCloseTo(sd, 3),
    );
    [0.5547, 0.4037, 0.5459, 0.5487, 0.4715, 0.4538, 0.4754, 0.5462].forEach((r, k) =>
      expect(solution.redundancy[k]).toBeCloseTo(r, 3),
    );
  });

  // Purdue University, ASM 215 course notes, traverse computations. A compass-rule adjustment is least squares of
  // the latitudes and departures with variances in proportion to the lengths of the legs, so the published
  // coordinates, which come from the compass rule, must come out of the solver with those weights.
  test("a closed traverse weighted by leg lengths gives the coordinates of the compass rule", () => {
    const legs = [
      [26, 10, 285.1],
      [104, 35, 610.45],
      [195, 30, 720.48],
      [358, 18, 203],
      [306, 54, 647.02],
    ] as const;
    const steps = legs.flatMap(([degrees, minutes, length]) => {
      const azimuth = ((degrees + minutes / 60) * Math.PI) / 180;
      return [length * Math.cos(azimuth), length * Math.sin(azimuth)];
    });
    const at = (k: number): number => (k <= 0 || k >= legs.length ? -1 : k - 1);
    const predict = (b: readonly number[]): Prediction[] =>
      legs.flatMap((_, leg) =>
        [0, 1].map((axis) => {
          const ends = (
            [
              [at(leg), -1],
              [at(leg + 1), 1],
            ] as const
          ).filter(([k]) => k >= 0);
          const value = ends.reduce((sum, [k, sign]) => sum + sign * (b[2 * k + axis]! - 10000), 0);
          return { value, at: ends.map(([k]) => 2 * k + axis), slopes: ends.map(([, sign]) => sign) };
        }),
      );
    const sigmas = legs.flatMap(([, , length]) => [Math.sqrt(length), Math.sqrt(length)]);
    const solution = solve({ start: steps.slice(0, 8).map(() => 10000), observed: steps, sigmas, predict });
    const published = [10255.96, 10125.66, 10102.44, 10716.31, 9408.37, 10523.62, 9611.34, 10517.55];
    published.forEach((value, k) => expect(Math.abs(solution.parameters[k]! - value)).toBeLessThan(0.02));
  });
});

describe("the solver's own promises", () => {
  const circle = [0, 1, 2, 3].map((k) => distanceTo([Math.cos(k) * 1000, Math.sin(k) * 1000]));
  const problem: Problem = {
    start: [900, 700],
    observed: [1004, 998, 1001, 1003],
    sigmas: [1, 2, 1, 3],
    predict: (b) => circle.map((line) => line(b)),
  };

  test("judge agrees with solve and finds no slope at the minimum", () => {
    const solution = solve(problem);
    const judged = judge(problem, solution.parameters);
    expect(judged.sum).toBeCloseTo(solution.sum, 12);
    expect(judged.slant).toBeLessThan(1e-7);
    expect(judge(problem, [50, 50]).slant).toBeGreaterThan(0.1);
  });

  test("no neighbour of the answer fits better", () => {
    const { parameters, sum } = solve(problem);
    for (let k = 0; k < 360; k += 10) {
      const moved = [parameters[0]! + 0.01 * Math.cos(k), parameters[1]! + 0.01 * Math.sin(k)];
      expect(judge(problem, moved).sum).toBeGreaterThan(sum);
    }
  });

  test("a parameter nothing speaks of lowers the rank and is named by a loose direction", () => {
    const loose: Problem = { ...problem, start: [900, 700, 5] };
    const solution = solve(loose);
    expect(solution.rank).toBe(2);
    expect(solution.loose).toHaveLength(1);
    expect(Math.abs(solution.loose[0]![2]!)).toBeCloseTo(1, 12);
    expect(solution.parameters[2]).toBe(5);
    expect(rankAt(loose, solution.parameters).rank).toBe(2);
  });

  test("the variance of a parameter is its cofactor", () => {
    const { cofactor } = solve(problem);
    expect(varianceOf(cofactor, { at: [1], slopes: [1] })).toBe(cofactor[1]![1]);
  });

  test("lists that do not match and sigmas of nothing are bugs and say so", () => {
    expect(() => solve({ ...problem, sigmas: [1, 1, 1] })).toThrow(
      "4 predictions for 4 observations and 3 sigmas",
    );
    expect(() => solve({ ...problem, sigmas: [1, 1, 0, 1] })).toThrow("above 0, not 0");
  });
});
