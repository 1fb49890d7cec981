/**
 * Whole shows at random, with something in every table: made with a show's rules in mind (walls join neighbours, a
 * copy is in one place, what is cut comes from a stock of its form) and otherwise as odd as the schema lets them be.
 */
import * as fc from "fast-check";
import { FIXTURE_KINDS } from "../document/kinds.ts";
import { EMPTY_SHOW, emptyDocument, SHOW_ID, TABLE_NAMES } from "../document/tables.ts";
import type { ShowDocument, Stock, TableName } from "../document/tables.ts";
import { INSTALL_WORKS, WORKS } from "../document/works.ts";

/** A way to draw one value after another from one seed. */
interface Draw {
  readonly from: <T>(values: readonly T[]) => T;
  readonly whole: (least: number, most: number) => number;
  /** mm: on a print grid, or with all its decimals. */
  readonly mm: (least: number, most: number) => number;
  readonly maybe: <T extends object>(value: T) => T | object;
  readonly coin: () => boolean;
}

function drawOf(next: fc.GeneratorValue): Draw {
  const whole = (least: number, most: number): number => next(fc.integer, { min: least, max: most });
  const coin = (): boolean => next(fc.boolean);
  return {
    whole,
    coin,
    from: (values) => values[whole(0, values.length - 1)]!,
    maybe: (value) => (coin() ? value : {}),
    mm: (least, most) => {
      const style = whole(0, 2);
      if (style === 0) return whole(Math.ceil(least), Math.floor(most));
      if (style === 1) return (whole(Math.ceil(least / 1.5875), Math.floor(most / 1.5875)) * 25.4) / 16;
      return next(fc.double, { min: least, max: most, noNaN: true }) + 0;
    },
  };
}

const ODD = [
  "Bench at sea",
  "Box 3",
  "A-B",
  "after all",
  "Pin, long",
  'The "old" one',
  "É 1/2",
  "from afar",
  "on to",
  "12 x 3",
];

/** Names that are all different, capitals aside. */
function names(draw: Draw, title: string, count: number): readonly string[] {
  const start = draw.whole(0, ODD.length - 1);
  return Array.from({ length: count }, (_, index) =>
    draw.coin()
      ? `${title} ${String.fromCodePoint(97 + index)}`
      : `${ODD[(start + index) % ODD.length]!} ${title}`,
  );
}

/** Records as they are drawn: the show file's reader, not the compiler, holds them to the schema. */
type Records = { [T in TableName]: { readonly id: string; readonly [field: string]: unknown }[] };

/** A show drawn from a seed, the same for the same seed. Reads as a show file. */
export const wholeShow: fc.Arbitrary<ShowDocument> = fc.gen().map((next) => {
  const draw = drawOf(next);
  const records = Object.fromEntries(TABLE_NAMES.map((table) => [table, []])) as unknown as Records;
  showOf(draw, records);
  stocks(draw, records);
  const walls = rooms(draw, records);
  pieces(draw, records, walls);
  days(draw, records);
  const tables = Object.entries(records).map(([table, list]) => [
    table,
    Object.fromEntries(list.map((record) => [record.id, record])),
  ]);
  return { ...emptyDocument(), ...(Object.fromEntries(tables) as unknown as ShowDocument) };
});

function showOf(draw: Draw, records: Records): void {
  const show = {
    ...EMPTY_SHOW,
    id: SHOW_ID,
    units: draw.from(["ft-in", "in", "mm", "cm", "m"] as const),
    place: draw.from(["", "US", "GB", "DE"] as const),
    zone: draw.from(["", "America/Chicago", "Etc/GMT+3"]),
    currency: draw.from(["", "USD", "JPY", "KWD"]),
    wage: draw.whole(0, 9999),
    cardThickness: draw.mm(0, 50),
    ...draw.maybe({ opens: "2027-03-06" }),
  };
  records.shows.push(show);
}

