import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cornerwise, ROOT } from "./testing/run.ts";

const LOFT = "cases/net-loft.tape.txt";
/** A square room that is well within what its tape can do, with nothing in it. */
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
`;
/** Two crates in one place. */
const CLASH = `${PLAIN}piece Crate x2, 1 m x 1 m x 1 m
place Crate 1 at 2 m along, 1.5 m in
place Crate 2 at 2.2 m along, 1.5 m in
`;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "cornerwise-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Short and long side of the book's first sheet, mm. */
async function sides(words: readonly string[]): Promise<unknown[]> {
  const { out } = await cornerwise(["book", LOFT, "--json", ...words]);
  const sheet = answer(out)["sheets"]?.[0];
  return [sheet?.["width_mm"], sheet?.["height_mm"]].toSorted((a, b) => Number(a) - Number(b));
}

/** How long the 2 in bar is drawn on the one page, mm. */
async function barDrawn(words: readonly string[]): Promise<number> {
  const { out } = await cornerwise(["book", LOFT, "--one-page", "--json", ...words]);
  const known = answer(out)["sheets"]?.[0]?.["known"] as {
    name: string;
    from: { x_mm: number };
    to: { x_mm: number };
  }[];
  const bar = known.find(({ name }) => name === "check bar 2 in");
  return Math.abs((bar?.to.x_mm ?? 0) - (bar?.from.x_mm ?? 0));
}

/** A show file but for how its lines were typed. */
const said = (file: string) => readFileSync(file, "utf8").replaceAll(/"typed": ".*"/g, '"typed"');

/** What a command printed, as the tables of its JSON. */
function answer(out: string): Record<string, Record<string, unknown>[]> {
  return JSON.parse(out) as Record<string, Record<string, unknown>[]>;
}

describe("measure", () => {
  it("prints the true room with its doubt, units in the names", async () => {
    const { code, out, err } = await cornerwise(["measure", LOFT, "--json"]);
    expect([code, err]).toEqual([0, ""]);
    const room = answer(out)["rooms"]?.[0];
    expect(room?.["name"]).toBe("Net Loft");
    const corners = room?.["corners"] as Record<string, number>[];
    expect(corners.map((corner) => corner["name"])).toEqual(["A", "B", "C", "D"]);
    expect(corners[0]).toMatchObject({ x_mm: 0, y_mm: 0, sd_x_mm: 0, sd_y_mm: 0 });
    for (const key of ["x_mm", "y_mm", "sd_x_mm", "sd_y_mm", "angle_deg", "height_mm"])
      for (const corner of corners) expect(corner[key], key).toBeTypeOf("number");
    const readings = room?.["readings"] as Record<string, unknown>[];
    expect(readings).toHaveLength(8);
    for (const reading of readings)
      expect(Object.keys(reading)).toEqual(
        expect.arrayContaining(["text", "kind", "redundancy", "standardised", "suspect"]),
      );
    const angle = readings.find((reading) => reading["kind"] === "angle");
    expect(angle).toHaveProperty("residual_deg");
    expect(angle).not.toHaveProperty("residual_mm");
    // The shoelace formula over the corners themselves (J. Meister, 1769).
    const twice = corners.reduce((sum, { x_mm: x = 0, y_mm: y = 0 }, at) => {
      const next = corners[(at + 1) % corners.length];
      return sum + x * (next?.["y_mm"] ?? 0) - (next?.["x_mm"] ?? 0) * y;
    }, 0);
    expect(room?.["area_m2"]).toBeCloseTo(Math.abs(twice) / 2e6, 3);
  });

  it("prints words in the show's own units", async () => {
    const { out } = await cornerwise(["measure", LOFT]);
    expect(out).toContain("Net Loft");
    expect(out).toMatch(/24' 0"/);
    expect(out).not.toMatch(/\d\.\d+'/);
  });

  it("reads standard input", async () => {
    const { code, out } = await cornerwise(["measure", "-", "--json"], { input: PLAIN });
    expect(code).toBe(0);
    expect(answer(out)["rooms"]?.[0]?.["area_m2"]).toBeCloseTo(12, 2);
  });

  it("writes its answer to a file", async () => {
    const file = join(folder, "new", "room.json");
    const { code, out } = await cornerwise(["measure", "-", "--json", "-o", file], { input: PLAIN });
    expect([code, out]).toEqual([0, ""]);
    expect(answer(readFileSync(file, "utf8"))["rooms"]).toHaveLength(1);
  });
});

describe("arrange", () => {
  it("ends with 1 where there is a stop, and names both things", async () => {
    const { code, out } = await cornerwise(["arrange", "-", "--json"], { input: CLASH });
    expect(code).toBe(1);
    const snag = answer(out)["snags"]?.find((one) => one["rule"] === "pieces-overlap");
    expect(snag).toMatchObject({ level: "stop" });
    expect(snag?.["things"]).toHaveLength(2);
    expect(answer(out)["rooms"]?.[0]?.["pieces"]).toHaveLength(2);
  });

  it("ends with 0 in an empty room", async () => {
    const { code } = await cornerwise(["arrange", "-"], { input: PLAIN });
    expect(code).toBe(0);
  });
});

describe("book", () => {
  it("writes a PDF, the same bytes for the same date, within 300 MB", async () => {
    const files = [join(folder, "one.pdf"), join(folder, "two.pdf")];
    for (const file of files) {
      const { code, err, peak } = await cornerwise(["book", LOFT, "-o", file, "--date", "2026-03-03"]);
      expect([code, err]).toEqual([0, ""]);
      expect(peak).toBeGreaterThan(30);
      expect(peak).toBeLessThan(300);
    }
    const [one, two] = files.map((file) => readFileSync(file));
    expect(one?.subarray(0, 5).toString()).toBe("%PDF-");
    expect(two?.equals(one ?? new Uint8Array())).toBe(true);
  });

  it("writes one SVG for one page, numbered ones for several, and named ones into a folder", async () => {
    const single = await cornerwise(["book", LOFT, "--one-page", "-o", join(folder, "cut.svg")]);
    expect(single.code).toBe(0);
    expect(readFileSync(join(folder, "cut.svg"), "utf8")).toMatch(/^<svg/);
    await cornerwise(["book", LOFT, "-o", join(folder, "page.svg")]);
    expect(existsSync(join(folder, "page-01.svg"))).toBe(true);
    await cornerwise(["book", LOFT, "-o", join(folder, "pages")]);
    const pages = readdirSync(join(folder, "pages"));
    expect(pages.length).toBeGreaterThan(3);
    expect(pages.every((page) => /^\d\d-.+\.svg$/.test(page))).toBe(true);
  });

  it("takes its paper from the units, or as told", async () => {
    // US Letter: ASME Y14.1 sheet A, 8.5 by 11 in. A4: ISO 216, 210 by 297 mm.
    expect(await sides([])).toEqual([215.9, 279.4]);
    expect(await sides(["--paper", "a4"])).toEqual([210, 297]);
  });

  it("draws larger by what the bars measured short", async () => {
    expect(await barDrawn([])).toBeCloseTo(50.8, 3);
    // A printer that makes 50.8 mm into 50 mm must be sent 50.8 × 50.8 / 50.
    expect(await barDrawn(["--bar-across", "50 mm"])).toBeCloseTo((50.8 * 50.8) / 50, 3);
  });

  it.each([
    [["book", LOFT], "book needs -o"],
    [["book", LOFT, "-o", "x.pdf", "--date", "2026-02-30"], "not a date"],
    [["book", LOFT, "-o", "x.pdf", "--bar-across", "soon"], "not a length"],
    [["book", LOFT, "-o", "x.pdf", "--bar-across", `20"`], "cannot measure"],
    [["book", LOFT, "-o", "x.pdf", "--paper", "napkin"], "napkin"],
  ])("refuses %j and says why", async (words, why) => {
    const { code, err } = await cornerwise(words);
    expect(code).toBe(2);
    expect(err).toContain(why);
    expect(existsSync(join(ROOT, "x.pdf"))).toBe(false);
  });
});

