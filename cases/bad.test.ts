/** Every bad input with what it answers: which lines or paths, which snags, and never a throw. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { derive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { emptyDocument } from "../engine/src/document/tables.ts";
import { decodeUtf8 } from "../engine/src/document/text.ts";
import { readTape } from "../engine/src/tape/read.ts";

const folder = new URL("bad/", import.meta.url);

/** Lines that do not read, and the rules that speak of what did. */
const SHEETS: {
  readonly [name: string]: { readonly lines: readonly number[]; readonly rules: readonly string[] };
} = {
  "cannot-close.tape.txt": { lines: [], rules: ["readings-disagree"] },
  "too-few.tape.txt": { lines: [], rules: ["corner-floats"] },
  "zero-and-negative.tape.txt": { lines: [3, 4, 5, 6], rules: [] },
  "crosses-itself.tape.txt": { lines: [], rules: ["room-crosses-itself"] },
  "wider-than-wall.tape.txt": { lines: [8], rules: ["opening-outside-wall"] },
  "no-size.tape.txt": { lines: [3, 4, 5], rules: [] },
  "hostile-names.tape.txt": { lines: [4, 5], rules: [] },
  "stock-too-short.tape.txt": { lines: [], rules: ["part-longer-than-stock"] },
  "repeat-too-long.tape.txt": { lines: [], rules: ["repeat-longer-than-roll"] },
  "crew-of-none.tape.txt": { lines: [], rules: ["no-crew"] },
  "never-opens.tape.txt": { lines: [19], rules: ["shift-never-opens"] },
  "refused-wall.tape.txt": { lines: [], rules: ["covering-refused"] },
  "walls-vanish.tape.txt": { lines: [], rules: ["walls-vanish"] },
  "wrong-stocks.tape.txt": { lines: [15, 16, 17, 18, 19, 20, 21, 22], rules: [] },
};

describe("bad input", () => {
  it.each(Object.entries(SHEETS))("%s names its lines and keeps what reads", (name, wanted) => {
    const { document, problems } = readTape(readFileSync(new URL(name, folder), "utf8"), emptyDocument());
    expect(problems.map((problem) => problem.line)).toEqual(wanted.lines);
    const rules = derive(document).snags.map((snag) => snag.rule);
    for (const rule of wanted.rules) expect(rules).toContain(rule);
    expect(Object.keys(document.rooms)).toHaveLength(1);
  });

  it("is held to an answer for every file of the folder", () => {
    const others = readdirSync(folder).filter((name) => !(name in SHEETS));
    for (const name of others) {
      const bytes = decodeUtf8(readFileSync(new URL(name, folder)));
      expect(name, "no answer is stated for this sheet").toMatch(/^not-utf-8|\.json$/);
      expect(bytes.ok && readShow(bytes.text).ok).toBe(false);
    }
    expect(others.length).toBeGreaterThan(4);
  });

  it("keeps markup in a name as the letters it is, and never echoes a hidden one", () => {
    const text = readFileSync(new URL("hostile-names.tape.txt", folder), "utf8");
    const { document, problems } = readTape(text, emptyDocument());
    expect(Object.values(document.rooms)[0]?.name).toBe("<script>alert(1)</script>");
    expect(Object.values(document.pieces).map((piece) => piece.name)).toContain("\u05e1\u05e4\u05e1\u05dc");
    for (const problem of problems) expect(problem.text).not.toMatch(/\p{Cc}|[\u202a-\u202e]/u);
  });
});
