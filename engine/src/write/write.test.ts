import { bookOf } from "../testing/book-of.ts";
import { describe, expect, it } from "vitest";
import { book } from "../book/book.ts";
import { planAndCutOuts } from "../arrange/cutouts.ts";
import { roomSheet } from "../arrange/sheet.ts";
import { TRUE_PRINTER, type Sheet } from "../sheet/vocabulary.ts";
import { FIVE_CORNERS, handMadeShow, WAITING_ROOM } from "../testing/hand-made.ts";
import { checkKnown } from "../testing/known-lengths.ts";
import { readPdf } from "../testing/read-pdf.ts";
import { readSvg } from "../testing/read-svg.ts";
import { sheetFonts } from "../testing/sheet-fonts.ts";
import { writePdf } from "./pdf.ts";
import { writeSvg } from "./svg.ts";

const stamp = { show: "Hand-made <show> & 1′ 6⅜″", date: "25 Nov 2026", state: "draft" };
const options = { fonts: sheetFonts(), title: "Hand-made show", created: "2026-11-25" };

function sheetsOf(wanted: typeof WAITING_ROOM, paper: "letter" | "a4"): readonly Sheet[] {
  const { document, arrangement } = handMadeShow(wanted);
  const cuts = planAndCutOuts(arrangement, document, { paper, stamp, correction: TRUE_PRINTER });
  return [cuts.sheet, ...book(bookOf([arrangement], document), document, { stamp })];
}

describe("a written PDF, read back by pdf.js", () => {
  for (const [name, wanted, paper, least] of [
    ["four corners in feet on Letter", WAITING_ROOM, "letter", 60],
    ["five corners in mm on A4", FIVE_CORNERS, "a4", 45],
  ] as const)
    it(`has every known length of ${name} within 0.1 mm and exact pages`, async () => {
      const sheets = sheetsOf(wanted, paper);
      const pages = await readPdf(await writePdf(sheets, options));
      expect(pages).toHaveLength(sheets.length);
      const checked = sheets.flatMap((sheet, index) => checkKnown(sheet, pages[index]?.points ?? []));
      expect(checked.filter(({ off }) => Math.abs(off) > 0.1)).toEqual([]);
      expect(checked.length).toBeGreaterThanOrEqual(least);
      sheets.forEach((sheet, index) => {
        expect(pages[index]?.width).toBeCloseTo(sheet.width, 3);
        expect(pages[index]?.height).toBeCloseTo(sheet.height, 3);
      });
    });

  it("has check bars of 50.8 and 50.0 mm on every page, also those of text", async () => {
    const sheets = sheetsOf(WAITING_ROOM, "letter");
    const pages = await readPdf(await writePdf(sheets, options));
    sheets.forEach((sheet, index) => {
      const bars = sheet.known.filter(({ name }) => name.startsWith("check bar"));
      expect(bars.map(({ real }) => real)).toEqual(expect.arrayContaining([50.8, 50]));
      const off = checkKnown({ ...sheet, known: bars }, pages[index]?.points ?? []);
      expect(off.every((bar) => Math.abs(bar.off) < 0.01)).toBe(true);
    });
  });

  it("keeps primes, eighths and fractions in its text, and the stamp on every page", async () => {
    const sheets = sheetsOf(FIVE_CORNERS, "a4");
    const pages = await readPdf(await writePdf(sheets, options));
    expect(pages[0]?.text).toContain("1′ 6⅜″");
    pages.forEach(({ text }, index) => {
      for (const wanted of ["<show> & 1′ 6⅜″", "25 Nov 2026", "State: draft", "2 in", "50 mm"])
        expect(text).toContain(wanted);
      if (index > 0) expect(text).toContain(`page ${index} of ${pages.length - 1}`);
    });
    const [inches] = await readPdf(await writePdf(sheetsOf(WAITING_ROOM, "letter"), options));
    expect(inches?.text).toContain(`24' 0 13/16"`);
  });

  it("is the same bytes for the same sheets", async () => {
    const once = await writePdf(sheetsOf(WAITING_ROOM, "letter"), options);
    const twice = await writePdf(sheetsOf(WAITING_ROOM, "letter"), options);
    expect(Buffer.compare(once, twice)).toBe(0);
  });

  it("prints a visible sign for characters no face holds", async () => {
    const { document, arrangement } = handMadeShow(WAITING_ROOM);
    const named = { ...stamp, show: "夜の船 🛳 ship" };
    const pages = await readPdf(
      await writePdf(book(bookOf([arrangement], document), document, { stamp: named }), options),
    );
    expect(pages[1]?.text).toContain("\uFFFD\uFFFD\uFFFD \uFFFD ship");
  });

  it("makes a corrected sheet true on the printer it was corrected for", async () => {
    const { document, arrangement } = handMadeShow(WAITING_ROOM);
    const printer = { across: 0.965, down: 1.02 };
    const correction = { across: 1 / printer.across, down: 1 / printer.down };
    const { sheet } = planAndCutOuts(arrangement, document, { paper: "letter", stamp, correction });
    const [page] = await readPdf(await writePdf([sheet], options));
    const checked = checkKnown(sheet, page?.points ?? [], printer);
    expect(checked.length).toBeGreaterThan(30);
    expect(checked.filter(({ off }) => Math.abs(off) > 0.1)).toEqual([]);
    const uncorrected = checkKnown(sheet, page?.points ?? []);
    expect(uncorrected.some(({ off }) => Math.abs(off) > 0.5)).toBe(true);
  });

  it("refuses no sheets and no date", async () => {
    await expect(writePdf([], options)).rejects.toThrow("no sheets");
    await expect(
      writePdf(sheetsOf(FIVE_CORNERS, "a4"), { ...options, created: "yesterday" }),
    ).rejects.toThrow("yesterday");
  });
});

describe("a written SVG, read back by svgson", () => {
  it("has the sheet's size in mm, every known length, and every record", () => {
    const { document, arrangement } = handMadeShow(WAITING_ROOM);
    const sheet = roomSheet(arrangement, document);
    const read = readSvg(writeSvg(sheet));
    expect(read.width).toBe(`${Math.round(sheet.width * 1000) / 1000}mm`);
    expect(read.viewBox.split(" ").map(Number)[3]).toBeCloseTo(sheet.height, 3);
    expect(checkKnown(sheet, read.points).filter(({ off }) => Math.abs(off) > 0.1)).toEqual([]);
    expect(sheet.known.length).toBeGreaterThanOrEqual(30);
    const records = [...arrangement.room.corners, ...arrangement.room.walls].map(({ id }) => id);
    for (const id of [...records, ...arrangement.standing.map(({ placement }) => placement.id)])
      expect(read.records).toContain(id);
  });

  it("lets no name become markup and stays well-formed", () => {
    const { document, arrangement } = handMadeShow({
      ...WAITING_ROOM,
      pieces: [{ name: `</text><script>"&'\u0000`, size: [900, 900, 900], at: [[2000, -2000, 0]] }],
    });
    const read = readSvg(writeSvg(roomSheet(arrangement, document)));
    expect(read.text).toContain("&lt;/text&gt;&lt;script&gt;");
  });
});
