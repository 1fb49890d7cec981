import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exactLength, parseLength, printLength } from "./length.ts";
import { scanLength } from "./scan.ts";
import type { UnitStyle } from "./scan.ts";

const STYLES = ["ft-in", "in", "mm", "cm", "m"] as const;
/** 1 in is 25.4 mm exactly: international yard and pound agreement, 1959. */
const IN = 25.4;

function mm(text: string, units?: UnitStyle): number | string {
  const read = parseLength(text, units, { zero: true, signed: true });
  return read.ok ? Number(read.value.toFixed(6)) : read.reason;
}

describe("a length as people write it", () => {
  it.each([
    `12' 3 1/2"`,
    `12' 3-1/2`,
    `12' 3-1/2"`,
    `12-3.5`,
    `12-3 1/2`,
    `12ft 3.5in`,
    `12 ft 3 1/2 in`,
    `12'-3 1/2"`,
    `12' - 3 1/2"`,
    `147 1/2"`,
    `147.5"`,
    `147-1/2"`,
    `147½ in`,
    `12'3½"`,
    `12′ 3½″`,
    `12’ 3½”`,
    `12' 3½''`,
    `12 feet 3 1/2 inches`,
    `12 foot 3½ inch`,
    `12\u00a0ft\u00a03.5\u00a0in`,
    `12\u20133.5`,
    `12–3½`,
    `12' 3 1\u20442"`,
    `  12'  3 1/2"  `,
    `12FT 3.5IN`,
    `12 ft. 3.5 in.`,
  ])("%s is 147 1/2 inches with nobody having said the units", (text) => {
    expect(mm(text)).toBe(147.5 * IN);
  });

  it.each([
    ["3.75m", undefined],
    ["3,75m", undefined],
    ["3,75 m", undefined],
    ["375cm", undefined],
    ["375 cm", undefined],
    ["3750mm", undefined],
    ["3.75 metres", undefined],
    ["3.75 meters", undefined],
    ["3750", "mm"],
    ["375", "cm"],
    ["3.75", "m"],
    ["3,75", "m"],
    ["3750 millimetres", "in"],
  ] as const)("%s (units %s) is 3750 mm", (text, units) => {
    expect(mm(text, units)).toBe(3750);
  });

  it.each([
    [`3/4"`, 0.75],
    [`⅛"`, 0.125],
    [`⅞ in`, 0.875],
    [`1/16"`, 0.0625],
    [`10' 4"`, 124],
    [`24'`, 288],
    [`0"`, 0],
    [`-3"`, -3],
    [`1/2'`, 6],
    [`12 1/2 ft`, 150],
  ] as const)("%s is %s in", (text, inches) => {
    expect(mm(text)).toBeCloseTo(inches * IN, 6);
  });

  it.each([
    ["24 0", 288],
    ["24 0 1/2", 288.5],
    ["12-3.5", 147.5],
    ["12 3½", 147.5],
  ] as const)("%s bare is feet and inches where that is said", (text, inches) =>
    expect(mm(text, "ft-in")).toBe(inches * IN),
  );

  it.each([
    ["24", "ft-in", `24: feet or inches? Write 24' or 24"`, 0],
    ["24", undefined, "24: of what?", 0],
    ["24 0", undefined, "of what?", 0],
    ["10.4'", undefined, "10 feet 4 inches", 0],
    ["10.4 ft", "ft-in", "10 feet 4 inches", 0],
    [`12' 13"`, "ft-in", "a foot or more", 4],
    [`3m 2"`, undefined, "two kinds of units", 3],
    ["1,200 mm", undefined, "thousands", 0],
    [`3,5"`, undefined, "comma", 0],
    [`3 7/4"`, undefined, "fraction", 1],
    [`1/0"`, undefined, "nothing", 0],
    ["99999999 m", undefined, "10 km", 0],
    ["", undefined, "should stand here", 0],
    ["twelve", undefined, "should stand here", 0],
    [`6" wide`, undefined, "left over", 3],
  ] as const)("%s (units %s) is refused with its reason and character", (text, units, reason, at) => {
    const read = parseLength(text, units);
    expect(read).toMatchObject({ ok: false, at });
    expect(read.ok ? "" : read.reason).toContain(reason);
  });

  it("is neither negative nor nothing unless that is allowed", () => {
    expect(parseLength(`-3"`).ok).toBe(false);
    expect(parseLength(`0"`).ok).toBe(false);
    expect(parseLength(`-3"`, undefined, { signed: true })).toEqual({ ok: true, value: -76.2 });
  });

  it("ends where the next word begins", () => {
    expect(scanLength(`3' 2" from A`, 0)).toEqual({ ok: true, value: 965.2, end: 5 });
    expect(scanLength(`6' x 1' 10"`, 0)).toMatchObject({ end: 2 });
    expect(scanLength("3 marks", 0, { units: "m" })).toMatchObject({ value: 3000, end: 1 });
  });
});

