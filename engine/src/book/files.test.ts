/** What goes beside the book: lists that hold together, drawings whose factor is right. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { derive } from "../derive.ts";
import { readShow } from "../document/file.ts";
import { emptyDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { otherFiles } from "./files.ts";

const stamp = { show: "S", date: "25 Nov 2026", state: "draft" };

const SHOWS = ["night-ferry", "three-in-the-morning"].map((name) => {
  const read = readShow(readFileSync(new URL(`../../../cases/${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  const derived = derive(read.document);
  return { name, document: read.document, derived, files: otherFiles(derived, read.document, { stamp }) };
});

function pointsOf(items: readonly Item[]): readonly Point[] {
  return items.flatMap((item) => (item.kind === "stroke" ? item.points : []));
}

function nearest(points: readonly Point[], to: Point): Point {
  const apart = ({ x, y }: Point): number => Math.hypot(x - to.x, y - to.y);
  return points.reduce((best, point) => (apart(point) < apart(best) ? point : best));
}

describe.each(SHOWS)("the other files of $name", ({ files, derived }) => {
  it("have names of their own that any system takes", () => {
    const names = [
      ...files.drawings.map(({ name }) => `${name}.dxf`),
      ...files.lists.map(({ name }) => `${name}.csv`),
    ];
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[\p{L}\p{N}][\p{L}\p{N}-]*\.(?:dxf|csv)$/u);
  });

  it("have as many cells in every row as columns, and no column twice", () => {
    expect(files.lists.length).toBeGreaterThan(8);
    for (const { name, columns, rows } of files.lists) {
      expect([name, new Set(columns).size]).toEqual([name, columns.length]);
      for (const row of rows) expect([name, row.length]).toEqual([name, columns.length]);
      for (const row of rows)
        for (const cell of row) if (typeof cell === "number") expect(Number.isFinite(cell)).toBe(true);
    }
  });

  it("hold every derived strip, length, panel, run, buying line, task, mark, corner and snag once", () => {
    const { making, installing, snags, rooms } = derived;
    const wanted: { readonly [list: string]: number } = {
      strips: making.walls.flatMap((work) => work.strips).length,
      "cut-list": making.cuts.flatMap((cutting) => cutting.parts).length,
      "floor-parts": making.floors.flatMap((work) => [...work.panels, ...work.border]).length,
      trims: making.trims.flatMap((work) => work.runs).length,
      "buying-list": making.buying.length,
      hours: making.hours.length,
      corners: rooms.flatMap((room) => room.corners).length,
      snags: snags.length,
    };
    const rows = Object.fromEntries(files.lists.map((list) => [list.name, list.rows.length]));
    expect(rows).toMatchObject(wanted);
    expect(files.lists.some((list) => list.rows.length === installing.tasks.length)).toBe(true);
    const marks = installing.setOuts.flatMap((setOut) => setOut.marks).length;
    expect(files.lists.some((list) => list.rows.length === marks)).toBe(true);
  });

  it("draw plans, elevations and the unfolded room as large as they are built, cards as they are cut", () => {
    const kinds = files.drawings.map(({ sheet }) => sheet.id.split(".")[0]);
    expect(new Set(kinds)).toEqual(new Set(["plan", "elevations", "unfolded", "card"]));
    for (const { name, sheet, factor } of files.drawings) {
      const card = sheet.id.startsWith("card.");
      expect([name, factor]).toEqual([name, card ? 1 : sheet.scale]);
      const points = pointsOf(sheet.items);
      const known = sheet.known.filter((one) => !one.name.startsWith("check bar"));
      expect([name, known.length > 0]).toEqual([name, true]);
      for (const one of known) {
        const [from, to] = [nearest(points, one.from), nearest(points, one.to)];
        const drawn = Math.hypot(to.x - from.x, to.y - from.y) * factor;
        // A card is cut from the sheet itself: what stands for a real length is as long as in the model.
        const wanted = card ? one.real / (one.scale ?? sheet.scale ?? 1) : one.real;
        expect(Math.abs(drawn - wanted), `${name}: ${one.name}`).toBeLessThan(0.1);
      }
    }
  });

  it("keep the hours inside the shifts, each event under an id of its own", () => {
    const { shifts } = derived.installing;
    const ids = files.events.map((event) => event.uid);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThan(shifts.length);
    for (const { start, end, summary } of files.events) {
      const within = shifts.some(
        ({ startsAt, endsAt }) =>
          Date.parse(start) >= Date.parse(startsAt) && Date.parse(end) <= Date.parse(endsAt),
      );
      // Opening day stands outside the hours of the work.
      if (!within) expect(summary.toLowerCase()).toContain("open");
      expect(Date.parse(end)).toBeGreaterThan(Date.parse(start));
    }
  });
});

describe("the other files of an empty show", () => {
  it("are lists without rows and nothing drawn", () => {
    const document = emptyDocument();
    const { drawings, lists, events } = otherFiles(derive(document), document, { stamp });
    expect([drawings.length, events.length]).toEqual([0, 0]);
    expect(lists.length).toBeGreaterThan(8);
    for (const { name, rows } of lists) expect([name, rows.length]).toEqual([name, 0]);
  });
});
