import { apply, emptyDocument, listed, readTape, type ShowDocument } from "@cornerwise/engine";
import { describe, expect, it } from "vitest";
import { coverLines, floorLines, HELD, hoursLines, samples, trimLines, TRIMS } from "./compose.ts";

/** What the forms say is held to the grammar's own reader: a form is only another way to type a line. */
const ROOM = `units feet and inches
room Loft
corners A B C D
A to B 12'
B to C 9' 6"
C to D 12'
D to A 9' 6"`;

function read(document: ShowDocument, lines: string): ShowDocument {
  const { change, problems } = readTape(lines, document);
  expect(problems, lines).toEqual([]);
  return apply(document, change);
}

const room = () => read(emptyDocument(), ROOM);
const newRoll = { name: 'The "old" roll, 36', bought: { width: '36"', length: "100'" } };

describe("forms as lines", () => {
  it("covers a wall in each way of holding, from a new roll and from one that is there", () => {
    for (const held of Object.keys(HELD) as (keyof typeof HELD)[]) {
      const first = read(room(), coverLines({ wall: "A-B", roll: newRoll, held, lap: '1/2"', to: "6'" }));
      const strips = listed(first.wallCoverings);
      expect(strips).toHaveLength(1);
      expect(listed(first.stocks).map((stock) => stock.name)).toEqual(['The "old" roll, 36']);
      const second = read(first, coverLines({ wall: "B-C", roll: { name: newRoll.name }, held }));
      expect(listed(second.wallCoverings)).toHaveLength(2);
      expect(listed(second.stocks)).toHaveLength(1);
    }
  });

  it("keeps how long paste dries", () => {
    const document = read(room(), coverLines({ wall: "A-B", roll: newRoll, held: "pasted", dries: "12 h" }));
    expect(listed(document.wallCoverings)[0]?.drying).toBe(720);
  });

  it("runs each kind of trim, with and without a stick", () => {
    for (const kind of TRIMS) {
      const said = { kind, height: '4"', out: '3/4"', up: `3' 6"`, spring: "38" };
      const bare = read(room(), trimLines(said));
      expect(listed(bare.trims)).toHaveLength(1);
      const stick = { name: "Pine", bought: { width: '4"', length: "8'" } };
      const cut = read(bare, trimLines({ ...said, stick }));
      expect(listed(cut.trims)).toHaveLength(1);
      expect(listed(cut.trims)[0]?.stock).toBe(listed(cut.stocks)[0]?.id);
    }
  });

  it("lays a floor covering, bare and with everything said", () => {
    const said = { name: "Floor", width: "6'", depth: "4'", thick: '3/16"', along: "6'", into: `4' 9"` };
    expect(listed(read(room(), floorLines({ ...said, walkable: false })).coverings)[0]?.walkable).toBe(false);
    const whole = read(
      room(),
      floorLines({
        ...said,
        border: '6"',
        panel: { width: '40"', depth: '30"' },
        sheet: { name: "Board", bought: { width: '40"', length: '60"' } },
        walkable: true,
      }),
    );
    expect(listed(whole.coverings)[0]).toMatchObject({ walkable: true, border: 152.4, panelDepth: 762 });
  });

  it("says hours, a night's too, with the clock they are on", () => {
    const said = { day: "2027-03-04", from: "20:00", to: "06:00", people: "1" };
    const document = read(room(), hoursLines({ ...said, zone: "America/Chicago" }));
    expect(listed(document.shifts)[0]).toMatchObject({ end: "2027-03-05T06:00", people: 1 });
    expect(Object.values(document.shows)[0]?.zone).toBe("America/Chicago");
  });

  it("shows only sample lines that read as they stand, in either measure", () => {
    for (const stage of ["make", "model", "install"] as const) {
      for (const inches of [true, false]) {
        for (const line of samples(stage, inches)) {
          const before = inches ? room() : read(room(), "units mm");
          expect(read(before, line), line).not.toEqual(before);
        }
      }
    }
  });
});
