/** The rules of doors, walls and hosts over rooms put together by hand. */
import { describe, expect, it } from "vitest";
import { ROOM, snagsOf, withBoxes, type BoxWish, type FixedWish } from "../testing/fixed.ts";
import type { RoomWish } from "../testing/arranged.ts";
import type { RuleId } from "../snags/catalogue.ts";
import { arrangeSnags } from "./rules.ts";

const IN = 25.4;

const DOOR = { wall: 0, offset: 2000, width: 900, opens: "in" as const, height: 2000 };

const swings = (box: BoxWish, hinge?: string) =>
  snagsOf("door-swing", { boxes: [box] }, { doors: [{ ...DOOR, ...(hinge ? { hinge } : {}) }] });

const crate = (x: number, y: number): BoxWish => ({ name: "Crate", at: [x, y], size: [200, 200, 500] });

const corner = (by: number) => swings(crate(2000 + 540 + 100 + by * 0.6, -720 - 100 - by * 0.8), "K0");

const hung = (low: number) => swings({ ...crate(2300, -300), low, layer: "hung" }, "K0").length;

const out = (opens: object) =>
  snagsOf(
    "door-swing",
    { boxes: [crate(2300, -300)] },
    { doors: [{ wall: 0, offset: 2000, width: 900, hinge: "K0", ...opens }] },
  );

const shelf = (depth: number): FixedWish => ({
  name: "Shelf",
  wall: 3,
  along: 4000 - 500,
  low: 1000,
  size: [300, depth, 40],
});

const besideShelf = (depth: number) =>
  snagsOf("door-swing", { fixed: [shelf(depth)] }, { doors: [{ ...DOOR, offset: 100, hinge: "K0" }] }).length;

describe("door-swing", () => {
  it("turns where the box touches the arc, straight before the hinge", () => {
    // Its near side is 900 mm from the hinge at x = 2000.
    expect(swings(crate(2100, -1000), "K0")).toEqual([]);
    expect(swings(crate(2100, -1001), "K0")).toEqual([]);
    const [snag] = swings(crate(2100, -999), "K0");
    expect(snag).toMatchObject({ level: "stop", things: ["d0", "Crate"], wanted: 900 });
    expect(snag?.measured).toBeCloseTo(899, 3);
  });

  it("turns where a corner touches the arc (3-4-5: 540 along and 720 in from the hinge)", () => {
    expect([corner(1), corner(0)]).toEqual([[], []]);
    expect(corner(-1)[0]?.measured).toBeCloseTo(899, 3);
  });

  it("sweeps about the other end where the hinge is there, and not behind the hinge", () => {
    expect(swings(crate(2120, -700), "K1")).toEqual([]);
    expect(swings(crate(2120, -700), "K0")).toHaveLength(1);
    expect(swings(crate(1900, -400), "K0")).toEqual([]);
    expect(swings(crate(1901, -400), "K0")).toHaveLength(1);
  });

  it("stops a door of unknown hinge only where both ways are shut", () => {
    expect(swings(crate(2150, -800))).toEqual([]);
    expect(swings(crate(2450, -500))).toHaveLength(1);
  });

  it("lets what hangs above the door's head be, and doors that open out or as nobody said", () => {
    expect([hung(1999), hung(2001)]).toEqual([1, 0]);
    expect([out({ opens: "out" }), out({})]).toEqual([[], []]);
  });

  it("is stopped by what is fixed to the wall beside its hinge", () => {
    expect([besideShelf(99), besideShelf(101)]).toEqual([0, 1]);
  });
});

const tube = (low: number, depth: number): FixedWish => ({
  name: "Tube",
  wall: 0,
  along: 3000,
  low,
  size: [200, depth, 200],
});

const tubeStandsOut = (low: number, depth: number, boxes: readonly BoxWish[] = []) =>
  snagsOf("protrusion", { fixed: [tube(low, depth)], boxes }).some(({ things }) => things[0] === "Tube");

const beneath = (depth: number, width = 200, low = 0): BoxWish => ({
  name: "Trunk",
  at: [3000, -depth / 2],
  size: [width, depth, 400],
  low,
});

const table = (foot: number) =>
  snagsOf("protrusion", {
    boxes: [
      {
        name: "Table",
        at: [3000, -2000],
        size: [foot, foot, 750],
        more: [{ at: [3000, -2000], size: [600, 600, 30], low: 750 }],
      },
    ],
  });

