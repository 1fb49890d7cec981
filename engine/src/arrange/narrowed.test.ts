import { describe, expect, it } from "vitest";
import type { Mount, ShowDocument } from "../document/tables.ts";
import { arranged, moved, type RoomWish } from "../testing/arranged.ts";
import { arrangeRooms } from "./derive.ts";
import type { Gap } from "./model.ts";

const IN = 25.4;

/** A passage 10 m long and 2 m wide with a door as wide at either end, and a fitting that waits to be fixed to its long side. */
const passage = (size: readonly [number, number, number], doubt = 0): RoomWish => ({
  corners: [
    [0, 0],
    [10_000, 0],
    [10_000, -2000],
    [0, -2000],
  ],
  doors: [
    { wall: 1, offset: 0, width: 2000 },
    { wall: 3, offset: 0, width: 2000 },
  ],
  doubt,
  pieces: [{ name: "Lamp", size, count: 1, at: [] }],
});

const fixedAt = (up: number): Mount => ({
  id: "m",
  piece: "p0",
  room: "room",
  number: 1,
  from: "K0",
  to: "K1",
  datum: "K0",
  offset: 5000,
  up,
});

function pinchOf(wish: RoomWish, said: (document: ShowDocument) => ShowDocument): Gap | undefined {
  const { document, room } = arranged(wish);
  const { routes } = arrangeRooms(said(document), [room])[0]!;
  return routes.find(({ from, to }) => from === "d0" && to === "d1")?.pinch;
}

const fixedSo =
  (up: number) =>
  (document: ShowDocument): ShowDocument => ({ ...document, mounts: { m: fixedAt(up) } });

/** Width of the passage past a lamp so far out from the wall, its underside so high. */
function past(out: number, up: number, wish: (of: RoomWish) => RoomWish = (of) => of): number {
  // Where nothing pinches it, the passage is as wide as its doors.
  return pinchOf(wish(passage([300, out, 200])), fixedSo(up))?.width ?? 2000;
}

/** The lamp fixed at 1000, with a hood so high above its underside that reaches twice as far out. */
const hooded = (z: number) => (document: ShowDocument) => ({
  ...document,
  mounts: { m: fixedAt(1000) },
  solids: {
    ...document.solids,
    hood: { ...document.solids["s0"]!, id: "hood", order: 1, z, width: 200, depth: 600, y: -150 },
  },
});

describe("what is fixed to a wall narrows the way past it", () => {
  it("where it stands out more than 4 in (2010 ADA Standards 307.2)", () => {
    expect([past(4 * IN, 1000), past(4 * IN + 1, 1000)]).toEqual([
      2000,
      expect.closeTo(2000 - 4 * IN - 1, 6),
    ]);
  });

  it("where it reaches down to 27 in, however little it stands out (307.2 speaks of what is above that)", () => {
    expect([past(50, 27 * IN + 1), past(50, 27 * IN)]).toEqual([2000, 1950]);
  });

  it("where it is no higher than 80 in (2010 ADA Standards 307.4)", () => {
    expect([past(300, 80 * IN), past(300, 80 * IN - 1)]).toEqual([2000, 1700]);
  });

  it("by as much in a room that is turned, mirrored and shifted", () => {
    for (const mirror of [false, true])
      expect(past(250, 1000, (of) => moved(of, { turn: 37, mirror, shift: [900, -400] }))).toBeCloseTo(
        1750,
        6,
      );
  });

  it("with the doubt of the wall it is fixed to", () => {
    const pinch = pinchOf(passage([300, 250, 200], 2), fixedSo(1000))!;
    // Between the middles of two walls whose four corners are free of each other, half of each counts.
    expect(pinch.doubt).toBeCloseTo(2 * Math.hypot(0.5, 0.5, 0.5, 0.5), 1);
    expect([pinch.aName, pinch.bName]).toContain("Lamp");
  });

  it("only with what of it is below that height", () => {
    expect(pinchOf(passage([300, 300, 200]), hooded(80 * IN - 1000))!.width).toBe(1700);
    expect(pinchOf(passage([300, 300, 200]), hooded(80 * IN - 1001))!.width).toBe(1400);
  });
});

const trayOnCounter = (document: ShowDocument): ShowDocument => ({
  ...document,
  placements: {
    ...document.placements,
    "p1.1": { ...document.placements["p1.1"]!, on: "p0.1" },
  },
});

/** Width of the passage past a counter and a tray on it, so far forward of its middle. */
const pastTray = (y: number): number => {
  const wish: RoomWish = {
    ...passage([300, 300, 200]),
    pieces: [
      { name: "Counter", size: [800, 600, 900], at: [[5000, -300, 0]] },
      { name: "Tray", size: [300, 300, 50], at: [[0, y, 0]] },
    ],
  };
  return pinchOf(wish, trayOnCounter)!.width;
};

describe("what lies on another", () => {
  it("narrows the way only where it stands out over it", () => {
    expect([pastTray(0), pastTray(-150), pastTray(-151)]).toEqual([1400, 1400, 1399]);
  });
});
