import { describe, expect, it } from "vitest";
import { emptyDocument, type ShowDocument, type Stock } from "../document/tables.ts";
import { boxOf } from "../sheet/drafting.ts";
import { PAPERS, sideways } from "../sheet/papers.ts";
import { bound, leafBox } from "../sheet/stamp.ts";
import type { Item, Stroke } from "../sheet/vocabulary.ts";
import { handMadeRoom } from "../testing/hand-made.ts";
import { checkKnown } from "../testing/known-lengths.ts";
import { readSvg } from "../testing/read-svg.ts";
import { writeSvg } from "../write/svg.ts";
import { makeOf } from "./derive.ts";
import { makeLists } from "./lists.ts";
import { makeLeaves } from "./sheet.ts";

const IN = 25.4;
const stock = (id: string, said: Partial<Stock>): Stock => ({
  id,
  name: id,
  order: 0,
  form: "stick",
  width: 100,
  length: 2400,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 3,
  grained: false,
  flame: false,
  ...said,
});

const room = handMadeRoom({
  corners: [
    { x: 0, y: 0, height: 2600 },
    { x: 6000, y: 0, height: 2600 },
    { x: 6100, y: -4000, height: 2600 },
    { x: 0, y: -4000, height: 2600 },
  ],
  openings: [{ wall: 0, offset: 1000, width: 900, casing: 90 }],
});
const empty = emptyDocument();
const document: ShowDocument = {
  ...empty,
  shows: { show: { ...empty.shows["show"]!, currency: "USD" } },
  corners: Object.fromEntries(
    room.corners.map(({ id, name }, order) => [id, { id, name, room: "room", order }]),
  ),
  stocks: {
    pine: stock("pine", { length: 2400, price: 1150 }),
    board: stock("board", { order: 1, form: "sheet", width: 40 * IN, length: 60 * IN, kerf: 0 }),
  },
  trims: {
    base: { id: "base", room: "room", order: 0, kind: "base", height: 100, depth: 19, up: 0, stock: "pine" },
    crown: { id: "crown", room: "room", order: 1, kind: "crown", height: 90, depth: 70, up: 0, spring: 38 },
  },
  coverings: {
    floor: {
      id: "floor",
      room: "room",
      name: "Floor",
      order: 0,
      x: 0,
      y: 0,
      turn: 0,
      width: 216 * IN,
      depth: 114 * IN,
      thickness: 5,
      border: 6 * IN,
      walkable: false,
      stock: "board",
    },
  },
  pieces: {
    cart: { id: "cart", name: "Cart", order: 0, layer: "furniture", count: 4, sits: false, minutes: 300 },
  },
  parts: { leg: { id: "leg", piece: "cart", order: 0, stock: "pine", length: 700, count: 4 } },
};
const making = makeOf(document, [room]);
const paper = sideways(PAPERS.letter);
const leaves = makeLeaves(making, document, paper);
const words = (id: string): string =>
  leaves
    .filter((leaf) => leaf.id.startsWith(id))
    .flatMap(({ items }) => items)
    .filter((item) => item.kind === "lettering")
    .map(({ text }) => text)
    .join("\n");

/** What stands over the lists, page after page. */
const titles = leaves
  .flatMap(({ items }) => items)
  .flatMap((item) => (item.kind === "lettering" && item.part === "title" ? [item.text] : []));

const isStroke = (item: Item): item is Stroke => item.kind === "stroke";
const wide = (one: Item): number => boxOf(one).right - boxOf(one).left;

