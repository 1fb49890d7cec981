/** Three in the Morning says what its notes say of it, figure by figure, and nothing in it stops the show. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { derive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { showOf, type ShowDocument } from "../engine/src/document/tables.ts";

function threeInTheMorning(): ShowDocument {
  const read = readShow(readFileSync(new URL("three-in-the-morning.json", import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.document;
}

const document = threeInTheMorning();
const derived = derive(document);
const [room] = derived.rooms;
const [arrangement] = derived.arrangements;
if (!room || !arrangement) throw new Error("Three in the Morning has one room");
const { making, installing } = derived;

const wall = (name: string) => room.walls.find((one) => one.name === name)!;
const fixture = (kind: string) => room.fixtures.filter((one) => one.fixture.kind === kind);
const standing = (piece: string) => arrangement.standing.filter((one) => one.piece.name === piece);
const sizeOf = (ring: readonly { readonly x: number; readonly y: number }[]) => {
  const [xs, ys] = [ring.map(({ x }) => x), ring.map(({ y }) => y)];
  return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)].map(Math.round);
};

/** The show with one placement elsewhere. */
function withPlaced(id: string, said: Partial<ShowDocument["placements"][string]>): ShowDocument {
  const there = { ...document.placements[id]!, ...said };
  return { ...document, placements: { ...document.placements, [id]: there } };
}

const coveringOn = (name: string) => making.walls.find((work) => work.name === name)!;

const stops = (of: ShowDocument) =>
  derive(of)
    .snags.filter(({ level }) => level === "stop")
    .map(({ rule, things }) => [rule, things[0]]);

describe("the room of Three in the Morning", () => {
  it("has two walls, glass to look in by, and an open side with a curtain", () => {
    const lengths = room.walls.map(({ name, length }) => [name, Math.round(length)]);
    expect(lengths).toEqual([
      ["A-B", 3620],
      ["B-C", 1840],
      ["C-D", 3580],
      ["D-A", 1832],
    ]);
    expect(room.walls.filter(({ glass }) => glass).map(({ name }) => name)).toEqual(["C-D"]);
    expect(room.walls.filter(({ open }) => open).map(({ name }) => name)).toEqual(["D-A"]);
    const heights = room.corners.map(({ height }) => height);
    expect([Math.min(...heights), Math.max(...heights)]).toEqual([2710, 2740]);
  });

  it("has a beam, a radiator, an outlet, a shutter and a smoke detector", () => {
    const [beam] = fixture("projection");
    expect([sizeOf(beam!.footprint), beam!.high - beam!.low]).toEqual([[3620, 240], 180]);
    const [radiator] = fixture("radiator");
    // B-C runs straight down the page but for 2 cm in 2 m.
    expect([radiator!.fixture.width, radiator!.fixture.depth, radiator!.high - radiator!.low]).toEqual([
      900, 110, 600,
    ]);
    expect(["outlet", "hatch", "alarm"].map((kind) => fixture(kind).length)).toEqual([1, 1, 1]);
  });

  it("is looked into and not entered: it has no ways for visitors", () => {
    expect(room.room.entered).toBe(false);
    expect(arrangement.routes).toEqual([]);
  });
});

describe("what stands in Three in the Morning", () => {
  it("is all there, every copy in its one place, and nothing waits", () => {
    expect(arrangement.tray).toEqual([]);
    const counts = Object.fromEntries(
      Object.values(document.pieces).map(({ name, count }) => [name, count] as const),
    );
    expect(counts).toEqual({
      "Stall counter": 1,
      "Awning frame": 1,
      Crate: 3,
      Barrel: 2,
      "Hanging scale": 1,
      "Paper fish": 18,
      "Price tag": 12,
    });
    for (const [name, count] of Object.entries(counts).filter(([one]) => one !== "Price tag"))
      expect([name, standing(name).length]).toEqual([name, count]);
    expect(arrangement.mounted.map(({ name }) => name)).toEqual(
      Array.from({ length: 12 }, (_, index) => `Price tag ${index + 1}`),
    );
  });

  it("is a counter of two sections, 1800 by 600 by 900, with eighteen fish on it", () => {
    const [counter] = standing("Stall counter");
    expect([counter!.blocks.length, sizeOf(counter!.outline[0]!), counter!.height]).toEqual([
      2,
      [1800, 600],
      900,
    ]);
    for (const fish of standing("Paper fish"))
      expect([fish.on, fish.low, fish.height]).toEqual([counter!.placement.id, 900, 930]);
  });

  it("is a crate on a crate, and a scale that hangs from nothing that stands", () => {
    expect(standing("Crate").map(({ low, height }) => [low, height])).toEqual([
      [0, 280],
      [0, 280],
      [280, 560],
    ]);
    expect(standing("Hanging scale").map(({ on, low, height }) => [on, low, height])).toEqual([
      [undefined, 1400, 1820],
    ]);
  });

  it("is twelve fittings on the back wall, over the paper and under the beam", () => {
    for (const one of arrangement.mounted)
      expect([one.wall, one.low, one.high]).toEqual([wall("A-B").id, 1550, 1630]);
  });
});

