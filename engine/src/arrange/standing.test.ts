import { assert, constantFrom, double, integer, property, record, uniqueArray } from "fast-check";
import { describe, expect, it } from "vitest";
import {
  emptyDocument,
  EMPTY_SHOW,
  type Piece,
  type Placement,
  type ShowDocument,
  type Solid,
} from "../document/tables.ts";
import { inRoom, undersideOf } from "../testing/carried.ts";
import { createStand, toHost } from "./standing.ts";
import type { Standing } from "./model.ts";

const piece = (id: string, count = 1): Piece => ({
  id,
  name: id,
  order: 0,
  layer: "furniture",
  count,
  sits: false,
});

const box = (of: string, order: number, said: Partial<Solid> = {}): Solid => ({
  id: `${of}.${order}`,
  piece: of,
  order,
  shape: "box",
  x: 0,
  y: 0,
  z: 0,
  turn: 0,
  width: 400,
  depth: 300,
  height: 500,
  ...said,
});

const copy = (id: string, of: string, said: Partial<Placement> = {}): Placement => ({
  id,
  piece: of,
  room: "room",
  number: 1,
  x: 0,
  y: 0,
  turn: 0,
  up: 0,
  ...said,
});

const keyed = <R extends { readonly id: string }>(records: readonly R[]) =>
  Object.fromEntries(records.map((one) => [one.id, one]));

function show(
  pieces: readonly Piece[],
  solids: readonly Solid[],
  placements: readonly Placement[],
): ShowDocument {
  return {
    ...emptyDocument(EMPTY_SHOW),
    pieces: keyed(pieces),
    solids: keyed(solids),
    placements: keyed(placements),
  };
}

const TABLE = [
  piece("table"),
  box("table", 0, { width: 1200, depth: 600, height: 700 }),
  box("table", 1, { x: 450, y: 0, z: 700, width: 300, depth: 600, height: 200 }),
] as const;
const [table, top, shelf] = TABLE;
const URN = [piece("urn"), box("urn", 0, { width: 100, depth: 100, height: 250 })] as const;
const [urn, urnBox] = URN;

const still = show(
  [table, urn],
  [top, shelf, urnBox],
  [
    copy("t", "table", { x: 2000, y: -1500, turn: 90 }),
    copy("u", "urn", { on: "t", x: -300, y: 100, turn: 30 }),
    copy("v", "urn", { on: "t", x: 450, y: 0 }),
    copy("w", "urn", { on: "v" }),
    copy("alone", "urn", { x: 100, y: -100 }),
  ],
);

const inOrder = (document: ShowDocument, stand = createStand()): ReadonlyMap<string, Standing> =>
  new Map(
    [...stand(document).byRoom.values()].flat().map((standing) => [standing.placement.id, standing] as const),
  );

const moved = (document: ShowDocument, id: string, said: Partial<Placement>): ShowDocument => ({
  ...document,
  placements: { ...document.placements, [id]: { ...document.placements[id]!, ...said } },
});

/** Underside of an urn whose foot stands 80 right of its origin, on the table. */
const lowLeaning = (x: number): number => {
  const leaning = box("urn", 0, { x: 80, width: 100, depth: 100, height: 250 });
  const document = show(
    [table, urn],
    [top, shelf, leaning],
    [copy("t", "table"), copy("u", "urn", { on: "t", x })],
  );
  return inOrder(document).get("u")!.low;
};

/** Underside of an urn on a round post with a narrower one upon it, so far from its middle. */
const lowOnPost = (x: number): number => {
  const post = box("post", 0, { shape: "cylinder", width: 400, depth: 400, height: 300 });
  const cap = box("post", 1, { shape: "cylinder", width: 100, depth: 100, z: 300, height: 400 });
  const document = show(
    [piece("post"), urn],
    [post, cap, urnBox],
    [copy("p", "post"), copy("u", "urn", { on: "p", x: x * Math.cos(0.7), y: x * Math.sin(0.7) })],
  );
  return inOrder(document).get("u")!.low;
};

