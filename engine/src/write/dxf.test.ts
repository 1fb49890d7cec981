import { bookOf } from "../testing/book-of.ts";
import Reader, {
  type IArcEntity,
  type ICircleEntity,
  type IEntity,
  type ILineEntity,
  type ILwpolylineEntity,
  type ITextEntity,
} from "dxf-parser";
import { describe, expect, it } from "vitest";
import { book } from "../book/book.ts";
import { cardModels } from "../model/parts.ts";
import { modelLeaves } from "../model/sheets.ts";
import type { Point } from "../plane/point.ts";
import { PAPERS } from "../sheet/papers.ts";
import { bound } from "../sheet/stamp.ts";
import type { Item, Sheet } from "../sheet/vocabulary.ts";
import { FIVE_CORNERS, handMadeShow, WAITING_ROOM } from "../testing/hand-made.ts";
import { checkKnown } from "../testing/known-lengths.ts";
import { writeDxf } from "./dxf.ts";

const STAMP = { show: "Größe <é> & 1′ 6⅜″", date: "25 Nov 2026", state: "draft" };

interface Read {
  readonly header: Readonly<Record<string, unknown>>;
  readonly layers: readonly string[];
  readonly entities: readonly IEntity[];
}

function read(text: string): Read {
  const parsed = new Reader().parseSync(text);
  if (!parsed) throw new Error(`no drawing in ${text.slice(0, 40)}`);
  return {
    header: parsed.header,
    layers: Object.keys(parsed.tables.layer.layers),
    entities: parsed.entities,
  };
}

const isLine = (one: IEntity): one is ILineEntity => one.type === "LINE";
const isPolyline = (one: IEntity): one is ILwpolylineEntity => one.type === "LWPOLYLINE";
const isText = (one: IEntity): one is ITextEntity => one.type === "TEXT";
const isCircle = (one: IEntity): one is ICircleEntity => one.type === "CIRCLE";
const isArc = (one: IEntity): one is IArcEntity => one.type === "ARC";

/** All points of lines and polylines, turned back to y down from the top of a sheet so high. */
function pointsOf({ entities }: Read, height: number): readonly Point[] {
  return entities
    .flatMap((one): readonly Point[] => (isLine(one) || isPolyline(one) ? one.vertices : []))
    .map(({ x, y }) => ({ x, y: height - y }));
}

/** The sheet as large as its room: every length a person may measure in the file. */
function grown(sheet: Sheet, factor: number): Sheet {
  const times = ({ x, y }: Point): Point => ({ x: x * factor, y: y * factor });
  return {
    ...sheet,
    known: sheet.known.map((one) => ({
      ...one,
      from: times(one.from),
      to: times(one.to),
      real: one.real * factor,
    })),
  };
}

function cardSheets(wanted: typeof WAITING_ROOM, paper: keyof typeof PAPERS): readonly Sheet[] {
  const { document, arrangement } = handMadeShow(wanted);
  const { room } = arrangement;
  const corners = room.corners.map(({ id, name }, order) => ({ id, name, order, room: room.room.id }));
  const said = { ...document, corners: Object.fromEntries(corners.map((one) => [one.id, one])) };
  const [model] = cardModels(said, [room], undefined);
  return bound(modelLeaves(model!, said, PAPERS[paper]), STAMP);
}

const only = (items: readonly Item[]): Sheet => ({
  id: "s",
  title: "Sheet",
  width: 200,
  height: 100,
  items,
  known: [],
  frames: [],
});

const line = (pen: "cut" | "fold" | "wall" | "grid" | "bar", y: number): Item => ({
  kind: "stroke",
  pen,
  points: [
    { x: 0, y },
    { x: 50, y },
  ],
});

const arc = (from: number, to: number): Item => ({
  kind: "arc",
  pen: "outline",
  centre: { x: 60, y: 40 },
  radius: 12,
  from,
  to,
});

