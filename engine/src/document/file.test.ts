import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { jsonSchema, readShow, writeShow } from "./file.ts";
import type { Problem } from "./problem.ts";
import { printProblem } from "./problem.ts";
import { DOCUMENT_VERSION, TABLES } from "./schema.ts";
import { AUDIENCE, emptyDocument, TABLE_NAMES } from "./tables.ts";
import { decodeUtf8 } from "./text.ts";

const cases = new URL("../../../cases/", import.meta.url);
const file = (name: string): string => readFileSync(new URL(name, cases), "utf8");

function problemsOf(text: string): readonly Problem[] {
  const read = readShow(text);
  return read.ok ? [] : read.problems;
}

const named = (name: string): string =>
  JSON.stringify({ cornerwise: 1, tables: { rooms: { r: { id: "r", name, order: 0, turn: "clockwise" } } } });

describe("the show file", () => {
  it("has a kept file of every version, and all of them read", () => {
    const kept = readdirSync(new URL("versions/", cases));
    for (let version = 1; version <= DOCUMENT_VERSION; version++) {
      expect(kept).toContain(`${version}.json`);
      expect(problemsOf(file(`versions/${version}.json`))).toEqual([]);
    }
  });

  const newest = `versions/${DOCUMENT_VERSION}.json`;
  it.each(["night-ferry.json", "three-in-the-morning.json", newest])(
    "%s is written back to the byte",
    (name) => {
      const read = readShow(file(name));
      expect(read.ok && writeShow(read.document)).toBe(file(name));
    },
  );

  it("of an older version is carried forward whole: written new it is the same document for good", () => {
    for (let version = 1; version < DOCUMENT_VERSION; version++) {
      const text = file(`versions/${version}.json`);
      const carried = readShow(text);
      if (!carried.ok) throw new Error(`version ${version} does not read`);
      const again = writeShow(carried.document);
      expect(JSON.parse(again)).toMatchObject({ cornerwise: DOCUMENT_VERSION });
      expect(readShow(again)).toEqual(carried);
      // Every record of the old file is there, and every field of it says what it said.
      const { tables } = JSON.parse(text) as { tables: object };
      expect(carried.document).toMatchObject(tables);
    }
  });

  it("of an empty document reads back", () => {
    expect(readShow(writeShow(emptyDocument()))).toEqual({ ok: true, document: emptyDocument() });
    expect(readShow('\uFEFF{"cornerwise":1,"tables":{}}')).toEqual({ ok: true, document: emptyDocument() });
  });

  it("is written the same in whatever order its records were made", () => {
    const a = { id: "a", order: 0, text: "one" };
    const b = { text: "two", order: 1, id: "b" };
    expect(writeShow({ ...emptyDocument(), notes: { b, a } })).toBe(
      writeShow({ ...emptyDocument(), notes: { a, b } }),
    );
  });

  it("says every fault at once, each with its path", () => {
    expect(problemsOf(file("bad/broken-records.json")).map(({ path }) => path)).toEqual([
      'rooms["hall"].turn',
      'corners["hall.A"].colour',
      'readings["r1"].value',
      'pieces["p"].name',
      'pieces["p"].count',
    ]);
    expect(problemsOf(file("bad/dangling-links.json")).map(({ path }) => path)).toEqual([
      'readings["r2"].id',
      'corners["hall.B"].room',
      'readings["r1"].to',
      'readings["other"].from',
      'placements["s"].piece',
    ]);
    expect(problemsOf(file("bad/broken-making.json")).map(printProblem)).toEqual([
      'stocks["roll"].price: This should be a whole number.',
      'shifts["s"].start: A time is written like 2027-03-04T09:00.',
      'shifts["s"].end: A time is written like 2027-03-04T09:00.',
      'shifts["s"].people: This should be at least 0.',
      expect.stringContaining('rates["r"].work: This should be one of: "cut strip"'),
      'rates["r"].minutes: This should be more than 0.',
    ]);
  });

  it("is refused in plain words when it is cut off, newer, another kind or empty", () => {
    const cut = problemsOf(file("bad/cut-off.json"));
    expect(cut).toHaveLength(1);
    expect(cut[0]).toMatchObject({ line: file("bad/cut-off.json").split("\n").length });
    expect(cut[0]?.reason).toContain("breaks off");
    expect(problemsOf(file("bad/newer-version.json"))[0]).toMatchObject({ path: "cornerwise" });
    expect(problemsOf(file("bad/newer-version.json"))[0]?.reason).toContain("newer Cornerwise");
    expect(problemsOf(file("bad/another-kind.json"))[0]?.reason).toContain("not a show file");
    expect(problemsOf("")[0]?.reason).toContain("empty");
    expect(problemsOf('{"cornerwise":1,\n  oops}')[0]).toMatchObject({ line: 2, at: 2 });
    expect(problemsOf("[]")).toHaveLength(1);
  });

  it("cut anywhere is refused and never throws", () => {
    const whole = file("versions/1.json").trimEnd();
    for (let at = 0; at < whole.length; at += 997) expect(readShow(whole.slice(0, at)).ok).toBe(false);
  });

  it("refuses ids that are words of the language", () => {
    const text = '{"cornerwise":1,"tables":{"notes":{"__proto__":{"id":"__proto__","order":0,"text":""}}}}';
    expect(problemsOf(text)[0]?.path).toBe('notes["__proto__"]');
    expect(problemsOf(text.replaceAll("__proto__", "constructor"))).toHaveLength(1);
  });

  it("refuses names with control characters or direction overrides, and names beyond 200 characters", () => {
    expect(problemsOf(named("<b>Hall</b>"))).toEqual([]);
    expect(problemsOf(named("\u05d0\u05d5\u05dc\u05dd"))).toEqual([]);
    expect(problemsOf(named("x".repeat(200)))).toEqual([]);
    for (const name of ["x".repeat(201), "x".repeat(1_000_000), "a\u202eb", "a\u0000b", ""]) {
      expect(problemsOf(named(name)).map((problem) => problem.path)).toContain('rooms["r"].name');
    }
  });

  it("has a JSON Schema of every table", () => {
    const schema = JSON.stringify(jsonSchema());
    for (const table of TABLE_NAMES) expect(schema).toContain(`"${table}"`);
    expect(schema).toContain("https://json-schema.org/draft/2020-12/schema");
  });
});

it("every table's audience is the same in the list and in the schema", () => {
  expect(AUDIENCE).toEqual(
    Object.fromEntries(Object.entries(TABLES).map(([name, table]) => [name, table.audience])),
  );
  expect(TABLE_NAMES).toEqual(Object.keys(TABLES));
});

describe("bytes", () => {
  it("that are UTF-8 are text", () => {
    expect(decodeUtf8(new TextEncoder().encode("\uFEFF12' 3½\""))).toEqual({ ok: true, text: "12' 3½\"" });
  });
  it("that are not UTF-8 name the first bad one", () => {
    const bytes = readFileSync(new URL("bad/not-utf-8.tape.txt", cases));
    const read = decodeUtf8(bytes);
    // Byte 8 is the Latin-1 letter after "room Caf".
    expect(read).toMatchObject({ ok: false, problem: { at: 8 } });
    expect(decodeUtf8(Uint8Array.of(65, 0xc3))).toMatchObject({ ok: false, problem: { at: 1 } });
  });
});

it("a problem prints as one line", () => {
  expect(printProblem({ line: 3, at: 0, reason: "No." })).toBe("line 3, character 1: No.");
  expect(printProblem({ reason: "No." })).toBe("No.");
});
