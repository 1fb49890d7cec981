import { describe, expect, it } from "vitest";
import { arranged, type PieceWish, type RoomWish } from "../testing/arranged.ts";
import { arrangeRooms } from "./derive.ts";
import type { Arrangement } from "./model.ts";
import { arrangeSnags } from "./rules.ts";

/** A hall with a door at either end and this many small things in rows. */
const full = (count: number, apart: number): RoomWish => {
  const columns = Math.ceil(Math.sqrt(count * 2));
  const [width, depth] = [columns * apart + 4000, Math.ceil(count / columns) * apart + 4000];
  const thing: PieceWish = {
    name: "Cork",
    size: [60, 60, 60],
    at: Array.from({ length: count }, (_, k) => [
      2000 + (k % columns) * apart,
      -2000 - Math.floor(k / columns) * apart,
      k % 90,
    ]),
  };
  return {
    corners: [
      [0, 0],
      [width, 0],
      [width, -depth],
      [0, -depth],
    ],
    doors: [
      { wall: 1, offset: 300, width: 1000 },
      { wall: 3, offset: 300, width: 1000 },
    ],
    pieces: [thing],
  };
};

const seen = (wish: RoomWish) => {
  const { document, room } = arranged(wish);
  const arrangements = arrangeRooms(document, [room]);
  const snags = arrangeSnags(arrangements, document).filter(({ rule }) => rule === "routes-not-all-judged");
  return { arrangement: arrangements[0] as Arrangement, snags };
};

describe("a room too full for all of its ways to be looked at", () => {
  it("says for how many works nobody looked, and looks at the rest", () => {
    const { arrangement, snags } = seen(full(1600, 250));
    const judged = arrangement.routes.filter(({ to }) => to.startsWith("p0")).length;
    expect(judged).toBeGreaterThan(0);
    expect(snags).toHaveLength(1);
    expect(snags[0]).toMatchObject({ level: "know", measured: 1600 - judged, room: "room" });
    expect(snags[0]?.sentence).toContain("please look at them yourself");
  });

  it("says so of every work where there are too many gaps to look at any", () => {
    const { arrangement, snags } = seen(full(1500, 61));
    expect(arrangement.routes).toEqual([]);
    expect(snags[0]?.measured).toBe(1500);
  });

  it("says nothing of a room whose ways are all looked at", () => {
    const { arrangement, snags } = seen(full(40, 900));
    expect(arrangement.routes).toHaveLength(41);
    expect(snags).toEqual([]);
  });
});
