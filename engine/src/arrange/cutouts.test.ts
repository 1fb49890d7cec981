import { bookOf } from "../testing/book-of.ts";
import { describe, expect, it } from "vitest";
import { boxOf, type Box } from "../sheet/drafting.ts";
import { TRUE_PRINTER } from "../sheet/vocabulary.ts";
import { handMadeShow, WAITING_ROOM } from "../testing/hand-made.ts";
import { book } from "../book/book.ts";
import { planAndCutOuts } from "./cutouts.ts";
import { roomSheet } from "./sheet.ts";

const stamp = { show: "Show", date: "25 Nov 2026", state: "draft" };
const options = { paper: "letter", stamp, correction: TRUE_PRINTER } as const;

const apart = (a: Box, b: Box): boolean =>
  a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top;

describe("plan and cut-outs on one page", () => {
  it("draws the plan at 1:48 on quarter-inch paper with one cut-out a copy, none over another or the walls", () => {
    const { document, arrangement } = handMadeShow(WAITING_ROOM);
    const { sheet, sentence, leftOut } = planAndCutOuts(arrangement, document, options);
    expect(sentence).toBe("1:48, one 1/4 in square is 12 in");
    expect(leftOut).toEqual(["Bell (too small to cut)"]);
    const cuts = sheet.items.filter(({ part }) => part === "cut-out").map(boxOf);
    expect(cuts).toHaveLength(1 + 4 + 3 + 6 + 1);
    const plan = sheet.items.filter((item) => item.kind === "stroke" && item.pen === "wall").map(boxOf);
    cuts.forEach((cut, index) => {
      for (const other of [...cuts.slice(index + 1), ...plan]) expect(apart(cut, other)).toBe(true);
      expect(cut.left > 10 && cut.right < sheet.width - 10 && cut.bottom < sheet.height - 20).toBe(true);
    });
    expect(
      sheet.items.some(
        (item) => item.kind === "lettering" && item.text === "Too small to cut at 1:48: Bell.",
      ),
    ).toBe(true);
  });

  it("takes 1:24 for a small room with little in it", () => {
    const corners = [
      [0, 0],
      [3000, 0],
      [3000, -2000],
      [0, -2000],
    ].map(([x = 0, y = 0]) => ({ x, y, height: 2500 }));
    const { document, arrangement } = handMadeShow({
      corners,
      pieces: [{ name: "Stool", size: [400, 400, 450], at: [[1000, -1000, 0]] }],
    });
    expect(planAndCutOuts(arrangement, document, options).scale).toBeCloseTo(24, 9);
  });

  it("names on the page and in its answer what finds no room even at the smallest scale", () => {
    const crowd = { name: "Crate", size: [1500, 1500, 900], at: [], waiting: 2000 } as const;
    const { document, arrangement } = handMadeShow({ ...WAITING_ROOM, pieces: [crowd] });
    const { sheet, leftOut } = planAndCutOuts(arrangement, document, options);
    const drawn = sheet.items.filter(({ part }) => part === "cut-out").length;
    expect(drawn).toBeGreaterThan(20);
    expect(leftOut).toEqual([`Crate × ${2000 - drawn}`]);
    expect(
      sheet.items.some(
        (item) => item.kind === "lettering" && item.text.startsWith("No room on this page for: Crate"),
      ),
    ).toBe(true);
  });
});

/** The waiting room with boxes fixed to its first wall and with boxes on its booth. */
function withMore(
  fixed: readonly number[],
  carried: number,
): { readonly shown: ReturnType<typeof planAndCutOuts>; readonly copies: number } {
  const { document, arrangement } = handMadeShow({
    ...WAITING_ROOM,
    pieces: [
      ...WAITING_ROOM.pieces!,
      ...fixed.map((width, k) => ({ name: `Plate ${k}`, size: [width, 300, 100] as const, at: [] })),
      {
        name: "Parcel",
        size: [300, 250, 150],
        at: Array.from({ length: carried }, (_, k) => [6000 + k, -700, 0] as const),
      },
    ],
  });
  const booth = arrangement.standing[0]!.placement.id;
  const standing = arrangement.standing.map((one) =>
    one.piece.name === "Parcel" ? { ...one, on: booth } : one,
  );
  const mounted = Object.values(document.pieces)
    .filter(({ name }) => name.startsWith("Plate"))
    .map((piece) => ({
      mount: { ...MOUNT, id: `mount ${piece.id}`, piece: piece.id },
      piece,
      name: piece.name,
      wall: "A~B",
      along: 1000,
      width: 300,
      depth: 300,
      low: 1200,
      high: 1300,
      blocks: [],
      outline: [],
    }));
  const shown = planAndCutOuts({ ...arrangement, standing, mounted }, document, options);
  return { shown, copies: standing.length + mounted.length + 3 };
}

