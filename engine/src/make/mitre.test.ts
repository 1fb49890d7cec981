import { describe, expect, it } from "vitest";
import { CROWN_TABLES } from "../testing/crown-tables.ts";
import { flatCut, sawAngle, standingCut } from "./mitre.ts";

describe("a crown laid flat on the saw", () => {
  // Source: operator's manuals of mitre saws, tables for crown laid flat; 38: "31.62 / 33.85", 45: "35.3 / 30".
  it("is set at a square corner as saw manuals print it", () => {
    const at38 = flatCut(38, 90);
    expect(at38.mitre).toBeCloseTo(31.62, 2);
    // The manuals cut 33.859 off to 33.85.
    expect(Math.abs(at38.bevel - 33.855)).toBeLessThan(0.01);
    const at45 = flatCut(45, 90);
    expect(at45.mitre).toBeCloseTo(35.26, 2);
    expect(at45.bevel).toBeCloseTo(30, 6);
  });

  it("agrees with the tables of three and more spring angles to a hundredth", () => {
    let checked = 0;
    for (const [spring, rows] of Object.entries(CROWN_TABLES))
      for (const [wall, [mitre, bevel]] of Object.entries(rows)) {
        const cut = flatCut(Number(spring), Number(wall));
        expect(Math.abs(cut.mitre - mitre), `${spring} at ${wall}`).toBeLessThanOrEqual(0.0051);
        expect(Math.abs(cut.bevel - bevel), `${spring} at ${wall}`).toBeLessThanOrEqual(0.0051);
        checked += 1;
      }
    expect(checked).toBe(200);
  });

  it("agrees with planes set up in space", () => {
    for (let spring = 5; spring <= 85; spring += 5)
      for (let wall = 20; wall < 180; wall += 7) {
        const wanted = inSpace(spring, wall);
        const cut = flatCut(spring, wall);
        expect(cut.mitre).toBeCloseTo(wanted.mitre, 9);
        expect(cut.bevel).toBeCloseTo(wanted.bevel, 9);
      }
  });

  // Source: saw manual, chart of compound mitres for slanted-side boxes: four sides, 26 degrees of slope: 42 and 18.
  it("cuts the side of a slanted box, whose slope is what the spring leaves of 90", () => {
    const box = flatCut(90 - 26, 90);
    expect(Math.round(box.mitre)).toBe(42);
    expect(Math.round(box.bevel)).toBe(18);
    expect(flatCut(90 - 15, 120)).toMatchObject({
      mitre: expect.closeTo(29.15, 2),
      bevel: expect.closeTo(7.44, 2),
    });
    expect(flatCut(90 - 10, 90)).toMatchObject({
      mitre: expect.closeTo(44.56, 2),
      bevel: expect.closeTo(7.05, 2),
    });
  });

  it("is cut square where the wall runs straight on", () => {
    expect(flatCut(38, 180).mitre).toBeCloseTo(0, 12);
    expect(flatCut(38, 180).bevel).toBeCloseTo(0, 12);
  });

  it("refuses angles no corner and no crown has", () => {
    expect(() => flatCut(91, 90)).toThrow("91");
    expect(() => flatCut(38, 0)).toThrow("0");
    expect(() => standingCut(181)).toThrow("181");
  });
});

describe("a trim standing against the fence", () => {
  // Trade arithmetic: saw scale = 90 less half the corner, 44 for a 92 degree corner. Common practice, no source.
  it("is mitred by half of what its corner turns", () => {
    expect(standingCut(92)).toEqual({ mitre: 44, bevel: 0 });
    expect(standingCut(90)).toEqual({ mitre: 45, bevel: 0 });
    expect(standingCut(180)).toEqual({ mitre: 0, bevel: 0 });
  });

  // Source: exact angles of regular frames (180 / n), as saw manuals list them for picture frames.
  it("closes a regular frame of any number of sides", () => {
    for (const [sides, angle] of [
      [4, 45],
      [5, 36],
      [7, 25.7143],
      [8, 22.5],
      [10, 18],
    ] as const)
      expect(standingCut(180 - 360 / sides).mitre).toBeCloseTo(angle, 4);
  });

  it("sees a corner that comes into the room from the other side", () => {
    expect(sawAngle(268)).toBe(92);
    expect(sawAngle(92)).toBe(92);
  });
});

/** Mitre and bevel from planes: the crown's face, and the upright plane that halves the corner. */
function inSpace(spring: number, wall: number): { mitre: number; bevel: number } {
  const radians = Math.PI / 180;
  const along = [1, 0, 0];
  const across = [0, Math.sin(spring * radians), Math.cos(spring * radians)];
  const normal = cross(along, across);
  const cut = [Math.sin((wall / 2) * radians), -Math.cos((wall / 2) * radians), 0];
  const trace = cross(cut, normal);
  return {
    mitre: Math.atan2(Math.abs(dot(trace, along)), Math.abs(dot(trace, across))) / radians,
    bevel: Math.asin(Math.abs(dot(cut, normal))) / radians,
  };
}

function cross(a: readonly number[], b: readonly number[]): number[] {
  const [ax = 0, ay = 0, az = 0] = a;
  const [bx = 0, by = 0, bz = 0] = b;
  return [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, index) => sum + one * (b[index] ?? 0), 0);
}
