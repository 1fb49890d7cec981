import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  chanceBy,
  criticalPath,
  pathExpectation,
  pert,
  type PathLink,
  type PathTask,
} from "./critical-path.ts";

/** Id: three guesses, and what it waits for. */
type Activities = Readonly<Record<string, readonly [a: number, m: number, b: number, before: string]>>;

interface Published {
  readonly source: string;
  readonly activities: Activities;
  readonly length: number;
  readonly critical: string;
  /** Total floats. */
  readonly floats: Readonly<Record<string, number>>;
  readonly variance: number;
  readonly chances: readonly (readonly [by: number, chance: number])[];
}

const PUBLISHED: readonly Published[] = [
  {
    // The encyclopedia's worked example of the program evaluation and review technique, activities A to G; its
    // printed figures, from memory, are rounded on the way: 19.51, floats 3.84 and 4.68. Chances recomputed.
    source: "encyclopedia example of seven",
    activities: {
      A: [2, 4, 6, ""],
      B: [3, 5, 9, ""],
      C: [4, 5, 7, "A"],
      D: [4, 6, 10, "A"],
      E: [4, 5, 7, "BC"],
      F: [3, 4, 8, "D"],
      G: [3, 5, 8, "E"],
    },
    length: 19.5,
    critical: "ACEG",
    floats: { A: 0, B: 3.8333, C: 0, D: 4.6667, E: 0, F: 4.6667, G: 0 },
    variance: 1.6389,
    chances: [
      [20, 0.6519],
      [21, 0.8793],
    ],
  },
  {
    // Stevenson, Operations Management, the advertising firm: paths 20.5, 21.5 and 19.5 are printed.
    source: "Stevenson's advertising firm",
    activities: {
      A: [5, 6, 7, ""],
      B: [8, 8, 11, ""],
      C: [6, 8, 11, "A"],
      D: [9, 12, 15, ""],
      E: [5, 6, 9, "C"],
      F: [5, 6, 7, "D"],
      G: [2, 3, 7, "F"],
      H: [4, 4, 5, "B"],
      I: [5, 7, 8, "H"],
    },
    length: 21.5,
    critical: "DFG",
    floats: { A: 1, B: 2, C: 1, D: 0, E: 1, F: 0, G: 0, H: 2, I: 2 },
    variance: 1.8056,
    chances: [
      [24, 0.9686],
      [21, 0.3549],
    ],
  },
  {
    // An exercise of Heizer and Render's kind, fourteen activities; floats of A to F and the 55-day question are printed.
    source: "exercise of fourteen",
    activities: {
      A: [5, 5, 7, ""],
      B: [1, 2, 5, ""],
      C: [5, 5, 5, "A"],
      D: [4, 8, 13, "A"],
      E: [1, 10, 17, "BC"],
      F: [1, 5, 7, "D"],
      G: [2, 6, 9, "D"],
      H: [4, 4, 6, "EF"],
      I: [2, 7, 10, "GH"],
      J: [2, 4, 7, "I"],
      K: [6, 10, 13, "I"],
      L: [2, 6, 6, "J"],
      M: [2, 2, 3, "K"],
      N: [7, 7, 12, "LM"],
    },
    length: 50.8333,
    critical: "ACEHIKMN",
    floats: {
      A: 0,
      B: 8,
      C: 0,
      D: 1.8333,
      E: 0,
      F: 1.8333,
      G: 5,
      H: 0,
      I: 0,
      J: 2.5,
      K: 0,
      L: 2.5,
      M: 0,
      N: 0,
    },
    variance: 11.1944,
    chances: [
      [55, 0.8935],
      [50, 0.4017],
    ],
  },
];

function linksOf(before: Readonly<Record<string, string>>): readonly PathLink[] {
  return Object.entries(before).flatMap(([after, all]) =>
    all.split("").map((one) => ({ before: one, after, lag: 0 })),
  );
}

