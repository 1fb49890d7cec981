/** Night Ferry all the way: file to derived values to sheets to written bytes, read back by libraries that did not write them. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { book } from "../engine/src/book/book.ts";
import { planAndCutOuts } from "../engine/src/arrange/cutouts.ts";
import { roomSheet } from "../engine/src/arrange/sheet.ts";
import { createDerive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { showOf, type ShowDocument } from "../engine/src/document/tables.ts";
import { TRUE_PRINTER, type Sheet } from "../engine/src/sheet/vocabulary.ts";
import { checkKnown } from "../engine/src/testing/known-lengths.ts";
import { readPdf, type ReadPage } from "../engine/src/testing/read-pdf.ts";
import { readSvg } from "../engine/src/testing/read-svg.ts";
import { sheetFonts } from "../engine/src/testing/sheet-fonts.ts";
import { writePdf } from "../engine/src/write/pdf.ts";
import { writeSvg } from "../engine/src/write/svg.ts";

/** mm of paper. */
const TRUE_TO = 0.1;
const DATE = "25 Nov 2026";
const DECIMAL_FEET = /\d+\.\d+ ?(?:ft|'|\u2032|feet|foot)/i;
/** mm: Letter is 8 1/2 by 11 in, A4 is 210 by 297 mm (ANSI/ASME Y14.1 size A; ISO 216). */
const SIZES = { letter: [215.9, 279.4], a4: [210, 297] } as const;

const document = nightFerry();
const derived = createDerive()(document);
const [arrangement] = derived.arrangements;
if (!arrangement) throw new Error("Night Ferry has one room");
const stamp = { show: showOf(document).name, date: DATE, state: showOf(document).state };

function nightFerry(): ShowDocument {
  const read = readShow(readFileSync(new URL("night-ferry.json", import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.document;
}

function printed(sheets: readonly Sheet[]): Promise<Uint8Array> {
  return writePdf(sheets, { fonts: sheetFonts(), title: stamp.show, created: "2026-11-25" });
}

/** Every length that is off on some page, and the names of all that were held. */
function offLengths(sheets: readonly Sheet[], pages: readonly Pick<ReadPage, "points">[]) {
  const checked = sheets.flatMap((sheet, index) => checkKnown(sheet, pages[index]?.points ?? []));
  return {
    names: new Set(checked.map(({ name }) => name)),
    off: checked.filter(({ off }) => !(Math.abs(off) <= TRUE_TO)),
  };
}

describe.each(["letter", "a4"] as const)("Night Ferry on %s", (paper) => {
  const sheets = book(derived, document, { stamp, paper });
  const onePage = planAndCutOuts(arrangement, document, { stamp, paper, correction: TRUE_PRINTER }).sheet;

  const all = [...sheets, onePage];
  let read: readonly ReadPage[] = [];
  beforeAll(async () => {
    read = await readPdf(await printed(all));
  });

  it("prints every named length true to 0.1 mm", () => {
    expect(read).toHaveLength(all.length);
    const inBook = offLengths(sheets, read);
    expect(inBook.off).toEqual([]);
    expect(inBook.names.size).toBeGreaterThanOrEqual(30);
    const onOne = offLengths([onePage], read.slice(-1));
    expect(onOne.off).toEqual([]);
    expect(onOne.names.size).toBeGreaterThanOrEqual(30);
  });

  it("is paper of the standard's size with check bars, date and state on every page, and no decimal feet", () => {
    for (const [index, page] of read.entries()) {
      const sheet = all[index];
      if (!sheet) throw new Error(`page ${index + 1} shows no sheet`);
      const sides = [page.width, page.height].toSorted((a, b) => a - b);
      expect(sides[0]).toBeCloseTo(SIZES[paper][0], 2);
      expect(sides[1]).toBeCloseTo(SIZES[paper][1], 2);
      expect(page.text).toContain(DATE);
      expect(page.text).toContain(`State: ${stamp.state}`);
      expect(page.text).not.toMatch(DECIMAL_FEET);
      const bars = checkKnown(sheet, page.points).filter(({ name }) => name.startsWith("check bar"));
      expect(bars.map(({ name }) => name)).toEqual(
        expect.arrayContaining(["check bar 2 in", "check bar 50 mm"]),
      );
      for (const { off } of bars) expect(Math.abs(off)).toBeLessThanOrEqual(TRUE_TO);
    }
  });

  it("is the same drawing as SVG", () => {
    for (const sheet of all) {
      const svg = readSvg(writeSvg(sheet));
      const [left, top, width = 0, height = 0] = svg.viewBox.split(" ").map(Number);
      expect([left, top]).toEqual([0, 0]);
      expect(width).toBeCloseTo(sheet.width, 3);
      expect(height).toBeCloseTo(sheet.height, 3);
      // One unit of the drawing is one millimetre.
      expect([svg.width, svg.height]).toEqual([`${width}mm`, `${height}mm`]);
      expect(offLengths([sheet], [svg]).off).toEqual([]);
      expect(svg.text).toContain(DATE);
      expect(svg.text).not.toMatch(DECIMAL_FEET);
    }
  });
});

describe("the sheet of the screen", () => {
  const sheet = roomSheet(arrangement, document, { snags: derived.snags, stamp });

  it("is true to its scale in PDF and SVG", async () => {
    const svg = readSvg(writeSvg(sheet));
    const pdf = await readPdf(await printed([sheet]));
    expect(offLengths([sheet], [svg]).off).toEqual([]);
    const { names, off } = offLengths([sheet], pdf);
    expect(off).toEqual([]);
    expect(names.size).toBeGreaterThanOrEqual(30);
    expect(svg.text).toContain(DATE);
    expect(svg.text).toContain(stamp.state);
    expect(svg.text).not.toMatch(DECIMAL_FEET);
  });

  it("shows every record that stands in the room", () => {
    const { records } = readSvg(writeSvg(sheet));
    const tables = [document.placements, document.openings, document.fixtures, document.coverings];
    for (const table of tables) for (const id of Object.keys(table)) expect(records).toContain(id);
  });
});
