import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { emptyDocument, type Part, type Piece, type ShowDocument, type Stock } from "../document/tables.ts";
import { judgeLengths } from "../solve/lengths-judge.ts";
import { buyingOf } from "./buying.ts";
import { lengthCuttings, pieceParts } from "./cutting.ts";
import type { Strip, WallWork } from "./model.ts";
import { createPlans } from "./plans.ts";

const stock = (said: Partial<Stock> = {}): Stock => ({
  id: "batten",
  name: "Batten",
  order: 0,
  form: "stick",
  width: 38,
  length: 2400,
  thickness: 19,
  repeat: 0,
  match: "free",
  kerf: 3,
  grained: false,
  flame: false,
  ...said,
});
const piece = (id: string, count: number): Piece => ({
  id,
  name: id,
  order: 0,
  layer: "furniture",
  count,
  sits: false,
});
const part = (id: string, of: string, length: number, count: number, order = 0): Part => ({
  id,
  piece: of,
  order,
  stock: "batten",
  length,
  count,
});
const NOTHING = { walls: [], trims: [], floors: [] };

const documentOf = (said: Partial<ShowDocument>): ShowDocument => ({
  ...emptyDocument(),
  stocks: { batten: stock() },
  ...said,
});

describe("lengths of pieces", () => {
  const document = documentOf({
    pieces: { trunk: piece("trunk", 3), urn: piece("urn", 1) },
    parts: {
      long: part("long", "trunk", 900, 4),
      short: part("short", "trunk", 500, 2, 1),
      ring: part("ring", "urn", 300, 1, 2),
    },
  });

  it("are cut for every copy, each with an id and a name of its own", () => {
    const [cutting] = lengthCuttings({ document, ...NOTHING }, createPlans());
    expect(cutting?.parts).toHaveLength(3 * (4 + 2) + 1);
    expect(new Set(cutting?.parts.map(({ id }) => id)).size).toBe(19);
    expect(new Set(cutting?.parts.map(({ name }) => name)).size).toBe(19);
    expect(cutting?.parts[0]).toEqual({
      id: "long~1~1",
      name: "trunk 1, length 1",
      length: 900,
      because: ["long", "trunk", "batten"],
    });
    expect(cutting?.parts.at(-1)?.name).toBe("urn, length 1");
  });

  it("go with their piece and leave every other as it was", () => {
    const { trunk: _, ...pieces } = document.pieces;
    const before = lengthCuttings({ document, ...NOTHING }, createPlans())[0]?.parts ?? [];
    const after =
      lengthCuttings({ document: { ...document, pieces }, ...NOTHING }, createPlans())[0]?.parts ?? [];
    expect(after).toEqual(before.filter(({ because }) => !because.includes("trunk")));
    expect(after).toHaveLength(1);
  });

  it("stay what they are when a copy is added", () => {
    const more = { ...document, pieces: { ...document.pieces, trunk: piece("trunk", 4) } };
    const before = pieceParts(document).told.flatMap(({ parts }) => parts);
    const after = new Map(pieceParts(more).told.flatMap(({ parts }) => parts.map((one) => [one.id, one])));
    for (const one of before) expect(after.get(one.id)).toEqual(one);
    expect(after.size).toBe(before.length + 6);
  });

  it("are cut as the judge of lengths accepts, whatever is asked", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 20, max: 2600 }), fc.integer({ min: 1, max: 6 })), {
          minLength: 1,
          maxLength: 6,
        }),
        fc.integer({ min: 1, max: 4 }),
        (rows, count) => {
          const parts = Object.fromEntries(
            rows.map(([length, many], k) => [`p${k}`, part(`p${k}`, "x", length, many, k)]),
          );
          const asked = documentOf({ pieces: { x: piece("x", count) }, parts });
          const [cutting] = lengthCuttings({ document: asked, ...NOTHING }, createPlans());
          const job = { stock: 2400, kerf: 3, parts: cutting!.parts };
          expect(judgeLengths(job, cutting!.plan!)).toEqual([]);
          const long = cutting!.parts.filter(({ length }) => length > 2400);
          expect(cutting!.plan!.unplaced).toEqual(long.map(({ id }) => id));
        },
      ),
      { seed: 41, numRuns: 60 },
    );
  });
});