const MOUNT = { room: "room", number: 1, from: "A", to: "B", datum: "A", offset: 1000, up: 1200 };

const cutsOf = ({ sheet }: ReturnType<typeof planAndCutOuts>): readonly Box[] =>
  sheet.items.filter(({ part }) => part === "cut-out").map(boxOf);

describe("cut-outs of what lies on others and what is fixed to walls", () => {
  it("are set below those of what stands, none over another", () => {
    const { shown, copies } = withMore([600, 700], 2);
    const cuts = cutsOf(shown);
    expect(cuts).toHaveLength(copies - 1);
    expect(shown.leftOut).toEqual(["Bell (too small to cut)"]);
    cuts.forEach((cut, index) => {
      for (const other of cuts.slice(index + 1)) expect(apart(cut, other)).toBe(true);
    });
    const plates = shown.sheet.items.filter(
      (item) => item.kind === "lettering" && item.text.startsWith("Plate"),
    );
    expect(plates).toHaveLength(2);
  });

  it("never make the plan smaller: those without room are named and counted", () => {
    const { shown, copies } = withMore([300, 400, 100], 300);
    expect(shown.scale).toBeCloseTo(48, 9);
    const left = copies - cutsOf(shown).length;
    const counted = shown.leftOut.reduce((sum, name) => sum + Number(/ × (\d+)/.exec(name)?.[1] ?? 1), 0);
    expect(counted).toBe(left);
    expect(shown.leftOut).toContain("Plate 2 (too small to cut)");
    expect(shown.leftOut[0]).toMatch(/^Parcel × \d+$/);
  });

  it("are counted with all that wait, listed by number or not", () => {
    const { document, arrangement } = handMadeShow(WAITING_ROOM);
    const [row] = arrangement.tray;
    const tray = [{ ...row!, numbers: [1, 2], count: 5000 }];
    const shown = planAndCutOuts({ ...arrangement, standing: [], tray }, document, options);
    const [left] = shown.leftOut;
    expect(left).toBe(`Bench × ${5000 - cutsOf(shown).length}`);
  });
});

describe("sheets of rooms that are hardly there", () => {
  it("still make a screen sheet, a page of cut-outs and a book", () => {
    const { document, arrangement } = handMadeShow({ corners: [] });
    expect(roomSheet(arrangement, document).frames).toHaveLength(1);
    expect(book(bookOf([arrangement], document), document, { stamp }).length).toBeGreaterThanOrEqual(5);
    expect(book(bookOf([], document), document, { stamp }).length).toBeGreaterThanOrEqual(3);
    expect(planAndCutOuts(arrangement, document, options).leftOut).toEqual([]);
  });

  it("draw a hall of ten kilometres and a counterclockwise room", () => {
    const far = 10_000_000;
    const corners = [
      [0, 0],
      [far, 0],
      [far, -far],
      [0, -far],
    ].map(([x = 0, y = 0]) => ({ x, y, height: 3000 }));
    const { document, arrangement } = handMadeShow({ corners });
    expect(roomSheet(arrangement, document).width).toBeLessThan(12_000);
    expect(planAndCutOuts(arrangement, document, options).sheet.width).toBeGreaterThan(200);
    const turned = handMadeShow({
      corners: corners.map(({ x, y, height }) => ({ x: x / 2000, y: -y / 2000, height })),
      turn: "counterclockwise",
    });
    const sheet = roomSheet(turned.arrangement, turned.document);
    const wall = sheet.frames.find((frame) => frame.wall === "A~B");
    expect(wall).toBeDefined();
    // Seen from inside a room named counterclockwise, the wall's second corner is at the left.
    const height = sheet.known.find(({ name }) => name === "A-B height at B");
    expect(height?.from.x).toBeLessThan(wall?.origin.x ?? 0);
  });
});
