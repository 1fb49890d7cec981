import { describe, expect, it } from "vitest";
import { arranged, type RoomWish } from "../testing/arranged.ts";
import type { Snag } from "../snags/snag.ts";
import { cardModels } from "./parts.ts";
import { modelSnags } from "./rules.ts";

/** 1:50 unless it says otherwise; board of 1.5 mm. */
function snags(wish: RoomWish): readonly Snag[] {
  const show = { gridPitch: 5, gridSquare: 250, cardThickness: 1.5, ...wish.show };
  const { document, room } = arranged({ ...wish, show });
  return modelSnags(cardModels(document, [room], undefined), document);
}

const room = (depth: number, height = 2700): RoomWish => ({
  corners: [
    [0, 0],
    [5000, 0],
    [5000, -depth],
    [0, -depth],
  ],
  heights: [height, height, height, height],
});

describe("walls that vanish", () => {
  // A board of 10 mm: from memory. A wall's board is a thickness longer than the wall and a thickness taller.
  it("are minded at 424 mm of wall and not at 426, at 1:50 in board of 1.5 mm", () => {
    const [snag, ...rest] = snags(room(424));
    expect(rest).toEqual([]);
    expect(snag).toMatchObject({
      rule: "walls-vanish",
      level: "mind",
      room: "room",
      wanted: 10,
      things: ["K1~K2", "K3~K0"],
    });
    expect(snag?.measured).toBeCloseTo(9.98, 9);
    expect(snag?.sentence).toContain("At 1:50, Wall K1-K2 and 1 more of Room comes to 9.9 mm of card");
    expect(snags(room(426))).toEqual([]);
  });

  it("are minded at 424 mm of height and not at 426", () => {
    expect(snags(room(4000, 424)).map(({ rule }) => rule)).toEqual(["walls-vanish"]);
    expect(snags(room(4000, 426))).toEqual([]);
  });

  it("must be twice as long as their board is thick", () => {
    const thick = { cardThickness: 8 };
    expect(snags({ ...room(399), show: thick })[0]).toMatchObject({ rule: "walls-vanish", wanted: 16 });
    expect(snags({ ...room(401), show: thick })).toEqual([]);
  });
});

const slot = (width: number): RoomWish => ({
  ...room(4000),
  doors: [{ wall: 0, offset: 1000, width, height: 1000, sill: 500, kind: "window", name: "Slot" }],
});

describe("board too thick for an opening", () => {
  it("is minded at 74 mm and not at 76, at 1:50 in board of 1.5 mm", () => {
    const [snag, ...rest] = snags(slot(74));
    expect(rest).toEqual([]);
    expect(snag).toMatchObject({ rule: "board-thick", level: "mind", things: ["d0"], wanted: 1.5 });
    expect(snag?.measured).toBeCloseTo(1.48, 9);
    expect(snags(slot(76))).toEqual([]);
  });
});