describe("what Three in the Morning is made from", () => {
  it("is printed paper 530 mm wide, matched straight every 320 mm, up to the beam, on panels of its own", () => {
    const back = coveringOn("A-B");
    expect([back.stock.width, back.stock.repeat, back.stock.match, back.covering.fixing]).toEqual([
      530,
      320,
      "straight",
      "panels",
    ]);
    // 3620 less five whole widths leaves 485 at either end; more than half a width, so no better balance is wanted.
    expect(back.strips.map(({ left, right }) => Math.round(right - left))).toEqual([
      485, 530, 530, 530, 530, 530, 485,
    ]);
    // 2555 up to the beam and 100 over: nine repeats of 320.
    expect(back.strips.map(({ length }) => Math.round(length))).toEqual(
      Array.from({ length: 7 }, () => 9 * 320),
    );
    expect([back.perRoll, back.rolls]).toEqual([Math.floor(10_050 / 2880), Math.ceil(7 / 3)]);
  });

  it("is paper 1000 mm wide without a match on the side wall, beside the column too", () => {
    const side = coveringOn("B-C");
    expect([side.stock.width, side.stock.repeat]).toEqual([1000, 0]);
    for (const { right, left } of side.strips) expect(right - left).toBeLessThanOrEqual(1000);
    expect(side.rolls).toBe(1);
  });

  it("is skirting along the two walls from 2.4 m lengths, and no crown", () => {
    expect(making.trims.map(({ trim }) => [trim.kind, trim.height, trim.depth])).toEqual([["base", 95, 15]]);
    // The wall B-C is 1840, and 110 of it is the column.
    expect(making.trims[0]!.length).toBeCloseTo(3620 + 1840 - 110, 0);
    expect(making.trims[0]!.stock?.length).toBe(2400);
  });

  it("is a floor of 3.0 by 1.2 m: a field of ten panels none larger than 600 by 900, in a border of 80", () => {
    const [floor] = making.floors;
    expect([floor!.field, floor!.columns * floor!.rows]).toEqual([{ width: 2840, depth: 1040 }, 10]);
    for (const { width, depth } of floor!.panels) {
      expect(width).toBeLessThanOrEqual(600);
      expect(depth).toBeLessThanOrEqual(900);
    }
    const area = [...floor!.panels, ...floor!.border].reduce((sum, one) => sum + one.width * one.depth, 0);
    expect(area).toBeCloseTo(3000 * 1200, 3);
    for (const one of floor!.border) expect(Math.min(one.width, one.depth)).toBe(80);
  });

  it("is an awning frame cut from lengths: 15 306 mm in eleven, from the sticks it says", () => {
    const frame = making.cuts.find(({ name }) => name.startsWith("Batten"))!;
    expect(frame.parts).toHaveLength(4 + 2 + 5);
    expect(frame.parts.reduce((sum, { length }) => sum + length, 0)).toBe(4 * 2100 + 2 * 1898 + 5 * 622);
    // Neither a post nor a rail leaves room for a lath in its stick, and three laths fill one.
    expect(making.buying.find(({ id }) => id === "stock.batten")?.count).toBe(4 + 2 + 2);
  });
});

describe("the one night of Three in the Morning", () => {
  it("is from 20:00 to 6:00 for two people, and all of it fits", () => {
    expect(installing.shifts.map(({ from, to, shift }) => [from, to, shift.people])).toEqual([[0, 600, 2]]);
    // London keeps Greenwich time in March until its last Sunday.
    expect(installing.shifts[0]?.startsAt).toMatch(/^2027-03-11T20:00/);
    expect(installing.unplaced).toEqual([]);
    expect(installing.lacking).toBeUndefined();
    expect(installing.end).toBeLessThanOrEqual(600);
    expect(installing.bound).toBeLessThanOrEqual(installing.end);
    for (const { people } of installing.tasks) expect(people).toBeLessThanOrEqual(2);
  });

  it("is paid in pounds and measured in millimetres", () => {
    const { units, currency, place } = showOf(document);
    expect([units, currency, place]).toEqual(["mm", "GBP", "GB"]);
    expect(making.unpriced).toBe(0);
  });
});

describe("what stops Three in the Morning", () => {
  it("is nothing", () => expect(stops(document)).toEqual([]));

  it("is a scale hung before the shutter, which must open", () => {
    const [scale] = standing("Hanging scale");
    const { id } = scale!.placement;
    // 260 of shutter from 2440 up; the scale is 420 high.
    const hungAt = (up: number) => stops(withPlaced(id, { x: 1800, y: -1450, up }));
    expect(hungAt(2439 - 420)).toEqual([]);
    expect(hungAt(2441 - 420)).toEqual([["keep-clear-covered", id]]);
  });

  it("is a fish more than half over the counter's edge, for its middle rests on nothing", () => {
    const [fish] = standing("Paper fish");
    const { id } = fish!.placement;
    expect(stops(withPlaced(id, { x: -899, y: -225 }))).toEqual([]);
    expect(stops(withPlaced(id, { x: -901, y: -225 }))).toEqual([["rests-on-nothing", id]]);
  });
});
