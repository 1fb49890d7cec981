import { describe, expect, it } from "vitest";
import { brokenLinks } from "./links.ts";
import { emptyDocument } from "./tables.ts";
import type { Placement, ShowDocument, Stock } from "./tables.ts";

const corner = (room: string, name: string, order: number) => ({ id: `${room}.${name}`, room, name, order });
const side = { room: "hall", from: "hall.A", to: "hall.B" };
const stock = (id: string, form: Stock["form"]): Stock => ({
  id,
  name: id,
  order: 0,
  form,
  width: 100,
  length: 1000,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: false,
});
const copy = (id: string, number: number, on?: string): Placement => ({
  id,
  piece: "crate",
  room: "hall",
  number,
  x: 0,
  y: 0,
  turn: 0,
  up: 0,
  ...(on === undefined ? {} : { on }),
});
const byId = <R extends { readonly id: string }>(...records: readonly R[]) =>
  Object.fromEntries(records.map((record) => [record.id, record]));

const SOUND: ShowDocument = {
  ...emptyDocument(),
  rooms: byId(
    { id: "hall", name: "Hall", order: 0, turn: "clockwise" as const, entered: true },
    { id: "attic", name: "Attic", order: 1, turn: "clockwise" as const, entered: true },
  ),
  corners: byId(...["A", "B", "C"].map((name, order) => corner("hall", name, order))),
  walls: byId({ id: "w", ...side, open: false, glass: true, refused: true }),
  pieces: byId({ id: "crate", name: "Crate", order: 0, layer: "furniture" as const, count: 5, sits: false }),
  placements: byId(copy("p1", 1), copy("p2", 2, "p1"), copy("p3", 3, "p2")),
  mounts: byId({ id: "m", piece: "crate", number: 4, ...side, datum: "hall.A", offset: 5, up: 5 }),
  stocks: byId(stock("roll", "roll"), stock("stick", "stick"), stock("sheet", "sheet")),
  parts: byId({ id: "part", piece: "crate", order: 0, stock: "stick", length: 500, count: 2 }),
  coverings: byId({
    id: "floor",
    room: "hall",
    name: "Floor",
    order: 0,
    x: 0,
    y: 0,
    turn: 0,
    width: 10,
    depth: 10,
    thickness: 1,
    border: 0,
    walkable: false,
    stock: "sheet",
  }),
  trims: byId({
    id: "base",
    room: "hall",
    order: 0,
    kind: "base" as const,
    height: 9,
    depth: 1,
    up: 0,
    stock: "stick",
  }),
  wallCoverings: byId({
    id: "paper",
    order: 0,
    name: "Paper",
    ...side,
    stock: "roll",
    fixing: "battens" as const,
    lap: 0,
    turn: 0,
    extra: 0,
    low: 0,
    batten: "stick",
  }),
  chores: byId({
    id: "c",
    room: "hall",
    order: 0,
    name: "Light",
    after: "fitting" as const,
    minutes: 5,
    people: 1,
  }),
  rates: byId({ id: "r", work: "strip" as const, minutes: 5, people: 1 }),
  shifts: byId({ id: "s", order: 0, start: "2027-03-04T09:00", end: "2027-03-04T09:00", people: 0 }),
};

/** What a document says of itself once some tables are changed, as paths. */
const paths = (changed: Partial<ShowDocument>): readonly (string | undefined)[] =>
  brokenLinks({ ...SOUND, ...changed }).map(({ path }) => path);

const placed = (...all: readonly Placement[]) => paths({ placements: byId(...all) });

describe("records of making, mounts and days", () => {
  it("fit each other in a sound document", () => {
    expect(brokenLinks(SOUND)).toEqual([]);
  });

  it("name stocks that are there and of the form they are cut from", () => {
    const stocks = byId(stock("roll", "sheet"), stock("sheet", "stick"));
    expect(paths({ stocks })).toEqual([
      'parts["part"].stock',
      'coverings["floor"].stock',
      'wallCoverings["paper"].stock',
      'wallCoverings["paper"].batten',
      'trims["base"].stock',
    ]);
  });

  it("put a copy in one place only, with a number its piece has", () => {
    const mount = SOUND.mounts["m"]!;
    expect(paths({ mounts: byId({ ...mount, number: 3 }) })).toEqual(['mounts["m"].number']);
    expect(paths({ mounts: byId({ ...mount, number: 6 }) })).toEqual(['mounts["m"].number']);
    expect(paths({ mounts: byId(mount, { ...mount, id: "n" }) })).toEqual(['mounts["n"].number']);
    expect(paths({ mounts: byId({ ...mount, piece: "hat" }) })).toEqual(['mounts["m"].piece']);
  });

  it("are on walls of their room, measured from an end of it", () => {
    const mount = { ...SOUND.mounts["m"]!, from: "hall.B", to: "hall.A" };
    expect(paths({ mounts: byId(mount) })).toEqual(['mounts["m"].to']);
    expect(paths({ mounts: byId({ ...SOUND.mounts["m"]!, datum: "hall.C" }) })).toEqual([
      'mounts["m"].datum',
    ]);
    const paper = { ...SOUND.wallCoverings["paper"]!, room: "attic", to: "hall.X" };
    expect(paths({ wallCoverings: byId(paper) })).toEqual([
      'wallCoverings["paper"].from',
      'wallCoverings["paper"].to',
    ]);
  });

  it("stand on a copy that stands in the same room and never, by any way, on itself", () => {
    expect(placed(copy("p1", 1, "gone"))).toEqual(['placements["p1"].on']);
    expect(placed(copy("p1", 1, "p1"))).toEqual(['placements["p1"].on']);
    expect(placed({ ...copy("p1", 1), room: "attic" }, copy("p2", 2, "p1"))).toEqual(['placements["p2"].on']);
    expect(placed(copy("p1", 1, "p2"), copy("p2", 2, "p1"), copy("p3", 3, "p1"))).toEqual([
      'placements["p1"].on',
      'placements["p2"].on',
    ]);
  });

  it("name rooms that are there, one rate for a work, and times without a zone", () => {
    const rate = SOUND.rates["r"]!;
    const shift = { ...SOUND.shifts["s"]!, start: "2027-03-04T09:00Z" };
    expect(
      paths({
        chores: byId({ ...SOUND.chores["c"]!, room: "cellar" }),
        rates: byId(rate, { ...rate, id: "q" }),
        shifts: byId(shift),
        walls: byId({ ...SOUND.walls["w"]!, open: true }),
      }),
    ).toEqual(['chores["c"].room', 'walls["w"].glass', 'shifts["s"].start', 'rates["q"].work']);
  });
});
