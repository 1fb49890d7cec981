import { describe, expect, it } from "vitest";
import { emptyDocument } from "../document/tables.ts";
import type { ShowDocument } from "../document/tables.ts";
import { readTape } from "./read.ts";
import { writeRecord } from "./write.ts";

const HALL = `units feet and inches
room Hall
corners A B C D
stock Lath, stick 1 1/2" x 8', price 2,40
piece Booth, 5' x 3' x 3' 4"
piece Hook x9, 3" x 4" x 3", fitting
piece Urn, 14" across x 20", accessory
place Booth at 4' along, 6' in`;

const read = (text: string, onto: ShowDocument = emptyDocument()) => readTape(text, onto);
const hall = read(HALL).document;
const reasons = (line: string): readonly string[] => read(line, hall).problems.map(({ reason }) => reason);

describe("lines of making", () => {
  it("say money with a point or a comma in the currency's own coins, and refuse what could be thousands", () => {
    const price = (said: string) =>
      Object.values(read(`${said}\nstock Board, sheet 40" x 60", price 1200`).document.stocks)[0]?.price;
    expect(hall.stocks["stock.lath"]?.price).toBe(240);
    expect(price("currency USD")).toBe(120_000);
    expect(price("currency JPY")).toBe(1200);
    expect(reasons('stock Board, sheet 40" x 60", price 1,200')[0]).toContain("thousands or decimals");
    expect(reasons("currency JPY")[0]).toContain("Say the currency before them");
    expect(read("currency JPY\nwage 18.5").problems[0]?.reason).toContain("no smaller coin");
  });

  it("ask for the roll, and refuse a stick where a roll is wanted", () => {
    expect(reasons("strips on A-B, pasted")[0]).toContain("Which roll");
    expect(reasons("strips on A-B, from Lath, pasted")[0]).toContain("comes as a stick");
    expect(reasons("strips on A-B, from Kraft, pasted")[0]).toContain("no stock");
  });

  it("give a piece its lengths, replaced whole when they are said again", () => {
    const first = read(
      "piece Booth, 5' x 3' x 3' 4\"\npart 4 x 5' from Lath\npart 2' from Lath",
      hall,
    ).document;
    expect(Object.values(first.parts).map(({ count, length }) => [count, length])).toEqual([
      [4, 1524],
      [1, 609.6],
    ]);
    const again = read("piece Booth, 5' x 3' x 3' 4\"\npart 3 x 5' from Lath", first).document;
    expect(Object.values(again.parts).map(({ id, count }) => [id, count])).toEqual([
      ["piece.booth.part.1", 3],
    ]);
    expect(read("piece Booth, 5' x 3' x 3' 4\"", first).document.parts).toEqual(first.parts);
  });
});

describe("lines that place", () => {
  it("say a row of fittings at once, from either end of the wall", () => {
    const { document, problems } = read("place Hook 2 to 4 on A-B at 2' from B, every 18\", up 5' 6\"", hall);
    expect(problems).toEqual([]);
    expect(
      Object.values(document.mounts).map(({ number, datum, offset, up }) => [number, datum, offset, up]),
    ).toEqual([
      [2, "hall.B", 609.6, 1676.4],
      [3, "hall.B", 1066.8, 1676.4],
      [4, "hall.B", 1524, 1676.4],
    ]);
    expect(reasons("place Hook 8 to 12 on A-B at 2' from B, every 18\", up 5'")[0]).toContain("only 9");
    expect(reasons("place Hook 1 to 3 on A-B at 2' from B, up 5'")[0]).toContain("How far is it from one");
    expect(reasons("place Hook 3 to 1 on A-B at 2' from B, every 1', up 5'")[0]).toContain("backwards");
    expect(reasons("place Hook 1 to 3 at 2' along, 2' in")[0]).toContain("in a row");
  });

  it("move a copy from the floor to the wall and back, so that it is in one place only", () => {
    const floor = read("place Hook 1 at 2' along, 2' in", hall).document;
    const wall = read("place Hook 1 on A-B at 2' from A, up 5'", floor).document;
    expect(Object.keys(wall.placements)).toEqual(["piece.booth.at.1"]);
    const back = read("place Hook 1 at 2' along, 2' in", wall).document;
    expect(Object.keys(back.mounts)).toEqual([]);
    expect(Object.keys(back.placements)).toContain("piece.hook.at.1");
  });

  it("put one piece on another that stands, never on itself, and take it along to another room", () => {
    const on = read('place Urn on Booth at 6" right, 4" back', hall).document;
    expect(on.placements["piece.urn.at.1"]).toMatchObject({
      on: "piece.booth.at.1",
      x: 152.4,
      y: 101.6,
      up: 0,
    });
    expect(read('place Booth on Urn at 0" right', on).problems[0]?.reason).toContain("stands on it already");
    expect(read("place Booth on A-B at 2' from A, up 2'", on).problems[0]?.reason).toContain("Take that off");
    expect(reasons('place Urn on Hook 1 at 0" right')[0]).toContain("stands nowhere yet");
    const moved = read("room Attic\ncorners A B C\nplace Booth at 1' along, 1' in", on).document;
    expect(Object.values(moved.placements).map(({ room }) => room)).toEqual(["attic", "attic"]);
  });

  it("know a country from a place", () => {
    expect(read("place Germany").document.shows["show"]?.place).toBe("DE");
    expect(reasons("place France")[0]).toContain("house rules");
  });
});

