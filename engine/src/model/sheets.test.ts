import { describe, expect, it } from "vitest";
import { boxOf } from "../sheet/drafting.ts";
import { PAPERS } from "../sheet/papers.ts";
import { bound, leafBox, type Leaf } from "../sheet/stamp.ts";
import type { Item } from "../sheet/vocabulary.ts";
import type { Point } from "../plane/point.ts";
import { arranged, type Pair, type RoomWish } from "../testing/arranged.ts";
import { checkKnown } from "../testing/known-lengths.ts";
import { readPdf } from "../testing/read-pdf.ts";
import { readSvg } from "../testing/read-svg.ts";
import { sheetFonts } from "../testing/sheet-fonts.ts";
import { writePdf } from "../write/pdf.ts";
import { writeSvg } from "../write/svg.ts";
import type { CardModel } from "./model.ts";
import { cardModels } from "./parts.ts";
import { modelLeaves } from "./sheets.ts";
import { inWindow, tilesOf } from "./tiles.ts";

const IN = 25.4;
const CORNERS: readonly Pair[] = [
  [0, 0],
  [288 * IN, 0],
  [288 * IN, -198 * IN],
  [120 * IN, -198 * IN],
  [60 * IN, -150 * IN],
  [0, -150 * IN],
];
const ROOM: RoomWish = {
  corners: CORNERS,
  heights: [3100, 3050, 3000, 3020, 3040, 3060],
  doors: [
    { wall: 0, offset: 38 * IN, width: 36 * IN, name: "Door 1" },
    {
      wall: 1,
      offset: 48 * IN,
      width: 60 * IN,
      height: 48 * IN,
      sill: 30 * IN,
      kind: "window",
      name: "Window 1",
    },
  ],
  fixtures: [{ wall: 0, offset: 150 * IN, width: 62 * IN, depth: 14 * IN, kind: "projection" }],
};
const STAMP = { show: "Night Ferry", date: "25 Nov 2026", state: "draft" };

/** The model of a room of which a square of quarter-inch paper stands for so many mm. */
function modelAt(
  square: number,
  wish: RoomWish = ROOM,
): { readonly model: CardModel; readonly leaves: (paper: keyof typeof PAPERS) => readonly Leaf[] } {
  const { document, room } = arranged({
    ...wish,
    show: { gridPitch: 6.35, gridSquare: square, cardThickness: 1.5, units: "ft-in" },
  });
  const [model] = cardModels(document, [room], undefined);
  if (!model) throw new Error(`no model at ${square}`);
  const names = Object.fromEntries(
    room.corners.map(({ id, name }, order) => [id, { id, name, order, room: "room" }]),
  );
  const openings = Object.fromEntries(room.openings.map(({ opening }) => [opening.id, opening]));
  const known = { ...document, corners: names, openings };
  return { model, leaves: (paper) => modelLeaves(model, known, PAPERS[paper]) };
}

const texts = (leaf: Leaf): readonly string[] =>
  leaf.items.flatMap((item) => (item.kind === "lettering" ? [item.text] : []));
const cutRuns = (items: readonly Item[]): readonly (readonly Point[])[] =>
  items.flatMap((item) =>
    item.kind === "stroke" && item.pen === "cut"
      ? [item.closed ? [...item.points, item.points[0]!] : item.points]
      : [],
  );
const length = (runs: readonly (readonly Point[])[]): number =>
  runs.reduce(
    (sum, run) =>
      sum + run.slice(1).reduce((own, b, i) => own + Math.hypot(b.x - run[i]!.x, b.y - run[i]!.y), 0),
    0,
  );

const ring = (points: readonly Point[]): readonly Point[] => [...points, points[0]!];