function stocks(draw: Draw, records: Records): void {
  const forms = ["roll", "stick", "sheet"] as const;
  for (const [order, name] of names(draw, "stuff", 6).entries()) {
    records.stocks.push({
      id: `s${order}`,
      name,
      order,
      form: forms[order % 3]!,
      width: draw.mm(1, 3e3),
      length: draw.mm(1, 9e4),
      thickness: draw.from([0, draw.mm(1, 50)]),
      repeat: draw.from([0, draw.mm(1, 900)]),
      match: draw.from(["free", "straight", "drop"] as const),
      kerf: draw.from([0, draw.mm(1, 9)]),
      grained: draw.coin(),
      flame: draw.coin(),
      ...draw.maybe({ price: draw.whole(0, 1e6) }),
    });
  }
}

/** The stock of a form, one of two. */
function cutFrom(draw: Draw, form: Stock["form"]): string {
  return `s${["roll", "stick", "sheet"].indexOf(form) + 3 * draw.whole(0, 1)}`;
}

interface Side {
  readonly room: string;
  readonly from: string;
  readonly to: string;
}

function rooms(draw: Draw, records: Records): readonly Side[] {
  const sides: Side[] = [];
  for (const [order, name] of names(draw, "room", 2).entries()) {
    const room = `r${order}`;
    const turn = draw.from(["clockwise", "counterclockwise"] as const);
    records.rooms.push({ id: room, name, order, turn, entered: draw.coin() });
    const corners = ["A", "B", "wall", "N. east", "at x"].slice(0, draw.whole(3, 5));
    for (const [place, corner] of corners.entries()) {
      const sketch = draw.maybe({ sketchX: draw.mm(-900, 900), sketchY: draw.mm(-900, 900) });
      records.corners.push({
        id: `${room}.${place}`,
        room,
        name: corner,
        order: place,
        ...sketch,
      });
    }
    const around = corners.map((_, k) => ({
      room,
      from: `${room}.${k}`,
      to: `${room}.${(k + 1) % corners.length}`,
    }));
    sides.push(...around);
    for (const side of around.filter(draw.coin)) {
      const built = draw.from(["wall", "open", "glass"]);
      const id = `${side.from}~${side.to}`;
      records.walls.push({
        id,
        ...side,
        open: built === "open",
        glass: built === "glass",
        refused: draw.coin(),
      });
    }
    onWalls(draw, records, around);
    inRoom(draw, records, room);
  }
  return sides;
}

function onWalls(draw: Draw, records: Records, around: readonly Side[]): void {
  const place = (): object => {
    const side = draw.from(around);
    return { ...side, datum: draw.from([side.from, side.to]), offset: draw.mm(0, 9000) };
  };
  const { room } = around[0]!;
  for (const [order, kind] of (["door", "window"] as const).entries()) {
    const name = draw.from([`${kind === "door" ? "Door" : "Window"} 7`, `Way, ${kind}`]);
    const size = { width: draw.mm(1, 2000), height: draw.mm(1, 2000), sill: draw.from([0, draw.mm(1, 900)]) };
    const rest = { ...draw.maybe({ clear: draw.mm(1, 900) }), ...draw.maybe({ opens: "in" }) };
    records.openings.push({
      id: `${room}.o${order}`,
      name,
      order,
      kind,
      typed: "",
      ...place(),
      ...size,
      ...rest,
    });
  }
  for (const [order, kind] of FIXTURE_KINDS.entries()) {
    const sizes = {
      out: draw.from([0, draw.mm(1, 900)]),
      up: draw.mm(0, 2500),
      height: draw.from([0, draw.mm(1, 900)]),
    };
    const big = { width: draw.mm(1, 2000), depth: draw.mm(1, 900) };
    records.fixtures.push({
      id: `${room}.f${order}`,
      name: `${kind} of ours`,
      order,
      kind,
      typed: "",
      ...place(),
      ...sizes,
      ...big,
    });
  }
  for (const [order, name] of names(draw, "strips", 3).entries()) {
    const low = draw.from([0, draw.mm(1, 900)]);
    records.wallCoverings.push({
      id: `${room}.w${order}`,
      order,
      name,
      ...draw.from(around),
      stock: cutFrom(draw, "roll"),
      low,
      fixing: draw.from(["pasted", "battens", "magnets", "pins", "panels"] as const),
      lap: draw.from([0, draw.mm(1, 30)]),
      turn: draw.from([0, draw.mm(1, 30)]),
      extra: draw.from([0, draw.mm(1, 30)]),
      ...draw.maybe({ high: low + draw.mm(1, 900) }),
      ...draw.maybe({ batten: cutFrom(draw, "stick") }),
      ...draw.maybe({ drying: draw.whole(1, 3e3) }),
    });
  }
}

