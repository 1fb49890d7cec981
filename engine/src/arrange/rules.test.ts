import { describe, expect, it } from "vitest";
import type { RuleId } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { arranged, moved, type PieceWish, type RoomWish } from "../testing/arranged.ts";
import { randomRoom, randomStream } from "../testing/rooms.ts";
import { arrangeRooms } from "./derive.ts";
import { ceilingAt } from "./ceiling.ts";
import { measureRooms } from "../measure/derive.ts";
import { arrangeSnags } from "./rules.ts";
import { sightOf } from "../plane/sight.ts";

const IN = 25.4;

/** A room 6 m by 4 m, clockwise from the top left, walls K0-K1 (top), K1-K2 (right), K2-K3, K3-K0. */
const ROOM: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
};

const snagsOf = (wish: RoomWish, rule?: RuleId): readonly Snag[] => {
  const { document, room } = arranged(wish);
  const snags = arrangeSnags(arrangeRooms(document, [room]), document);
  return rule ? snags.filter((snag) => snag.rule === rule) : snags;
};

const box = (
  name: string,
  x: number,
  y: number,
  size: readonly [number, number, number] = [600, 400, 900],
  turn = 0,
): PieceWish => ({
  name,
  size,
  at: [[x, y, turn]],
});

const beside = (apart: number) =>
  snagsOf(
    { ...ROOM, pieces: [box("Trunk", 2000, -2000), box("Scale", 2600 + apart, -2000)] },
    "pieces-overlap",
  );

const urn = (lift: number): PieceWish => ({ ...box("Urn", 2000, -2000, [300, 300, 400]), lift });

const drums = (apart: number) =>
  snagsOf(
    {
      ...ROOM,
      pieces: [
        { ...box("Drum", 2000, -2000, [500, 500, 900]), round: true },
        {
          ...box("Keg", 2000 + apart * Math.SQRT1_2, -2000 - apart * Math.SQRT1_2, [300, 300, 900]),
          round: true,
        },
      ],
    },
    "pieces-overlap",
  ).length;

const chimney = {
  wall: 0,
  offset: 1000,
  kind: "projection" as const,
  width: 800,
  depth: 300,
  name: "chimney breast",
};

const on = (lift: number) =>
  snagsOf({ ...ROOM, pieces: [box("Trunk", 2000, -2000), urn(lift)] }, "pieces-overlap").length;

const beforeChimney = (y: number) =>
  snagsOf({ ...ROOM, fixtures: [chimney], pieces: [box("Trunk", 1400, y)] }, "pieces-overlap").length;

describe("pieces-overlap", () => {
  it("stops two things a millimetre in each other, and not two that touch or stand a millimetre apart", () => {
    const [snag] = beside(-1);
    expect(snag).toMatchObject({
      level: "stop",
      things: ["p0.1", "p1.1"],
      mend: "Slide Trunk 1 mm away from Scale.",
    });
    expect(snag?.measured).toBeCloseTo(1, 6);
    expect(beside(0)).toEqual([]);
    expect(beside(1)).toEqual([]);
  });

  it("lets one thing stand on another, but not sink into it", () => {
    expect([on(899), on(900), on(901)]).toEqual([1, 0, 0]);
  });

  it("judges round things by their true circles, and projections and neighbours too", () => {
    expect([drums(399), drums(400), drums(401)]).toEqual([1, 0, 0]);
    expect([beforeChimney(-499), beforeChimney(-500), beforeChimney(-501)]).toEqual([1, 0, 0]);
    const bronze = { x: 3000, y: -2000, width: 600, depth: 600 };
    const by = (x: number) =>
      snagsOf({ ...ROOM, neighbours: [bronze], pieces: [box("Trunk", x, -2000)] }, "pieces-overlap").length;
    expect([by(2401), by(2400), by(2399)]).toEqual([1, 0, 0]);
  });

  it("parts an outline that is not convex at its hollow", () => {
    const hollow: PieceWish = {
      ...box("Counter", 2000, -2000, [1200, 800, 900]),
      outline: [
        [-600, -400],
        [600, -400],
        [600, 400],
        [400, 400],
        [400, -200],
        [-400, -200],
        [-400, 400],
        [-600, 400],
      ],
    };
    const stool = (width: number) =>
      snagsOf({ ...ROOM, pieces: [hollow, box("Stool", 2000, -1900, [width, 500, 400])] }, "pieces-overlap")
        .length;
    expect([stool(799), stool(800), stool(802)]).toEqual([0, 0, 1]);
  });
});

const at = (x: number, wish: Partial<RoomWish> = {}) =>
  snagsOf({ ...ROOM, ...wish, pieces: [box("Trunk", x, -2000)] }, "outside-room");

