import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { randomStream } from "../testing/rooms.ts";
import { judgeLengths } from "./lengths-judge.ts";
import { boundLengths, solveLengths, type LengthJob, type LengthPlan } from "./lengths.ts";

function jobOf(stock: number, lengths: readonly number[], kerf = 0): LengthJob {
  return { stock, kerf, parts: lengths.map((length, k) => ({ id: `p${k}`, length })) };
}

function repeated(counts: Readonly<Record<number, number>>): number[] {
  return Object.entries(counts).flatMap(([length, times]) =>
    Array.from({ length: times }, () => Number(length)),
  );
}

/** Longest first, each into the first stick it fits: written here, apart from the solver. Whole figures. */
function greedySticks({ stock, kerf, parts }: LengthJob): number {
  const used: number[] = [];
  for (const { length } of parts.toSorted((a, b) => b.length - a.length)) {
    const at = used.findIndex((sum) => sum + kerf + length <= stock);
    if (at < 0) used.push(length);
    else used[at]! += kerf + length;
  }
  return used.length;
}

/** Sticks each cut up whole, kerfs counted, so that their number is the fewest by construction. */
function dissected(seed: number): { readonly job: LengthJob; readonly sticks: number } {
  const random = randomStream(seed);
  const [stock, kerf] = [2400, [0, 3, 4][seed % 3]!];
  const sticks = 4 + Math.floor(random() * 9);
  const lengths = Array.from({ length: sticks }, () => {
    const pieces = 3 + Math.floor(random() * 3);
    const shares = Array.from({ length: pieces }, () => 1 + random());
    const room = stock - kerf * (pieces - 1);
    const cut = shares.slice(1).map((share) => Math.floor((share * room) / shares.reduce((a, b) => a + b)));
    return [...cut, room - cut.reduce((a, b) => a + b, 0)];
  }).flat();
  const order = lengths.map((length) => ({ length, key: random() })).toSorted((a, b) => a.key - b.key);
  return {
    job: jobOf(
      stock,
      order.map(({ length }) => length),
      kerf,
    ),
    sticks,
  };
}

const jobs = fc
  .record({
    stock: fc.integer({ min: 50, max: 400 }),
    kerf: fc.integer({ min: 0, max: 5 }),
    lengths: fc.array(fc.integer({ min: 1, max: 420 }), { maxLength: 40 }),
  })
  .map(({ stock, kerf, lengths }) => jobOf(stock, lengths, kerf));

const fixed = { seed: 5600, numRuns: 150 };
const quick = { nodes: 20_000 };