describe("check", () => {
  it("lists every snag with its source", async () => {
    const { code, out } = await cornerwise(["check", "-"], { input: CLASH });
    expect(code).toBe(1);
    expect(out).toMatch(/stop/);
    expect(out).toMatch(/\d+ stops?/);
  });

  it("writes the show back as a show file and as a tape sheet that say the same, but for how it was typed", async () => {
    const json = join(folder, "show.json");
    const lines = join(folder, "show.txt");
    const again = join(folder, "again.json");
    await cornerwise(["check", LOFT, "-o", json]);
    await cornerwise(["check", json, "-o", lines]);
    await cornerwise(["check", lines, "-o", again]);
    expect(said(again)).toBe(said(json));
  });

  it("refuses to write any other kind of file", async () => {
    const { code, err } = await cornerwise(["check", LOFT, "-o", join(folder, "show.doc")]);
    expect(code).toBe(2);
    expect(err).toContain("show.doc");
  });
});

describe("input that cannot be read", () => {
  it("is reported line by line, the rest answered, and it ends with 2", async () => {
    const { code, out, err } = await cornerwise(["measure", "-", "--json"], {
      input: `${PLAIN}flurble\nA-B 0\n`,
    });
    expect(code).toBe(2);
    const problems = answer(out)["problems"] ?? [];
    expect(problems.map((problem) => problem["line"])).toEqual([14, 15]);
    for (const problem of problems) expect(String(problem["reason"]).length).toBeGreaterThan(10);
    expect(answer(out)["rooms"]?.[0]?.["area_m2"]).toBeCloseTo(12, 2);
    expect(err).toMatch(/line 14.*\n.*line 15/);
  });

  it("gives every reason in a show file, by path, and derives nothing from it", async () => {
    const file = join(folder, "broken.json");
    writeFileSync(
      file,
      `{"cornerwise":1,"tables":{"rooms":{"r":{"id":"r","name":"","order":-1,"turn":"left"}}}}`,
    );
    const { code, out } = await cornerwise(["measure", file, "--json"]);
    expect(code).toBe(2);
    const problems = answer(out)["problems"] ?? [];
    expect(problems.length).toBeGreaterThanOrEqual(3);
    for (const problem of problems) expect(problem["path"]).toMatch(/rooms/);
    expect(answer(out)["rooms"]).toEqual([]);
  });

  it.each([
    [["measure", "no-such-file.txt"], "no-such-file.txt"],
    [["measure", "."], "folder"],
    [["measure"], "file"],
    [["measure", LOFT, "--wrong"], "--wrong"],
    [["flatten", LOFT], "flatten"],
  ])("is named for %j", async (words, named) => {
    const { code, err } = await cornerwise(words);
    expect(code).toBe(2);
    expect(err).toContain(named);
  });

  it("that is not UTF-8 names the first bad byte", async () => {
    const { code, err } = await cornerwise(["check", "-"], { input: new Uint8Array([0x41, 0xff, 0xfe]) });
    expect(code).toBe(2);
    expect(err).not.toBe("");
  });
});

