import { describe, expect, it } from "vitest";
import { boxOf } from "../sheet/drafting.ts";
import { PAPERS, sideways } from "../sheet/papers.ts";
import { bound, leafBox, type Leaf } from "../sheet/stamp.ts";
import type { Item, Stroke } from "../sheet/vocabulary.ts";
import { installShow, type InstallShowWish } from "../testing/installed.ts";
import { checkKnown } from "../testing/known-lengths.ts";
import { readSvg } from "../testing/read-svg.ts";
import { writeSvg } from "../write/svg.ts";
import { createInstall } from "./derive.ts";
import { installEvents, installLists } from "./lists.ts";
import { callLeaves, scheduleLeaves, setOutLeaves } from "./sheet.ts";

const WISH: InstallShowWish = {
  walls: [{ wall: 0, strips: 9, fixing: "pasted" }],
  trims: [{ kind: "base", walls: [0, 1, 2, 3] }],
  floors: [{ panels: 12, border: 4 }],
  pieces: [
    {
      name: "Bench",
      at: [
        { x: 1000, y: -3000 },
        { x: 3000, y: -3200 },
      ],
    },
    { name: "Hook", layer: "fitting", mounts: [0, 0, 0] },
  ],
  shifts: [
    { start: "2027-03-13T09:00", end: "2027-03-13T21:00" },
    { start: "2027-03-14T09:00", end: "2027-03-14T21:00" },
  ],
  show: { zone: "America/Chicago", units: "ft-in" },
};

function pagesOf(wish: InstallShowWish) {
  const show = installShow(wish);
  const installing = createInstall()(show.document, show.arrangements, show.making);
  const all = {
    installing,
    arrangements: show.arrangements,
    document: show.document,
    paper: sideways(PAPERS.letter),
  };
  return {
    ...show,
    installing,
    setOut: setOutLeaves(all),
    schedule: scheduleLeaves(all),
    calls: callLeaves(all),
  };
}

const wordsOf = (leaf: Leaf): readonly string[] =>
  leaf.items.flatMap((item) => (item.kind === "lettering" ? [item.text] : []));
const bars = (leaf: Leaf): readonly Stroke[] =>
  leaf.items.filter((item: Item): item is Stroke => item.kind === "stroke" && item.part === "bar");

