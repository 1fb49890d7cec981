/** The whole book of both cases, written as PDF and read back: true to scale, and nothing derived is left off its pages. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { book } from "../engine/src/book/book.ts";
import { createDerive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { listed, showOf } from "../engine/src/document/tables.ts";
import { checkKnown } from "../engine/src/testing/known-lengths.ts";
import { readPdf, type ReadPage } from "../engine/src/testing/read-pdf.ts";
import { sheetFonts } from "../engine/src/testing/sheet-fonts.ts";
import { writePdf } from "../engine/src/write/pdf.ts";

/** mm of paper. */
const TRUE_TO = 0.1;
/** mm of paper: a strip that is no wider is not numbered on drawings. */
const NARROWEST = 2;
const DATE = "25 Nov 2026";
const DECIMAL_FEET = /\d+\.\d+ ?(?:ft|'|\u2032|feet|foot)/i;
/** mm: ASME Y14.1 size A; ISO 216. */
const SIZES = { "night-ferry": [215.9, 279.4], "three-in-the-morning": [210, 297] } as const;

/** Without white space: a line breaks where it must. */
const bare = (text: string): string => text.replaceAll(/\s/g, "");

describe.each(["night-ferry", "three-in-the-morning"] as const)("the printed book of %s", (name) => {
  const read = readShow(readFileSync(new URL(`${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  const { document } = read;
  const derived = createDerive()(document);
  const show = showOf(document);
  const sheets = book(derived, document, { stamp: { show: show.name, date: DATE, state: show.state } });

  let pages: readonly ReadPage[] = [];
  let all = "";
  beforeAll(async () => {
    pages = await readPdf(
      await writePdf(sheets, { fonts: sheetFonts(), title: show.name, created: "2026-11-25" }),
    );
    all = bare(pages.map(({ text }) => text).join(""));
  }, 60_000);

  /** The text of the pages whose ids begin so. */
  const on = (...begins: readonly string[]): string =>
    bare(
      sheets
        .map(({ id }, index) =>
          begins.some((begin) => id.startsWith(begin)) ? (pages[index]?.text ?? "") : "",
        )
        .join(""),
    );

  it("is one page a sheet, of the standard's size, dated, in its state, without decimal feet", () => {
    expect(pages).toHaveLength(sheets.length);
    for (const [index, page] of pages.entries()) {
      const sides = [page.width, page.height].toSorted((a, b) => a - b);
      expect(sides[0]).toBeCloseTo(SIZES[name][0], 2);
      expect(sides[1]).toBeCloseTo(SIZES[name][1], 2);
      for (const text of [DATE, `State: ${show.state}`, `page ${index + 1} of ${sheets.length}`])
        expect(page.text).toContain(text);
      expect(page.text).not.toMatch(DECIMAL_FEET);
      expect(page.text).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it("prints every named length true to 0.1 mm, bars and drawings", () => {
    const checked = sheets.flatMap((sheet, index) => checkKnown(sheet, pages[index]?.points ?? []));
    expect(checked.filter(({ off }) => !(Math.abs(off) <= TRUE_TO))).toEqual([]);
    expect(checked.length).toBeGreaterThan(2 * sheets.length + 20);
  });

  it("has every strip's number on its elevation, in the unfolded room and in the list", () => {
    for (const kind of ["elevations.", "unfolded."]) {
      const drawings = sheets.filter(({ id }) => id.startsWith(kind));
      const scale = Math.max(...drawings.map((sheet) => sheet.scale ?? 1));
      const numbers = new Set(
        drawings
          .flatMap(({ items }) => items)
          .flatMap((item) => (item.kind === "lettering" ? [`${item.part} ${item.text}`] : [])),
      );
      for (const { id, number, left, right } of derived.making.walls.flatMap(({ strips }) => strips)) {
        // A sliver has no room for its number on paper; the list has it.
        if ((right - left) / scale < NARROWEST) continue;
        expect([kind, id, numbers.has(`${id} ${number}`)]).toEqual([kind, id, true]);
      }
    }
    const list = on("make.strips");
    for (const { name: wall, strips } of derived.making.walls)
      for (const strip of strips) expect(list).toContain(`${wall}${strip.number}`);
  });

  it("has every cut part, run, panel, buying line and hour on a page of the making", () => {
    const { making } = derived;
    const cuts = on("make.sticks", "make.cuts");
    for (const { name: stock, parts } of making.cuts) {
      expect(cuts).toContain(bare(stock));
      for (const part of parts) expect(cuts).toContain(bare(part.name));
    }
    const lists = on("make.strips", "make.trim");
    for (const run of making.trims.flatMap(({ runs }) => runs)) expect(lists).toContain(bare(run.name));
    const boards = on("make.sheets");
    for (const { parts } of making.sheets)
      for (const part of parts) expect(boards).toContain(bare(part.name));
    const buying = on("make.buying", "make.hours");
    for (const line of making.buying) {
      expect(buying).toContain(bare(line.stock.name));
      expect(buying).toContain(bare(line.why));
    }
    for (const line of making.hours) expect(buying).toContain(bare(line.name));
  });

  it("has every task in the schedule and on a call sheet, every mark in the list and on the plan", () => {
    const { tasks, times, setOuts } = derived.installing;
    const [schedule, calls, marks] = [on("schedule"), on("call."), on("tapes.")];
    const timed = new Set(times.map(({ task }) => task));
    for (const task of tasks) {
      expect(schedule).toContain(bare(task.name));
      if (timed.has(task.id)) expect(calls).toContain(bare(task.name));
    }
    for (const mark of setOuts.flatMap((setOut) => setOut.marks)) expect(marks).toContain(bare(mark.name));
    const drawn = sheets.filter(({ id }) => id.startsWith("set-out.")).flatMap(({ items }) => items);
    const lettered = new Set(drawn.flatMap((item) => (item.kind === "lettering" ? [item.text] : [])));
    for (const mark of setOuts.flatMap((setOut) => setOut.marks))
      expect([mark.name, lettered.has(`${mark.number}`)]).toEqual([mark.name, true]);
  });

  it("has every card, reading, corner, question and snag", () => {
    const cards = on("card.");
    for (const model of derived.models)
      for (const part of [model.floor, ...model.walls]) expect(cards).toContain(bare(part.name));
    for (const room of derived.rooms) {
      for (const { text } of room.readings) expect(all).toContain(bare(text));
      for (const corner of room.corners) expect(on("readings.", "corners.")).toContain(corner.name);
    }
    const asked = on("questions");
    for (const { text, answer } of listed(document.questions)) {
      expect(asked).toContain(bare(text));
      expect(asked).toContain(bare(answer));
    }
    const snags = on("snags");
    for (const { sentence, mend } of derived.snags) {
      expect(snags).toContain(bare(sentence));
      if (mend !== undefined) expect(snags).toContain(bare(mend));
    }
  });
});
