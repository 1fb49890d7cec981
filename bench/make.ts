/**
 * The making, timed from the records to every plan: what is cut from which stick and sheet, what to buy, how long it
 * takes. Its own instances are long lists: a thousand and ten thousand lengths of many sizes, as many floor parts.
 * `value` is the sticks or sheets bought, `bound` what no plan can do with fewer; `over_bound_percent` is how far the
 * one is above the other. Every plan is held to a judge that shares no code with the solver. With a file or a folder:
 * show files.
 */
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { readShow } from "../engine/src/document/file.ts";
import { emptyDocument, type ShowDocument, type Stock } from "../engine/src/document/tables.ts";
import { makeOf } from "../engine/src/make/derive.ts";
import type { Making } from "../engine/src/make/model.ts";
import { measureRooms } from "../engine/src/measure/derive.ts";
import { judgeLengths } from "../engine/src/solve/lengths-judge.ts";
import { judgeSheets } from "../engine/src/solve/sheets-judge.ts";
import { handMadeRoom } from "../engine/src/testing/hand-made.ts";
import { randomStream } from "../engine/src/testing/rooms.ts";
import type { BenchInput, BenchResult } from "./result.ts";

export interface MakeResult extends BenchResult {
  readonly over_bound_percent: number;
}

/** What a stock is but for its form and size. */
const STOCK = {
  order: 0,
  thickness: 18,
  repeat: 0,
  match: "free",
  grained: false,
  flame: false,
} as const;
/** 12 ft sticks at a kerf of 1/8 in; sheets of 1220 by 2440 mm at 3 mm. */
const STICK: Stock = {
  ...STOCK,
  id: "stick",
  name: "Stick",
  form: "stick",
  width: 40,
  length: 3657.6,
  kerf: 3.175,
};
const SHEET: Stock = {
  ...STOCK,
  id: "sheet",
  name: "Sheet",
  form: "sheet",
  width: 1220,
  length: 2440,
  kerf: 3,
};

/** Runs the benchmark; a plan a judge finds fault with is an error. */
export function run({ input, plans }: BenchInput): readonly BenchResult[] {
  if (input !== undefined) return filesOf(input).map((path) => timed(path, readDocument(path), plans));
  return [
    timed("1000 lengths", lengthShow(1000), plans),
    timed("10000 lengths", lengthShow(10_000), plans),
    timed("1000 floor parts", floorShow(1000), plans),
    timed("10000 floor parts", floorShow(10_000), plans),
  ];
}

function timed(instance: string, document: ShowDocument, plans: boolean): MakeResult {
  const rooms = Object.keys(document.corners).length > 0 ? measureRooms(document) : handMade(document);
  const start = performance.now();
  const making = makeOf(document, rooms);
  const seconds = (performance.now() - start) / 1000;
  const faults = judged(making);
  if (faults.length > 0) throw new Error(`${instance}: ${faults.slice(0, 5).join("; ")}`);
  const [value, bound] = (["count", "bound"] as const).map((of) =>
    making.buying.reduce((sum, line) => sum + line[of], 0),
  );
  if (value === undefined || bound === undefined || value === 0) throw new Error(`${instance} buys nothing`);
  return {
    instance,
    value,
    bound,
    seconds,
    over_bound_percent: Number((100 * (value / bound - 1)).toFixed(3)),
    ...(plans ? { plan: { cuts: making.cuts, sheets: making.sheets, buying: making.buying } } : {}),
  };
}

/** What independent judges find wrong with the plans. */
function judged(making: Making): readonly string[] {
  return [
    ...making.cuts.flatMap(({ stock, plan, parts }) =>
      stock && plan ? judgeLengths({ stock: stock.length, kerf: stock.kerf, parts }, plan) : [],
    ),
    ...making.sheets.flatMap(({ stock, plan, parts }) =>
      judgeSheets(
        { width: stock.width, depth: stock.length, kerf: stock.kerf, turning: !stock.grained, parts },
        plan,
      ),
    ),
  ];
}

/** One great piece of many lengths, no two of five alike. */
function lengthShow(count: number): ShowDocument {
  const random = randomStream(count);
  const alike = 5;
  const parts = Array.from({ length: count / alike }, (_, order) => ({
    id: `part${order}`,
    piece: "frame",
    order,
    stock: STICK.id,
    length: 100 + Math.floor(random() * 2400),
    count: alike,
  }));
  return {
    ...emptyDocument(),
    stocks: { [STICK.id]: STICK },
    pieces: {
      frame: { id: "frame", name: "Frame", order: 0, layer: "furniture", count: 1, sits: false },
    },
    parts: Object.fromEntries(parts.map((part) => [part.id, part])),
  };
}

/** Floors of a hundred panels, each floor's panels of a size of its own. */
function floorShow(count: number): ShowDocument {
  const random = randomStream(count);
  const floors = Array.from({ length: count / 100 }, (_, order) => {
    const [wide, deep] = [200 + Math.floor(random() * 900), 200 + Math.floor(random() * 900)];
    return {
      id: `floor${order}`,
      room: "room",
      name: `Floor ${order}`,
      order,
      x: 0,
      y: 0,
      turn: 0,
      width: 10 * wide,
      depth: 10 * deep,
      thickness: 18,
      border: 0,
      walkable: true,
      stock: SHEET.id,
      panelWidth: wide,
      panelDepth: deep,
    };
  });
  return {
    ...emptyDocument(),
    stocks: { [SHEET.id]: SHEET },
    coverings: Object.fromEntries(floors.map((floor) => [floor.id, floor])),
  };
}

/** A room to lay the floors in, as large as they come. */
function handMade(document: ShowDocument): Parameters<typeof makeOf>[1] {
  if (Object.keys(document.coverings).length === 0) return [];
  const corners = [
    [0, 0],
    [30_000, 0],
    [30_000, -30_000],
    [0, -30_000],
  ] as const;
  return [handMadeRoom({ corners: corners.map(([x, y]) => ({ x, y, height: 3000 })) })];
}

function filesOf(input: string): readonly string[] {
  if (!statSync(input).isDirectory()) return [input];
  return readdirSync(input)
    .filter((name) => name.endsWith(".json"))
    .toSorted()
    .map((name) => join(input, name));
}

function readDocument(path: string): ShowDocument {
  const read = readShow(readFileSync(path, "utf8"));
  if (!read.ok) throw new RangeError(`${path} is no show that can be read`);
  return read.document;
}
