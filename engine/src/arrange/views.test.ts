import { describe, expect, it } from "vitest";
import type { Mount } from "../document/tables.ts";
import { arranged, type PieceWish } from "../testing/arranged.ts";
import { arrangeRooms } from "./derive.ts";
import { arrangeSnags } from "./rules.ts";

/** A door in the middle of the left wall, a work before the middle of the right one, 6 m of room between. */
const seenPast = ({
  pieces = [],
  mounts = [],
}: {
  pieces?: readonly PieceWish[];
  mounts?: readonly Mount[];
}) => {
  const { document, room } = arranged({
    corners: [
      [0, 0],
      [6000, 0],
      [6000, -4000],
      [0, -4000],
    ],
    doors: [{ wall: 3, offset: 1500, width: 1000 }],
    neighbours: [{ x: 5500, y: -2000, width: 600, depth: 600, low: 760 }],
    pieces,
  });
  const fixed = { ...document, mounts: Object.fromEntries(mounts.map((one) => [one.id, one])) };
  const [arrangement] = arrangeRooms(fixed, [room]);
  const snags = arrangeSnags([arrangement!], fixed).filter(({ rule }) => rule === "neighbour-hidden");
  return { view: arrangement!.views[0]!, snags };
};

/** A screen out from the top wall halfway along, so far into the room and so high above the floor. */
const screen = (depth: number, up: number) =>
  seenPast({
    pieces: [{ name: "Screen", size: [20, depth, 1500], at: [] }],
    mounts: [
      {
        id: "screen",
        piece: "p0",
        room: "room",
        number: 1,
        from: "K0",
        to: "K1",
        datum: "K0",
        offset: 3000,
        up,
      },
    ],
  });

describe("the view of a neighbour's work past what is fixed to a wall", () => {
  it("is hidden by what stands out from the wall into it, and told by its name", () => {
    // Half of the work is behind what reaches to the line between the middles.
    const { view, snags } = screen(2000, 500);
    expect(view.seen).toBeCloseTo(0.5, 6);
    expect(view.hiddenBy).toEqual(["screen"]);
    expect(snags.map(({ sentence, things }) => [sentence, things])).toEqual([
      ["50 % of Bronze is hidden from Door 1 by Screen.", ["n0", "screen", "d0"]],
    ]);
  });

  it("is free where that ends a millimetre beside the outermost line of sight, or hangs above it", () => {
    // The work's top edge is 300 beside the middle line at 5200 (its near corner), so at 3010 it is 300 * 3010 / 5200.
    const beside = 2000 - (300 * 3010) / 5200;
    expect(screen(beside - 1, 500).view.hiddenBy).toEqual([]);
    expect(screen(beside + 1, 500).view.hiddenBy).toEqual(["screen"]);
    expect(screen(2000, 2200).view.seen).toBe(1);
  });
});
