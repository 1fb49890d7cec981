import { assert, double, property } from "fast-check";
import { describe, expect, it } from "vitest";
import { facingWidth, narrowerThan, narrowest } from "./facing.ts";
import { placed, rectangle } from "./outline.ts";
import { nearest, rounded } from "./rounded.ts";

const UP = { x: 0, y: 1 };

describe("two shapes facing each other", () => {
  it("are narrower than a width between two circles over a chord of closed form", () => {
    // Radii 400, centres 1000 apart: 2(500 - √(400² - t²)) < 300 where t < √(400² - 350²) = 193.649 (closed form).
    const [low, high] = [rounded([{ x: 0, y: 0 }], 400), rounded([{ x: 0, y: 1000 }], 400)];
    const stretch = narrowerThan(low, high, UP, 300)!;
    expect(stretch[1] - stretch[0]).toBeCloseTo(2 * 193.649, 2);
    expect(narrowest(low, high, UP)?.width).toBeCloseTo(200, 6);
  });

  it("are nowhere nearer square across than they are at all, and end a narrow stretch at its width", () => {
    assert(
      property(
        double({ min: -60, max: 60, noNaN: true }),
        double({ min: 200, max: 900, noNaN: true }),
        (turn, y) => {
          const low = rounded(placed(rectangle(900, 300), { x: 0, y: -400, turn }));
          const high = rounded(placed(rectangle(700, 200), { x: 200, y: y + 400, turn: -turn / 2 }));
          const across = narrowest(low, high, UP)!;
          expect(across.width).toBeGreaterThan(nearest(low, high).width - 1e-6);
          const width = across.width + 40;
          for (const end of narrowerThan(low, high, UP, width)!)
            expect(facingWidth(low, high, UP, end)).toBeLessThan(width + 1e-3);
        },
      ),
      { seed: 10, numRuns: 200 },
    );
  });
});
