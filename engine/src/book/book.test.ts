/** The book of both cases as data: what is on every page, and that it can be read in black only. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { derive } from "../derive.ts";
import { readShow } from "../document/file.ts";
import { emptyDocument, listed, showOf, type ShowDocument } from "../document/tables.ts";
import { boxOf, type Box } from "../sheet/drafting.ts";
import { PAPERS, sideways } from "../sheet/papers.ts";
import { leafBox } from "../sheet/stamp.ts";
import { INKS, type Ink, type Item, type Lettering, type Sheet } from "../sheet/vocabulary.ts";
import { printMoney } from "../units/money.ts";
import { book, officerSheets, stageSheets } from "./book.ts";

const SHOWS = ["night-ferry", "three-in-the-morning"] as const;
const DATE = "25 Nov 2026";

function show(name: string): ShowDocument {
  const read = readShow(readFileSync(new URL(`../../../cases/${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  return read.document;
}

const cases = SHOWS.flatMap((name) => {
  const document = show(name);
  const derived = derive(document);
  const { name: title, state } = showOf(document);
  const stamp = { show: title, date: DATE, state };
  return (["letter", "a4"] as const).map((paper) => ({
    label: `${name} on ${paper}`,
    document,
    derived,
    options: { stamp, paper },
    paper: sideways(PAPERS[paper]),
    sheets: book(derived, document, { stamp, paper }),
  }));
});

const isLettering = (item: Item): item is Lettering => item.kind === "lettering";
const inFoot = (item: Item): boolean => item.part === "stamp" || item.part?.startsWith("check bar") === true;

/** Everything lettered on the sheets, white space aside: lines break where they must. */
const lettered = (sheets: readonly Sheet[]): string =>
  sheets
    .flatMap(({ items }) => items.filter(isLettering).map(({ text }) => text))
    .join("")
    .replaceAll(/\s/g, "");
const bare = (text: string): string => text.replaceAll(/\s/g, "");

