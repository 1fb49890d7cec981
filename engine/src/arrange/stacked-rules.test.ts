import { assert, array, constantFrom, double, integer, property, record } from "fast-check";
import { describe, expect, it } from "vitest";
import type { Placement, ShowDocument } from "../document/tables.ts";
import { arranged, type PieceWish } from "../testing/arranged.ts";
import { inRoom, undersideOf } from "../testing/carried.ts";
import { ROOM, snagsOf, type BoxWish, type FixedWish } from "../testing/fixed.ts";
import { ringsMeet, type Ring } from "../testing/free-floor.ts";
import { arrangeRooms } from "./derive.ts";
import { arrangeSnags } from "./rules.ts";

const COUNTER: BoxWish = { name: "Counter", at: [2000, -2000], size: [1800, 600, 900] };

/** On the counter, its middle so far along. */
const urn = (x: number, name = "Urn"): BoxWish => ({
  name,
  at: [x, -2000],
  size: [300, 300, 400],
  low: 900,
  layer: "accessory",
  on: "Counter",
});

/** Over the counter's left half, its underside so high. */
const board = (low: number): BoxWish => ({
  name: "Board",
  at: [1500, -2000],
  size: [800, 100, 400],
  low,
  layer: "hung",
});

const shelf = (said: Partial<FixedWish> = {}): FixedWish => ({
  name: "Shelf",
  wall: 0,
  along: 3000,
  low: 1000,
  size: [600, 200, 300],
  ...said,
});

/** Ids of the pairs that are said to stand in one place. */
const overlaps = (...things: Parameters<typeof snagsOf> extends [unknown, ...infer Rest] ? Rest : never) =>
  snagsOf("pieces-overlap", ...things).map((snag) => snag.things.toSorted().join(" "));

const chimney = {
  wall: 0,
  offset: 1000,
  kind: "projection" as const,
  width: 800,
  depth: 300,
  name: "chimney breast",
};
const besideChimney = (along: number) =>
  overlaps({ fixed: [shelf({ along })] }, { fixtures: [chimney] }).length;

describe("what is fixed beside the venue's projection", () => {
  it("stands in it from a millimetre on", () => {
    expect([besideChimney(2099), besideChimney(2100), besideChimney(2101)]).toEqual([1, 0, 0]);
  });
});

const outAt = (y: number) => snagsOf("outside-room", { boxes: [{ ...urn(2000), at: [2000, y] }] }).length;
const hungAtWall = (low: number) =>
  snagsOf("outside-room", { boxes: [{ ...board(low), at: [1500, -50] }] }, { baseDepth: 20 }).length;

const heights = [2600, 2600, 2600, 2600];
const tallHung = (low: number) => snagsOf("too-tall", { boxes: [COUNTER, board(low)] }, { heights }).length;
const tallCarried = (height: number) =>
  snagsOf("too-tall", { boxes: [COUNTER, { ...urn(2000), size: [300, 300, height] }] }, { heights }).length;

const SPRINKLED = {
  fixtures: [{ wall: 0, offset: 2000, out: 2000, up: 2500, kind: "sprinkler" as const }],
};
/** 18 in under the deflector, and so much more or less. */
const CLEAR = 18 * 25.4;
const hungTo = (more: number) =>
  snagsOf("sprinkler-clearance", { boxes: [board(2100 - CLEAR + more)] }, SPRINKLED).length;
const carriedTo = (more: number) =>
  snagsOf(
    "sprinkler-clearance",
    { boxes: [COUNTER, { ...urn(2000), size: [300, 300, 1600 - CLEAR + more] }] },
    SPRINKLED,
  ).map(({ things }) => things[0]);

describe("the room round what is carried, hung and fixed", () => {
  it("lets what is fixed touch its wall", () => {
    expect(snagsOf("outside-room", { fixed: [shelf(), shelf({ name: "Hook", wall: 1 })] })).toEqual([]);
  });

  it("stops what is carried a millimetre through a wall, however well its host stands", () => {
    expect([outAt(-149), outAt(-150), outAt(-151)]).toEqual([1, 0, 0]);
  });

  it("counts base trim only for what begins below its top", () => {
    expect([hungAtWall(183), hungAtWall(184), hungAtWall(185)]).toEqual([1, 0, 0]);
  });

  it("measures tops from the floor, whatever is below: too tall by the millimetre", () => {
    expect([tallHung(2201), tallHung(2200), tallHung(2199)]).toEqual([1, 0, 0]);
    expect([tallCarried(1701), tallCarried(1700), tallCarried(1699)]).toEqual([1, 0, 0]);
  });

  it("keeps 18 in under a deflector clear of what is carried and hung too (NFPA 13 as quoted in city fire guidelines)", () => {
    expect([hungTo(1), hungTo(0), hungTo(-1)]).toEqual([1, 0, 0]);
    expect([carriedTo(1), carriedTo(0), carriedTo(-1)]).toEqual([["Urn"], [], []]);
  });
});

