/** The rules of space in rooms turned, mirrored, shifted and scaled, against plain geometry of boxes. */
import { assert, boolean, constantFrom, double, integer, property, record, type Arbitrary } from "fast-check";
import { describe, expect, it } from "vitest";
import type { Mount, ShowDocument } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { RuleId } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { arranged, moved, type Pair, type PieceWish, type RoomWish } from "../testing/arranged.ts";
import { cornersOf, distanceToBox, nearestInQuarter, shareBeyond, type TurnedBox } from "../testing/boxes.ts";
import { ringsMeet } from "../testing/free-floor.ts";
import { netFloor } from "./capacity.ts";
import { arrangeRooms } from "./derive.ts";
import { arrangeSnags } from "./rules.ts";

const IN = 25.4;

const real = (min: number, max: number): Arbitrary<number> => double({ min, max, noNaN: true });

const motion = record({
  turn: real(-180, 180),
  mirror: boolean(),
  shift: constantFrom<Pair>([0, 0], [700, -1300]),
});

const HALL: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
};

const scaled = (wish: RoomWish, by: number): RoomWish => ({
  ...wish,
  corners: wish.corners.map(([x, y]): Pair => [x * by, y * by]),
  heights: wish.corners.map(() => 3000 * by),
});

function snags(
  rule: RuleId,
  wish: RoomWish,
  said: (document: ShowDocument, room: TrueRoom) => ShowDocument = (document) => document,
): readonly Snag[] {
  const { document, room } = arranged(wish);
  const full = said(document, room);
  return arrangeSnags(arrangeRooms(full, [room]), full).filter((snag) => snag.rule === rule);
}

const box = (name: string, { x, y, turn, width, depth }: TurnedBox, height = 900): PieceWish => ({
  name,
  size: [width, depth, height],
  at: [[x, y, turn]],
});

describe("the swing of a door", () => {
  it("is stopped where edges of boxes say, whichever way the room lies and however large it is", () => {
    const crate = record({
      x: real(-500, 1400),
      y: real(-1400, -100),
      turn: real(-180, 180),
      width: real(20, 800),
      depth: real(20, 800),
    });
    assert(
      property(crate, motion, constantFrom(0.4, 1, 3), (said, how, by) => {
        const wanted = nearestInQuarter(said);
        if (Math.abs(wanted - 900) < 1) return;
        const door = { wall: 0, offset: 2000 * by, width: 900 * by, height: 2000 * by };
        const there = {
          ...said,
          x: (said.x + 2000) * by,
          y: said.y * by,
          width: said.width * by,
          depth: said.depth * by,
        };
        const wish = {
          ...scaled(HALL, by),
          doors: [{ ...door, hinge: "K0", opens: "in" as const }],
          pieces: [box("Crate", there)],
        };
        const [snag] = snags("door-swing", moved(wish, how));
        expect(snag === undefined).toBe(wanted > 900);
        if (snag) expect(Math.abs(snag.measured! - wanted * by)).toBeLessThan(0.3);
      }),
      { seed: 51, numRuns: 200 },
    );
  });
});

const CARRIER = { x: 3000, y: -2000, width: 900, depth: 500 };

/** A hat on a chest in the middle of the hall, said in the chest's own frame as it is mirrored with the room. */
function hatOnChest(
  rule: RuleId,
  hat: TurnedBox,
  { turn, mirror, shift, by }: { turn: number; mirror: boolean; shift: Pair; by: number },
): readonly Snag[] {
  const chest = {
    ...CARRIER,
    x: CARRIER.x * by,
    y: CARRIER.y * by,
    turn: 20,
    width: CARRIER.width * by,
    depth: CARRIER.depth * by,
  };
  const wish = {
    ...scaled(HALL, by),
    pieces: [box("Chest", chest, 500 * by), box("Hat", { ...hat, x: 0, y: 0 }, 100 * by)],
  };
  const flip = mirror ? -1 : 1;
  return snags(rule, moved(wish, { turn, mirror, shift }), (document) => ({
    ...document,
    placements: {
      ...document.placements,
      "p1.1": {
        ...document.placements["p1.1"]!,
        on: "p0.1",
        x: flip * hat.x,
        y: hat.y,
        turn: flip * hat.turn,
      },
    },
  }));
}

