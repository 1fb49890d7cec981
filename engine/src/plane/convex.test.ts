import { assert, array, double, integer, property, tuple } from "fast-check";
import { describe, expect, it } from "vitest";
import { cut, shared, united } from "./clip.ts";
import { convexParts, isConvex } from "./convex.ts";
import { boundsOf, inRing, placed, rectangle, ringArea } from "./outline.ts";
import { eachNearPair } from "./pairs.ts";
import { side } from "./side.ts";

/** A star-shaped ring round the origin: nowhere crosses itself, hollow as it pleases. */
const ring = array(double({ min: 300, max: 2000, noNaN: true }), { minLength: 5, maxLength: 14 }).map(
  (radii) =>
    radii.map((radius, index) => {
      const angle = (2 * Math.PI * index) / radii.length;
      return {
        x: Math.round(radius * Math.cos(angle) * 1000) / 1000,
        y: Math.round(radius * Math.sin(angle) * 1000) / 1000,
      };
    }),
);
const area = (rings: readonly (readonly { readonly x: number; readonly y: number }[])[]) =>
  rings.reduce((sum, one) => sum + ringArea(one), 0);

describe("a ring in convex parts", () => {
  it("keeps its area, part by part convex, none in another", () => {
    assert(
      property(ring, (points) => {
        const parts = convexParts(points);
        expect(parts.every(isConvex)).toBe(true);
        expect(area(parts)).toBeCloseTo(ringArea(points), 2);
        expect(Math.abs(area(united(parts)) - ringArea(points))).toBeLessThan(20);
      }),
      { seed: 6, numRuns: 100 },
    );
  });
});

describe("clipping", () => {
  it("shares and cuts a ring into what it was, to the grid", () => {
    assert(
      property(ring, double({ min: -90, max: 90, noNaN: true }), (points, turn) => {
        const other = [placed(rectangle(1500, 900), { x: 300, y: -200, turn })];
        const whole = area(shared([points], other)) + area(cut([points], other));
        expect(Math.abs(whole - ringArea(points))).toBeLessThan(50);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

describe("the side of a line", () => {
  it("turns round with two points exchanged, and is 0 on the line, for points on the grid", () => {
    const point = tuple(integer({ min: -5000, max: 5000 }), integer({ min: -5000, max: 5000 })).map(
      ([x, y]) => ({ x, y }),
    );
    assert(
      property(point, point, point, (a, b, c) => {
        expect(side(a, b, c) + side(b, a, c)).toBe(0);
        expect(side(a, b, c)).toBe(side(b, c, a));
        expect(side(a, b, { x: 2 * b.x - a.x, y: 2 * b.y - a.y })).toBe(0);
      }),
      { seed: 8, numRuns: 300 },
    );
  });
});

describe("boxes near each other", () => {
  it("are those that comparing every two finds, each pair once", () => {
    assert(
      property(array(ring, { maxLength: 12 }), double({ min: 0, max: 500, noNaN: true }), (rings, within) => {
        const boxes = rings.map((points, k) =>
          boundsOf(placed(points, { x: (k * 3777) % 9000, y: (k * 2111) % 7000, turn: 0 })),
        );
        const found: string[] = [];
        eachNearPair(boxes, within, (i, j) => found.push(`${i} ${j}`) > 0);
        const expected = boxes.flatMap((p, i) =>
          boxes.flatMap((q, j) =>
            i < j &&
            Math.max(p.left, q.left) - Math.min(p.right, q.right) <= within &&
            Math.max(p.bottom, q.bottom) - Math.min(p.top, q.top) <= within
              ? [`${i} ${j}`]
              : [],
          ),
        );
        expect(found.toSorted()).toEqual(expected.toSorted());
      }),
      { seed: 9, numRuns: 100 },
    );
  });

  it("hold the points of their rings", () => {
    expect(inRing(rectangle(2, 2), { x: 0.5, y: 0.5 })).toBe(true);
    expect(inRing(rectangle(2, 2), { x: 1.5, y: 0.5 })).toBe(false);
  });
});