describe("a printed length", () => {
  it.each([
    [147.5 * IN, "ft-in", `12' 3 1/2"`],
    [6 * IN, "ft-in", `6"`],
    [0.5 * IN, "ft-in", `1/2"`],
    [288.5 * IN, "ft-in", `24' 0 1/2"`],
    [11.99 * IN, "ft-in", `1' 0"`],
    [-38 * IN, "ft-in", `-3' 2"`],
    [0, "ft-in", `0"`],
    [147.5 * IN, "in", `147 1/2"`],
    [3750, "mm", "3750 mm"],
    [3754, "cm", "375.4 cm"],
    [3750, "cm", "375 cm"],
    [3750, "m", "3.750 m"],
    [-0.2, "mm", "0 mm"],
  ] as const)("%s mm in %s is %s", (value, units, text) => expect(printLength(value, units)).toBe(text));

  it.each(STYLES)("in %s reads back as the same number on the print grid", (units) => {
    const inch = units === "ft-in" || units === "in";
    fc.assert(
      fc.property(fc.integer({ min: -60_000, max: 60_000 }), (steps) => {
        const value = inch ? Number((steps * 1.5875).toFixed(4)) : steps;
        expect(parseLength(printLength(value, units), units, { zero: true, signed: true })).toEqual({
          ok: true,
          value,
        });
      }),
      { seed: 11, numRuns: 2000 },
    );
  });

  it.each(STYLES)("in %s is within half a step of any value, and has no decimal feet", (units) => {
    const half = units === "ft-in" || units === "in" ? 25.4 / 32 : 0.5;
    fc.assert(
      fc.property(fc.double({ min: -100_000, max: 100_000, noNaN: true }), (value) => {
        const text = printLength(value, units);
        const read = parseLength(text, units, { zero: true, signed: true });
        expect(Math.abs((read.ok ? read.value : Infinity) - value)).toBeLessThanOrEqual(half + 1e-6);
        expect(text).not.toMatch(/\.\d+ ?'/);
      }),
      { seed: 12, numRuns: 2000 },
    );
  });

  it.each(STYLES)("in its exact form in %s reads back as the very same number", (units) => {
    const lengths = fc
      .double({ min: -1e7, max: 1e7, noNaN: true })
      .filter((value) => value === 0 || Math.abs(value) > 1e-12);
    fc.assert(
      fc.property(lengths, (value) => {
        const read = parseLength(exactLength(value, units), units, { zero: true, signed: true });
        expect(read.ok ? read.value + 0 : read.reason).toBe(value + 0);
      }),
      { seed: 13, numRuns: 2000 },
    );
  });
});

it("anything at all is read or refused, never thrown", () => {
  const letters = fc.constantFrom(..."0123456789'\"-/., ftinm½⅛x′″’”–\u00a0+°".split(""));
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string({ unit: "binary" }),
        fc.array(letters).map((all) => all.join("")),
      ),
      (text) => {
        for (const units of [undefined, ...STYLES]) {
          const read = parseLength(text, units);
          if (read.ok) expect(read.value).toBeGreaterThan(0);
          else expect(read.reason.length).toBeGreaterThan(5);
        }
      },
    ),
    { seed: 14, numRuns: 4000 },
  );
});
