import { assert, double, property, record } from "fast-check";
import { describe, expect, it } from "vitest";
import { circle, placed, rectangle, ringArea } from "./outline.ts";
import { distanceTo, nearest, overlapDepth, rounded } from "./rounded.ts";
import { grown } from "./clip.ts";

const number = (min: number, max: number) => double({ min, max, noNaN: true });
const stand = record({ x: number(-5000, 5000), y: number(-5000, 5000), turn: number(-180, 180) });

describe("the clear distance of two shapes", () => {
  it("is 1443.171 between two round plinths (GAP-CIRCLES: centres' distance less both radii, closed form)", () => {
    const found = nearest(rounded([{ x: 0, y: 0 }], 400), rounded([{ x: 2000, y: 900 }], 350));
    expect(found.width).toBeCloseTo(1443.171, 3);
  });

  it("is the same from either side, and as far as its two points are apart", () => {
    assert(
      property(stand, stand, number(0, 300), (one, other, radius) => {
        const a = rounded(placed(rectangle(800, 300), one), radius);
        const b = rounded(placed(rectangle(500, 500), other));
        const [there, back] = [nearest(a, b), nearest(b, a)];
        expect(there.width).toBeCloseTo(back.width, 6);
        if (there.width === 0) return;
        expect(Math.hypot(there.a.x - there.b.x, there.a.y - there.b.y)).toBeCloseTo(there.width, 6);
        expect(distanceTo(a, there.b)).toBeCloseTo(there.width, 6);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it("is nothing once a shape has slid out of another by the depth of the overlap", () => {
    assert(
      property(stand, number(0, 200), (at, radius) => {
        const near = { x: at.x / 20, y: at.y / 20, turn: at.turn };
        const a = rounded(placed(rectangle(800, 300), near), radius);
        const b = rounded(rectangle(600, 600));
        const { depth, away } = overlapDepth(a, b);
        if (depth <= 0) return;
        const slid = a.core.map(({ x, y }) => ({ x: x + away.x * depth, y: y + away.y * depth }));
        expect(Math.abs(overlapDepth(rounded(slid, radius), b).depth)).toBeLessThan(1e-6);
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});

describe("a shape grown", () => {
  it("has the area A + Pr + πr² (OFFSET-CONVEX: Steiner's formula, 2 by 1 grown by 0.5: 5.785398)", () => {
    const [ring] = grown([rectangle(2000, 1000)], 500);
    expect(Math.abs(ringArea(ring!)) / 1e6 / 5.785398).toBeCloseTo(1, 3);
  });

  it("shrunk goes on for as long as a circle fits (INCIRCLE-RECT: 2.0; INCIRCLE-345: 1.0; closed form)", () => {
    const triangle = [
      { x: 0, y: 0 },
      { x: 4000, y: 0 },
      { x: 0, y: 3000 },
    ];
    for (const [ring, radius] of [[rectangle(6000, 4000), 2000] as const, [triangle, 1000] as const]) {
      expect(grown([ring], -radius + 1)).toHaveLength(1);
      expect(grown([ring], -radius - 1)).toHaveLength(0);
    }
  });

  it("drawn as a polygon keeps the area of its circle (πr², closed form)", () => {
    assert(
      property(number(10, 3000), (radius) => {
        const area = ringArea(circle({ x: 1, y: 2 }, radius, 0.4));
        expect(area / (Math.PI * radius ** 2)).toBeCloseTo(1, 9);
      }),
      { seed: 5, numRuns: 100 },
    );
  });
});
