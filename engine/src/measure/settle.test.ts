import { describe, expect, test } from "vitest";
import { adjust, networkOf, type Network, type Shape, type Tie } from "./network.ts";
import { settle } from "./settle.ts";
import { apart } from "./start.ts";

/** A network of distances (all sigma 2 mm) between corners that run counterclockwise. */
function network(
  size: number,
  pairs: readonly (readonly [number, number])[],
  observed: readonly number[],
): Network {
  const corners = Array.from({ length: size }, (_, order) => ({
    id: `c${order}`,
    room: "r",
    name: `c${order}`,
    order,
  }));
  const ties = pairs.map(([a, b], k): Tie => ({
    kind: "distance",
    a: Math.min(a, b),
    b: Math.max(a, b),
    value: observed[k]!,
    sigma: 2,
  }));
  return networkOf({ id: "r", name: "R", order: 0, turn: "counterclockwise", entered: true }, corners, ties);
}

function standardised({ solution, ties }: ReturnType<typeof settle>): number[] {
  return solution.residuals.map((v, k) => v / (ties[k]!.sigma * Math.sqrt(solution.redundancy[k]!)));
}

const PENTAGON: Shape = [
  [0, 0],
  [5200, 0],
  [6100, 3300],
  [2700, 5100],
  [-300, 3600],
].map(([x, y]) => ({ x: x!, y: y! }));
const PENTAGON_PAIRS = [
  [0, 1],
  [0, 2],
  [0, 3],
  [0, 4],
  [1, 2],
  [1, 3],
  [1, 4],
  [2, 3],
  [2, 4],
  [3, 4],
] as const;
const PENTAGON_READ = [5201.2, 6934.7, 5772.7, 3612.9, 3419.0, 5680.7, 6631.2, 3848.2, 6407.3, 3353.3];

describe("blunders", () => {
  // Baarda: with one redundant reading every standardised residual has the same size, so none can be named.
  test("in a braced quadrilateral a blunder shows alike on all six readings", () => {
    const pairs = [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
      [0, 2],
      [1, 3],
    ] as const;
    const settled = settle(network(4, pairs, [6000, 4000, 6000, 4000, 7211.103, 7261.103]));
    expect(settled.freedom).toBe(1);
    // 12.522 is the value linear theory gives at the true shape; the adjusted one is bent by the blunder itself.
    const sizes = standardised(settled).map(Math.abs);
    for (const size of sizes) expect(size / sizes[0]!).toBeCloseTo(1, 6);
    expect(Math.abs(sizes[0]! - 12.522)).toBeLessThan(0.1);
  });

  // Method: Ghilani, "Methods of analyzing data, part 3: data snooping and the tau criterion", xyHt 2016-17. The
  // figures are of an invented room, computed independently with another library.
  test("in a fully measured pentagon the wrong diagonal stands out and its removal mends the rest", () => {
    const settled = settle(network(5, PENTAGON_PAIRS, PENTAGON_READ));
    const w = standardised(settled);
    expect(settled.freedom).toBe(3);
    expect(Math.abs(w[6]! - -16.79)).toBeLessThan(0.03);
    const rest = w.filter((_, k) => k !== 6).map(Math.abs);
    expect(Math.abs(Math.max(...rest) - 13.81)).toBeLessThan(0.03);
    expect(Math.abs(Math.sqrt(settled.solution.sum / 3) - 9.703)).toBeLessThan(0.02);

    const without = settle(
      network(
        5,
        PENTAGON_PAIRS.filter((_, k) => k !== 6),
        PENTAGON_READ.filter((_, k) => k !== 6),
      ),
    );
    expect(Math.max(...standardised(without).map(Math.abs))).toBeCloseTo(0.66, 1);
    const expected = [
      [0, 0],
      [5201, 0],
      [6100.8, 3298.3],
      [2700.8, 5101.2],
      [-298.8, 3600.8],
    ];
    expected.forEach(([x, y], k) => {
      expect(Math.abs(without.shape[k]!.x - x!)).toBeLessThan(0.2);
      expect(Math.abs(without.shape[k]!.y - y!)).toBeLessThan(0.2);
    });
  });

  test("the pentagon's redundancy numbers are those computed independently", () => {
    const { redundancy } = adjust(
      network(5, PENTAGON_PAIRS, PENTAGON_READ),
      network(5, PENTAGON_PAIRS, PENTAGON_READ).ties,
      PENTAGON,
    ).solution;
    const expected = [0.247, 0.36, 0.32, 0.204, 0.198, 0.311, 0.343, 0.312, 0.385, 0.321];
    // They were computed at the true shape; the blunder bends the adjusted one a little.
    expected.forEach((r, k) => expect(Math.abs(redundancy[k]! - r)).toBeLessThan(0.01));
  });

  // Baarda data snooping on two braced quadrilaterals that share a diagonal: theory.
  test("in an L measured along visible lines the blunder's quadrilateral is named, not the reading", () => {
    const pairs = [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 4],
      [4, 5],
      [0, 5],
      [0, 2],
      [0, 3],
      [0, 4],
      [1, 3],
      [3, 5],
    ] as const;
    const observed = [7400.6, 2898.6, 4301.9, 3900.2, 3099.1, 6701.3, 7947.5, 4247.4, 7471.6, 5187.3, 4981.7];
    const settled = settle(network(6, pairs, observed));
    expect(settled.freedom).toBe(2);
    const expected = [2.21, 2.21, 2.21, 14.17, 14.17, 14.17, 2.21, 9.21, 14.17, 2.21, 14.17];
    standardised(settled).forEach((w, k) => expect(Math.abs(Math.abs(w) - expected[k]!)).toBeLessThan(0.05));
  });
});

