import { describe, expect, it } from "vitest";
import { snagsOf, type BoxWish } from "../testing/fixed.ts";

const heights = [2600, 2600, 2600, 2600];
const sprinkler = { wall: 0, offset: 3000, out: 2000, up: 2600, kind: "sprinkler" as const };

/** Hung so that its top is so high. */
const board = (top: number): BoxWish => ({
  name: "Board",
  at: [3000, -2000],
  size: [800, 100, 400],
  low: top - 400,
  layer: "hung",
});

const under = (thing: BoxWish) =>
  snagsOf("sprinkler-clearance", { boxes: [thing] }, { fixtures: [sprinkler] })[0]?.mend;

describe("what hangs too high", () => {
  it("is hung lower, never made lower: from the ceiling by a millimetre", () => {
    expect(snagsOf("too-tall", { boxes: [board(2600)] }, { heights })).toEqual([]);
    expect(snagsOf("too-tall", { boxes: [board(2601)] }, { heights })[0]).toMatchObject({
      sentence: "Board reaches 1 mm into the ceiling, which is at 2600 mm over it.",
      mend: "Hang it 1 mm lower.",
    });
    expect(snagsOf("too-tall", { boxes: [board(2602)] }, { heights, doubt: 10 })[0]).toMatchObject({
      level: "mind",
      sentence: expect.stringContaining("Cannot tell yet whether Board clears the ceiling:"),
    });
  });

  it("is hung lower under a sprinkler too, and what stands there is made lower", () => {
    expect(under(board(2600 - 457.2 + 1))).toBe("Hang it 1 mm lower, or ask the fire officer.");
    expect(under({ ...board(2300), size: [300, 300, 2300], low: 0, layer: "furniture" })).toMatch(/^Make it/);
    expect(under(board(2600 - 457.2 - 1))).toBeUndefined();
  });
});