const hostOf = (all: ReadonlyMap<string, Standing>, one: Standing): Standing => all.get(one.on!)!;

describe("what stands on another copy", () => {
  it("is where the other's frame says, on the highest of it under the middle of its foot", () => {
    const all = inOrder(still);
    const u = all.get("u")!;
    // The table is turned a quarter: its right is up the room, its back to the left.
    expect(u.stand).toEqual({ x: 1900, y: -1800, turn: 120 });
    expect([u.low, u.height, u.on]).toEqual([700, 950, "t"]);
    expect(all.get("v")!.low).toBe(900);
    expect([all.get("w")!.low, all.get("w")!.height]).toEqual([1150, 1400]);
  });

  it("rests on what is under the middle of its foot, not under its origin, a millimetre either side", () => {
    // The shelf begins 300 right of the table's middle.
    expect([lowLeaning(300 - 80 - 1), lowLeaning(300 - 80 + 1)]).toEqual([700, 900]);
  });

  it("rests on a round top by its true circle", () => {
    expect([lowOnPost(49), lowOnPost(51), lowOnPost(199)]).toEqual([700, 300, 300]);
  });

  it("moves with it, and nothing else is made anew", () => {
    const stand = createStand();
    const before = inOrder(still, stand);
    const after = inOrder(moved(still, "t", { x: 2100, turn: 45 }), stand);
    const anew = [...after].filter(([id, one]) => before.get(id) !== one).map(([id]) => id);
    expect(anew.toSorted()).toEqual(["t", "u", "v", "w"]);
    for (const id of ["u", "v", "w"]) {
      const [own, then] = [after.get(id)!, before.get(id)!];
      const [now, was] = [toHost(own.stand, hostOf(after, own)), toHost(then.stand, hostOf(before, then))];
      expect([now.x, now.y]).toEqual([expect.closeTo(was.x, 6), expect.closeTo(was.y, 6)]);
      expect(own.low).toBe(then.low);
    }
  });

  it("is made anew alone where it is moved alone", () => {
    const stand = createStand();
    const before = inOrder(still, stand);
    const after = inOrder(moved(still, "u", { x: 0 }), stand);
    expect([...after].filter(([id, one]) => before.get(id) !== one).map(([id]) => id)).toEqual(["u"]);
  });

  it("is in the room of what it stands on, whatever its own record says", () => {
    const { byRoom } = createStand()(moved(still, "t", { room: "attic" }));
    expect(byRoom.get("attic")?.map(({ placement }) => placement.id)).toEqual(["t", "u", "v", "w"]);
    expect(byRoom.get("room")?.map(({ placement }) => placement.id)).toEqual(["alone"]);
  });

  it("rises with what it stands on where that is made higher", () => {
    const stand = createStand();
    inOrder(still, stand);
    const higher = { ...still, solids: { ...still.solids, [top.id]: { ...top, height: 750 } } };
    expect(inOrder(higher, stand).get("u")!.low).toBe(750);
  });
});

describe("what stands on something lost", () => {
  it("waits in the tray, and so does all that stands on it", () => {
    const { t: _, ...placements } = still.placements;
    const { byRoom, tray } = createStand()({ ...still, placements });
    expect(byRoom.get("room")?.map(({ placement }) => placement.id)).toEqual(["alone"]);
    expect(tray.map(({ piece: { id }, count }) => [id, count])).toEqual([["table", 1]]);
  });

  it("counts as waiting by its own number", () => {
    const two = piece("urn", 2);
    const lost = show([table, two], [top, shelf, urnBox], [copy("x", "urn", { number: 2, on: "gone" })]);
    expect(createStand()(lost).tray.map(({ piece: { id }, numbers }) => [id, numbers])).toEqual([
      ["table", [1]],
      ["urn", [1, 2]],
    ]);
  });

  it("is never waited for: copies on one another in a ring, and those on them, wait", () => {
    const ring = moved(moved(still, "t", { on: "w" }), "v", { on: "t" });
    expect([...inOrder(ring).keys()]).toEqual(["alone"]);
    expect([...inOrder(moved(still, "t", { on: "t" })).keys()]).toEqual(["alone"]);
  });

  it("fits however long the chain, whichever end is listed first", () => {
    const count = 20_000;
    const chain = Array.from({ length: count }, (_, k) =>
      copy(`c${k}`, "urn", k + 1 < count ? { on: `c${k + 1}`, x: 1 } : { x: 5 }),
    );
    const all = inOrder(show([urn], [urnBox], chain));
    expect(all.get("c0")!.low).toBe(250 * (count - 1));
    expect(all.get("c0")!.stand.x).toBeCloseTo(5 + count - 1, 3);
  });
});