describe("a fault of our own", () => {
  it("meets the fence, quotes what it stumbled on, and ends with 3", async () => {
    // Planted from outside: the platform itself breaks while the answer is written.
    const before = `data:text/javascript,${encodeURIComponent(
      "JSON.stringify = () => { throw new Error('planted at 42'); };",
    )}`;
    const { code, err } = await cornerwise(["measure", "-", "--json"], { input: PLAIN, before });
    expect(code).toBe(3);
    expect(err).toContain("fault in Cornerwise");
    expect(err).toContain("planted at 42");
  });
});

describe("the README", () => {
  const commands = readFileSync(join(ROOT, "README.md"), "utf8")
    .split("\n")
    .flatMap((line) => /^npx --no cornerwise (.+)$/.exec(line)?.[1] ?? []);

  it("shows every verb", () => {
    expect(commands.map((command) => command.split(" ")[0])).toEqual([
      "measure",
      "arrange",
      "model",
      "make",
      "install",
      "book",
      "check",
    ]);
  });

  it.each(commands)("says what works: %s", async (command) => {
    const words = command.split(" ").map((word) => word.replace(/^out\//, `${folder}/`));
    const { code, out, err } = await cornerwise(words);
    expect(err).toBe("");
    expect([0, 1]).toContain(code);
    expect(out).not.toBe("");
  });
});

describe("help", () => {
  it("lists the verbs and what the exit codes mean", async () => {
    const { code, out } = await cornerwise(["--help"]);
    expect(code).toBe(0);
    for (const word of ["measure", "arrange", "model", "make", "install", "book", "check", "FILE"])
      expect(out).toContain(word);
  });
});