describe("what lies on another", () => {
  const place = record({ x: real(-700, 700), y: real(-500, 500), turn: real(-180, 180) });
  const top: TurnedBox = { ...CARRIER, x: 0, y: 0, turn: 0 };

  it("rests on nothing as far as its middle is from the other's box", () => {
    assert(
      property(place, motion, constantFrom(0.5, 1, 4), ({ x, y, turn }, how, by) => {
        const off = distanceToBox(top, [x, y]);
        if (off > 0 && off < 1) return;
        const hat = { x: x * by, y: y * by, turn, width: 300 * by, depth: 200 * by };
        const [snag] = hatOnChest("rests-on-nothing", hat, { ...how, by });
        expect(snag === undefined).toBe(off === 0);
        if (snag) expect(snag.measured).toBeCloseTo(off * by, 4);
      }),
      { seed: 52, numRuns: 100 },
    );
  });

  it("overhangs by the share of its places that lie over none of the other", () => {
    assert(
      property(place, motion, constantFrom(0.5, 1, 4), ({ x, y, turn }, how, by) => {
        if (distanceToBox(top, [x, y]) > 0) return;
        const beyond = shareBeyond({ x, y, turn, width: 300, depth: 200 }, [top]);
        if (Math.abs(beyond - 1 / 3) < 0.01) return;
        const hat = { x: x * by, y: y * by, turn, width: 300 * by, depth: 200 * by };
        const [snag] = hatOnChest("overhangs", hat, { ...how, by });
        expect(snag === undefined).toBe(beyond < 1 / 3);
        if (snag) expect(Math.abs(snag.measured! - beyond)).toBeLessThan(0.01);
      }),
      { seed: 53, numRuns: 100 },
    );
  });
});

describe("a top that reaches beyond its foot", () => {
  it("stands out as far as its furthest corner is from the foot (2010 ADA Standards 307.2)", () => {
    const table = record({
      x: real(-150, 150),
      y: real(-150, 150),
      turn: real(-180, 180),
      width: real(200, 700),
      depth: real(200, 700),
    });
    assert(
      property(table, motion, (top, how) => {
        const foot: TurnedBox = { x: 0, y: 0, turn: 0, width: 400, depth: 300 };
        const reach = Math.max(...cornersOf(top).map((corner) => distanceToBox(foot, corner)));
        if (Math.abs(reach - 4 * IN) < 1) return;
        const wish = { ...HALL, pieces: [box("Table", { ...foot, x: 3000, y: -2000 }, 700)] };
        // The top is said in the piece's own frame, which a mirrored room mirrors too.
        const flip = how.mirror ? -1 : 1;
        const [snag] = snags("protrusion", moved(wish, how), (document) => ({
          ...document,
          solids: {
            ...document.solids,
            top: {
              ...document.solids["s0"]!,
              ...top,
              x: flip * top.x,
              turn: flip * top.turn,
              id: "top",
              z: 700,
              height: 40,
            },
          },
        }));
        expect(snag === undefined).toBe(reach < 4 * IN);
        if (snag) expect(Math.abs(snag.measured! - reach)).toBeLessThan(0.1);
      }),
      { seed: 54, numRuns: 120 },
    );
  });
});

