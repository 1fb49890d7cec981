import { describe, expect, it } from "vitest";
import type { Mount, ShowDocument } from "../document/tables.ts";
import { arranged, type RoomWish } from "../testing/arranged.ts";
import { arrangeRooms } from "./derive.ts";
import { nearestGaps } from "./nearest.ts";

/** A hall 6 m by 4 m with a counter, an urn and a hat on it, a low crate before it, a high cabinet beside it and a lamp over it. */
const HALL: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
  baseDepth: 20,
  doubt: 2,
  pieces: [
    { name: "Counter", size: [1800, 600, 900], at: [[3000, -1000, 0]] },
    { name: "Urn", size: [200, 200, 300], at: [[0, 0, 0]] },
    { name: "Hat", size: [300, 200, 100], at: [[0, 0, 0]] },
    { name: "Crate", size: [400, 400, 300], at: [[3000, -1600, 0]] },
    { name: "Cabinet", size: [500, 500, 1800], at: [[4400, -1000, 0]] },
    { name: "Lamp", size: [300, 300, 250], at: [[3000, -1000, 0]] },
    { name: "Shelf", size: [600, 150, 30], at: [] },
  ],
};

type Changes = { readonly [id: string]: Partial<ShowDocument["placements"][string]> };

/** The hall with the urn 600 left and the hat 500 right of the counter's middle, and the lamp hung 2200 up. */
function arrangementOf(changes: Changes = {}, mounts: readonly Mount[] = []) {
  const { document, room } = arranged(HALL);
  const said: Changes = {
    "p1.1": { on: "p0.1", x: -600 },
    "p2.1": { on: "p0.1", x: 500 },
    "p5.1": { up: 2200 },
    ...changes,
  };
  const placements = Object.fromEntries(
    Object.values(document.placements).map((one) => [one.id, { ...one, ...said[one.id] }]),
  );
  const fixed = Object.fromEntries(mounts.map((one) => [one.id, one]));
  return arrangeRooms({ ...document, placements, mounts: fixed }, [room])[0]!;
}

const readings = (...[arrangement, id]: Parameters<typeof nearestGaps>) =>
  nearestGaps(arrangement, id).map(({ bName, width }) => [bName, Math.round(width)]);

describe("the live reading of a copy on another", () => {
  it("tells what is beside it up there and bare walls, and neither what carries it nor what is lower", () => {
    // From the urn's right, 500 on the left of the counter's middle, to the hat's left, 350 on the right of it.
    expect(readings(arrangementOf(), "p1.1")).toEqual([
      ["Hat", 850],
      ["wall K2-K3", 2900],
      ["wall K0-K1", 900],
      ["wall K3-K0", 2300],
    ]);
  });

  it("tells the tall cabinet beside the counter, however near the counter stands to it", () => {
    // The hat's right is 3650 along, the cabinet's left 4150.
    expect(readings(arrangementOf(), "p2.1")[0]).toEqual(["Cabinet", 500]);
  });

  it("bears the doubt of the wall it is told of, and none where no wall has a part in it", () => {
    const doubts = nearestGaps(arrangementOf(), "p1.1").map(({ bName, doubt }) => [bName, doubt]);
    expect(doubts[0]).toEqual(["Hat", 0]);
    // At 2400 of 6000 along a wall whose corners are free of each other: 2 times the root of .6² + .4².
    expect(doubts[2]).toEqual(["wall K0-K1", expect.closeTo(2 * Math.hypot(0.6, 0.4), 1)]);
  });
});

describe("the live reading of what carries others", () => {
  it("passes over all it carries, however far that reaches beyond it", () => {
    const out = arrangementOf({ "p1.1": { on: "p0.1", x: -950 }, "p2.1": { on: "p1.1", x: 0 } });
    const names = readings(out, "p0.1").map(([name]) => name);
    expect(names).not.toContain("Urn");
    expect(names).not.toContain("Hat");
    expect(readings(out, "p0.1")).toEqual([
      ["Crate", 100],
      ["wall K0-K1", 680],
      ["Cabinet", 250],
      ["wall K3-K0", 2080],
    ]);
  });
});

describe("the live reading of what hangs", () => {
  it("tells walls and what reaches up to it, above headroom too", () => {
    expect(readings(arrangementOf(), "p5.1")).toEqual([
      ["wall K0-K1", 850],
      ["wall K2-K3", 2850],
      ["wall K1-K2", 2850],
      ["wall K3-K0", 2850],
    ]);
    expect(readings(arrangementOf({ "p5.1": { up: 1799 } }), "p5.1")[0]).toEqual(["wall K0-K1", 850]);
    expect(readings(arrangementOf({ "p5.1": { up: 1799, x: 4000 } }), "p5.1")[0]).toEqual(["Cabinet", 0]);
    expect(readings(arrangementOf({ "p5.1": { up: 1801, x: 4000 } }), "p5.1")[0]).toEqual([
      "wall K0-K1",
      850,
    ]);
  });

  it("tells what is fixed to a wall at its height, which moves with that wall", () => {
    const shelf: Mount = {
      id: "m",
      piece: "p6",
      room: "room",
      number: 1,
      from: "K0",
      to: "K1",
      datum: "K0",
      offset: 3000,
      up: 2300,
    };
    const [first] = nearestGaps(arrangementOf({}, [shelf]), "p5.1");
    expect([first!.bName, first!.width]).toEqual(["Shelf", 700]);
    expect(first!.doubt).toBeCloseTo(2 * Math.hypot(0.5, 0.5), 1);
    expect(readings(arrangementOf({}, [{ ...shelf, up: 2451 }]), "p5.1")[0]![0]).toBe("wall K0-K1");
  });
});

describe("the live reading of a copy that has no place", () => {
  it("is empty", () => {
    expect(nearestGaps(arrangementOf({ "p1.1": { on: "gone" } }), "p1.1")).toEqual([]);
  });
});