const bell = (low: number) =>
  snagsOf("protrusion", {
    boxes: [{ name: "Bell", at: [3000, -2000], size: [60, 60, 60], low, layer: "hung" }],
  }).length;

const urn = (x: number): BoxWish => ({
  name: "Urn",
  at: [x, -2000],
  size: [300, 300, 400],
  low: 1000,
  on: "Booth",
});

describe("protrusion", () => {
  it("keeps to the boundaries of 2010 ADA Standards 307.2 (ADA-T5: 6 in deep, underside at 26, 27, 28, 79, 81 in)", () => {
    expect([26, 27, 28, 79, 81].map((low) => tubeStandsOut(low * IN, 6 * IN))).toEqual([
      false,
      false,
      true,
      true,
      false,
    ]);
  });

  it("keeps to the depth of 2010 ADA Standards 307.2 (ADA-T6: at 40 in, 4 and 4.1 in deep)", () => {
    expect([4, 4.1].map((deep) => tubeStandsOut(40 * IN, deep * IN))).toEqual([false, true]);
    expect([4 * IN - 1, 4 * IN + 1].map((deep) => tubeStandsOut(40 * IN, deep))).toEqual([false, true]);
    const [snag] = snagsOf("protrusion", { fixed: [tube(40 * IN, 6 * IN)] });
    expect(snag).toMatchObject({ level: "stop", things: ["Tube", "K0~K1"] });
    expect(snag?.measured).toBeCloseTo(6 * IN, 3);
  });

  it("lets be what a cane finds first: something low beneath all of it, out to its front", () => {
    expect(tubeStandsOut(1000, 150, [beneath(150)])).toBe(false);
    expect(tubeStandsOut(1000, 150, [beneath(149)])).toBe(true);
    expect(tubeStandsOut(1000, 150, [beneath(150, 198)])).toBe(true);
    expect(tubeStandsOut(1000, 150, [beneath(150, 200, 27 * IN - 1)])).toBe(false);
    expect(tubeStandsOut(1000, 150, [beneath(150, 200, 27 * IN + 1)])).toBe(true);
  });

  it("judges a table by how far its top reaches beyond its foot", () => {
    // A square top's corner is further from its foot than its edge: 4 in off on the diagonal.
    const turn = 600 - 2 * 4 * IN * Math.SQRT1_2;
    expect(table(turn + 1)).toEqual([]);
    expect(table(turn - 2)[0]).toMatchObject({ things: ["Table"] });
  });

  it("counts all of what hangs free, and nothing over head height", () => {
    expect([27 * IN - 1, 27 * IN + 1, 80 * IN - 1, 80 * IN + 1].map(bell)).toEqual([0, 1, 1, 0]);
  });

  it("leaves alone what stands on a piece within its edge, where nobody passes, and rooms that are not entered", () => {
    const host: BoxWish = { name: "Booth", at: [3000, -2000], size: [900, 900, 1000] };
    const onBooth = (x: number) => snagsOf("protrusion", { boxes: [host, urn(x)] }).length;
    expect([onBooth(3000 + 300 + 4 * IN - 1), onBooth(3000 + 300 + 4 * IN + 1)]).toEqual([0, 1]);
    const shut: BoxWish = { name: "Bank", at: [3000, -650], size: [3000, 900, 900] };
    expect(tubeStandsOut(1200, 150)).toBe(true);
    expect(tubeStandsOut(1200, 150, [shut])).toBe(false);
    // A way of 30 in along the wall is walked in, one a millimetre narrower is not.
    const bank = (gap: number): BoxWish => ({ ...shut, at: [3000, -gap - 450], size: [6000, 900, 900] });
    expect([30 * IN - 1, 30 * IN + 1].map((gap) => tubeStandsOut(1200, 150, [bank(gap)]))).toEqual([
      false,
      true,
    ]);
    expect(snagsOf("protrusion", { fixed: [tube(1200, 150)] }, { entered: false })).toEqual([]);
  });
});

const sign = (over: Partial<FixedWish>): FixedWish => ({
  name: "Sign",
  wall: 0,
  along: 3000,
  low: 1000,
  size: [400, 20, 300],
  ...over,
});

const off = (over: Partial<FixedWish>, wish: Partial<RoomWish> = {}) =>
  snagsOf("mount-off-wall", { fixed: [sign(over)] }, wish);

