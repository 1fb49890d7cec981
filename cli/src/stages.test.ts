/** The verbs of the later stages and the other files, run as a person runs them, held to their documentation. */
import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse as parseCsv } from "csv-parse/sync";
import DxfReader from "dxf-parser";
import ICAL from "ical.js";
import { parseSync as parseSvg } from "svgson";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cornerwise, ROOT, type Ran } from "./testing/run.ts";

const FERRY = "cases/night-ferry.tape.txt";
const STALL = "cases/three-in-the-morning.tape.txt";
const CASES = [FERRY, STALL];
const VERBS = ["make", "model", "install"] as const;
const DECIMAL_FEET = /\d\.\d+ ?(?:ft|feet|'|\u2032)/;
/** A room with a crate in it: no shifts, no stocks, nothing to hang. */
const PLAIN = `show Plain
room Box
corners A B C D
A-B 4 m
B-C 3 m
C-D 4 m
D-A 3 m
A-C 5 m
B-D 5 m
height A 2.5 m
height B 2.5 m
height C 2.5 m
height D 2.5 m
piece Crate, 1 m x 1 m x 1 m
place Crate 1 at 2 m along, 1.5 m in
`;
const NO_ROOM = "show Nowhere yet\npiece Crate x2, 1 m x 1 m x 1 m\n";

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type Table = { readonly [key: string]: Json };

const json = (ran: Ran): Table => JSON.parse(ran.out) as Table;
const rows = (value: Json | undefined): readonly Table[] => (value ?? []) as readonly Table[];

const said = (value: Json | undefined): string => (typeof value === "string" ? value : "");

/** Every name in an answer, however deep. */
function namesIn(value: Json): readonly string[] {
  if (Array.isArray(value)) return value.flatMap((one: Json) => namesIn(one));
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([name, below]) => [name, ...namesIn(below)]);
}

const GUIDE = readFileSync(join(ROOT, "docs/guide/command-line.md"), "utf8");

/** Every name that the guide lists for a verb: its block, with what is explained in brackets left out. */
function documented(verb: string): readonly string[] {
  const block = new RegExp(`### ${verb}\\n\\n\`\`\`\\n([\\s\\S]*?)\\n\`\`\``).exec(GUIDE)?.[1] ?? "";
  const told = block
    .replaceAll(/\((?:[^()]|\([^()]*\))*\)/g, "")
    .replaceAll("what was written", "")
    .replaceAll(/\] of \{/g, "]{");
  return [...new Set(told.match(/[a-z]\w*/g))];
}

let folder = "";
const ran = new Map<string, Ran>();
async function run(key: string, words: readonly string[], input?: string): Promise<void> {
  ran.set(key, await cornerwise(words, input === undefined ? {} : { input }));
}
const answered = (key: string): Ran => {
  const found = ran.get(key);
  if (!found) throw new Error(`${key} was not run`);
  return found;
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "cornerwise-"));
  const date = ["--date", "2026-03-03"];
  const book = (name: string): readonly string[] => [
    "-o",
    join(folder, `${name}.pdf`),
    "--files",
    join(folder, name),
    ...date,
  ];
  const jobs: (() => Promise<void>)[] = [
    ...CASES.flatMap((file) => VERBS.map((verb) => () => run(`${verb} ${file}`, [verb, file, "--json"]))),
    ...VERBS.map((verb) => () => run(`${verb} words`, [verb, FERRY])),
    () => run("book ferry", ["book", FERRY, "--json", ...book("ferry")]),
    () => run("book again", ["book", FERRY, "--json", ...book("again")]),
    () => run("book stall", ["book", STALL, ...book("stall")]),
    () => run("book plain", ["book", "-", ...book("plain")], PLAIN),
    () => run("book nowhere", ["book", "-", ...book("nowhere")], NO_ROOM),
    () => run("officer", ["book", FERRY, "--fire-officer", "--json", "-o", join(folder, "officer.svg")]),
    () => run("both", ["book", FERRY, "--fire-officer", "--one-page", "-o", join(folder, "both.pdf")]),
  ];
  // Two at a time: each is a process of its own.
  const queue = jobs.values();
  const work = async (): Promise<void> => {
    for (const job of queue) await job();
  };
  await Promise.all([work(), work()]);
}, 300_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const inFolder = (name: string, ending: string): readonly string[] =>
  readdirSync(join(folder, name)).filter((file) => file.endsWith(ending));
const text = (name: string, file: string): string => readFileSync(join(folder, name, file), "utf8");