describe("the pages of the install", () => {
  const pages = pagesOf(WISH);
  const leaves = [...pages.setOut, ...pages.schedule, ...pages.calls];

  it("keep all they draw on the paper, each with an id of its own", () => {
    expect(new Set(leaves.map(({ id }) => id)).size).toBe(leaves.length);
    for (const leaf of leaves) {
      const box = leafBox(leaf.paper);
      for (const item of leaf.items.filter(({ kind }) => kind !== "arc")) {
        const { left, right, top, bottom } = boxOf(item);
        expect(
          left >= box.left - 0.1 &&
            right <= box.right + 0.1 &&
            top >= box.top - 0.1 &&
            bottom <= box.bottom + 1.2,
          `${leaf.id}: ${JSON.stringify(item)}`,
        ).toBe(true);
      }
    }
  });

  it("draw tapes at true scale, read back from the file", () => {
    const [sheet] = bound(pages.setOut.slice(0, 1), {
      show: "Made by hand",
      date: "25 Nov 2026",
      state: "draft",
    });
    const known = checkKnown(sheet!, readSvg(writeSvg(sheet!)).points);
    expect(known.filter(({ name }) => name.startsWith("mark "))).toHaveLength(6);
    for (const { name, off } of known) expect(Math.abs(off), name).toBeLessThan(0.01);
  });

  it("letter every mark with its number, and its tapes in the table", () => {
    const { marks } = pages.installing.setOuts[0]!;
    const numbers = pages.setOut[0]!.items.filter((item) => item.part === "number");
    expect(numbers.flatMap((item) => (item.kind === "lettering" ? [item.text] : []))).toEqual(
      marks.map(({ number }) => `${number}`),
    );
    const table = pages.setOut.slice(1).flatMap(wordsOf);
    for (const { name } of marks) expect(table).toContain(name);
  });

  it("draw a bar as long as its task, at one scale of time", () => {
    const all = pages.schedule.flatMap(bars);
    const spans = pages.installing.tasks.flatMap(
      (task) => pages.installing.times.find((time) => time.task === task.id)?.spans ?? [],
    );
    expect(all).toHaveLength(spans.length);
    const each = all.map((bar, index) => {
      const { left, right } = boxOf(bar);
      return (right - left) / (spans[index]!.to - spans[index]!.from);
    });
    for (const scale of each) expect(scale).toBeCloseTo(each[0]!, 4);
  });

  it("say when it ends on the venue's clock, and how sure that is", () => {
    const words = wordsOf(pages.schedule[0]!).join(" ");
    expect(words).toMatch(/Ends \d\d:\d\d on (?:Saturday 13|Sunday 14) March 2027/);
    expect(words).toMatch(/proven, it cannot end sooner|no plan can end before/);
    expect(words).toContain("America/Chicago time");
    expect(words).toContain("dries 12 h");
  });

  it("call the crew to every shift with what is to be done in it", () => {
    expect(pages.calls.map(({ id }) => id)).toEqual(["call.1", "call.2"]);
    const spans = pages.installing.times.flatMap((time) => time.spans.map((span) => span.shift));
    for (const [index, call] of pages.calls.entries()) {
      const times = wordsOf(call).filter((text) => /^\d\d:\d\d–\d\d:\d\d$/.test(text));
      expect(times).toHaveLength(spans.filter((shift) => shift === `s${index}`).length);
    }
    expect(wordsOf(pages.calls[1]!)).toContain("Call sheet 2 of 2: Sunday 14 March 2027");
  });

  it("list the tasks without times where no hours are said", () => {
    const none = pagesOf({ ...WISH, shifts: [] });
    expect(none.calls).toEqual([]);
    expect(wordsOf(none.schedule[0]!)).toContain("Clean");
    expect(installEvents(none.installing, none.document)).toEqual([]);
  });

  it("say which tasks find no time", () => {
    const late = pagesOf({ ...WISH, shifts: WISH.shifts!.slice(0, 1) });
    expect(late.installing.unplaced.length).toBeGreaterThan(0);
    expect(late.schedule.flatMap(wordsOf).filter((text) => text === "finds no time")).toHaveLength(
      late.installing.unplaced.length,
    );
  });

  it("stay on the paper with sixty shifts and a room full of pieces", () => {
    const many = pagesOf({
      ...WISH,
      shifts: Array.from({ length: 60 }, (_, day) => ({
        start: `2027-${day < 31 ? "05" : "06"}-${String((day % 31) + 1).padStart(2, "0")}T09:00`,
        end: `2027-${day < 31 ? "05" : "06"}-${String((day % 31) + 1).padStart(2, "0")}T09:30`,
      })).slice(0, 60),
      pieces: Array.from({ length: 40 }, (_, index) => ({
        name: `Piece ${index}`,
        at: [{ x: 500 + 120 * index, y: -1000 }],
      })),
    });
    for (const leaf of many.schedule)
      for (const item of leaf.items)
        expect(boxOf(item).right).toBeLessThanOrEqual(leafBox(leaf.paper).right + 0.1);
  });
});

describe("the files of the install", () => {
  const { installing, document } = pagesOf(WISH);

  it("list every task and every mark once", () => {
    const [schedule, setOut] = installLists(installing, document);
    expect(schedule?.rows).toHaveLength(installing.tasks.length);
    expect(setOut?.rows).toHaveLength(installing.setOuts[0]!.marks.length);
    for (const list of [schedule, setOut])
      for (const row of list!.rows) expect(row).toHaveLength(list!.columns.length);
  });

  it("hold an event for every shift and every stretch of work, in UTC", () => {
    const events = installEvents(installing, document);
    const spans = installing.times.flatMap((time) => time.spans);
    expect(events).toHaveLength(2 + spans.length);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    // 9:00 in Chicago is 15:00 UTC on the 13th, and 14:00 UTC after the change of the 14th (IANA).
    expect(events.slice(0, 2).map(({ start }) => start)).toEqual([
      "2027-03-13T15:00:00Z",
      "2027-03-14T14:00:00Z",
    ]);
    for (const { start, end } of events) expect(start < end).toBe(true);
  });
});