describe("a written DXF, read back by dxf-parser", () => {
  for (const [name, wanted, paper] of [
    ["four corners on Letter", WAITING_ROOM, "letter"],
    ["five corners on A4", FIVE_CORNERS, "a4"],
    ["a split model on A3", { ...WAITING_ROOM, show: { gridSquare: 76.2 } }, "a3"],
  ] as const)
    it(`has every known length of the card model of ${name} within 0.001 mm`, () => {
      for (const sheet of cardSheets(wanted, paper)) {
        const off = checkKnown(sheet, pointsOf(read(writeDxf(sheet)), sheet.height));
        expect(off.filter((one) => Math.abs(one.off) > 0.001)).toEqual([]);
        expect(off.length).toBeGreaterThan(3);
      }
    });

  it("has a plan as large as its room, every wall true to 0.001 mm", () => {
    const { document, arrangement } = handMadeShow(WAITING_ROOM);
    const plan = book(bookOf([arrangement], document), document, { stamp: STAMP }).find(({ known }) =>
      known.some(({ name }) => name.startsWith("wall ")),
    )!;
    const factor = plan.scale!;
    const off = checkKnown(
      grown(plan, factor),
      pointsOf(read(writeDxf(plan, { factor })), plan.height * factor),
    );
    expect(off.filter((one) => Math.abs(one.off) > 0.001)).toEqual([]);
    const wall = plan.known.find(({ name }) => name === "wall A-B")!;
    expect(wall.scale).toBe(factor);
    const points = pointsOf(read(writeDxf(plan, { factor })), plan.height * factor);
    const near = (to: Point): Point =>
      points.reduce((best, point) =>
        Math.hypot(point.x - to.x * factor, point.y - to.y * factor) <
        Math.hypot(best.x - to.x * factor, best.y - to.y * factor)
          ? point
          : best,
      );
    const [a, b] = [near(wall.from), near(wall.to)];
    expect(Math.hypot(b.x - a.x, b.y - a.y)).toBeCloseTo(wall.real, 3);
  });

  it("is in millimetres, with layers to cut, score, draw and letter, all black", () => {
    const { header, layers, entities } = read(writeDxf(cardSheets(FIVE_CORNERS, "a4")[0]!));
    // $INSUNITS 4: millimetres (DXF reference, header variables; from memory).
    expect(header["$INSUNITS"]).toBe(4);
    expect(layers).toEqual(expect.arrayContaining(["CUT", "SCORE", "DRAW", "TEXT"]));
    expect(new Set(entities.map(({ layer }) => layer))).toEqual(new Set(["CUT", "SCORE", "DRAW", "TEXT"]));
    expect(entities.filter((one) => one.layer === "TEXT").every(isText)).toBe(true);
    expect(entities.some((one) => one.layer === "CUT" && isPolyline(one) && one.shape)).toBe(true);
    expect(entities.every(({ colorIndex }) => colorIndex === undefined || colorIndex === 7)).toBe(true);
  });

  it("has the lines of each pen on its layer and no grid paper", () => {
    const { entities } = read(
      writeDxf(
        only([line("cut", 10), line("fold", 20), line("wall", 30), line("grid", 40), line("bar", 50)]),
      ),
    );
    expect(
      entities.filter(isLine).map(({ layer, vertices }) => [layer, vertices[0]?.y, vertices[1]?.x]),
    ).toEqual([
      ["CUT", 90, 50],
      ["SCORE", 80, 50],
      ["DRAW", 70, 50],
      ["DRAW", 50, 50],
    ]);
  });

  it("keeps primes, eighths, accents and a per cent sign in its text, where and as large as it stands", () => {
    const at = { x: 20, y: 30 };
    const words = ["24′ 0 13/16″", "Größe ⅜ é", "100 %"];
    const items = words.map((text, index): Item => ({
      kind: "lettering",
      at,
      text,
      size: 4,
      face: "sans",
      turn: index * 30,
      align: index === 1 ? "middle" : "start",
    }));
    const texts = read(writeDxf(only(items), { factor: 2 })).entities.filter(isText);
    expect(texts.map(({ text }) => text)).toEqual(words);
    expect(texts.map(({ textHeight }) => textHeight)).toEqual(
      words.map(() => expect.closeTo(5.6, 9) as number),
    );
    expect(texts.map(({ rotation }) => rotation ?? 0)).toEqual([0, 30, 60]);
    expect(texts[0]?.startPoint).toMatchObject({ x: 40, y: 140 });
    expect(texts[1]).toMatchObject({ halign: 1, endPoint: { x: 40, y: 140 } });
  });

  it("is whole though a text holds a line end or nothing at all", () => {
    const items = ["a\r\n0\nEOF", "  ", ""].map((text): Item => ({
      kind: "lettering",
      at: { x: 0, y: 0 },
      text,
      size: 3,
      face: "sans",
    }));
    expect(
      read(
        writeDxf(only([...items, { kind: "circle", pen: "cut", centre: { x: 5, y: 5 }, radius: 2 }])),
      ).entities.map(({ type }) => type),
    ).toEqual(["TEXT", "CIRCLE"]);
  });

  it("has circles and arcs of their true radius, the arc the way it runs", () => {
    const { entities } = read(
      writeDxf(
        only([
          { kind: "circle", pen: "cut", centre: { x: 30, y: 20 }, radius: 7.5 },
          arc(0, 90),
          arc(60, -30),
          arc(0, 360),
        ]),
        { factor: 3 },
      ),
    );
    expect(entities.filter(isCircle).map(({ center, radius }) => [center.x, center.y, radius])).toEqual([
      [90, 240, 22.5],
      [180, 180, 36],
    ]);
    const ends = entities
      .filter(isArc)
      .map((one) =>
        [one.startAngle, one.endAngle].map((radians) => ((((radians * 180) / Math.PI) % 360) + 360) % 360),
      );
    expect(ends).toEqual([
      [expect.closeTo(0, 6), expect.closeTo(90, 6)],
      [expect.closeTo(330, 6), expect.closeTo(60, 6)],
    ]);
  });

  it("leaves out the bare paper under lettering", () => {
    const plate: Item = {
      kind: "stroke",
      pen: "outline",
      ink: "sheet",
      closed: true,
      points: [
        { x: 0, y: 0 },
        { x: 5, y: 0 },
        { x: 5, y: 5 },
      ],
    };
    expect(read(writeDxf(only([plate]))).entities).toEqual([]);
  });

  it("cannot be nothing times its size", () => {
    expect(() => writeDxf(only([]), { factor: 0 })).toThrow("0 times");
    expect(() => writeDxf(only([]), { factor: Number.NaN })).toThrow("NaN times");
  });
});