describe("what is fixed to a wall", () => {
  const SIGN = record({
    wall: integer({ min: 0, max: 3 }),
    offset: real(0, 4000),
    up: real(0, 2900),
    fromEnd: boolean(),
  });

  it("is off its wall where intervals along it and up it say", () => {
    assert(
      property(SIGN, motion, constantFrom(0.5, 1, 2), ({ wall, offset, up, fromEnd }, how, by) => {
        const [width, height, casing] = [400, 300, 80];
        const length = wall % 2 === 0 ? 6000 : 4000;
        const along = fromEnd ? length - offset : offset;
        const [start, end, low, high] = [along - width / 2, along + width / 2, up, up + height];
        const window = { left: 1000 - casing, right: 2200 + casing, low: 900 - casing, high: 2100 + casing };
        const over =
          wall === 0
            ? Math.min(end - window.left, window.right - start, high - window.low, window.high - low)
            : -Infinity;
        const past = Math.max(-start, end - length, high - 3000, over);
        if (Math.abs(past) < 1) return;
        const wish: RoomWish = {
          ...scaled(HALL, by),
          doors: [
            {
              kind: "window",
              wall: 0,
              offset: 1000 * by,
              width: 1200 * by,
              sill: 900 * by,
              height: 1200 * by,
              casing: casing * by,
            },
          ],
          pieces: [{ name: "Sign", size: [width * by, 20 * by, height * by], count: 1, at: [] }],
        };
        const mount: Mount = {
          id: "m",
          piece: "p0",
          room: "room",
          number: 1,
          from: `K${wall}`,
          to: `K${(wall + 1) % 4}`,
          datum: fromEnd ? `K${(wall + 1) % 4}` : `K${wall}`,
          offset: offset * by,
          up: up * by,
        };
        const found = snags("mount-off-wall", moved(wish, how), (document) => ({
          ...document,
          mounts: { m: mount },
        }));
        expect(found.length > 0).toBe(past > 0);
      }),
      { seed: 55, numRuns: 250 },
    );
  });
});

describe("two things in one place", () => {
  const thing = record({
    x: real(1000, 2200),
    y: real(-1800, -800),
    turn: real(-180, 180),
    width: real(200, 900),
    depth: real(200, 900),
    up: integer({ min: 0, max: 4 }),
  });

  it("are those whose outlines and heights both meet, standing, hung or fixed", () => {
    assert(
      property(thing, thing, motion, (one, other, how) => {
        const all = [one, other];
        const meet = (more: number): boolean =>
          ringsMeet(
            cornersOf({ ...one, width: one.width + more, depth: one.depth + more }),
            cornersOf({ ...other, width: other.width + more, depth: other.depth + more }),
          );
        if (meet(-2) !== meet(2)) return;
        const wanted = meet(0) && Math.abs(one.up - other.up) < 2;
        const wish = { ...HALL, pieces: all.map((each, k) => box(`Thing ${k}`, each, 400)) };
        const found = snags("pieces-overlap", moved(wish, how), (document) => ({
          ...document,
          placements: Object.fromEntries(
            Object.values(document.placements).map((said, k) => [said.id, { ...said, up: 200 * all[k]!.up }]),
          ),
        }));
        expect(found.length > 0).toBe(wanted);
      }),
      { seed: 56, numRuns: 200 },
    );
  });
});

describe("the floor that is left", () => {
  it("is what a grid of places finds free of boxes that stand in each other and through walls", () => {
    const stand = record({
      x: real(-200, 6200),
      y: real(-4200, 200),
      turn: real(-180, 180),
      width: real(100, 1800),
      depth: real(100, 1800),
    });
    assert(
      property(stand, stand, stand, stand, motion, (a, b, c, d, how) => {
        const boxes = [a, b, c, d];
        const share = shareBeyond({ x: 3000, y: -2000, turn: 0, width: 6000, depth: 4000 }, boxes, 250);
        const wish = { ...HALL, pieces: boxes.map((each, k) => box(`Box ${k}`, each)) };
        const { document, room } = arranged(moved(wish, how));
        const net = netFloor(arrangeRooms(document, [room])[0]!);
        expect(Math.abs(net / 24e6 - share)).toBeLessThan(0.005);
      }),
      { seed: 57, numRuns: 20 },
    );
  });
});
