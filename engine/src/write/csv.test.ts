import { parse } from "csv-parse/sync";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { writeCsv } from "./csv.ts";

const read = (text: string): readonly (readonly string[])[] =>
  parse(text, { bom: true, relax_column_count: false });

describe("a list written as CSV, read back by csv-parse", () => {
  it("quotes as RFC 4180 section 2 does", () => {
    // RFC 4180, section 2, rules 5 to 7 (from memory): the fields and the line.
    const text = writeCsv({
      name: "list",
      columns: ["a", "b", "c", "d"],
      rows: [["aaa", 'b"bb', "c,cc", "line\r\nbreak"]],
    });
    expect(text).toBe('\uFEFFa,b,c,d\r\naaa,"b""bb","c,cc","line\r\nbreak"\r\n');
    expect(read(text)).toEqual([
      ["a", "b", "c", "d"],
      ["aaa", 'b"bb', "c,cc", "line\r\nbreak"],
    ]);
  });

  it("comes back as it was, with primes, accents, quotes, commas and line ends", () => {
    const cell = fc.oneof(
      fc.string({ unit: "grapheme", maxLength: 12 }).map((text) => `n${text}`),
      fc.constantFrom("24′ 0 ¹³⁄₁₆″", `24' 0"`, "Größe, é", "a\r\nb", ' "quoted" ', ""),
      fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }),
    );
    fc.assert(
      fc.property(
        fc
          .integer({ min: 2, max: 6 })
          .chain((width) =>
            fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 8 }),
          ),
        (rows) => {
          const columns = rows[0]!.map((_, index) => `column ${index} (mm)`);
          const back = read(writeCsv({ name: "list", columns, rows }));
          expect(back).toEqual([columns, ...rows.map((row) => row.map(String))]);
        },
      ),
      { seed: 41, numRuns: 300 },
    );
  });

  it("never lets a name run as a formula, and leaves numbers be", () => {
    const rows = [
      ["=1+2", -3.5],
      ["+48 hooks", 2],
      ["-x", 3],
      ["@sum", 4],
      ["\t=1", 5],
      ["＝1", 6],
      ["a=1", 7],
      ['=HYPERLINK("x","y")', 8],
    ] as const;
    const back = read(writeCsv({ name: "list", columns: ["=name", "count"], rows }));
    expect(back.map(([name]) => name)).toEqual([
      "'=name",
      "'=1+2",
      "'+48 hooks",
      "'-x",
      "'@sum",
      "'\t=1",
      "'＝1",
      "a=1",
      `'=HYPERLINK("x","y")`,
    ]);
    expect(back.map(([, count]) => count)).toEqual(["count", "-3.5", "2", "3", "4", "5", "6", "7", "8"]);
  });

  it("fills short rows, drops nothing but what has no column, and leaves out numbers that are none", () => {
    expect(
      read(
        writeCsv({
          name: "list",
          columns: ["a", "b"],
          rows: [["x"], ["y", Number.NaN], ["z", Number.POSITIVE_INFINITY]],
        }),
      ),
    ).toEqual([
      ["a", "b"],
      ["x", ""],
      ["y", ""],
      ["z", ""],
    ]);
  });

  it("is a head alone for a list without rows", () => {
    expect(writeCsv({ name: "list", columns: ["a", "b"], rows: [] })).toBe("\uFEFFa,b\r\n");
  });
});