describe("outside-room", () => {
  it("stops what stands a millimetre through a wall and says how far to slide it", () => {
    expect(at(300)).toEqual([]);
    expect(at(301)).toEqual([]);
    expect(at(299)[0]).toMatchObject({ level: "stop", mend: "Slide it 1 mm away from wall K3-K0." });
    expect(
      snagsOf({ ...ROOM, pieces: [box("Trunk", 280.95, -2000)], show: { units: "ft-in" } }, "outside-room")[0]
        ?.mend,
    ).toBe('Slide it 3/4" away from wall K3-K0.');
  });

  it("counts base trim only for what stands lower than it, and not in a doorway", () => {
    expect(at(318, { baseDepth: 19 })[0]?.sentence).toContain("base trim of wall K3-K0");
    expect(at(319, { baseDepth: 19 })).toEqual([]);
    const shelf = { ...box("Shelf", 300, -2000), lift: 184 };
    expect(snagsOf({ ...ROOM, baseDepth: 19, pieces: [shelf] }, "outside-room")).toEqual([]);
    expect(at(300, { baseDepth: 19, doors: [{ wall: 3, offset: 1000, width: 2000 }] })).toEqual([]);
  });

  it("names an open side as the edge of our zone, and finds what lies wholly outside", () => {
    expect(at(5750, { open: [1] })[0]?.sentence).toBe(
      "Trunk stands 50 mm past open side K1-K2, outside our zone.",
    );
    expect(at(9000)[0]?.sentence).toBe("Trunk stands outside the room.");
  });

  it("sees a corner that comes into the room", () => {
    const ell: RoomWish = {
      corners: [
        [0, 0],
        [3000, 0],
        [3000, -2000],
        [6000, -2000],
        [6000, -4000],
        [0, -4000],
      ],
    };
    const near = (x: number, y: number) =>
      snagsOf({ ...ell, pieces: [box("Trunk", x, y)] }, "outside-room").length;
    expect(near(2700, -1800)).toBe(0);
    expect(near(3300, -2200)).toBe(0);
    expect(near(2750, -2150)).toBeGreaterThan(0);
    expect(near(4500, -1000)).toBe(1);
  });
});

describe("too-tall", () => {
  it("follows a ceiling that slopes: a plane through the corners is met exactly", () => {
    const heights = [3000, 2400, 2400, 3000];
    const { room } = arranged({ ...ROOM, heights });
    expect(ceilingAt(room, { x: 1500, y: -3000 }).height).toBeCloseTo(2850, 6);
    expect(ceilingAt(room, { x: 6000, y: -1000 }).height).toBeCloseTo(2400, 6);
    expect(ceilingAt(room, { x: 0, y: 0 }).height).toBe(3000);
    // Right edge at x = 3000, where the ceiling is at 2700.
    const tall = (height: number) =>
      snagsOf({ ...ROOM, heights, pieces: [box("Post", 2700, -2000, [600, 400, height])] }, "too-tall");
    expect([2699, 2700].flatMap(tall)).toEqual([]);
    expect(tall(2701)[0]).toMatchObject({
      level: "stop",
      sentence: "Post is 1 mm too tall: the ceiling over it is at 2700 mm.",
    });
  });

  it("cannot tell while the heights are as doubtful as the excess", () => {
    const unsure = snagsOf(
      { ...ROOM, doubt: 10, pieces: [box("Post", 3000, -2000, [600, 400, 3002])] },
      "too-tall",
    );
    expect(unsure[0]).toMatchObject({ level: "mind" });
  });
});

describe("sprinkler-clearance", () => {
  it("passes exactly 18 in below the deflector and stops a millimetre more (NFPA 13 as quoted in city fire guidelines)", () => {
    const sprinkler = { wall: 0, offset: 3000, out: 2000, up: 120 * IN, kind: "sprinkler" as const };
    const under = (height: number) =>
      snagsOf(
        {
          ...ROOM,
          heights: [4000, 4000, 4000, 4000],
          fixtures: [sprinkler],
          pieces: [box("Clock post", 3000, -2000, [305, 305, height])],
        },
        "sprinkler-clearance",
      );
    expect(under(102 * IN)).toEqual([]);
    expect(under(102 * IN - 1)).toEqual([]);
    expect(under(102 * IN + 1)[0]).toMatchObject({ level: "stop", things: ["p0.1", "f0"] });
  });
});