const strips = (wall: string, lengths: readonly number[]): readonly Strip[] =>
  lengths.map((length, index) => ({
    id: `${wall}~${index + 1}`,
    number: index + 1,
    left: 0,
    right: 1,
    low: 0,
    highLeft: 1,
    highRight: 1,
    length,
    patternDrop: 0,
    cutRound: [],
    because: [wall],
  }));

const wallOf = (wall: string, paper: Stock, lengths: readonly number[], rolls: number): WallWork => ({
  covering: {
    id: wall,
    room: "room",
    order: 0,
    name: wall,
    from: "A",
    to: "B",
    stock: paper.id,
    fixing: "pasted",
    lap: 0,
    turn: 0,
    extra: 0,
    low: 0,
  },
  stock: paper,
  name: wall,
  wall,
  room: "room",
  outline: [],
  holes: [],
  strips: strips(wall, lengths),
  ends: [1, 1],
  rolls,
  perRoll: 4,
  area: 1,
  battens: [],
});

const bought = (roll: Stock, walls: readonly WallWork[]) =>
  buyingOf({ ...emptyDocument(), stocks: { paper: roll } }, { walls, cuts: [], sheets: [] }, createPlans());

describe("the buying list", () => {
  const paper = stock({
    id: "paper",
    name: "Kraft",
    form: "roll",
    width: 900,
    length: 10_000,
    kerf: 0,
    price: 4800,
  });
  it("lets walls share a roll of plain paper", () => {
    const walls = [wallOf("a", paper, [2500, 2500], 1), wallOf("b", paper, [2500, 2500], 1)];
    const { buying, price, unpriced } = bought(paper, walls);
    expect(buying).toMatchObject([
      { count: 1, bound: 1, proven: true, price: 4800, because: ["paper", "a", "b"] },
    ]);
    expect(buying[0]?.why).toBe(`4 strips of 8' 2 7/16", 4 from a roll, rolls of 32' 9 11/16"`);
    expect([price, unpriced]).toEqual([4800, 0]);
  });

  it("lets walls share a roll of patterned paper too, since its strips are whole repeats", () => {
    const patterned = { ...paper, repeat: 500, match: "drop" as const };
    const walls = [wallOf("a", patterned, [3000, 2500], 1), wallOf("b", patterned, [2500, 3000], 1)];
    expect(bought(patterned, walls).buying).toMatchObject([
      { count: 2, bound: 2, proven: true, price: 9600 },
    ]);
    const less = [wallOf("a", patterned, [2500, 2500], 1), wallOf("b", patterned, [2500, 2500], 1)];
    expect(bought(patterned, less).buying).toMatchObject([{ count: 1, bound: 1 }]);
  });

  it("counts lines without a price and leaves out stocks nobody needs", () => {
    const { price: _, ...free } = paper;
    const made = bought(free, [wallOf("a", free, [2500], 1)]);
    expect(made.unpriced).toBe(1);
    expect(made.price).toBe(0);
    expect(made.buying[0]).not.toHaveProperty("price");
    expect(bought(paper, []).buying).toEqual([]);
  });

  it("says the sticks' arithmetic and whether fewer could do", () => {
    const document = documentOf({
      stocks: { batten: stock({ price: 250 }) },
      shows: { show: { ...emptyDocument().shows["show"]!, units: "mm" } },
      pieces: { x: piece("x", 1) },
      parts: { p: part("p", "x", 1198, 4), over: part("over", "x", 2401, 1, 1) },
    });
    const plans = createPlans();
    const cuts = lengthCuttings({ document, ...NOTHING }, plans);
    // 1198 + 3 + 1198 = 2399: two from a stick.
    expect(buyingOf(document, { walls: [], cuts, sheets: [] }, plans).buying).toMatchObject([
      {
        count: 2,
        bound: 2,
        proven: true,
        price: 500,
        why: "4 lengths, 4792 mm in all, from sticks of 2400 mm, 3 mm a cut",
      },
    ]);
  });
});
