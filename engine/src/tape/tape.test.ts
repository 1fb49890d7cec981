import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apply, invert } from "../change/change.ts";
import { readShow, writeShow } from "../document/file.ts";
import { EMPTY_SHOW, emptyDocument } from "../document/tables.ts";
import type { ShowDocument } from "../document/tables.ts";
import { readTape } from "./read.ts";
import { writeTape } from "./write.ts";

const file = (name: string): string =>
  readFileSync(new URL(`../../../cases/${name}`, import.meta.url), "utf8");
const NET_LOFT = file("net-loft.tape.txt");
const EMPTY = emptyDocument();

/** A document without what was typed, which a rewritten line may spell otherwise. */
function untyped(document: ShowDocument): unknown {
  return JSON.parse(writeShow(document), (key, value: unknown) => (key === "typed" ? undefined : value));
}

describe("the tape sheet", () => {
  it("reads every line of the Net Loft", () => {
    const { document, problems } = readTape(NET_LOFT, EMPTY);
    expect(problems).toEqual([]);
    expect(Object.keys(document.readings)).toHaveLength(8);
    expect(document.readings["net-loft.distance.A~C"]).toMatchObject({
      value: 350 * 25.4,
      typed: `29' 2"`,
      from: "net-loft.A",
    });
    expect(document.openings["net-loft.door.door-1"]).toMatchObject({
      offset: 965.2,
      width: 914.4,
      clear: 863.6,
      casing: 88.9,
      height: 2032,
      hinge: "net-loft.A",
      opens: "in",
    });
    expect(document.fixtures["net-loft.outlet.outlet-1"]).toMatchObject({
      offset: 609.6,
      up: 406.4,
      datum: "net-loft.C",
    });
    expect(document.pieces["piece.bench"]).toMatchObject({ count: 4, sits: true });
    expect(document.solids["piece.bench.solid.1"]).toMatchObject({
      width: 1828.8,
      depth: 558.8,
      height: 863.6,
    });
  });

  it.each(["net-loft.tape.txt", "night-ferry.tape.txt"])(
    "writes %s back so that it reads to the same document",
    (name) => {
      const first = readTape(file(name), EMPTY).document;
      const again = readTape(writeTape(first), EMPTY);
      expect(again.problems).toEqual([]);
      expect(untyped(again.document)).toEqual(untyped(first));
      expect(writeTape(again.document)).toBe(writeTape(first));
    },
  );

  it("reads to Night Ferry's show file", () => {
    const { document, problems } = readTape(file("night-ferry.tape.txt"), EMPTY);
    expect(problems).toEqual([]);
    expect(writeShow(document)).toBe(file("night-ferry.json"));
  });

  it("is changed by nothing when it is pasted again", () => {
    const { document } = readTape(NET_LOFT, EMPTY);
    expect(readTape(NET_LOFT, document).change.edits).toEqual([]);
  });

  it("replaces a reading said again from the other end, adds what is new and deletes nothing", () => {
    const { document } = readTape(NET_LOFT, EMPTY);
    const next = readTape(`C-A 29' 2 1/4" by laser\nheight B 10' 1"`, document);
    expect(next.problems).toEqual([]);
    expect(Object.keys(next.document.readings)).toHaveLength(9);
    expect(next.document.readings["net-loft.distance.A~C"]).toMatchObject({
      value: 350.25 * 25.4,
      instrument: "laser",
    });
  });

  it("gives a change that undoes to the byte", () => {
    const { change, document } = readTape(file("night-ferry.tape.txt"), EMPTY);
    expect(writeShow(apply(document, invert(change)))).toBe(writeShow(EMPTY));
  });

  it("reports every line that does not read and still reads the rest", () => {
    const { document, problems, lines } = readTape(
      `room Hall\ncorners A B C D\nA to E 5'\nA to B 24\nA to B 12' 0"\nhello there\ndoor on A-C at 2' from A, leaf 3', 80" high\npiece Bench\nA-B 12' 1"`,
      EMPTY,
    );
    expect(problems.map(({ line, at }) => [line, at])).toEqual([
      [3, 5],
      [4, 7],
      [6, 0],
      [7, 8],
      [8, 11],
      [9, 4],
    ]);
    expect(lines.map((line) => line.ok)).toEqual([true, true, false, false, true, false, false, true, false]);
    expect(Object.values(document.readings).map((reading) => reading.value)).toEqual([3657.6]);
  });

  it("takes bare numbers for nothing until units are said, and infers only how to print", () => {
    const bare = readTape("room R\ncorners A B C\nA-B 3750", EMPTY);
    expect(bare.problems.map((problem) => problem.line)).toEqual([3]);
    const said = readTape("units mm\nroom R\ncorners A B C\nA-B 3750", EMPTY);
    expect(said.document.readings["r.distance.A~B"]?.value).toBe(3750);
    expect(readTape("room R\ncorners A B C\nA-B 3.75 m", EMPTY).document.shows["show"]?.units).toBe("m");
    expect(readTape("A-C 3751", said.document).document.readings["r.distance.A~C"]?.value).toBe(3751);
  });

  it("keeps the corners of a room that a later line leaves out", () => {
    const { document } = readTape(NET_LOFT, EMPTY);
    expect(readTape("corners A B C", document).problems[0]?.reason).toContain("corner D");
    expect(readTape("corners A X B C D", document).problems[0]?.reason).toContain("A-B");
  });

  it("puts a line into the room it is told", () => {
    const two = readTape("room One\ncorners A B C\nroom Two\ncorners A B C", EMPTY).document;
    const { document } = readTape("A-B 3 m", two, { room: "one" });
    expect(Object.values(document.readings)[0]?.room).toBe("one");
  });

  it("keeps any name that passes, however it is spelled", () => {
    const letters = fc.constantFrom(..."ab1 ,;\"'x4 on at # - “” (2) <b> é ÷ to 6' x 2'".split(""));
    const names = fc
      .array(letters, { minLength: 1, maxLength: 20 })
      .map((all) => all.join(""))
      .filter((name) => name.trim() !== "");
    fc.assert(
      fc.property(
        fc.uniqueArray(names, { minLength: 1, maxLength: 4, selector: (name) => name.toLowerCase() }),
        (all) => {
          const pieces = all.map((name, order) => ({
            id: `piece.${order}`,
            name,
            order,
            layer: "furniture" as const,
            count: 3,
            sits: false,
          }));
          const placed = pieces.map((piece) => ({
            id: `${piece.id}.at`,
            piece: piece.id,
            room: "r",
            number: 2,
            x: 1,
            y: -2,
            turn: 3,
            up: 0,
          }));
          const document: ShowDocument = {
            ...EMPTY,
            rooms: { r: { id: "r", name: all[0] ?? "r", order: 0, turn: "clockwise", entered: true } },
            pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
            placements: Object.fromEntries(placed.map((placement) => [placement.id, placement])),
          };
          const again = readTape(writeTape(document), EMPTY);
          expect(again.problems).toEqual([]);
          expect(Object.values(again.document.pieces).map((piece) => piece.name)).toEqual(all);
          expect(Object.values(again.document.rooms).map((room) => room.name)).toEqual([all[0]]);
          expect(Object.keys(again.document.placements)).toHaveLength(all.length);
        },
      ),
      { seed: 21, numRuns: 500 },
    );
  });

  it("never throws, and whatever it reads passes as a show file", () => {
    const words = fc.constantFrom(
      ...`room|corners A B C D|A to B|A-C|24' 0"|3 m|door|window|on A-B|at 2'|from A|leaf 36"|80" high|piece|x4|6' x 2' x 3'|place|Bench|along|in|outlet|up 16"|units mm|12|\n|,|box|outline|(1", 2")|turn 90|covering|trim base|neighbour|"|by laser|note|constructor|__proto__|sketch A`.split(
        "|",
      ),
    );
    fc.assert(
      fc.property(
        fc.array(fc.oneof({ weight: 9, arbitrary: words }, fc.string({ unit: "binary", maxLength: 5 })), {
          maxLength: 40,
        }),
        (parts) => {
          const { document, problems } = readTape(parts.join(" "), EMPTY);
          expect(readShow(writeShow(document))).toMatchObject({ ok: true });
          for (const problem of problems) expect(problem.line).toBeGreaterThan(0);
        },
      ),
      { seed: 22, numRuns: 1500 },
    );
  });

  it("refuses a megabyte on a line at once", () => {
    const started = performance.now();
    const { problems } = readTape(`room ${"x".repeat(1_000_000)}\npiece ${"9 ".repeat(500_000)}`, EMPTY);
    expect(problems.map((problem) => problem.line)).toEqual([1, 2]);
    expect(problems[0]?.text?.length).toBeLessThan(200);
    expect(performance.now() - started).toBeLessThan(1000);
  });

  it("reads ten thousand pieces in less than two seconds", () => {
    const sheet = Array.from(
      { length: 10_000 },
      (_, number) => `piece Box ${number}, 2' x 1' x 3', weighs 4 lb`,
    ).join("\n");
    // Processor time, so that a busy machine does not speak for the reader.
    const started = process.cpuUsage();
    const { document, problems } = readTape(sheet, EMPTY);
    expect(process.cpuUsage(started).user / 1000).toBeLessThan(2000);
    expect(problems).toEqual([]);
    expect(Object.keys(document.solids)).toHaveLength(10_000);
  });

  it("leaves the document it was given as it was", () => {
    const before = JSON.stringify(EMPTY);
    readTape(NET_LOFT, EMPTY);
    expect(JSON.stringify(EMPTY)).toBe(before);
    expect(EMPTY.shows["show"]).toBe(EMPTY_SHOW);
  });
});