describe("worked examples", () => {
  // The 5600 mm rolls of the encyclopedia article "Cutting stock problem": 13 widths, 73 rolls, 0.401 % waste.
  test("the 5600 mm example takes 73 rolls, proven, and wastes 1640 mm", () => {
    const widths = {
      1380: 22,
      1520: 25,
      1560: 12,
      1710: 14,
      1820: 18,
      1880: 18,
      1930: 20,
      2000: 10,
      2050: 12,
      2100: 14,
      2140: 16,
      2150: 18,
      2200: 20,
    };
    const job = jobOf(5600, repeated(widths));
    const plan = solveLengths(job);
    expect(plan.sticks).toHaveLength(73);
    expect(plan.bound).toBe(73);
    expect(plan.sticks.reduce((sum, { left }) => sum + left, 0)).toBeCloseTo(1640, 6);
    expect(judgeLengths(job, plan)).toEqual([]);
  });

  // Pieces a bar gives are ⌊(stock + kerf) / (piece + kerf)⌋, as arithmetic. Of the offcut the saw eats one more kerf.
  test.each([
    { stock: 2440, kerf: 3, piece: 600, pieces: 4, left: 28 },
    { stock: 2440, kerf: 3.2, piece: 300, pieces: 8, left: 14.4 },
    { stock: 2400, kerf: 0, piece: 600, pieces: 4, left: 0 },
  ])("a bar of $stock gives $pieces pieces of $piece at a kerf of $kerf and leaves $left", (row) => {
    const full = jobOf(
      row.stock,
      Array.from({ length: row.pieces }, () => row.piece),
      row.kerf,
    );
    expect(solveLengths(full).sticks).toEqual([
      { parts: ["p0", "p1", "p2", "p3", "p4", "p5", "p6", "p7"].slice(0, row.pieces), left: row.left },
    ]);
    const more = jobOf(
      row.stock,
      Array.from({ length: row.pieces + 1 }, () => row.piece),
      row.kerf,
    );
    expect(solveLengths(more).sticks).toHaveLength(2);
  });

  // Falkenauer 1996 (OR-Library binpack5, t60_00), copied from the published file (CC0). The optimum is a third of the
  // parts by construction.
  test("Falkenauer's first triplets take twenty sticks", () => {
    const job = jobOf(1000, T60_00);
    expect(greedySticks(job)).toBeGreaterThan(20);
    const plan = solveLengths(job);
    expect([plan.sticks.length, plan.bound]).toEqual([20, 20]);
    expect(judgeLengths(job, plan)).toEqual([]);
  });

  // Martello and Toth's ratio: half a stick and a hair cannot share (Knapsack Problems, 1990, section 8.3).
  test("parts above half a stick bind the bound, not their sum", () => {
    expect(boundLengths(jobOf(100, repeated({ 51: 10 })))).toBe(10);
    expect(boundLengths(jobOf(100, repeated({ 51: 10, 50: 1 })))).toBe(11);
  });

  test("the last cut never keeps a part out, and the rest is what it leaves", () => {
    expect(solveLengths(jobOf(1000, [498, 499], 3)).sticks).toEqual([{ parts: ["p1", "p0"], left: 0 }]);
    expect(solveLengths(jobOf(1000, [498, 498], 3)).sticks[0]!.left).toBe(0);
    expect(solveLengths(jobOf(1000, [498, 498.5], 3)).sticks).toHaveLength(1);
    expect(solveLengths(jobOf(1000, [499, 499], 3)).sticks).toHaveLength(2);
    expect(solveLengths(jobOf(1000, [400, 400], 3)).sticks[0]!.left).toBe(194);
  });

  test("thirds of a stick and inches in millimetres fit exactly", () => {
    expect(solveLengths(jobOf(25400, [25400 / 3, 25400 / 3, 25400 / 3])).sticks).toHaveLength(1);
    expect(
      solveLengths(
        jobOf(
          96 * 25.4,
          [30.1, 30.2, 35.7].map((inches) => inches * 25.4),
        ),
      ).sticks,
    ).toHaveLength(1);
  });
});

test("fifty jobs that longest-first gets wrong are answered with the fewest sticks", () => {
  let right = 0;
  for (let seed = 1; right < 50 && seed < 2000; seed++) {
    const { job, sticks } = dissected(seed);
    if (greedySticks(job) === sticks) continue;
    const plan = solveLengths(job);
    expect(judgeLengths(job, plan)).toEqual([]);
    expect({ seed, sticks: plan.sticks.length, bound: plan.bound }).toEqual({ seed, sticks, bound: sticks });
    right++;
  }
  expect(right).toBe(50);
});

describe("laws", () => {
  test("the judge accepts every plan and its bound is never above its sticks", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const plan = solveLengths(job, quick);
        expect(judgeLengths(job, plan)).toEqual([]);
        expect(boundLengths(job)).toBeLessThanOrEqual(plan.bound);
        expect(plan.bound).toBeLessThanOrEqual(plan.sticks.length);
        expect(plan.sticks.length).toBeLessThanOrEqual(
          greedySticks({ ...job, parts: job.parts.filter(({ length }) => length <= job.stock) }),
        );
      }),
      fixed,
    );
  });

  test("each part is in one stick or unplaced, and unplaced just when longer than the stick", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const { sticks, unplaced } = solveLengths(job, quick);
        const ids = [...sticks.flatMap(({ parts }) => parts), ...unplaced];
        expect(ids.toSorted()).toEqual(job.parts.map(({ id }) => id).toSorted());
        expect(unplaced).toEqual(job.parts.filter(({ length }) => length > job.stock).map(({ id }) => id));
      }),
      fixed,
    );
  });

  test("neither the order of the parts nor the unit changes the number of sticks", () => {
    fc.assert(
      fc.property(jobs, fc.constantFrom(2, 3, 10, 25.4, 0.5), (job, by) => {
        const plan = solveLengths(job, quick);
        const turned = solveLengths({ ...job, parts: job.parts.toReversed() }, quick);
        const scaled = {
          stock: job.stock * by,
          kerf: job.kerf * by,
          parts: job.parts.map(({ id, length }) => ({ id, length: length * by })),
        };
        const other = solveLengths(scaled, quick);
        expect([turned.sticks.length, turned.bound]).toEqual([plan.sticks.length, plan.bound]);
        expect(other.sticks.map(({ parts }) => parts)).toEqual(plan.sticks.map(({ parts }) => parts));
        expect(other.bound).toBe(plan.bound);
      }),
      fixed,
    );
  });

  test("no bound is above what sticks cut up whole are known to need", () => {
    for (let seed = 1; seed < 60; seed++) {
      const { job, sticks } = dissected(seed);
      expect(boundLengths(job)).toBeLessThanOrEqual(sticks);
    }
  });

  test("an empty job, a stick of no length and lengths that are none come back whole", () => {
    expect(solveLengths(jobOf(100, []))).toEqual({ sticks: [], bound: 0, unplaced: [] });
    expect(solveLengths(jobOf(0, [1, 2])).unplaced).toEqual(["p0", "p1"]);
    expect(solveLengths(jobOf(100, [0, -3, Number.NaN, Infinity, 7])).unplaced).toEqual([
      "p0",
      "p1",
      "p2",
      "p3",
    ]);
  });
});