describe("crosses-covering-edge", () => {
  it("minds what stands with one foot on, and not what stands on, off or flush", () => {
    const cloth = { x: 3000, y: -2000, width: 2000, depth: 1000 };
    const foot = (x: number) =>
      snagsOf({ ...ROOM, coverings: [cloth], pieces: [box("Trunk", x, -2000)] }, "crosses-covering-edge");
    expect([1699, 1700, 2300, 2301, 3000].flatMap(foot)).toEqual([]);
    expect(foot(1701)[0]).toMatchObject({ level: "mind", mend: "Slide it 1 mm off Floor cloth." });
    expect(foot(2299)[0]?.mend).toBe("Slide it 1 mm onto Floor cloth.");
  });
});

describe("door-clear-width", () => {
  it("minds 31.9 in and not 32 in (2010 ADA Standards 404.2.3, ADA-T8)", () => {
    const door = (clear: number) =>
      snagsOf({ ...ROOM, doors: [{ wall: 0, offset: 500, width: 36 * IN, clear }] }, "door-clear-width");
    expect(door(31.9 * IN)[0]).toMatchObject({ level: "mind", things: ["d0"] });
    expect(door(32 * IN)).toEqual([]);
    expect(door(32 * IN - 1)).toHaveLength(1);
    expect(
      snagsOf({ ...ROOM, doors: [{ wall: 0, offset: 500, width: 700 }] }, "door-clear-width"),
    ).toHaveLength(1);
  });
});

const sees = (low: number) =>
  sightOf(
    { x: 0, y: 0, height: 1200 },
    {
      outline: [
        { x: -100, y: 3000 },
        { x: 100, y: 3000 },
        { x: 100, y: 3001 },
        { x: -100, y: 3001 },
      ],
      low,
    },
    [
      {
        outline: [
          { x: -900, y: 999 },
          { x: 900, y: 999 },
          { x: 900, y: 1000 },
          { x: -900, y: 1000 },
        ],
        low: 0,
        high: 900,
      },
    ],
  ).seen;

describe("neighbour-hidden", () => {
  const bronze = { x: 3000, y: -3000, width: 600, depth: 600, low: 760 };
  const doors = [{ wall: 0, offset: 2500, width: 1000 }];
  const view = (piece: PieceWish) =>
    snagsOf({ ...ROOM, doors, neighbours: [bronze], pieces: [piece] }, "neighbour-hidden");

  it("minds what stands in the line of sight, and says how much is hidden and by what", () => {
    const [snag] = view(box("Booth", 3000, -1500, [2000, 300, 2200]));
    expect(snag).toMatchObject({
      level: "mind",
      measured: 0,
      things: ["n0", "p0.1", "d0"],
      sentence: "100 % of Bronze is hidden from Door 1 by Booth.",
    });
    const half = view(box("Booth", 4000, -1500, [2000, 300, 2200]))[0];
    expect(half?.measured).toBeCloseTo(0.5, 6);
    expect(view(box("Booth", 5000, -1500, [1000, 300, 2200]))).toEqual([]);
    expect(view(box("Bench", 3000, -1500, [2000, 300, 800]))).toEqual([]);
  });

  it("sees over a barrier down to the closed-form height (SIGHT-HEIGHT: 1200 - (1200 - 900) * 3000 / 1000 = 300)", () => {
    expect(sees(300.01)).toBe(1);
    expect(sees(298)).toBe(0);
  });
});

const panel = {
  wall: 0,
  offset: 3000,
  up: 1200,
  width: 400,
  depth: 100,
  height: 800,
  kind: "panel" as const,
};
const inFront = (fixture: NonNullable<RoomWish["fixtures"]>[number], piece: PieceWish) =>
  snagsOf({ ...ROOM, fixtures: [fixture], pieces: [piece] }, "keep-clear-covered");

const deep = (gap: number) => inFront(panel, box("Crate", 3200, -(100 + gap) - 200, [400, 400, 300]));

const besidePanel = (x: number) => inFront(panel, box("Crate", x, -300, [400, 400, 300])).length;

describe("keep-clear-covered", () => {
  it("keeps 36 in before a panel, over 30 in of width, from the floor up (campus guidance quoting NFPA 70 110.26)", () => {
    expect(deep(36 * IN - 1)[0]).toMatchObject({ level: "stop", things: ["p0.1", "f0"] });
    expect(deep(36 * IN - 1)[0]?.measured).toBeCloseTo(36 * IN - 1, 0);
    expect(deep(36 * IN)).toEqual([]);
    expect([besidePanel(3200 + 15 * IN + 199), besidePanel(3200 + 15 * IN + 201)]).toEqual([1, 0]);
  });

  it("stops what hides an extinguisher or an exit sign, and minds what covers an outlet", () => {
    const extinguisher = { wall: 0, offset: 3000, up: 1000, kind: "extinguisher" as const };
    expect(inFront(extinguisher, box("Booth", 3000, -600, [800, 400, 2200]))[0]?.level).toBe("stop");
    expect(inFront(extinguisher, box("Bench", 3000, -600, [800, 400, 800]))).toEqual([]);
    const outlet = { wall: 0, offset: 3000, up: 400, kind: "outlet" as const };
    expect(inFront(outlet, box("Booth", 3000, -300, [800, 400, 2200]))[0]?.level).toBe("mind");
    const far = (gap: number) => inFront(outlet, box("Booth", 3000, -gap - 200, [800, 400, 2200])).length;
    expect([far(12 * IN - 1), far(12 * IN + 1)]).toEqual([1, 0]);
  });
});

