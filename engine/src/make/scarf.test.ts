import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Stock } from "../document/tables.ts";
import { scarfed } from "./scarf.ts";

const stick = (length: number, thickness: number): Stock => ({
  id: "stick",
  name: "Stick",
  order: 0,
  form: "stick",
  width: 100,
  length,
  thickness,
  repeat: 0,
  match: "free",
  kerf: 3,
  grained: false,
  flame: false,
});
const part = (length: number) => ({ id: "run", name: "Run", length, because: ["trim"] });
const lengthsOf = (length: number, stock?: Stock) => scarfed(part(length), stock).map((one) => one.length);
const sum = (lengths: readonly number[]): number => lengths.reduce((a, b) => a + b, 0);

const runs = fc.record({
  length: fc.double({ min: 100, max: 30_000, noNaN: true }),
  stock: fc.double({ min: 700, max: 5000, noNaN: true }),
  thickness: fc.double({ min: 0, max: 60, noNaN: true }),
});

describe("a length longer than a stick", () => {
  it("is itself where it fits, or where no stock is said", () => {
    expect(scarfed(part(2400), stick(2400, 19))).toEqual([part(2400)]);
    expect(scarfed(part(9000), undefined)).toEqual([part(9000)]);
  });

  // By hand: sticks of 2400 overlap by their 20 in a scarf, so two reach 4780 and three 7160.
  it("takes a whole stick first, and gains a stick's length less its thickness with each more", () => {
    expect(lengthsOf(4780, stick(2400, 20))).toEqual([2400, 2400]);
    expect(lengthsOf(4000, stick(2400, 20))).toEqual([2400, 1620]);
    expect(lengthsOf(4781, stick(2400, 20))).toHaveLength(3);
    expect(lengthsOf(7160, stick(2400, 20))).toEqual([2400, 2400, 2400]);
  });

  it("has no last piece under a foot: it takes from the one before", () => {
    const [first, last] = lengthsOf(2500, stick(2400, 20));
    expect(last).toBeCloseTo(304.8, 6);
    expect(first).toBeCloseTo(2500 + 20 - 304.8, 6);
  });

  it("is in no pieces where a stick is no longer than it is thick", () => {
    expect(scarfed(part(500), stick(20, 20))).toEqual([]);
  });

  it("comes out whole when its pieces are joined, with as few as will do, none longer than a stick", () => {
    fc.assert(
      fc.property(runs, ({ length, stock, thickness }) => {
        const lengths = lengthsOf(length, stick(stock, thickness));
        const reach = (count: number): number => count * stock - (count - 1) * thickness;
        expect(sum(lengths) - (lengths.length - 1) * thickness).toBeCloseTo(length, 4);
        expect(Math.max(...lengths)).toBeLessThanOrEqual(stock + 1e-4);
        expect(reach(lengths.length)).toBeGreaterThanOrEqual(length - 1e-4);
        if (lengths.length > 1) {
          expect(reach(lengths.length - 1)).toBeLessThan(length + 1e-4);
          expect(Math.min(...lengths)).toBeGreaterThanOrEqual(Math.min(304.8, stock / 2) - 1e-4);
        }
      }),
      { seed: 4711, numRuns: 500 },
    );
  });

  it("names its pieces apart and keeps who called for them", () => {
    const pieces = scarfed(part(7000), stick(2400, 20));
    expect(new Set(pieces.map(({ id }) => id)).size).toBe(pieces.length);
    expect(pieces.map(({ name }) => name)).toEqual([
      "Run, piece 1 of 3",
      "Run, piece 2 of 3",
      "Run, piece 3 of 3",
    ]);
    expect(pieces.every(({ because }) => because[0] === "trim")).toBe(true);
  });
});