function inRoom(draw: Draw, records: Records, room: string): void {
  for (const [order, kind] of (["base", "rail", "crown"] as const).entries()) {
    const up = kind === "crown" ? 0 : draw.mm(0, 1000);
    const spring = kind === "crown" ? draw.maybe({ spring: draw.whole(1, 89) }) : {};
    const stock = draw.maybe({ stock: cutFrom(draw, "stick") });
    records.trims.push({
      id: `${room}.t${order}`,
      room,
      order,
      kind,
      height: draw.mm(1, 200),
      depth: draw.from([0, draw.mm(1, 40)]),
      up,
      ...spring,
      ...stock,
    });
  }
  const place = (): object => ({
    room,
    x: draw.mm(-9000, 9000),
    y: draw.mm(-9000, 9000),
    turn: draw.whole(-360, 360),
  });
  for (const [order, name] of names(draw, "covering", 2).entries()) {
    const panels = {
      ...draw.maybe({ panelWidth: draw.mm(1, 900) }),
      ...draw.maybe({ panelDepth: draw.mm(1, 900) }),
    };
    records.coverings.push({
      id: `${room}.c${order}`,
      name,
      order,
      ...place(),
      width: draw.mm(1, 9e3),
      depth: draw.mm(1, 9e3),
      thickness: draw.from([0, draw.mm(1, 20)]),
      border: draw.from([0, draw.mm(1, 90)]),
      walkable: draw.coin(),
      ...draw.maybe({ stock: cutFrom(draw, "sheet") }),
      ...panels,
    });
  }
  const seenFrom = draw.maybe({ seenFrom: `${room}.o${draw.whole(0, 1)}` });
  const size = {
    width: 600,
    depth: 600,
    round: draw.coin(),
    height: draw.mm(1000, 2000),
    low: draw.from([0, 500]),
  };
  records.neighbours.push({
    id: `${room}.n`,
    name: "Bronze, green",
    order: 0,
    ...place(),
    ...size,
    ...seenFrom,
  });
  for (const [order, name] of names(draw, "chore", 2).entries()) {
    const work = {
      after: draw.from(INSTALL_WORKS),
      minutes: draw.from([60, 90, 2.5]),
      people: draw.whole(1, 100),
    };
    records.chores.push({ id: `${room}.h${order}`, room, order, name, ...work });
  }
}

function pieces(draw: Draw, records: Records, sides: readonly Side[]): void {
  for (const [order, name] of names(draw, "piece", 4).entries()) {
    const id = `p${order}`;
    const rest = {
      ...draw.maybe({ weight: draw.whole(1, 900) / 8 }),
      ...draw.maybe({ minutes: draw.from([25, 120, 0.5]) }),
    };
    const layer = draw.from(["furniture", "accessory", "fitting", "hung"] as const);
    records.pieces.push({ id, name, order, layer, count: 4, sits: draw.coin(), ...rest });
    for (let k = 0; k < draw.whole(0, 2); k++)
      solid(draw, records, { id: `${id}.s${k}`, piece: id, order: k });
    for (let k = 0; k < draw.whole(0, 2); k++) {
      const cut = { stock: cutFrom(draw, "stick"), length: draw.mm(1, 5000), count: draw.whole(1, 12) };
      records.parts.push({ id: `${id}.l${k}`, piece: id, order: k, ...cut });
    }
    copies(draw, records, { piece: id, sides });
  }
}