describe("the pages of the making", () => {
  it("stand in the order of the bench, each under an id of its own", () => {
    expect(leaves.map(({ id }) => id.split(".").slice(0, 3).join("."))).toEqual(
      expect.arrayContaining([
        "make.trim",
        "make.sticks.pine",
        "make.floor.floor",
        "make.sheets.board",
        "make.buying",
      ]),
    );
    expect(new Set(leaves.map(({ id }) => id)).size).toBe(leaves.length);
    const lists = ["pine: cutting", "pine: cut list", "Buying list", "Hours of making"];
    expect(titles.filter((title) => lists.includes(title))).toEqual(lists);
  });

  it("keep inside the margin", () => {
    const box = leafBox(paper);
    for (const leaf of leaves)
      for (const item of leaf.items) {
        const { left, right, top, bottom } = boxOf(item);
        expect(left, leaf.id).toBeGreaterThanOrEqual(box.left - 0.5);
        expect(right, leaf.id).toBeLessThanOrEqual(box.right + 0.5);
        expect(top, leaf.id).toBeGreaterThanOrEqual(box.top - 0.5);
        expect(bottom, leaf.id).toBeLessThanOrEqual(box.bottom + 1.5);
      }
  });

  it("draw the floor at the scale they say, read back from the file", () => {
    const sheets = bound(leaves, { show: "Test", date: "1 Jan 2027", state: "draft" });
    const sheet = sheets.find(({ id }) => id === "make.floor.floor")!;
    const checked = checkKnown(sheet, readSvg(writeSvg(sheet)).points);
    expect(checked.length).toBeGreaterThanOrEqual(4);
    expect(checked.filter(({ off }) => Math.abs(off) > 0.1)).toEqual([]);
  });

  it("number every panel and border length of the floor once, and say its diagonal", () => {
    const said = words("make.floor.floor").split("\n");
    for (let panel = 1; panel <= 12; panel += 1) {
      expect(said.filter((text) => text === `${panel}`)).toHaveLength(1);
      expect(said.filter((text) => text === `b${panel}`)).toHaveLength(1);
    }
    expect(said).toContain("front");
    expect(said).toContain(`20' 4 1/4"`);
  });

  it("draw each stick's lengths true to each other, with what is left hatched", () => {
    const items = leaves.filter(({ id }) => id.startsWith("make.sticks.pine")).flatMap((leaf) => leaf.items);
    const sticks = items.filter(isStroke).filter(({ part, fill }) => part === "stick" && fill !== undefined);
    const cuts = items.filter(isStroke).filter(({ part }) => part === "cut");
    const cutting = making.cuts.find((one) => one.stock?.id === "pine")!;
    expect(sticks).toHaveLength(cutting.plan!.sticks.length);
    expect(sticks.every(({ fill }) => fill?.hatch !== undefined)).toBe(true);
    const scale = wide(sticks[0]!) / 2400;
    const drawn = cuts.map((cut) => wide(cut) / scale).toSorted((a, b) => a - b);
    const wanted = cutting.parts.map(({ length }) => length).toSorted((a, b) => a - b);
    expect(drawn).toHaveLength(wanted.length);
    drawn.forEach((length, index) => expect(length).toBeCloseTo(wanted[index]!, 4));
  });

  it("say the saw's settings, the bound and the money", () => {
    expect(words("make.trim").replaceAll("\n", " ")).toContain(
      "inside corner A, 90° (good to 0.1°): mitre 45°",
    );
    expect(words("make.trim").replaceAll("\n", " ")).toContain("bevel 33.9°");
    expect(words("make.sheets.board")).toContain("fewer cannot do");
    expect(words("make.buying")).toContain("without a price yet");
    expect(words("make.buying")).toContain("11.50 USD");
    expect(words("make.buying")).toContain("5 h");
  });

  it("of a show that makes nothing say so", () => {
    const none = makeLeaves(makeOf(empty, []), empty, paper);
    expect(none.map(({ id }) => id)).toEqual(["make.buying"]);
    const said = none.flatMap(({ items }) => items.flatMap((item) => ("text" in item ? [item.text] : [])));
    expect(said).toEqual(expect.arrayContaining(["Nothing has to be bought.", "Nothing has to be made."]));
  });
});

describe("the lists of the making", () => {
  const lists = makeLists(making, document);

  it("have as many cells in every row as columns, and each part once", () => {
    for (const list of lists) {
      for (const row of list.rows) expect(row, list.name).toHaveLength(list.columns.length);
      const at = list.columns.indexOf("id");
      expect(at, list.name).toBeGreaterThan(0);
      expect(new Set(list.rows.map((row) => row[at])).size, list.name).toBe(list.rows.length);
    }
    expect(lists.map(({ name }) => name)).toEqual([
      "cut-list",
      "floor-parts",
      "strips",
      "trims",
      "buying-list",
      "hours",
    ]);
  });

  it("give lengths in mm and as they are printed", () => {
    const cuts = lists.find(({ name }) => name === "cut-list")!;
    const leg = cuts.rows.find((row) => `${row[2]}`.startsWith("Cart 1"))!;
    expect(leg[cuts.columns.indexOf("length (mm)")]).toBe(700);
    expect(leg[cuts.columns.indexOf("length")]).toBe(`2' 3 9/16"`);
  });
});
