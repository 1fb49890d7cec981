import { describe, expect, it } from "vitest";
import { emptyDocument, type Piece, type Rate } from "../document/tables.ts";
import { WORKS } from "../document/works.ts";
import { floorWork } from "./floors.ts";
import { hoursOf } from "./hours.ts";
import { rateOf, RATES } from "./rates.ts";

const piece = (id: string, said: Partial<Piece> = {}): Piece => ({
  id,
  name: id,
  order: 0,
  layer: "furniture",
  count: 3,
  sits: false,
  ...said,
});
const rate = (id: string, work: Rate["work"], minutes: number, people = 1): Rate => ({
  id,
  work,
  minutes,
  people,
});

const hours = (work: (typeof WORKS)[number], count: number): number =>
  (RATES[work].minutes * RATES[work].people * count) / 60;

describe("rates", () => {
  it("stand for every kind of work, and say that they are ours", () => {
    for (const work of WORKS) expect(rateOf(work, emptyDocument())).toEqual({ ...RATES[work], own: false });
  });

  it("give way to the person's own", () => {
    const document = { ...emptyDocument(), rates: { mine: rate("mine", "strip", 40, 3) } };
    expect(rateOf("strip", document)).toEqual({ minutes: 40, people: 3, own: true, record: "mine" });
    expect(rateOf("trim", document).own).toBe(false);
  });

  // Common practice, no source: 30 strips at 25 minutes by two people are 25 person-hours; 8 pieces at 20 by two,
  // 5; 30 fittings at 10, 5.
  it("come to the person-hours the trade counts for a room", () => {
    expect(hours("strip", 30)).toBe(25);
    expect(Math.round(hours("furniture", 8))).toBe(5);
    expect(hours("fitting", 30)).toBe(5);
  });
});

describe("hours of making", () => {
  it("count a piece's own minutes, and ours for one nobody timed", () => {
    const document = {
      ...emptyDocument(),
      pieces: { bench: piece("bench", { minutes: 90 }), urn: piece("urn", { order: 1, count: 1 }) },
    };
    const lines = hoursOf(document, { walls: [], floors: [], cuts: [] });
    expect(lines.map(({ id, minutes, own }) => [id, minutes, own])).toEqual([
      ["make~bench", 270, true],
      ["make~urn", RATES["make piece"].minutes, false],
    ]);
  });

  it("count lengths and panels, by her own rate and its record where she has one", () => {
    const floor = {
      id: "floor",
      room: "room",
      name: "Floor",
      order: 0,
      x: 0,
      y: 0,
      turn: 0,
      width: 2000,
      depth: 1000,
      thickness: 5,
      border: 100,
      walkable: false,
    };
    const document = { ...emptyDocument(), rates: { r: rate("r", "cut panel", 7, 2) } };
    const cut = { name: "Sticks", parts: [{ id: "a", name: "A", length: 5, because: ["t"] }] };
    const lines = hoursOf(document, { walls: [], floors: [floorWork(floor)], cuts: [cut] });
    expect(lines).toMatchObject([
      { work: "cut stick", count: 1, each: RATES["cut stick"].minutes, own: false, because: ["t"] },
      { work: "cut panel", count: 5, each: 14, minutes: 70, own: true, because: ["floor", "r"] },
    ]);
  });
});