/** A copy of one of three boxes somewhere, maybe hung or on the copy listed before. */
interface Somewhere {
  readonly piece: number;
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly how: "stands" | "hangs" | "lies";
  readonly up: number;
}

const SIZES: readonly (readonly [number, number, number])[] = [
  [1200, 500, 700],
  [500, 400, 300],
  [250, 200, 150],
];

const PIECES: readonly PieceWish[] = SIZES.map((size, index) => ({
  name: `Box ${index}`,
  size,
  count: 9,
  at: [],
}));

const somewhere = record({
  piece: integer({ min: 0, max: 2 }),
  x: double({ min: 1700, max: 2900, noNaN: true }),
  y: double({ min: -2500, max: -1500, noNaN: true }),
  turn: double({ min: -180, max: 180, noNaN: true }),
  how: constantFrom("stands" as const, "hangs" as const, "lies" as const),
  up: integer({ min: 300, max: 1500 }),
});

function documentOf(wanted: readonly Somewhere[]): {
  readonly document: ShowDocument;
  readonly room: ReturnType<typeof arranged>["room"];
} {
  const { document, room } = arranged({ ...ROOM, pieces: PIECES });
  const placements = wanted.map(({ piece, x, y, turn, how, up }, index): Placement => {
    const base = { id: `c${index}`, piece: `p${piece}`, room: "room", number: index + 1, turn };
    // In the frame of the one before, near its middle, so that most lie on it.
    if (how === "lies" && index > 0)
      return { ...base, on: `c${index - 1}`, x: (x - 2300) / 4, y: (y + 1900) / 8, up: 0 };
    return { ...base, x, y, up: how === "hangs" ? up : 0 };
  });
  return {
    document: { ...document, placements: Object.fromEntries(placements.map((one) => [one.id, one])) },
    // Nobody walks in, so that no ways are looked for.
    room: { ...room, room: { ...room.room, entered: false } },
  };
}

/** A copy's box by the second way: its corners, drawn in by so much all round, and its heights. */
function boxOf(document: ShowDocument, id: string, by: number) {
  const [width, depth, height] = SIZES[Number(document.placements[id]!.piece.slice(1))]!;
  const [w, d] = [width / 2 - by, depth / 2 - by];
  const ring: Ring = [
    [-w, -d],
    [w, -d],
    [w, d],
    [-w, d],
  ].map(([x, y]) => {
    const at = inRoom(document, id, { x: x!, y: y! })!;
    return [at.x, at.y] as const;
  });
  const low = undersideOf(document, id);
  return { ring, low: low + by, high: low + height - by };
}

function meetDrawnIn(document: ShowDocument, [one, other]: readonly [string, string], by: number): boolean {
  const [a, b] = [boxOf(document, one, by), boxOf(document, other, by)];
  return Math.min(a.high, b.high) > Math.max(a.low, b.low) && ringsMeet(a.ring, b.ring);
}

describe("random boxes standing, hung and on one another", () => {
  it("overlap where a clipping library finds them in one place, a millimetre either side", () => {
    let met = 0;
    assert(
      property(array(somewhere, { minLength: 4, maxLength: 7 }), (wanted) => {
        const { document, room } = documentOf(wanted);
        const snags = arrangeSnags(arrangeRooms(document, [room]), document);
        const told = new Set(
          snags
            .filter(({ rule }) => rule === "pieces-overlap")
            .map(({ things }) => things.toSorted().join(" ")),
        );
        const ids = Object.keys(document.placements);
        for (const [index, one] of ids.entries())
          for (const other of ids.slice(index + 1)) {
            const said = told.has([one, other].toSorted().join(" "));
            if (meetDrawnIn(document, [one, other], 0.5))
              expect([one, other, said]).toEqual([one, other, true]);
            else if (!meetDrawnIn(document, [one, other], -0.5))
              expect([one, other, said]).toEqual([one, other, false]);
            if (said) met += 1;
          }
      }),
      { seed: 61, numRuns: 80 },
    );
    expect(met).toBeGreaterThan(100);
  });
});
