import { createRequire } from "node:module";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EMPTY_SHOW, emptyDocument } from "../document/tables.ts";
import { sheetFonts } from "../testing/sheet-fonts.ts";
import { boxOf, boxOfItems, letters } from "./drafting.ts";
import { gridPaper } from "./grid.ts";
import { labelField } from "./labels.ts";
import { PAPERS, sideways } from "./papers.ts";
import { setInOrder, setInRows } from "./rows.ts";
import { gridScale, gridScales } from "./scales.ts";
import { stacked } from "./stacked.ts";
import { bound, leafBox, type Leaf } from "./stamp.ts";
import { tableSheets } from "./tables.ts";
import { fontSnags, missingGlyphs, printable, shortenedTo, textWidth, wrapped } from "./type.ts";

interface FontReader {
  readonly create: (bytes: Uint8Array) => {
    readonly unitsPerEm: number;
    readonly layout: (text: string, features: object) => { readonly advanceWidth: number };
  };
}
/** The reader inside the PDF library; it brings no types along. */
const fontkit = createRequire(import.meta.url)("fontkit") as FontReader;

describe("papers", () => {
  it("are the sizes of ISO 216:2007 (A0 to A4) and ASME Y14.1 (A to E)", () => {
    const iso = { a0: [841, 1189], a1: [594, 841], a2: [420, 594], a3: [297, 420], a4: [210, 297] } as const;
    for (const [name, size] of Object.entries(iso)) {
      const paper = PAPERS[name as keyof typeof iso];
      expect([paper.width, paper.height]).toEqual(size);
    }
    const ansi = {
      letter: [8.5, 11],
      tabloid: [11, 17],
      "ansi-c": [17, 22],
      "ansi-d": [22, 34],
      "ansi-e": [34, 44],
    } as const;
    for (const [name, [width, height]] of Object.entries(ansi)) {
      const paper = PAPERS[name as keyof typeof ansi];
      expect(paper.width / 25.4).toBeCloseTo(width, 9);
      expect(paper.height / 25.4).toBeCloseTo(height, 9);
    }
  });
});

describe("scales from grid paper", () => {
  it("are the architect's scales: 1/2 in a foot is 1:24, 1/4 in is 1:48, 1/8 in is 1:96 (12 over the inches)", () => {
    for (const [inches, n] of [
      [3, 4],
      [1.5, 8],
      [1, 12],
      [0.75, 16],
      [0.5, 24],
      [0.375, 32],
      [0.25, 48],
      [0.1875, 64],
      [0.125, 96],
    ] as const)
      expect(gridScale(inches * 25.4, 304.8, "ft-in").scale).toBeCloseTo(n, 9);
  });
  it("say what a square is: 6 in 1:24, 12 in 1:48, 25 cm on 5 mm 1:50, feet on 5 mm the ugly 1:60.96", () => {
    expect(gridScale(6.35, 152.4, "ft-in").sentence).toBe("1:24, one 1/4 in square is 6 in");
    expect(gridScale(6.35, 304.8, "ft-in").sentence).toBe("1:48, one 1/4 in square is 12 in");
    expect(gridScale(5, 250, "mm").sentence).toBe("1:50, one 5 mm square is 25 cm");
    expect(gridScale(5, 1000, "m").sentence).toBe("1:200, one 5 mm square is 1 m");
    expect(gridScale(5, 304.8, "ft-in").sentence).toBe("1:60.96, one 5 mm square is 12 in");
  });
  it("make model lengths by division: 6000 at 1:24 is 250, 9 ft at 1:48 is 57.15, 915 at 1:24 is 38.125", () => {
    for (const [real, scale, model] of [
      [6000, 24, 250],
      [2743.2, 48, 57.15],
      [915, 24, 38.125],
      [12, 24, 0.5],
    ] as const)
      expect(real / gridScale(6.35, 6.35 * scale, "in").scale).toBeCloseTo(model, 6);
  });
  it("come largest drawing first and hold the person's own square", () => {
    const scales = gridScales({ units: "ft-in", gridPitch: 6.35, gridSquare: 228.6 });
    expect(scales.slice(0, 4).map(({ square }) => square)).toEqual([152.4, 228.6, 304.8, 609.6]);
    expect(
      gridScales({ units: "mm", gridPitch: 5, gridSquare: 250 })
        .slice(0, 4)
        .map(({ scale }) => scale),
    ).toEqual([25, 50, 100, 200]);
  });
});