describe("size-missing", () => {
  it("minds a piece nobody gave a size, standing or waiting, and stands it without one", () => {
    const pieces: readonly PieceWish[] = [
      { name: "Rope", at: [[3000, -2000, 0]] },
      box("Trunk", 1000, -1000),
    ];
    expect(snagsOf({ ...ROOM, pieces })).toMatchObject([
      { rule: "capacity", level: "know" },
      { rule: "size-missing", level: "mind", things: ["p0"] },
    ]);
  });
});

const told = (one: RoomWish) =>
  snagsOf(one).map(({ rule, level, measured }) => [rule, level, Math.round(measured ?? 0)]);

describe("the arrangement", () => {
  it("names copies, says what waits, and turns fronts with pieces", () => {
    const { document, room } = arranged({
      ...ROOM,
      pieces: [
        { ...box("Bench", 1000, -1000), count: 4 },
        box("Gangplank", 4000, -2000, [2400, 800, 450], 90),
      ],
    });
    const [arrangement] = arrangeRooms(document, [room]);
    expect(arrangement?.standing.map(({ name }) => name)).toEqual(["Bench 1", "Gangplank"]);
    expect(arrangement?.tray).toMatchObject([{ count: 3, numbers: [2, 3, 4] }]);
    expect(arrangement?.standing[1]?.front).toEqual({ x: 1, y: -0 });
  });

  it("says the same of a room that is turned or mirrored", () => {
    const wish: RoomWish = {
      ...ROOM,
      baseDepth: 19,
      coverings: [{ x: 3000, y: -2000, width: 2000, depth: 1000 }],
      pieces: [
        box("Trunk", 310, -2000),
        box("Scale", 2100, -1900),
        box("Post", 5000, -1000, [300, 300, 3100]),
        box("Case", 5100, -1100),
      ],
    };
    expect(told(wish).length).toBeGreaterThan(3);
    for (const turn of [0, 33.3, 90, 181])
      for (const mirror of [false, true])
        expect(told(moved(wish, { turn, mirror, shift: [77, -33] }))).toEqual(told(wish));
  });

  it("leaves 200 random rooms without a right angle unsnagged when small pieces stand near their corners, inside", () => {
    for (let seed = 1; seed <= 200; seed++) {
      const { corners, document } = randomRoom(seed);
      const [room] = measureRooms(document);
      const random = randomStream(seed);
      // In every triangle of neighbouring corners that turns into the room, near the corner: inside, and never near the middle of a bounding box.
      const places = corners.flatMap((here, k) => {
        const [before, after] = [corners.at(k - 1)!, corners[(k + 1) % corners.length]!];
        const turnIn =
          (here.x - before.x) * (after.y - here.y) - (here.y - before.y) * (after.x - here.x) < 0;
        const toward = {
          x: unit(before, here).x + unit(after, here).x,
          y: unit(before, here).y + unit(after, here).y,
        };
        const along = Math.hypot(toward.x, toward.y);
        return turnIn
          ? [[here.x + (toward.x * 150) / along, here.y + (toward.y * 150) / along, random() * 360] as const]
          : [];
      });
      const pieces = arranged({
        ...ROOM,
        pieces: [{ name: "Peg", size: [20, 20, 900], at: places }],
      }).document;
      const show = {
        ...document,
        pieces: pieces.pieces,
        solids: pieces.solids,
        placements: pieces.placements,
      };
      const snags = arrangeSnags(arrangeRooms(show, [room!]), show);
      expect(
        snags.filter(({ rule }) => rule !== "capacity"),
        `seed ${seed}`,
      ).toEqual([]);
      const out = places.map(([x, y, turn]) => ({ x: x + 40_000, y, turn }));
      const gone = Object.fromEntries(
        Object.values(pieces.placements).map((placement, k) => [placement.id, { ...placement, ...out[k] }]),
      );
      const lost = { ...show, placements: gone };
      const outside = arrangeSnags(arrangeRooms(lost, [room!]), lost);
      expect(outside.filter(({ rule }) => rule !== "capacity")).toHaveLength(places.length);
    }
  });
});

function unit(
  to: { readonly x: number; readonly y: number },
  from: { readonly x: number; readonly y: number },
) {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}
