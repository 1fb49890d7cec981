/** Two things in one place: what lies on others, hangs, or is fixed to walls, a millimetre either way in plan and in height. */
import { describe, expect, it } from "vitest";
import { snagsOf, type BoxWish, type FixedWish, type Things } from "../testing/fixed.ts";

const overlaps = (things: Things) =>
  snagsOf("pieces-overlap", things).map(({ things: both, measured }) => [...both, Math.round(measured ?? 0)]);

const TABLE: BoxWish = { name: "Table", at: [3000, -2000], size: [1800, 800, 700] };

const onTable = (name: string, x: number, low = 700): BoxWish => ({
  name,
  at: [x, -2000],
  size: [300, 200, 150],
  low,
  on: "Table",
});

const lamp = (x: number, low: number): BoxWish => ({
  name: "Lamp",
  at: [x, -2000],
  size: [400, 400, 300],
  low,
  layer: "hung",
});

const shelf = (along: number, low: number, over: Partial<FixedWish> = {}): FixedWish => ({
  name: "Shelf",
  wall: 0,
  along,
  low,
  size: [600, 200, 40],
  ...over,
});

const lying = (low: number) => overlaps({ boxes: [TABLE, onTable("Hat", 3000, low)] });

const twoOnTable = (x: number) =>
  overlaps({ boxes: [TABLE, onTable("Hat", 2600), onTable("Ledger", 2600 + x)] });

const lampOver = (x: number, low: number) => overlaps({ boxes: [TABLE, lamp(x, low)] });

const lampAboveHat = (low: number) => overlaps({ boxes: [TABLE, onTable("Hat", 3000), lamp(3000, low)] });

const twoOnWall = (along: number, low: number) =>
  overlaps({ fixed: [shelf(1000, 1200), shelf(1000 + along, low, { name: "Rack" })] });

const inCorner = (along: number) =>
  overlaps({
    fixed: [shelf(along, 1200), { ...shelf(4000 - 300, 1200), name: "Rack", wall: 3 }],
  });

const beforeShelf = (y: number, height = 1500) =>
  overlaps({
    boxes: [{ name: "Booth", at: [3000, y], size: [500, 400, height] }],
    fixed: [shelf(3000, 1200)],
  });

describe("things in one place", () => {
  it("are not a copy and what it lies on, until it sinks in by a millimetre", () => {
    expect([lying(701), lying(700)]).toEqual([[], []]);
    expect(lying(699)).toHaveLength(1);
  });

  it("are two copies on one host a millimetre in each other", () => {
    expect([twoOnTable(301), twoOnTable(300)]).toEqual([[], []]);
    expect(twoOnTable(299)).toEqual([["Hat", "Ledger", 1]]);
  });

  it("are not what stands on what lies on the host, the one upon the other", () => {
    const stacked = (low: number): BoxWish => ({ ...onTable("Ledger", 2600, low), on: "Hat" });
    expect(overlaps({ boxes: [TABLE, onTable("Hat", 2600), stacked(850)] })).toEqual([]);
    expect(overlaps({ boxes: [TABLE, onTable("Hat", 2600), stacked(849)] })).toHaveLength(1);
  });

  it("are what hangs and what stands or lies under it, a millimetre in height or in plan", () => {
    expect([lampOver(3000, 701), lampOver(3000, 700)]).toEqual([[], []]);
    expect(lampOver(3000, 699)).toHaveLength(1);
    // The table's right end is at 3900, half a lamp is 200.
    expect([lampOver(4101, 600), lampOver(4100, 600)]).toEqual([[], []]);
    expect(lampOver(4099, 600)).toEqual([["Table", "Lamp", 1]]);
    expect(lampAboveHat(850)).toEqual([]);
    expect(lampAboveHat(849).map(([a, b]) => [a, b])).toEqual([["Hat", "Lamp"]]);
  });

  it("are two fittings of one wall a millimetre in each other, along it or in height", () => {
    expect([twoOnWall(601, 1200), twoOnWall(600, 1200)]).toEqual([[], []]);
    expect(twoOnWall(599, 1200)).toEqual([["Shelf", "Rack", 1]]);
    expect(
      [
        twoOnWall(0, 1241),
        twoOnWall(0, 1240),
        twoOnWall(0, 1239),
        twoOnWall(0, 1161),
        twoOnWall(0, 1160),
      ].map((found) => found.length),
    ).toEqual([0, 0, 1, 1, 0]);
  });

  it("are fittings of two walls that meet in a corner", () => {
    // The corner K0 is where the first wall begins and the last ends, 4000 along it.
    expect([inCorner(501), inCorner(500)]).toEqual([[], []]);
    expect(inCorner(499)).toEqual([["Shelf", "Rack", 1]]);
  });

  it("are a fitting and a piece before the wall, a millimetre in plan or in height", () => {
    expect([beforeShelf(-401), beforeShelf(-400)]).toEqual([[], []]);
    expect(beforeShelf(-399)).toEqual([["Booth", "Shelf", 1]]);
    expect(
      [beforeShelf(-300, 1199), beforeShelf(-300, 1200), beforeShelf(-300, 1201)].map(({ length }) => length),
    ).toEqual([0, 0, 1]);
  });
});