describe("type", () => {
  it("is as wide as the font reader says, without kerning", () => {
    const fonts = sheetFonts();
    const font = fontkit.create(Buffer.from(fonts.sans));
    for (const text of ["Ticket booth 12′ 3½″", "Größe Ωμέγα Причал", "→ 5⅜ × 24' 1 1/4\""]) {
      const told = font.layout(text, { kern: false, liga: false }).advanceWidth / font.unitsPerEm;
      expect(textWidth(text, "sans", 1)).toBeCloseTo(told, 9);
    }
  });
  it("holds primes, eighths, arrows, Greek, Cyrillic and accents, and names what it lacks once", () => {
    expect(missingGlyphs("′″⅛⅜⅝⅞½¼¾←→ΑΩαωЖжщŐłñé—“”")).toEqual([]);
    expect(missingGlyphs("夜の夜 ship")).toEqual(["夜", "の"]);
    expect(printable("夜 a\u200Db", "mono")).toBe("\u25CA ab");
  });
  it("wraps to the width and loses nothing", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.string({ minLength: 1, maxLength: 30, unit: fc.constantFrom("a", "b", "c", " ", "é", "Ж") }),
        ),
        fc.integer({ min: 12, max: 80 }),
        (words, width) => {
          const text = words.join(" ");
          const rows = wrapped(text, "sans", 3, width);
          for (const row of rows) expect(textWidth(row, "sans", 3)).toBeLessThanOrEqual(width + 1e-9);
          expect(rows.join("").replaceAll(" ", "")).toBe(text.replaceAll(" ", ""));
        },
      ),
      { seed: 7, numRuns: 200 },
    );
  });
  it("shortens with an ellipsis and leaves what fits", () => {
    expect(shortenedTo("Bench", "sans", 3, 100)).toBe("Bench");
    const short = shortenedTo("x".repeat(1e6), "sans", 3, 40);
    expect(short.endsWith("…")).toBe(true);
    expect(textWidth(short, "sans", 3)).toBeLessThanOrEqual(40);
  });
  it("gives one snag for each name that cannot be printed", () => {
    const room = { id: "r", order: 0, turn: "clockwise", entered: true } as const;
    const document = {
      ...emptyDocument(),
      rooms: {
        r: { ...room, name: "夜" },
        s: { ...room, id: "s", name: "夜" },
        t: { ...room, id: "t", name: "Hall" },
      },
    };
    expect(fontSnags(document).map(({ rule, things }) => [rule, things])).toEqual([["font-missing", ["r"]]]);
    expect(fontSnags(emptyDocument({ ...EMPTY_SHOW, name: "Ночной паром" }))).toEqual([]);
  });
});

describe("boxes set in rows", () => {
  const boxes = fc.array(
    fc.record({ width: fc.integer({ min: 1, max: 60 }), height: fc.integer({ min: 1, max: 60 }) }),
    { maxLength: 40 },
  );
  const space = { left: 10, top: 20, right: 110, bottom: 150 };
  for (const [name, set] of [
    ["by height", setInRows],
    ["in order", setInOrder],
  ] as const)
    it(`lie inside the paper and never touch, ${name}`, () => {
      fc.assert(
        fc.property(boxes, (list) => {
          const places = set === setInRows ? setInRows(list, [space], 3) : setInOrder(list, space, 3);
          const laid = places.flatMap((place, index) => {
            const box = list[index];
            return place && box ? [{ ...place, ...box }] : [];
          });
          laid.forEach((a, index) => {
            expect(
              a.x >= space.left &&
                a.y >= space.top &&
                a.x + a.width <= space.right + 1e-6 &&
                a.y + a.height <= space.bottom + 1e-6,
            ).toBe(true);
            for (const b of laid.slice(index + 1))
              expect(
                a.x + a.width + 3 <= b.x + 1e-6 ||
                  b.x + b.width + 3 <= a.x + 1e-6 ||
                  a.y + a.height + 3 <= b.y + 1e-6 ||
                  b.y + b.height + 3 <= a.y + 1e-6,
              ).toBe(true);
          });
          if (list.length > 0 && list.every((box) => box.width <= 20 && box.height <= 20) && list.length < 10)
            expect(laid).toHaveLength(list.length);
        }),
        { seed: 11, numRuns: 150 },
      );
    });
});

/** Everything lettered on some pages, in its order. */
const lettered = (leaves: readonly Leaf[]): readonly string[] =>
  leaves.flatMap(({ items }) => items.flatMap((item) => ("text" in item ? [item.text] : [])));

