import { describe, expect, it } from "vitest";
import { sightOf } from "./sight.ts";

const box = (left: number, bottom: number, right: number, top: number) => [
  { x: left, y: bottom },
  { x: right, y: bottom },
  { x: right, y: top },
  { x: left, y: top },
];
/** A strip of a far wall is seen past tall blinds only where no line of sight to it is cut. */
const seen = (strip: readonly [number, number, number, number], blinds: readonly ReturnType<typeof box>[]) =>
  sightOf(
    { x: EYE[0], y: EYE[1], height: 1500 },
    { outline: box(...strip), low: 1000 },
    blinds.map((outline) => ({ outline, low: 0, high: 3000 })),
  ).seen;
let EYE: readonly [number, number] = [0, 0];

describe("what is seen past things", () => {
  it("loses the shadow of a pillar on the far wall, from 2 to 8 of 10 (ISO-PILLAR, closed form)", () => {
    EYE = [5000, 1000];
    const pillar = [box(4000, 4000, 6000, 6000)];
    expect(seen([0, 10_000, 1990, 10_001], pillar)).toBeGreaterThan(0.999);
    expect(seen([2010, 10_000, 7990, 10_001], pillar)).toBeLessThan(0.001);
    expect(seen([8010, 10_000, 10_000, 10_001], pillar)).toBeGreaterThan(0.999);
  });

  it("is the lit band 0.25 to 3.75 through a doorway (ISO-DOOR, closed form)", () => {
    EYE = [2000, 2000];
    const wall = [box(3999.999, 0, 4000, 1500), box(3999.999, 2500, 4000, 4000)];
    expect(seen([9000, 260, 9001, 3740], wall)).toBeGreaterThan(0.999);
    expect(seen([9000, 0, 9001, 240], wall)).toBeLessThan(0.001);
    expect(seen([9000, 3760, 9001, 4000], wall)).toBeLessThan(0.001);
  });
});