describe("mount-off-wall", () => {
  it("turns at both ends of the wall", () => {
    expect([199, 200, 5800, 5801].map((along) => off({ along }).length)).toEqual([1, 0, 0, 1]);
    expect(off({ along: 199 })[0]?.mend).toBe("Move it 1 mm along the wall.");
  });

  it("turns at the ceiling as it slopes along the wall", () => {
    // From 3000 at K0 to 2400 at K1: 2680 over the sign's right edge at 3200.
    const heights = [3000, 2400, 2400, 3000];
    expect([2379, 2380, 2381].map((low) => off({ low }, { heights }).length)).toEqual([0, 0, 1]);
  });

  it("turns at the casing of an opening, on all sides", () => {
    const doors = [
      { wall: 0, offset: 3300, width: 900, height: 1200, sill: 900, casing: 90, kind: "window" as const },
    ];
    expect([3010, 3011].map((along) => off({ along }, { doors }).length)).toEqual([0, 1]);
    const above = (low: number) => off({ along: 3700, low }, { doors }).length;
    expect([510, 511, 2189, 2190].map(above)).toEqual([0, 1, 1, 0]);
    expect(off({ along: 3700, low: 1500 }, { doors })[0]?.things).toEqual(["Sign", "d0"]);
  });

  it("knows no wall on an open side", () => {
    expect(off({}, { open: [0] })[0]?.sentence).toContain("there is no wall");
  });
});

describe("mount-refused", () => {
  it("stops what is fixed to a wall the venue refuses, and only that", () => {
    const { arrangement, document } = withBoxes(ROOM, {
      fixed: [sign({}), sign({ name: "Other", wall: 1, along: 900 })],
    });
    const walls = arrangement.room.walls.map((wall, index) => ({ ...wall, refused: index === 1 }));
    const refusing = { ...arrangement, room: { ...arrangement.room, walls } };
    const snags = arrangeSnags([refusing], document).filter(({ rule }) => rule === "mount-refused");
    expect(snags.map(({ things }) => things)).toEqual([["Other", "K1~K2"]]);
  });
});

const chest: BoxWish = { name: "Chest", at: [3000, -2000], size: [900, 600, 500] };
const onChest = (x: number, low = 500): BoxWish => ({
  name: "Hat",
  at: [x, -2000],
  size: [300, 300, 120],
  low,
  on: "Chest",
});
const carried = (rule: RuleId, x: number) => snagsOf(rule, { boxes: [chest, onChest(x)] }).length;

describe("what stands on another", () => {
  it("rests on nothing once its middle is past the edge", () => {
    expect([3449, 3450, 3451].map((x) => carried("rests-on-nothing", x))).toEqual([0, 0, 1]);
  });

  it("overhangs once more than a third of its foot is past the edge, and is told once only", () => {
    expect([3399, 3401, 3451].map((x) => carried("overhangs", x))).toEqual([0, 1, 0]);
  });
});

const OUTLET = { wall: 0, offset: 3000, up: 1000, kind: "switch" as const };

const near = (over: Partial<FixedWish>) =>
  snagsOf("keep-clear-covered", { fixed: [sign(over)] }, { fixtures: [OUTLET] });

describe("keep-clear-covered for what is fixed to walls", () => {
  it("minds what covers a switch, and what is closer to it than a hand's breadth", () => {
    expect(near({ low: 900 })[0]).toMatchObject({ level: "mind", sentence: "Sign covers the switch." });
    // The switch is taken as a hand's breadth wide and high: 50.8 to each side; 101.6 is kept clear beside it.
    const beside = (gap: number) => near({ along: 3000 + 2 * IN + gap + 200, low: 900 }).length;
    expect([4 * IN - 1, 4 * IN + 1].map(beside)).toEqual([1, 0]);
    const above = (gap: number) => near({ low: 1000 + 2 * IN + gap }).length;
    expect([4 * IN - 1, 4 * IN + 1].map(above)).toEqual([1, 0]);
  });

  it("keeps 24 in before a hatch clear at its own height (common practice, no source)", () => {
    const hatch = {
      wall: 0,
      offset: 2500,
      width: 1000,
      depth: 200,
      height: 250,
      up: 2300,
      kind: "hatch" as const,
    };
    const board = (gap: number, low: number) =>
      snagsOf(
        "keep-clear-covered",
        {
          boxes: [{ name: "Board", at: [3000, -200 - gap - 100], size: [500, 200, 100], low, layer: "hung" }],
        },
        { fixtures: [hatch] },
      );
    expect(board(24 * IN - 1, 2400)[0]).toMatchObject({ level: "stop", things: ["Board", "f0"] });
    expect(board(24 * IN + 1, 2400)).toEqual([]);
    expect(board(100, 2199)).toEqual([]);
  });
});