describe("the judge", () => {
  const job = jobOf(100, [60, 40, 30, 120], 2);
  const good: LengthPlan = {
    sticks: [
      { parts: ["p0", "p2"], left: 6 },
      { parts: ["p1"], left: 58 },
    ],
    bound: 2,
    unplaced: ["p3"],
  };

  test("finds nothing in a good plan, nor in one with a stick too many", () => {
    expect(judgeLengths(job, good)).toEqual([]);
    const loose = {
      ...good,
      sticks: [{ parts: ["p0"], left: 38 }, { parts: ["p2"], left: 68 }, good.sticks[1]!],
    };
    expect(judgeLengths(job, loose)).toEqual([]);
  });

  const planted: readonly (readonly [string, Partial<LengthPlan>, string])[] = [
    ["a part missing", { sticks: [good.sticks[0]!], bound: 1 }, "p1 is missing"],
    ["a part cut twice", { sticks: [...good.sticks, { parts: ["p1"], left: 58 }] }, "p1 is cut 2 times"],
    ["an unknown part", { sticks: [...good.sticks, { parts: ["q"], left: 98 }] }, "q is not in the job"],
    [
      "a stick overfull",
      {
        sticks: [
          { parts: ["p0", "p1"], left: 0 },
          { parts: ["p2"], left: 68 },
        ],
      },
      "stick 1 is overfull",
    ],
    [
      "a wrong rest",
      { sticks: [{ parts: ["p0", "p2"], left: 8 }, good.sticks[1]!] },
      "stick 1 leaves 6, not 8",
    ],
    [
      "a part left out that fits",
      { sticks: [good.sticks[0]!], unplaced: ["p1", "p3"], bound: 1 },
      "p1 is called too long, but it fits",
    ],
    ["a part both cut and left out", { unplaced: ["p1", "p3"] }, "p1 is both cut and called too long"],
    [
      "a part too long cut",
      { sticks: [...good.sticks, { parts: ["p3"], left: 0 }], unplaced: [] },
      "p3 is cut, but no stick can give it",
    ],
    ["an unknown part left out", { unplaced: ["p3", "q"] }, "q, called too long, is not in the job"],
    ["an empty stick", { sticks: [...good.sticks, { parts: [], left: 100 }] }, "stick 3 has no part"],
    ["a bound above the sticks", { bound: 3 }, "the plan's bound is 3"],
  ];
  test.each(planted)("names %s", (_, fault, words) => {
    expect(judgeLengths(job, { ...good, ...fault }).join("\n")).toContain(words);
  });
});

test("ten thousand parts are all cut within 1 % of the bound, with progress that never falls", () => {
  const random = randomStream(10_000);
  const job = jobOf(
    3600,
    Array.from({ length: 10_000 }, () => 100 + Math.round(random() * 20_000) / 10),
    3,
  );
  const shares: number[] = [];
  const plan = solveLengths(job, { progress: (share) => shares.push(share) });
  expect(judgeLengths(job, plan)).toEqual([]);
  expect(plan.sticks.length).toBeLessThanOrEqual(plan.bound * 1.01);
  expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  expect(shares.at(-1)).toBe(1);
}, 60_000);

/** OR-Library t60_00, in tenths. */
const T60_00 = [
  366, 268, 366, 430, 263, 307, 414, 287, 299, 495, 251, 254, 474, 252, 274, 370, 269, 361, 473, 252, 275,
  472, 259, 269, 444, 258, 298, 439, 273, 288, 445, 272, 283, 419, 261, 320, 363, 271, 366, 355, 273, 372,
  466, 262, 272, 357, 292, 351, 395, 255, 350, 350, 303, 347, 450, 252, 298, 410, 275, 315,
];