describe("what fixes a room", () => {
  // A plane distance network of n points has 2n - 3 unknowns: walls alone leave n - 3 free (standard adjustment theory).
  test.each([4, 5, 8])(
    "%i corners: walls alone are short by n - 3 and all diagonals leave (n - 2)(n - 3) / 2 to spare",
    (n) => {
      const shape = Array.from({ length: n }, (_, k) => ({
        x: 3000 * Math.cos((k * 2 * Math.PI) / n),
        y: 2500 * Math.sin((k * 2 * Math.PI) / n),
      }));
      const between = (a: number, b: number): number =>
        Math.hypot(shape[a]!.x - shape[b]!.x, shape[a]!.y - shape[b]!.y);
      const all = shape.flatMap((_, a) => shape.slice(a + 1).map((__, k) => [a, a + 1 + k] as const));
      const walls = shape.map((_, a) => [a, (a + 1) % n] as const);
      const full = settle(
        network(
          n,
          all,
          all.map(([a, b]) => between(a, b)),
        ),
      );
      expect(full.freedom).toBe(((n - 2) * (n - 3)) / 2);
      expect(full.solution.rank).toBe(2 * n - 3);
      const bare = settle(
        network(
          n,
          walls,
          walls.map(([a, b]) => between(a, b)),
        ),
      );
      expect(bare.squares).toHaveLength(n - 3);
      expect(bare.floating).toEqual([]);
    },
  );

  test("an L by its walls alone finds which corner turns out, named either way round", () => {
    const sides = [7400, 2900, 4300, 3900, 3100, 6800];
    const pairs = sides.map((_, k) => [k, (k + 1) % 6] as const);
    const one = network(6, pairs, sides);
    for (const turn of [1, -1] as const) {
      const settled = settle({ ...one, turn });
      expect(settled.alternative).toBeUndefined();
      const truth = [
        [0, 0],
        [7400, 0],
        [7400, 2900],
        [3100, 2900],
        [3100, 6800],
        [0, 6800],
      ].map(([x, y]) => ({ x: x!, y: turn * y! }));
      expect(apart(settled.shape, truth)).toBeLessThan(0.01);
      expect(Math.hypot(settled.shape[3]!.x - 3100, settled.shape[3]!.y - turn * 2900)).toBeLessThan(0.01);
    }
  });

  test("one wall and nothing else leaves the depth floating and names the one reading that fixes it", () => {
    const settled = settle(network(4, [[0, 1]], [4000]));
    expect(settled.floating).toEqual([2, 3]);
    expect(settled.toFix).toHaveLength(1);
    const wanted = settled.toFix[0]!;
    expect(settle(network(4, [[0, 1], wanted], [4000, 3000])).floating).toEqual([]);
  });

  test("walls nobody measured follow from square corners", () => {
    const settled = settle(
      network(
        4,
        [
          [0, 1],
          [1, 2],
        ],
        [4000, 2500],
      ),
    );
    expect(settled.squares).toHaveLength(3);
    expect(settled.shape[3]!.x).toBeCloseTo(0, 6);
    expect(settled.shape[3]!.y).toBeCloseTo(2500, 6);
  });

  test("a measured diagonal leaves no corner to be assumed", () => {
    const settled = settle(
      network(
        4,
        [
          [0, 1],
          [1, 2],
          [2, 3],
          [3, 0],
          [0, 2],
        ],
        [4000, 2500, 4100, 2400, 4700],
      ),
    );
    expect(settled.squares).toEqual([]);
    expect(settled.floating).toEqual([]);
  });
});

describe("readings no room can have", () => {
  test.each([
    [[7315, 305, 30480]],
    [[1, 1, 10_000_000]],
    [[10_000_000, 10_000_000, 0.001]],
    [[0.001, 0.001, 0.001]],
  ])("a triangle of sides %j gives finite figures", (sides) => {
    const settled = settle(
      network(
        3,
        [
          [0, 1],
          [1, 2],
          [0, 2],
        ],
        sides,
      ),
    );
    const figures = [
      ...settled.shape.flatMap(({ x, y }) => [x, y]),
      ...settled.solution.residuals,
      ...settled.solution.redundancy,
      ...settled.solution.cofactor.flat(),
    ];
    for (const figure of figures) expect(Number.isFinite(figure)).toBe(true);
  });
});