describe("the critical path", () => {
  it.each(PUBLISHED)("has the length, floats and chances of the $source", (example) => {
    const ids = Object.keys(example.activities);
    const guesses = ids.map((id) => example.activities[id]!);
    const expected = pert(guesses.map(([a, m, b]) => ({ a, m, b })));
    const tasks = ids.map((id, k) => ({ id, minutes: expected[k]!.expected }));
    const before = Object.fromEntries(ids.map((id, k) => [id, guesses[k]![3]]));
    const path = criticalPath(tasks, linksOf(before));
    expect(path.length).toBeCloseTo(example.length, 3);
    expect(path.critical.join("")).toBe(example.critical);
    for (const { id, totalFloat } of path.tasks) expect(totalFloat, id).toBeCloseTo(example.floats[id]!, 3);
    const whole = pathExpectation(path.critical.map((id) => expected[ids.indexOf(id)]!));
    expect(whole.variance).toBeCloseTo(example.variance, 3);
    for (const [by, chance] of example.chances) expect(chanceBy(whole, by)).toBeCloseTo(chance, 3);
  });

  it("has the starts and free floats of the exercise of fourteen", () => {
    const { activities } = PUBLISHED[2]!;
    const tasks = Object.entries(activities).map(([id, [a, m, b]]) => ({
      id,
      minutes: pert([{ a, m, b }])[0]!.expected,
    }));
    const before = Object.fromEntries(Object.entries(activities).map(([id, [, , , first]]) => [id, first]));
    const times = new Map(criticalPath(tasks, linksOf(before)).tasks.map((time) => [time.id, time]));
    expect(times.get("E")!.earliestStart).toBeCloseTo(10.33, 2);
    expect(times.get("F")!.earliestStart).toBeCloseTo(13.5, 2);
    expect(times.get("L")!.latestStart).toBeCloseTo(37.6667, 3);
    expect(times.get("D")!.freeFloat).toBeCloseTo(0, 9);
    expect(times.get("B")!.freeFloat).toBeCloseTo(8, 3);
    expect(times.get("J")!.freeFloat).toBeCloseTo(0, 9);
    expect(times.get("L")!.freeFloat).toBeCloseTo(2.5, 3);
  });

  it("has the floats and the early profile of a published levelling example", () => {
    // Pinto, Project Management: Achieving Competitive Advantage, resource levelling; what E and F wait for is
    // rebuilt from the printed times.
    const minutes = { A: 3, B: 5, C: 6, D: 2, E: 3, F: 3, G: 4, H: 5, I: 4, J: 2, K: 3 };
    const people = { A: 3, B: 2, C: 3, D: 4, E: 2, F: 1, G: 3, H: 2, I: 3, J: 4, K: 5 };
    const before = { C: "A", D: "A", E: "D", F: "D", G: "B", H: "G", I: "C", J: "IEF", K: "J" };
    const path = criticalPath(
      Object.entries(minutes).map(([id, length]) => ({ id, minutes: length })),
      linksOf(before),
    );
    expect(path.length).toBe(18);
    expect(path.critical).toEqual(["A", "C", "I", "J", "K"]);
    expect(Object.fromEntries(path.tasks.map(({ id, totalFloat }) => [id, totalFloat]))).toEqual({
      A: 0,
      B: 4,
      C: 0,
      D: 5,
      E: 5,
      F: 5,
      G: 4,
      H: 4,
      I: 0,
      J: 0,
      K: 0,
    });
    const profile = Array.from({ length: 18 }, (_, t) =>
      path.tasks
        .filter(({ earliestStart, earliestFinish }) => earliestStart <= t && t < earliestFinish)
        .reduce((sum, { id }) => sum + people[id as keyof typeof people], 0),
    );
    expect(profile).toEqual([5, 5, 5, 9, 9, 9, 9, 9, 6, 5, 5, 5, 5, 6, 4, 5, 5, 5]);
  });

  it("counts lags as time on the path", () => {
    const tasks = ["paste", "dry", "hang"].map((id) => ({ id, minutes: 10 }));
    const path = criticalPath(tasks, [
      { before: "paste", after: "hang", lag: 60 },
      { before: "dry", after: "hang", lag: 0 },
    ]);
    expect(path.length).toBe(80);
    expect(path.tasks[1]).toMatchObject({ latestFinish: 70, totalFloat: 60, freeFloat: 60 });
  });

  it("names a circle of links in its order, and gives no times", () => {
    const tasks = ["a", "b", "c", "d", "e"].map((id) => ({ id, minutes: 1 }));
    const path = criticalPath(tasks, linksOf({ b: "ad", c: "b", d: "c", e: "d" }));
    expect(path.tasks).toEqual([]);
    const start = path.cycle.indexOf("b");
    expect([...path.cycle.slice(start), ...path.cycle.slice(0, start)]).toEqual(["b", "c", "d"]);
    expect(criticalPath(tasks.slice(0, 1), linksOf({ a: "a" })).cycle).toEqual(["a"]);
  });

  it("is nothing of nothing, and refuses what is no task", () => {
    expect(criticalPath([], [])).toEqual({ tasks: [], critical: [], length: 0, cycle: [] });
    expect(() => criticalPath([{ id: "a", minutes: -1 }], [])).toThrow(/"minutes":-1/);
    expect(() => criticalPath([], [{ before: "a", after: "b", lag: 0 }])).toThrow(/"before":"a"/);
    expect(() =>
      criticalPath(
        [1, 2].map(() => ({ id: "a", minutes: 1 })),
        [],
      ),
    ).toThrow(/two tasks/);
  });

  it("has no float below zero, a task without float, and no path longer than its length", () => {
    fc.assert(
      fc.property(networks(), ({ tasks, links }) => {
        const path = criticalPath(tasks, links);
        const times = new Map(path.tasks.map((time) => [time.id, time]));
        for (const { totalFloat, freeFloat } of path.tasks) {
          expect(totalFloat).toBeGreaterThanOrEqual(0);
          expect(freeFloat).toBeGreaterThanOrEqual(0);
          expect(freeFloat).toBeLessThanOrEqual(totalFloat);
        }
        expect(path.critical.length).toBeGreaterThan(0);
        for (const { before, after, lag } of links) {
          const [first, next] = [times.get(before)!, times.get(after)!];
          expect(next.earliestStart).toBeGreaterThanOrEqual(first.earliestFinish + lag);
          expect(next.latestStart).toBeGreaterThanOrEqual(first.latestFinish + lag);
        }
        expect(path.length).toBe(longestWay(tasks, links));
      }),
      { seed: 8, numRuns: 200 },
    );
  });
});