const stackOf = (
  list: readonly { readonly x: number; readonly y: number; readonly turn: number; readonly on: number }[],
): ShowDocument =>
  show(
    [table],
    [top, shelf],
    list.map(({ on, ...place }, k) =>
      copy(`c${k}`, "table", {
        ...place,
        ...(on < 0 || on >= list.length ? { up: 10 * k } : { on: `c${on}` }),
      }),
    ),
  );

describe("random stacks", () => {
  const turn = integer({ min: -360, max: 360 });
  const near = double({ min: -500, max: 500, noNaN: true });
  const said = record({ x: near, y: near, turn, on: integer({ min: -1, max: 7 }) });
  const stacks = uniqueArray(said, { minLength: 2, maxLength: 8 });

  it("are where a second way of working them out puts them, or wait where it finds no place", () => {
    const corner = { x: 600, y: -300 };
    assert(
      property(stacks, (list) => {
        const document = stackOf(list);
        const all = inOrder(document);
        for (const id of Object.keys(document.placements)) {
          const wanted = inRoom(document, id, corner);
          const standing = all.get(id);
          expect(standing === undefined).toBe(wanted === undefined);
          if (!standing || !wanted) continue;
          const away = standing.blocks[0]!.outline.map((p) => Math.hypot(p.x - wanted.x, p.y - wanted.y));
          expect(Math.min(...away)).toBeLessThan(1e-6);
          expect(standing.low).toBe(undersideOf(document, id));
        }
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  it("are the same whether stood anew or one change after another", () => {
    const change = record({
      at: integer({ min: 0, max: 7 }),
      x: near,
      on: constantFrom("stay", "floor", "c0", "c1", "c2"),
    });
    assert(
      property(stacks, uniqueArray(change, { minLength: 1, maxLength: 6 }), (list, changes) => {
        const stand = createStand();
        let document = stackOf(list);
        inOrder(document, stand);
        for (const { at, x, on } of changes) {
          const id = `c${at % list.length}`;
          const { on: was, ...rest } = document.placements[id]!;
          const host = on === "stay" ? was : on === "floor" ? undefined : on;
          const now = { ...rest, x, ...(host === undefined ? {} : { on: host }) };
          document = { ...document, placements: { ...document.placements, [id]: now } };
          expect(inOrder(document, stand)).toEqual(inOrder(document));
        }
      }),
      { seed: 42, numRuns: 200 },
    );
  });
});

describe("a place in room axes, said in the frame of a host", () => {
  it("is where the host's frame puts it back", () => {
    assert(
      property(
        double({ min: -5000, max: 5000, noNaN: true }),
        double({ min: -5000, max: 5000, noNaN: true }),
        integer({ min: -360, max: 360 }),
        (x, y, turn) => {
          const stand = createStand();
          const host = inOrder(moved(still, "t", { x: 1234, y: -987, turn: 37 }), stand).get("t")!;
          const on = toHost({ x, y, turn }, host);
          const back = inOrder(moved(moved(still, "t", { x: 1234, y: -987, turn: 37 }), "u", on)).get("u")!;
          expect([back.stand.x, back.stand.y, back.stand.turn]).toEqual([
            expect.closeTo(x, 6),
            expect.closeTo(y, 6),
            expect.closeTo(turn, 6),
          ]);
        },
      ),
      { seed: 43, numRuns: 100 },
    );
  });
});
