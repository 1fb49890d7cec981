import { expect, test } from "vitest";
import { chiSquareCritical, chiSquareTail } from "./chi-square.ts";

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values of chi-square (from memory).
const TABLE = [
  [0.05, 1, 3.841],
  [0.05, 2, 5.991],
  [0.05, 10, 18.307],
  [0.05, 100, 124.342],
  [0.01, 5, 15.086],
  [0.001, 1, 10.828],
  [0.001, 2, 13.816],
  [0.001, 10, 29.588],
  [0.001, 30, 59.703],
  [0.001, 100, 149.449],
] as const;

test("critical values are those of the published table to its last digit", () => {
  for (const [alpha, freedom, value] of TABLE)
    expect(Math.abs(chiSquareCritical(alpha, freedom) - value)).toBeLessThan(0.0006);
});

test("with two degrees the tail is exactly exp(-x / 2)", () => {
  for (const x of [0.01, 0.5, 2, 3.9, 4.1, 20, 200])
    expect(chiSquareTail(x, 2) / Math.exp(-x / 2)).toBeCloseTo(1, 12);
});

test("the tail at a critical value is the chance asked for, up to a thousand degrees", () => {
  for (const freedom of [1, 3, 17, 133, 1000]) {
    for (const alpha of [0.5, 0.05, 0.001, 1e-6]) {
      expect(chiSquareTail(chiSquareCritical(alpha, freedom), freedom) / alpha).toBeCloseTo(1, 9);
    }
  }
});

test("a chance of 0 or a freedom of 0 is a bug and says so", () => {
  expect(() => chiSquareCritical(0, 3)).toThrow("chance 0");
  expect(() => chiSquareTail(1, 0)).toThrow("0 degrees");
});