/** Relative luminance (WCAG 2.2), 0 black to 1 white. */
function luminance(ink: Ink): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(INKS[ink].slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Whether a box lies under a good part of a lettering: not just the tip of a piece's front mark. */
function covers(ground: Box, { left, right, top, bottom }: Box): boolean {
  const across = Math.min(ground.right, right) - Math.max(ground.left, left);
  const down = Math.min(ground.bottom, bottom) - Math.max(ground.top, top);
  return across > 0 && down > 0 && across * down > 0.2 * (right - left) * (bottom - top);
}

describe.each(cases)("the book of $label", ({ sheets, paper, document, derived, options }) => {
  it("is no thicker than one room needs: whole, yet under forty pages, under thirty-five on the show's own paper", () => {
    expect(sheets.length).toBeGreaterThan(15);
    expect(sheets.length).toBeLessThan(40);
    const own = book(derived, document, { stamp: options.stamp });
    expect(own.length).toBeLessThan(35);
  });

  it("gives every page an id of its own, and one title to one id", () => {
    expect(new Set(sheets.map(({ id }) => id)).size).toBe(sheets.length);
    for (const { title } of sheets) expect(title).not.toBe("");
  });

  it("has check bars of exactly 2 in and 50 mm on every page", () => {
    for (const { id, known, items } of sheets) {
      for (const [name, length] of [
        ["check bar 2 in", 50.8],
        ["check bar 50 mm", 50],
      ] as const) {
        const bar = known.find((one) => one.name === name);
        expect([id, bar?.real, bar?.scale]).toEqual([id, length, 1]);
        expect((bar?.to.x ?? 0) - (bar?.from.x ?? 0)).toBeCloseTo(length, 9);
        const drawn = items.filter((item) => item.kind === "stroke" && item.part === name);
        expect(Math.max(...drawn.map((item) => boxOf(item).right))).toBeCloseTo(bar?.to.x ?? 0, 9);
      }
    }
  });

  it("keeps all lettering on the page and clear of its foot", () => {
    const box = leafBox(paper, 5);
    const foot = paper.height - 10 - 14;
    for (const sheet of sheets)
      for (const item of sheet.items.filter(isLettering)) {
        const at = boxOf(item);
        const what = `${sheet.id}: ${item.text}`;
        expect(at.left, what).toBeGreaterThanOrEqual(box.left);
        expect(at.right, what).toBeLessThanOrEqual(box.right);
        expect(at.top, what).toBeGreaterThanOrEqual(box.top);
        if (inFoot(item)) expect(at.bottom, what).toBeLessThanOrEqual(paper.height - 5);
        else expect(at.bottom, what).toBeLessThanOrEqual(foot);
      }
  });

  it("letters nothing on a dark ground", () => {
    for (const { id, items } of sheets) {
      const grounds = items.map((item) => {
        const fill = item.kind === "stroke" || item.kind === "circle" ? item.fill : undefined;
        if (fill === undefined || fill.hatch !== undefined) return undefined;
        const light = 1 - (1 - luminance(fill.ink)) * (fill.tint ?? 1);
        return { box: boxOf(item), light };
      });
      items.forEach((item, index) => {
        if (item.kind !== "lettering") return;
        const box = boxOf(item);
        const under = grounds.slice(0, index).findLast((ground) => ground && covers(ground.box, box));
        if (under) expect(under.light, `${id}: ${item.text}`).toBeGreaterThan(0.8);
      });
    }
  });

  it("tells hatches apart by their lines, never by ink alone", () => {
    for (const { id, items } of sheets) {
      const inks = new Map<string, Set<string>>();
      for (const item of items) {
        const fill = item.kind === "stroke" || item.kind === "circle" ? item.fill : undefined;
        if (fill?.hatch === undefined) continue;
        const key = `${((fill.hatch.turn % 180) + 180) % 180}° ${fill.hatch.apart} mm`;
        inks.set(key, (inks.get(key) ?? new Set()).add(fill.ink));
      }
      for (const [hatch, used] of inks) expect([id, hatch, used.size]).toEqual([id, hatch, 1]);
    }
  });

  it("marks a stop by a square, a mind by a ring and a know by a triangle, whatever their ink", () => {
    const plan = sheets.filter(({ id }) => id.startsWith("plan."));
    derived.snags.forEach(({ level }, index) => {
      for (const item of plan.flatMap(({ items }) => items)) {
        if (item.part !== `snag ${index + 1}` || item.kind === "lettering") continue;
        const sides = item.kind === "stroke" && item.closed ? item.points.length : item.kind;
        expect([index, sides]).toEqual([index, { stop: 4, mind: "circle", know: 3 }[level]]);
      }
    });
  });

  it("says in the job in a page what is derived", () => {
    const said = lettered(sheets.filter(({ id }) => id === "job"));
    const { making, installing, models } = derived;
    const strips = making.walls.reduce((sum, wall) => sum + wall.strips.length, 0);
    const lengths = making.cuts.reduce((sum, cutting) => sum + cutting.parts.length, 0);
    for (const text of [
      `${strips} strips, ${lengths} cut lengths`,
      printMoney(making.price, showOf(document).currency),
      `${(making.minutes / 60).toFixed(1)} h of making`,
      `${installing.tasks.length} tasks, ${(installing.minutes / 60).toFixed(1)} h of work`,
      ...models.map((model) => `${model.walls.length + 1} cards at 1:${model.scale}`),
      ...installing.shifts.map(({ shift }) => shift.start.slice(11)),
    ])
      expect(said).toContain(bare(text));
    for (const snag of derived.snags.filter(({ level }) => level === "stop").slice(0, 8))
      expect(said).toContain(bare(snag.sentence));
    // What the venue's own clock says ends the job: read off the last task's end, by other means.
    const [first] = installing.shifts;
    const zone = showOf(document).zone;
    const end = new Date(Date.parse(first?.startsAt ?? "") + installing.end * 60_000);
    const clock = new Intl.DateTimeFormat("en-GB", { timeZone: zone, hour: "2-digit", minute: "2-digit" });
    expect(said).toContain(bare(`Done at ${clock.format(end)}`));
  });

  it("lists open questions before what is answered", () => {
    const questions = listed(document.questions);
    const said = lettered(sheets.filter(({ id }) => id.startsWith("questions")));
    const places = (answered: boolean): readonly number[] =>
      questions
        .filter(({ answer }) => (answer !== "") === answered)
        .map(({ text }) => said.indexOf(bare(text)));
    expect([...places(false), ...places(true)].every((at) => at >= 0)).toBe(true);
    expect(Math.max(...places(false))).toBeLessThan(Math.min(...places(true)));
    for (const { answer } of questions) expect(said).toContain(bare(answer));
  });

  it("gives the fire officer one page a room, with ways out, covered share and materials", () => {
    const alone = officerSheets(derived, document, options);
    expect(alone).toHaveLength(derived.arrangements.length);
    expect(alone.map(({ id }) => id)).toEqual(
      derived.arrangements.map(({ room }) => `officer.${room.room.id}`),
    );
    const said = lettered(alone);
    for (const { name, kind } of listed(document.openings))
      if (kind === "door") expect(said).toContain(bare(name));
    for (const share of derived.making.shares)
      expect(said).toContain(bare(`${share.name}: ${Math.round(share.share * 100)} % covered`));
    for (const { stock } of derived.making.walls) expect(said).toContain(bare(stock.name));
    for (const head of ["The room", "Ways out", "Walls covered", "Materials", "To decide"])
      expect(said).toContain(bare(head));
    expect(said).not.toContain("inthebook");
    // The very page of the book, but for its number.
    const inBook = sheets.filter(({ id }) => id.startsWith("officer."));
    expect(inBook.map(({ known }) => known)).toEqual(alone.map(({ known }) => known));
  });

  it("shows every stage's pages for a room as it prints them", () => {
    for (const { room } of derived.arrangements)
      for (const stage of ["make", "model", "install"] as const) {
        const pages = stageSheets(stage, derived, { document, room: room.room.id, options });
        expect(pages.length).toBeGreaterThan(1);
        for (const page of pages) expect(sheets.map(({ id }) => id)).toContain(page.id);
      }
    expect(stageSheets("make", derived, { document, room: "no such room", options })).toEqual([]);
  });
});

describe("the book of an empty show", () => {
  it("still has a cover, its lists and the cautions, and promises nothing", () => {
    const document = emptyDocument();
    const sheets = book(derive(document), document, { stamp: { show: "", date: DATE, state: "draft" } });
    const said = lettered(sheets);
    for (const text of ["Nothing has to be bought.", "Nothing is open.", "Cautions", "There are none."])
      expect(said).toContain(bare(text));
    expect(officerSheets(derive(document), document, { stamp: { show: "", date: DATE, state: "" } })).toEqual(
      [],
    );
  });
});