function solid(
  draw: Draw,
  records: Records,
  of: { readonly id: string; readonly piece: string; readonly order: number },
): void {
  const shape = draw.from(["box", "cylinder", "outline"] as const);
  const width = draw.mm(1, 2000);
  const outline = {
    outline: [
      [0, 0],
      [draw.mm(1, 900), 0],
      [0, draw.mm(-900, -1)],
    ],
  };
  records.solids.push({
    ...of,
    shape,
    x: draw.from([0, draw.mm(-900, 900)]),
    y: draw.from([0, draw.mm(-900, 900)]),
    z: draw.from([0, draw.mm(1, 900)]),
    turn: draw.from([0, draw.whole(-360, 360)]),
    width,
    depth: shape === "cylinder" ? width : draw.mm(1, 900),
    height: draw.mm(1, 900),
    ...(shape === "outline" ? outline : {}),
  });
}

/** Copy 1 stands or hangs, copy 2 may stand on a copy of an earlier piece, copy 3 may be on a wall, copy 4 waits. */
function copies(
  draw: Draw,
  records: Records,
  of: { readonly piece: string; readonly sides: readonly Side[] },
): void {
  const { piece, sides } = of;
  const place = (): object => ({
    x: draw.from([0, draw.mm(-9000, 9000)]),
    y: draw.from([0, draw.mm(-9000, 9000)]),
    turn: draw.whole(-360, 360),
    up: draw.from([0, draw.mm(1, 900)]),
  });
  const room = draw.from(["r0", "r1"]);
  const below = records.placements.map((one) => one as { id: string; room: string });
  records.placements.push({ id: `${piece}.a1`, piece, room, number: 1, ...place() });
  if (below.length > 0 && draw.coin()) {
    const carrier = draw.from(below);
    records.placements.push({
      id: `${piece}.a2`,
      piece,
      room: carrier.room,
      number: 2,
      ...place(),
      on: carrier.id,
    });
  }
  if (draw.coin()) {
    const side = draw.from(sides);
    const at = { datum: draw.from([side.from, side.to]), offset: draw.mm(0, 9000), up: draw.mm(0, 2500) };
    records.mounts.push({ id: `${piece}.m3`, piece, number: 3, ...side, ...at });
  }
}

function days(draw: Draw, records: Records): void {
  for (let order = 0; order < 3; order++) {
    const clock = (): string =>
      `${String(draw.whole(0, 23)).padStart(2, "0")}:${String(draw.whole(0, 59)).padStart(2, "0")}`;
    const shift = {
      start: `2027-02-2${6 + order}T${clock()}`,
      end: `2027-0${draw.from(["2-27", "3-01", "3-02"])}T${clock()}`,
    };
    records.shifts.push({ id: `d${order}`, order, ...shift, people: draw.whole(0, 1000) });
  }
  for (const work of WORKS.filter(draw.coin)) {
    records.rates.push({
      id: `rate ${work}`.replaceAll(" ", "-"),
      work,
      minutes: draw.from([60, 7.25]),
      people: draw.whole(1, 100),
    });
  }
  const texts = ["May we?", 'Is it "so", answer: no?', " spaced ", "A: b"];
  for (const [order, text] of texts.entries()) {
    records.questions.push({
      id: `q${order}`,
      order,
      text,
      answer: draw.from(["", "Yes, until ten.", '"Quoted" yes']),
    });
    records.notes.push({ id: `n${order}`, order, text });
    records.jottings.push({ id: `j${order}`, order, text });
  }
}