describe("lines of days", () => {
  it("end a night on the next day, over the end of a month and a leap day too", () => {
    const end = (line: string) => Object.values(read(line).document.shifts)[0]?.end;
    expect(end("shift 2027-03-04 9:00 to 21:00, 3 people")).toBe("2027-03-04T21:00");
    expect(end("shift 2027-03-31 8 pm to 6 am, 2 people")).toBe("2027-04-01T06:00");
    expect(end("shift 2028-02-28 20:00 to 6:00, 2 people")).toBe("2028-02-29T06:00");
    expect(end("shift 2027-12-31 20:00 to 20:00, nobody")).toBe("2028-01-01T20:00");
    expect(end("shift 2027-03-04 9:00 to 2027-03-03 9:00, 1 person")).toBe("2027-03-03T09:00");
    expect(read("shift 2027-02-29 9:00 to 17:00, 1 person").problems[0]?.reason).toContain(
      "no day 2027-02-29",
    );
    expect(read("shift 2027-02-28 9:00 to 17:00").problems[0]?.reason).toContain("How many people");
  });

  it("keep an answer until another is given", () => {
    const asked = read("ask May we? answer: Yes.").document;
    expect(read("ask May we?", asked).change.edits).toEqual([]);
    expect(Object.values(read("ask May we? answer:", asked).document.questions)[0]?.answer).toBe("");
  });
});

describe("a line given to one record", () => {
  it("may rename it, and is refused another's name", () => {
    const record = { table: "pieces", id: "piece.hook" } as const;
    const line = writeRecord(hall, "pieces", record.id);
    expect(line).toBe('piece Hook x9, 3" x 4" x 3", fitting');
    const renamed = readTape(line.replace("Hook", "Peg"), hall, { record }).document;
    expect(renamed.pieces["piece.hook"]?.name).toBe("Peg");
    expect(Object.keys(renamed.pieces)).toEqual(Object.keys(hall.pieces));
    expect(readTape(line.replace("Hook", "urn"), hall, { record }).problems[0]?.reason).toContain("already");
  });

  it("may change what a record is found by: when a shift begins, what is asked", () => {
    const said = read("shift 2027-03-04 9:00 to 21:00, 3 people\nask May we?").document;
    const [shift, question] = [Object.keys(said.shifts)[0]!, Object.keys(said.questions)[0]!];
    const later = readTape("shift 2027-03-05 9:00 to 21:00, 3 people", said, {
      record: { table: "shifts", id: shift },
    }).document;
    expect(Object.values(later.shifts).map(({ start }) => start)).toEqual(["2027-03-05T09:00"]);
    const other = readTape("ask May they?", said, { record: { table: "questions", id: question } }).document;
    expect(Object.values(other.questions).map(({ text }) => text)).toEqual(["May they?"]);
  });

  it("is not written for a record that is not there", () => {
    expect(() => writeRecord(hall, "pieces", "gone")).toThrow('"gone"');
  });
});