describe("the sheets of a card model", () => {
  for (const paper of ["letter", "a4", "a3", "tabloid"] as const)
    for (const square of [12 * IN, 6 * IN, 3 * IN])
      it(`keep every line on the page and every length true on ${paper} at 1:${square / 6.35}`, () => {
        const leaves = modelAt(square).leaves(paper);
        for (const leaf of leaves) {
          const box = leafBox(leaf.paper);
          for (const item of leaf.items) {
            const own = boxOf(item);
            // A cross at the edge of a window reaches over it by an arm.
            expect(own.left, JSON.stringify(item)).toBeGreaterThan(box.left - 3.1);
            expect(own.right, JSON.stringify(item)).toBeLessThan(box.right + 3.1);
            expect(own.bottom, JSON.stringify(item)).toBeLessThan(box.bottom + 0.01);
          }
        }
        const sheets = bound(leaves, STAMP);
        const off = sheets.flatMap((sheet) => checkKnown(sheet, readSvg(writeSvg(sheet)).points));
        expect(off.filter((one) => Math.abs(one.off) > 0.003)).toEqual([]);
        expect(off.length).toBeGreaterThan(20);
      });

  it("are true in the written PDF too", async () => {
    const sheets = bound(modelAt(6 * IN).leaves("letter"), STAMP);
    const pages = await readPdf(
      await writePdf(sheets, { fonts: sheetFonts(), title: "Card model", created: "2026-11-25" }),
    );
    const off = sheets.flatMap((sheet, index) => checkKnown(sheet, pages[index]?.points ?? []));
    expect(off.filter((one) => Math.abs(one.off) > 0.1)).toEqual([]);
    expect(pages.map(({ text }) => text).join("\n")).toContain("Board 1.5 mm.");
  });

  it("cut every edge of every part exactly once where nothing is split", () => {
    const { model, leaves } = modelAt(12 * IN);
    const wanted = [model.floor, ...model.walls].flatMap((part) => [
      ring(part.outline),
      ...part.holes.map((hole) => ring(hole.outline)),
    ]);
    expect(length(leaves("a3").flatMap(({ items }) => cutRuns(items)))).toBeCloseTo(length(wanted), 6);
  });

  it("name each meeting edge alike on both its parts, and once each", () => {
    const { model, leaves } = modelAt(12 * IN);
    const all = leaves("a3").flatMap(texts);
    const edges = all.filter((text) => /^\d+ {3}/.test(text));
    // Six corners and six feet, each on two parts; the short slanted wall keeps its number alone on some.
    const numbers = all
      .map((text) => /^(\d+)(?: {3}|$)/.exec(text)?.[1])
      .filter((found) => found !== undefined);
    for (let number = 1; number <= 12; number++)
      expect(
        numbers.filter((found) => found === String(number)),
        `edge ${number}`,
      ).toHaveLength(2);
    expect(edges.filter((text) => text === "1   K5-K0 | K0-K1")).toHaveLength(2);
    expect(edges.filter((text) => text === "7   floor | K0-K1")).toHaveLength(2);
    expect(all.filter((text) => text === "Wall K0-K1")).toHaveLength(1);
    expect(model.walls).toHaveLength(6);
  });

  it("score where a bevel begins, and only there", () => {
    const scored = modelAt(12 * IN)
      .leaves("a3")
      .flatMap(({ items }) => items.filter((item) => item.kind === "stroke" && item.pen === "fold"));
    expect(new Set(scored.map(({ record }) => record))).toEqual(new Set(["K3"]));
    const square = modelAt(12 * IN, {
      corners: [
        [0, 0],
        [6000, 0],
        [6000, -4000],
        [0, -4000],
      ],
    }).leaves("a3");
    expect(
      square.flatMap(({ items }) => items.filter((item) => item.kind === "stroke" && item.pen === "fold")),
    ).toEqual([]);
  });

  it("say so where the scale asks for hundreds of sheets", () => {
    const [leaf, ...rest] = modelAt(2).leaves("letter");
    expect(rest).toEqual([]);
    expect(texts(leaf!).join(" ")).toMatch(/would take about \d+ sheets of US Letter/);
  });

  it("are as few as lie on the better side of the paper", () => {
    const wide = modelAt(12 * IN, {
      corners: [
        [0, 0],
        [11000, 0],
        [11000, -1000],
        [0, -1000],
      ],
    });
    const leaves = wide.leaves("letter");
    expect(leaves[0]!.paper.width).toBeGreaterThan(leaves[0]!.paper.height);
    expect(leaves.flatMap(texts).some((text) => text.startsWith("join"))).toBe(false);
  });
});

describe("a part split over sheets", () => {
  const { model, leaves } = modelAt(3 * IN);
  const split = leaves("letter");

  it("wears two register crosses on both sheets of every join, at the same spots of the part", () => {
    const registers = split.flatMap((leaf) => leaf.known.filter(({ name }) => name.includes("register")));
    const byName = new Map(registers.map((one) => [one.name, one]));
    expect(registers.length).toBeGreaterThan(10);
    for (const one of registers) {
      const [, part = "", a = "", b = ""] = /^(.*), register (\S+) to (\S+)$/.exec(one.name) ?? [];
      const other = byName.get(`${part}, register ${b} to ${a}`);
      expect(other?.real).toBeCloseTo(one.real, 9);
      const [dx, dy] = [one.to.x - one.from.x, one.to.y - one.from.y];
      expect([dx, dy]).toEqual([
        expect.closeTo(other!.to.x - other!.from.x, 9),
        expect.closeTo(other!.to.y - other!.from.y, 9),
      ]);
      // On both sheets the lines of the part cross the strip at the same distance from the cross.
      expect(Math.hypot(dx, dy)).toBeCloseTo(one.real, 9);
    }
  });

  it("has its whole outline on its sheets, laid over one another by their crosses", () => {
    const part = model.floor;
    const xs = part.outline.map(({ x }) => x);
    const ys = part.outline.map(({ y }) => y);
    const size = { width: Math.max(...xs), height: Math.max(...ys) };
    const tiles = tilesOf(size, { width: 150, height: 190 });
    expect(tiles.length).toBeGreaterThan(3);
    for (let i = 0; i < part.outline.length; i++) {
      const [a, b] = [part.outline[i]!, part.outline[(i + 1) % part.outline.length]!];
      for (let step = 0; step < 50; step++) {
        const place = {
          x: a.x + ((b.x - a.x) * (step + 0.5)) / 50,
          y: a.y + ((b.y - a.y) * (step + 0.5)) / 50,
        };
        const shown = tiles.some((tile) =>
          inWindow([a, b], tile.window).some(
            ([p, q]) =>
              p &&
              q &&
              Math.abs(
                Math.hypot(place.x - p.x, place.y - p.y) +
                  Math.hypot(place.x - q.x, place.y - q.y) -
                  Math.hypot(p.x - q.x, p.y - q.y),
              ) < 1e-6,
          ),
        );
        expect(shown).toBe(true);
      }
    }
  });

  it("tells every join the sheet that holds the other side", () => {
    const joins = split.flatMap((leaf, index) =>
      texts(leaf).flatMap((text) => {
        const to = /^join to card sheet (\d+)$/.exec(text)?.[1];
        return to === undefined ? [] : [[index + 1, Number(to)] as const];
      }),
    );
    expect(joins.length).toBeGreaterThan(10);
    for (const [from, to] of joins) {
      expect(to).toBeGreaterThan(0);
      expect(to).toBeLessThanOrEqual(split.length);
      expect(joins.some(([a, b]) => a === to && b === from)).toBe(true);
    }
  });
});
