import { describe, expect, it } from "vitest";
import { parseAngle, parseWeight, printAngle, printArea, printDoubt, printWeight } from "./figures.ts";

describe("figures other than lengths", () => {
  it.each([
    ["90.2", 90.2],
    ["90°", 90],
    ["90.2 deg", 90.2],
    ["89° 45'", 89.75],
    [`89° 45' 36"`, 89.76],
    ["-45", -45],
    ["90,5", 90.5],
  ] as const)("the angle %s is %s degrees", (text, value) => {
    const read = parseAngle(text);
    expect(read.ok ? read.value : read.reason).toBeCloseTo(value, 9);
  });
  it.each(["", "square", "400", "89° 75'", "90 or so"])("the angle %j is refused", (text) => {
    expect(parseAngle(text).ok).toBe(false);
  });
  it("an angle prints to a tenth", () => {
    expect([90, 90.24, -45.06, -0.01].map((value) => printAngle(value))).toEqual([
      "90°",
      "90.2°",
      "-45.1°",
      "0°",
    ]);
  });
  it("an area prints in square feet or square metres", () => {
    // 1 sq ft = 0.09290304 m² exactly (NIST SP 811, appendix B.8).
    expect(printArea(92_903.04 * 396, "ft-in")).toBe("396 sq ft");
    expect(printArea(36_800_000, "m")).toBe("36.8 m²");
  });
  it("a doubt is rounded up to the next plain step", () => {
    const inches = [0, 1 / 16, 0.07, 0.25, 0.26, 0.9, 1.2].map((inch) => printDoubt(inch * 25.4, "ft-in"));
    expect(inches).toEqual(
      ["1/16", "1/16", "1/8", "1/4", "1/2", "1", "2"].map((step) => `good to ${step} in`),
    );
    expect([0, 1.1, 5, 101].map((mm) => printDoubt(mm, "mm"))).toEqual([
      "good to 1 mm",
      "good to 2 mm",
      "good to 5 mm",
      "good to 110 mm",
    ]);
  });
  it("a pound is 0.45359237 kg", () => {
    // International yard and pound agreement, 1959.
    expect(parseWeight("40 lb")).toEqual({ ok: true, value: 18.143695 });
    expect(parseWeight("18 kg")).toEqual({ ok: true, value: 18 });
    expect(parseWeight("500 g")).toEqual({ ok: true, value: 0.5 });
    expect(parseWeight("0 kg").ok).toBe(false);
    expect(parseWeight("heavy").ok).toBe(false);
    expect([printWeight(18.143695, "ft-in"), printWeight(18.1, "mm")]).toEqual(["40 lb", "18 kg"]);
  });
});
