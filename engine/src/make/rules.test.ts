import { describe, expect, it } from "vitest";
import {
  emptyDocument,
  type Covering,
  type ShowDocument,
  type Stock,
  type Trim,
} from "../document/tables.ts";
import { handMadeRoom } from "../testing/hand-made.ts";
import { createMake, makeOf } from "./derive.ts";
import { makeSnags } from "./rules.ts";

const stock = (
  id: string,
  form: Stock["form"],
  width: number,
  length: number,
  said: Partial<Stock> = {},
): Stock => ({
  id,
  name: id,
  order: 0,
  form,
  width,
  length,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: false,
  price: 100,
  ...said,
});
const covering = (said: Partial<Covering> = {}): Covering => ({
  id: "floor",
  room: "room",
  name: "Floor",
  order: 0,
  x: 0,
  y: 0,
  turn: 0,
  width: 3000,
  depth: 2000,
  thickness: 5,
  border: 100,
  walkable: false,
  stock: "board",
  ...said,
});
const trim = (said: Partial<Trim> = {}): Trim => ({
  id: "trim",
  room: "room",
  order: 0,
  kind: "base",
  height: 100,
  depth: 20,
  up: 0,
  stock: "stick",
  ...said,
});
const room = handMadeRoom({
  corners: [
    { x: 0, y: 0, height: 2600 },
    { x: 5000, y: 0, height: 2600 },
    { x: 5000, y: -4000, height: 2600 },
    { x: 0, y: -4000, height: 2600 },
  ],
  show: {},
});
const show = (said: Partial<ShowDocument>): ShowDocument => ({
  ...emptyDocument(),
  shows: { show: { ...emptyDocument().shows["show"]!, units: "mm" } },
  stocks: { board: stock("board", "sheet", 1000, 2000), stick: stock("stick", "stick", 100, 6000) },
  ...said,
});
const snagsOf = (said: Partial<ShowDocument>) => {
  const document = show(said);
  return makeSnags(makeOf(document, [room]), [room], document);
};
const rules = (said: Partial<ShowDocument>): readonly string[] => snagsOf(said).map(({ rule }) => rule);
const withStock = (changed: Stock) => ({ ...show({}).stocks, [changed.id]: changed });
const floors = (said: Partial<Covering>) => ({ floor: covering(said) });

const sticksOf = (length: number) =>
  rules({ trims: { trim: trim() }, stocks: withStock(stock("stick", "stick", 100, length)) });
const borderOf = (said: number, grained: boolean) =>
  rules({
    coverings: floors({ width: 9000, depth: 9000, border: said }),
    stocks: withStock(stock("board", "sheet", 1000, 2000, { grained })),
  });
const deepBy = (depth: number) => rules({ coverings: floors({ depth, border: 200 }) });
const reeds = (count: number) =>
  ({ id: "reed", name: "Reed", order: 0, layer: "furniture", count, sits: false }) as const;
const reedShow = (count: number) => ({
  pieces: { reed: reeds(count) },
  parts: { part: { id: "part", piece: "reed", order: 0, stock: "stick", length: 100, count: 1 } },
});