describe("pages", () => {
  it("break a long table, keep every row, repeat the head and count themselves", () => {
    const rows = Array.from({ length: 200 }, (_, index) => [`row ${index}`, "word ".repeat(index % 40)]);
    const paper = sideways(PAPERS.letter);
    const columns = [
      { head: "First", share: 1 },
      { head: "Second", share: 2 },
    ];
    const leaves = tableSheets({ id: "t", title: "Table", paper, columns, rows, empty: "none" });
    const sheets = bound(leaves, { show: "S", date: "D", state: "T" });
    const words = sheets.map((sheet) =>
      sheet.items.flatMap((item) => (item.kind === "lettering" ? [item.text] : [])),
    );
    expect(words.flat().filter((text) => text.startsWith("row "))).toEqual(rows.map(([first]) => first));
    expect(words.every((page) => page.includes("First"))).toBe(true);
    expect(words.at(-1)).toContain(`page ${sheets.length} of ${sheets.length}`);
    for (const sheet of sheets)
      for (const item of sheet.items) {
        const box = boxOf(item);
        expect(
          box.left >= 5 && box.top >= 5 && box.right <= sheet.width - 5 && box.bottom <= sheet.height - 5,
        ).toBe(true);
      }
  });
  it("set rows abreast, every row once, on fewer pages", () => {
    const paper = sideways(PAPERS.letter);
    const columns = [
      { head: "First", share: 1 },
      { head: "Second", share: 2 },
    ];
    for (const count of [0, 1, 2, 27, 53, 200]) {
      const rows = Array.from({ length: count }, (_, index) => [`row ${index}`, "word ".repeat(index % 9)]);
      const wish = { id: "t", title: "Table", paper, columns, rows, empty: "none" };
      const [one, two] = [tableSheets(wish), tableSheets({ ...wish, abreast: 2 })];
      expect(lettered(two).filter((text) => text.startsWith("row "))).toEqual(rows.map(([first]) => first));
      expect(two.length).toBeLessThanOrEqual(one.length);
      const box = leafBox(paper);
      for (const { items } of two) {
        expect(boxOfItems(items).bottom).toBeLessThanOrEqual(box.bottom + 1);
        expect(boxOfItems(items).right).toBeLessThanOrEqual(box.right + 0.01);
      }
    }
  });
  it("share one page while they fit, in order, and drawings at scale keep theirs", () => {
    const paper = sideways(PAPERS.letter);
    const columns = [{ head: "First", share: 1 }];
    const table = (id: string, count: number): readonly Leaf[] =>
      tableSheets({
        id,
        title: `About: ${id}`,
        paper,
        columns,
        rows: Array.from({ length: count }, (_, index) => [`${id} ${index}`]),
        empty: "none",
      });
    const drawn = table("drawn", 1).map((leaf) => ({ ...leaf, scale: 48 }));
    const all = [...table("a", 4), ...table("b", 6), ...drawn, ...table("c", 40), ...table("d", 2)];
    const pages = stacked(all);
    expect(pages.map(({ id, title }) => [id, title])).toEqual([
      ["a", "About: a and b"],
      ["drawn", "About: drawn"],
      ["c", "About: c"],
      ["c.2", "About: c and d"],
    ]);
    expect(lettered(pages)).toEqual(lettered(all));
    for (const { items } of pages)
      expect(boxOfItems(items).bottom).toBeLessThanOrEqual(leafBox(paper).bottom);
    // Nothing of one list stands on another.
    const [shared] = pages;
    const rows = shared?.items.filter((item) => item.kind === "lettering").map(boxOf) ?? [];
    rows.forEach((a, at) => {
      for (const b of rows.slice(at + 1)) expect(a.bottom <= b.top || b.bottom <= a.top).toBe(true);
    });
  });
  it("never break a line inside a length", () => {
    const lengths = [`3' 8 1/2"`, `24' 0"`, "2400 mm", "1 1/2 in", "93 %", `12' 11 15/16"`];
    const text = lengths.map((length) => `about ${length}, then`).join(" ");
    for (let width = 26; width < 90; width += 0.7) {
      const lines = wrapped(text, "mono", 2.9, width);
      expect(lines.join(" ")).toBe(text);
      for (const length of lengths) expect(lines.some((row) => row.includes(length))).toBe(true);
    }
  });
  it("have grid lines one pitch apart through the wanted point", () => {
    const lines = gridPaper({
      box: { left: 0, top: 0, right: 50, bottom: 30 },
      pitch: 6.35,
      through: { x: 10, y: 10 },
    });
    const downs = lines
      .flatMap((item) =>
        item.kind === "stroke" && item.points[0]?.x === item.points[1]?.x ? [item.points[0]?.x ?? 0] : [],
      )
      .toSorted((a, b) => a - b);
    expect(downs).toContain(10);
    downs.slice(1).forEach((x, index) => expect(x - (downs[index] ?? 0)).toBeCloseTo(6.35, 9));
  });
  it("set two labels that want one place apart", () => {
    const field = labelField();
    const places = [0, 10].map((y, cost) => ({
      lettering: [letters({ x: 20, y: 20 + y }, "Bench", 3)],
      cost,
    }));
    const set = [field.place(places), field.place(places)].flat().map(boxOf);
    expect(set).toHaveLength(2);
    expect((set[0]?.bottom ?? 0) <= (set[1]?.top ?? 0)).toBe(true);
  });
});
