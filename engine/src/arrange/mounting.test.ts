import { assert, boolean, double, integer, property } from "fast-check";
import { describe, expect, it } from "vitest";
import type { Mount, ShowDocument } from "../document/tables.ts";
import { middleOf } from "../plane/outline.ts";
import { arranged, moved, type RoomWish } from "../testing/arranged.ts";
import { onWall } from "../testing/carried.ts";
import { arrangeRooms, createArrange } from "./derive.ts";
import type { Mounted } from "./model.ts";

const HALL: RoomWish = {
  corners: [
    [0, 0],
    [5000, 300],
    [4700, -3900],
    [-200, -4100],
  ],
  pieces: [{ name: "Shelf", size: [600, 200, 30], lift: 40, count: 3, at: [] }],
};

const mountOf = (wall: number, said: Partial<Mount> = {}): Mount => ({
  id: "m",
  piece: "p0",
  room: "room",
  number: 1,
  from: `K${wall}`,
  to: `K${(wall + 1) % 4}`,
  datum: `K${wall}`,
  offset: 1000,
  up: 1200,
  ...said,
});

function fixedIn(
  wish: RoomWish,
  mounts: readonly Mount[],
): {
  readonly document: ShowDocument;
  readonly room: ReturnType<typeof arranged>["room"];
  readonly mounted: readonly Mounted[];
} {
  const { document, room } = arranged(wish);
  const fixed = { ...document, mounts: Object.fromEntries(mounts.map((one) => [one.id, one])) };
  return { document: fixed, room, mounted: arrangeRooms(fixed, [room])[0]!.mounted };
}

describe("what is fixed to a wall", () => {
  it("has its back on the wall's face, its middle where it was said, and its underside at the said height", () => {
    const plain: RoomWish = {
      ...HALL,
      corners: [
        [0, 0],
        [5000, 0],
        [5000, -4000],
        [0, -4000],
      ],
      baseDepth: 19,
    };
    const [one] = fixedIn(plain, [mountOf(0)]).mounted;
    const ys = one!.outline.flat().map(({ y }) => y);
    const xs = one!.outline.flat().map(({ x }) => x);
    expect([Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]).toEqual([
      700, 1300, -200, 0,
    ]);
    expect([one!.wall, one!.along, one!.width, one!.depth]).toEqual(["K0~K1", 1000, 600, 200]);
    // The underside of the piece's frame is said; its one board begins 40 above that.
    expect([one!.low, one!.high]).toEqual([1200, 1270]);
    expect([one!.blocks[0]!.low, one!.blocks[0]!.high]).toEqual([1240, 1270]);
  });

  it("is measured from the corner that was said", () => {
    const length = Math.hypot(5000, 300);
    const [one] = fixedIn(HALL, [mountOf(0, { datum: "K1" })]).mounted;
    expect(one!.along).toBeCloseTo(length - 1000, 6);
  });

  it("is nowhere, and waits for nothing, where its wall or its piece is not there", () => {
    expect(fixedIn(HALL, [mountOf(0, { to: "K2" })]).mounted).toEqual([]);
    expect(fixedIn(HALL, [mountOf(0, { piece: "lost" })]).mounted).toEqual([]);
  });

  it("takes its copy out of the tray", () => {
    const { document, room } = fixedIn(HALL, [mountOf(0, { number: 2 })]);
    expect(arrangeRooms(document, [room])[0]!.tray.map(({ numbers }) => numbers)).toEqual([[1, 3]]);
  });

  it("is named and listed by piece and number", () => {
    const mounts = [
      mountOf(1, { id: "a", number: 3 }),
      mountOf(0, { id: "b", number: 1 }),
      mountOf(2, { id: "c", number: 2 }),
    ];
    expect(fixedIn(HALL, mounts).mounted.map(({ name }) => name)).toEqual(["Shelf 1", "Shelf 2", "Shelf 3"]);
  });

  it("stays the very same while something else in the room moves", () => {
    const wish = {
      ...HALL,
      pieces: [
        ...HALL.pieces!,
        { name: "Crate", size: [300, 300, 300] as const, at: [[2000, -2000, 0] as const] },
      ],
    };
    const { document, room } = fixedIn(wish, [mountOf(0)]);
    const arrange = createArrange();
    const [before] = arrange(document, [room]);
    const crate = { ...document.placements["p1.1"]!, x: 2100 };
    const [after] = arrange({ ...document, placements: { ...document.placements, "p1.1": crate } }, [room]);
    expect(after!.mounted[0]).toBe(before!.mounted[0]);
  });

  it("is made anew alone where it is moved along its wall, or its piece is changed", () => {
    const wish = {
      ...HALL,
      pieces: [...HALL.pieces!, { name: "Hook", size: [60, 90, 90] as const, at: [] }],
    };
    const mounts = [
      mountOf(0, { id: "a" }),
      mountOf(1, { id: "b", number: 2 }),
      mountOf(2, { id: "c", piece: "p1" }),
    ];
    const { document, room } = fixedIn(wish, mounts);
    const arrange = createArrange();
    const [before] = arrange(document, [room]);
    const slid = { ...document, mounts: { ...document.mounts, a: { ...mounts[0]!, offset: 1500 } } };
    const [after] = arrange(slid, [room]);
    expect(after!.mounted.map((one, index) => one === before!.mounted[index])).toEqual([false, true, true]);
    const hook = { ...document.pieces["p1"]!, name: "Peg" };
    const [renamed] = arrange({ ...slid, pieces: { ...document.pieces, p1: hook } }, [room]);
    expect(renamed!.mounted.map((one, index) => one === after!.mounted[index])).toEqual([true, true, false]);
    expect(renamed!.mounted[2]!.name).toBe("Peg");
  });

  it("is where vectors from corner to corner put it, in rooms turned, mirrored and shifted", () => {
    assert(
      property(
        integer({ min: 0, max: 3 }),
        double({ min: 0, max: 4000, noNaN: true }),
        double({ min: -180, max: 180, noNaN: true }),
        boolean(),
        boolean(),
        (wall, offset, turn, mirror, fromEnd) => {
          const shape = { outline: [[-250, -150] as const, [350, -50] as const, [100, 90] as const] };
          const pieces = [{ name: "Tail", size: [600, 240, 100] as const, ...shape, count: 1, at: [] }];
          const wish = moved({ ...HALL, pieces }, { turn, mirror, shift: [700, -300] });
          const mount = mountOf(wall, { offset, ...(fromEnd ? { datum: `K${(wall + 1) % 4}` } : {}) });
          const { room, mounted } = fixedIn(wish, [mount]);
          const scene = { corners: room.corners, back: 90, inside: middleOf(room.corners) };
          for (const [x, y] of shape.outline) {
            const wanted = onWall(mount, { x, y }, scene);
            const away = mounted[0]!.blocks.flatMap(({ outline }) =>
              outline.map((p) => Math.hypot(p.x - wanted.x, p.y - wanted.y)),
            );
            expect(Math.min(...away)).toBeLessThan(1e-6);
          }
        },
      ),
      { seed: 44, numRuns: 200 },
    );
  });
});