describe("snags of the making", () => {
  it("are none for a floor and a trim with all said", () => {
    expect(rules({ coverings: floors({}), trims: { trim: trim() } })).toEqual([]);
  });

  it("ask for the stock of a trim and of a floor", () => {
    const { stock: _, ...bare } = trim();
    expect(rules({ trims: { trim: bare } })).toEqual(["stock-unsaid"]);
    const { stock: __, ...plain } = covering();
    expect(rules({ coverings: { floor: plain } })).toEqual(["stock-unsaid"]);
  });

  it("ask for a crown's spring", () => {
    expect(rules({ trims: { trim: trim({ kind: "crown" }) } })).toEqual(["spring-unsaid"]);
    expect(rules({ trims: { trim: trim({ kind: "crown", spring: 38 }) } })).toEqual([]);
  });

  it("tell of a run longer than its stick from one millimetre on", () => {
    expect(sticksOf(4999)).toEqual(["run-scarfed"]);
    expect(sticksOf(5000)).toEqual([]);
    expect(sticksOf(5001)).toEqual([]);
  });

  it("say how well the wall of such a run is known", () => {
    const [snag] = snagsOf({
      trims: { trim: trim() },
      stocks: withStock(stock("stick", "stick", 100, 3000)),
    });
    expect(snag).toMatchObject({ measured: 5000, wanted: 3000, doubt: 1.5, things: ["trim", "stick"] });
    expect(snag?.sentence).toContain("4 runs of base are longer than a stick of stick, 3000 mm");
  });

  it("stop a piece's length longer than a stick from one millimetre on", () => {
    const piece = { id: "cart", name: "Cart", order: 0, layer: "furniture", count: 1, sits: false } as const;
    const parts = (length: number) =>
      rules({
        pieces: { cart: piece },
        parts: { part: { id: "part", piece: "cart", order: 0, stock: "stick", length, count: 2 } },
      });
    expect(parts(6001)).toEqual(["part-longer-than-stock"]);
    expect(parts(6000)).toEqual([]);
    expect(parts(5999)).toEqual([]);
  });

  it("stop a border no sheet gives from one millimetre on", () => {
    expect(borderOf(1000, true)).toEqual([]);
    expect(borderOf(999, true)).toEqual([]);
    expect(borderOf(1001, true)).toEqual(["panel-larger-than-sheet"]);
    expect(borderOf(1001, false)).toEqual([]);
    expect(borderOf(2000, false)).toEqual([]);
    expect(borderOf(2001, false)).toEqual(["panel-larger-than-sheet"]);
  });

  it("stop borders that leave no field from one millimetre on", () => {
    expect(deepBy(401)).toEqual([]);
    expect(deepBy(400)).toEqual(["border-wider-than-floor"]);
    expect(deepBy(399)).toEqual(["border-wider-than-floor"]);
  });

  // Source: 2010 ADA Standards 303: changes of level up to 1/4 in may be vertical, up to 1/2 in bevelled 1 to 2.
  it("mind the edge of a floor that is walked on", () => {
    const edge = (thickness: number, walkable = true) =>
      rules({ coverings: floors({ thickness, walkable }) });
    expect(edge(6.35)).toEqual([]);
    expect(edge(5.35)).toEqual([]);
    expect(edge(7.35)).toEqual(["floor-edge"]);
    expect(edge(7.35, false)).toEqual([]);
    const [bevel] = snagsOf({ coverings: floors({ thickness: 12.7, walkable: true }) });
    const [ramp] = snagsOf({ coverings: floors({ thickness: 13.7, walkable: true }) });
    expect(bevel?.mend).toContain("Bevel");
    expect(ramp?.mend).toContain("ramp");
  });

  it("know of what has no price", () => {
    const { price: _, ...unpriced } = stock("board", "sheet", 1000, 2000);
    expect(rules({ coverings: floors({}), stocks: withStock(unpriced) })).toEqual(["price-missing"]);
  });

  it("stop at more parts than can be told, and cut none of them", () => {
    expect(rules(reedShow(20_001))).toEqual(["too-many-to-cut"]);
    expect(rules({ coverings: floors({ border: 0, width: 9_000_000, panelWidth: 1 }) })).toEqual([
      "too-many-to-cut",
    ]);
    expect(rules({ trims: { trim: trim() }, stocks: withStock(stock("stick", "stick", 10, 0.1)) })).toContain(
      "too-many-to-cut",
    );
    const document = show({ trims: { trim: trim() }, stocks: withStock(stock("stick", "stick", 10, 0.1)) });
    expect(makeOf(document, [room]).cuts).toEqual([]);
  });
});

describe("the making's memory", () => {
  const document = show({ coverings: floors({}), trims: { trim: trim() } });

  it("makes nothing again for a moved piece", () => {
    const make = createMake();
    const rooms = [room];
    const first = make(document, rooms);
    const placement = { id: "p", piece: "x", room: "room", number: 1, x: 5, y: 5, turn: 0, up: 0 };
    expect(make({ ...document, placements: { p: placement } }, rooms)).toBe(first);
    expect(make({ ...document, rates: {} }, rooms)).not.toBe(first);
  });

  it("keeps the floor's plan while only trim changes, and answers as without a memory", () => {
    const make = createMake();
    const rooms = [room];
    const first = make(document, rooms);
    const changed = { ...document, trims: { trim: trim({ depth: 30 }) } };
    const second = make(changed, rooms);
    expect(second.sheets[0]?.plan).toBe(first.sheets[0]?.plan);
    expect(second).toEqual(makeOf(changed, rooms));
  });
});