describe.each(VERBS)("%s", (verb) => {
  it("answers in JSON with the names the guide lists, no more and no fewer", () => {
    const printed = new Set(
      CASES.flatMap((file) => {
        const { show, snags, problems, ...own } = json(answered(`${verb} ${file}`));
        expect(show).toBeTypeOf("string");
        expect(problems).toEqual([]);
        expect(Array.isArray(snags)).toBe(true);
        return namesIn(own);
      }),
    );
    expect([...printed].toSorted()).toEqual(documented(verb).toSorted());
  });

  it("ends with 1 where it tells a stop, else with 0, and says nothing on standard error", () => {
    for (const file of CASES) {
      const one = answered(`${verb} ${file}`);
      const stops = rows(json(one)["snags"]).some((snag) => snag["level"] === "stop");
      expect([file, one.code, one.err]).toEqual([file, stops ? 1 : 0, ""]);
    }
  });

  it("answers in plain words, never in decimal feet", () => {
    const { out } = answered(`${verb} words`);
    expect(out.split("\n").length).toBeGreaterThan(6);
    expect(out).not.toMatch(DECIMAL_FEET);
    expect(out).not.toMatch(/undefined|NaN|\[object/);
  });
});

describe("what make answers", () => {
  it("cuts every length from exactly one stick, and no stick is longer than its stock", () => {
    for (const file of CASES)
      for (const { parts, sticks, unplaced } of rows(json(answered(`make ${file}`))["lengths"])) {
        const ids = rows(parts).map(({ id }) => said(id));
        const cut = rows(sticks).flatMap((stick) => stick["parts"] as readonly string[]);
        expect([...cut, ...(unplaced as readonly string[])].toSorted()).toEqual(ids.toSorted());
        for (const { left_mm } of rows(sticks)) expect(left_mm).toBeGreaterThanOrEqual(0);
      }
  });

  it("adds up: what is bought costs what is said, and hours are count times each", () => {
    for (const file of CASES) {
      const { buying, price_minor, hours, making_min } = json(answered(`make ${file}`));
      const sum = (of: Json | undefined, name: string): number =>
        rows(of).reduce((all, row) => all + Number(row[name]), 0);
      expect(sum(buying, "price_minor")).toBe(price_minor);
      expect(sum(hours, "all_min")).toBeCloseTo(Number(making_min), 3);
      for (const { count, each_min, all_min } of rows(hours))
        expect(Number(count) * Number(each_min)).toBeCloseTo(Number(all_min), 3);
    }
  });
});

describe("what install answers", () => {
  it("does every task inside shifts, once all it waits for is done and dry", () => {
    for (const file of CASES) {
      const { tasks, times, shifts, unplaced, end_min, bound_min } = json(answered(`install ${file}`));
      const done = new Map(rows(times).map((time) => [time["task"], time]));
      expect(done.size + (unplaced as readonly string[]).length).toBe(rows(tasks).length);
      for (const { id, after } of rows(tasks))
        for (const { task, lag_min } of rows(after)) {
          const [start, end] = [done.get(id)?.["start_min"], done.get(task)?.["end_min"]];
          if (start !== undefined && end !== undefined)
            expect(Number(start)).toBeGreaterThanOrEqual(Number(end) + Number(lag_min) - 0.001);
        }
      const open = new Map(rows(shifts).map((shift) => [shift["id"], shift]));
      for (const { from_min, to_min, shift } of rows(times).flatMap((time) => rows(time["spans"]))) {
        expect(Number(from_min)).toBeGreaterThanOrEqual(Number(open.get(shift)?.["from_min"]));
        expect(Number(to_min)).toBeLessThanOrEqual(Number(open.get(shift)?.["to_min"]));
      }
      expect(Number(end_min)).toBeGreaterThanOrEqual(Number(bound_min) - 0.001);
    }
  });
});

describe("book with --files", () => {
  it("prints the sheets and files the guide lists, and every file named is there", () => {
    const answer = json(answered("book ferry"));
    const { snags, problems, files, ...own } = answer;
    expect(Array.isArray(snags)).toBe(true);
    expect(problems).toEqual([]);
    expect([...new Set(["files", ...namesIn(own)])].toSorted()).toEqual(documented("book").toSorted());
    const there = readdirSync(join(folder, "ferry")).map((file) => join(folder, "ferry", file));
    expect((files as readonly string[]).toSorted()).toEqual([join(folder, "ferry.pdf"), ...there].toSorted());
  });

  it("gives the same bytes for the same date, every file", () => {
    const names = readdirSync(join(folder, "ferry"));
    expect(readdirSync(join(folder, "again"))).toEqual(names);
    for (const name of ["../ferry.pdf", ...names]) {
      const again = name === "../ferry.pdf" ? "../again.pdf" : name;
      const same = readFileSync(join(folder, "ferry", name)).equals(
        readFileSync(join(folder, "again", again)),
      );
      expect([name, same]).toEqual([name, true]);
    }
  });

  it.each(["ferry", "stall"])("writes drawings of %s in mm that a DXF reader reads", (name) => {
    const drawings = inFolder(name, ".dxf");
    expect(drawings.length).toBeGreaterThan(3);
    for (const file of drawings) {
      const read = new DxfReader().parseSync(text(name, file));
      expect(read?.header["$INSUNITS"], file).toBe(4);
      expect(read?.entities.length, file).toBeGreaterThan(10);
      const layers = new Set(read?.entities.map(({ layer }) => layer));
      expect(file.startsWith("card") ? layers.has("CUT") : layers.has("DRAW"), file).toBe(true);
    }
  });

  it.each(["ferry", "stall"])("writes drawings of %s as SVG, one unit a millimetre", (name) => {
    const drawings = inFolder(name, ".svg");
    expect(drawings.map((file) => file.replace(".svg", ".dxf"))).toEqual(inFolder(name, ".dxf"));
    for (const file of drawings) {
      const { attributes, children } = parseSvg(text(name, file));
      const [, , width, height] = (attributes["viewBox"] ?? "").split(" ");
      expect([attributes["width"], attributes["height"]]).toEqual([`${width}mm`, `${height}mm`]);
      expect(children.length, file).toBeGreaterThan(10);
    }
  });

  it.each(["ferry", "stall"])("writes lists of %s that a CSV reader reads, none ragged", (name) => {
    const lists = inFolder(name, ".csv");
    expect(lists).toEqual(
      expect.arrayContaining(["buying-list.csv", "cut-list.csv", "snags.csv", "strips.csv", "corners.csv"]),
    );
    for (const file of lists) {
      // A ragged row is an error of the reader.
      const table = parseCsv(text(name, file), { bom: true });
      expect(table.length, file).toBeGreaterThan(1);
      for (const cell of table.flat()) expect(cell, file).not.toMatch(/undefined|NaN|\[object/);
    }
    const made = json(answered(`make ${name === "ferry" ? FERRY : STALL}`));
    const cuts = parseCsv<Record<string, string>>(text(name, "cut-list.csv"), { bom: true, columns: true });
    const parts = rows(made["lengths"]).flatMap((cutting) => rows(cutting["parts"]));
    expect(cuts.map(({ id }) => id)).toEqual(parts.map(({ id }) => id));
    cuts.forEach((cut, at) =>
      expect(Number(cut["length (mm)"])).toBeCloseTo(Number(parts[at]?.["length_mm"]), 1),
    );
  });

  it.each(["ferry", "stall"])(
    "writes the hours of %s so that a calendar reads the tasks at their times",
    (name) => {
      const calendar = new ICAL.Component(ICAL.parse(text(name, "hours.ics")) as unknown[]);
      const events = calendar.getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
      const { tasks, times, shifts } = json(answered(`install ${name === "ferry" ? FERRY : STALL}`));
      const first = Date.parse(said(rows(shifts)[0]?.["starts_at"]));
      const names = new Map(rows(tasks).map((task) => [task["id"], said(task["name"])]));
      for (const { task, start_min } of rows(times)) {
        const at = first + Number(start_min) * 60_000;
        const found = events.some(
          ({ summary, startDate }) =>
            summary.includes(names.get(task) ?? "?") &&
            Math.abs(startDate.toJSDate().getTime() - at) < 60_000,
        );
        expect([task, found]).toEqual([task, true]);
      }
    },
  );

  it("works for a room without shifts or stocks, and for a show without a room", () => {
    expect([answered("book plain").code, answered("book plain").err]).toEqual([0, ""]);
    for (const name of ["plain", "nowhere"]) {
      expect(
        readFileSync(join(folder, `${name}.pdf`))
          .subarray(0, 5)
          .toString(),
      ).toBe("%PDF-");
      expect(inFolder(name, ".csv").length).toBeGreaterThan(5);
      // A calendar without an event is none (RFC 5545, 3.6).
      expect(inFolder(name, ".ics")).toEqual([]);
    }
    expect(answered("book nowhere").code).toBeLessThan(2);
    expect(inFolder("plain", ".dxf").length).toBeGreaterThan(1);
    expect(inFolder("nowhere", ".dxf")).toEqual([]);
  });
});

describe("book for the fire officer", () => {
  it("is one page for each room", () => {
    const sheets = rows(json(answered("officer"))["sheets"]);
    expect(sheets).toHaveLength(1);
    expect(sheets[0]?.["title"]).toMatch(/fire officer/);
    expect(readFileSync(join(folder, "officer.svg"), "utf8")).toMatch(/Ways out/);
  });

  it("and the one page are two different wishes", () => {
    const { code, err } = answered("both");
    expect(code).toBe(2);
    expect(err).toContain("--one-page");
    expect(readdirSync(folder)).not.toContain("both.pdf");
  });
});