function networks(): fc.Arbitrary<{
  readonly tasks: readonly PathTask[];
  readonly links: readonly PathLink[];
}> {
  return fc.array(fc.nat(20), { minLength: 1, maxLength: 8 }).chain((minutes) =>
    fc
      .array(fc.tuple(fc.nat(minutes.length - 1), fc.nat(minutes.length - 1), fc.nat(9)), { maxLength: 12 })
      .map((pairs) => ({
        tasks: minutes.map((length, k) => ({ id: `t${k}`, minutes: length })),
        links: pairs
          .filter(([a, b]) => a < b)
          .map(([a, b, lag]) => ({ before: `t${a}`, after: `t${b}`, lag })),
      })),
  );
}

/** The longest of all ways, each walked through. */
function longestWay(tasks: readonly PathTask[], links: readonly PathLink[]): number {
  const from = ({ id, minutes }: PathTask): number =>
    minutes +
    Math.max(
      0,
      ...links
        .filter(({ before }) => before === id)
        .map(({ after, lag }) => lag + from(tasks.find((task) => task.id === after)!)),
    );
  return Math.max(...tasks.map(from));
}

describe("three guesses", () => {
  it("give the chance of a published path", () => {
    // Russell and Taylor, Operations Management, supplement to chapter 17: path 1-3-5-7, 28 weeks.
    const expected = pert([
      { a: 5, m: 8, b: 17 },
      { a: 3, m: 5, b: 7 },
      { a: 4, m: 6, b: 8 },
      { a: 3, m: 4, b: 5 },
    ]);
    expect(expected.map((one) => one.expected)).toEqual([9, 5, 6, 4]);
    const path = pathExpectation(expected);
    expect(path.expected).toBe(24);
    expect(path.variance).toBeCloseTo(5, 9);
    expect(chanceBy(path, 28)).toBeCloseTo(0.9633, 3);
  });

  it("give the normal distribution's printed values", () => {
    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1.
    const unit = { expected: 0, variance: 1 };
    for (const [z, chance] of [
      [0, 0.5],
      [0.5, 0.6914624612],
      [1, 0.8413447461],
      [1.96, 0.9750021049],
      [3, 0.998650102],
    ] as const) {
      expect(chanceBy(unit, z)).toBeCloseTo(chance, 9);
      expect(chanceBy(unit, -z)).toBeCloseTo(1 - chance, 9);
    }
  });

  it("leave no chance where nothing is in doubt, and must be in order", () => {
    const sure = pathExpectation(pert([{ a: 4, m: 4, b: 4 }]));
    expect([chanceBy(sure, 3.99), chanceBy(sure, 4)]).toEqual([0, 1]);
    expect(() => pert([{ a: 2, m: 1, b: 3 }])).toThrow(/from 2 by 1 to 3/);
  });
});
