/** Who comes in where: open sides and doors are ways in, glass is none, and a room nobody enters has no ways to judge. */
import { describe, expect, it } from "vitest";
import type { TrueRoom } from "../measure/model.ts";
import { arranged, type RoomWish } from "../testing/arranged.ts";
import { arrangeRooms } from "./derive.ts";
import { arrangeSnags } from "./rules.ts";

/** A shop window 4 m by 3 m, the first side towards the street, with a counter that leaves 500 mm on either side and a stool behind it. */
const WINDOW: RoomWish = {
  corners: [
    [0, 0],
    [4000, 0],
    [4000, -3000],
    [0, -3000],
  ],
  pieces: [
    { name: "Counter", size: [3000, 600, 900], at: [[2000, -1500, 0]] },
    { name: "Stool", size: [400, 400, 450], at: [[2000, -300, 0]] },
  ],
};

interface Built {
  readonly open?: number;
  readonly glass?: number;
  readonly entered?: boolean;
  readonly doors?: RoomWish["doors"];
}

function built({ open, glass, entered = true, doors = [] }: Built) {
  const { document, room } = arranged({ ...WINDOW, doors, open: open === undefined ? [] : [open] });
  const walls = room.walls.map((wall, index) => ({ ...wall, glass: index === glass }));
  const there: TrueRoom = { ...room, room: { ...room.room, entered }, walls };
  const arrangements = arrangeRooms(document, [there]);
  const snags = arrangeSnags(arrangements, document).map(({ rule }) => rule);
  return { routes: arrangements[0]!.routes, unjudged: arrangements[0]!.unjudged, snags };
}

const ENDS = (found: ReturnType<typeof built>) => [...new Set(found.routes.map(({ from }) => from))];

describe("ways in", () => {
  it("are none through glass: a room with nothing else has no routes and no word about them", () => {
    const found = built({ glass: 0 });
    expect(found.routes).toEqual([]);
    expect(found.unjudged).toBeUndefined();
    expect(found.snags).not.toContain("narrow-route");
  });

  it("are the open side of a room of glass and an open side, and only that", () => {
    const found = built({ glass: 0, open: 2 });
    expect(ENDS(found)).toEqual(["K2~K3"]);
    // The counter leaves 500 beside it on the way to the stool behind it, whichever way round.
    expect(found.routes.find(({ to }) => to === "p1.1")?.pinch?.width).toBeCloseTo(500, 6);
    expect(found.snags).toContain("narrow-route");
  });

  it("are a door within the glass too", () => {
    expect(ENDS(built({ glass: 0, doors: [{ wall: 0, offset: 500, width: 900 }] }))).toEqual(["d0"]);
  });

  it("are not asked for in a room that is only looked into", () => {
    const found = built({ glass: 0, open: 2, entered: false });
    expect(found.routes).toEqual([]);
    expect(found.unjudged).toBeUndefined();
    for (const rule of ["narrow-route", "routes-not-all-judged", "protrusion", "capacity"])
      expect(found.snags).not.toContain(rule);
  });

  it("makes the glass a wall like any other for what stands before it", () => {
    const { document, room } = arranged({
      ...WINDOW,
      pieces: [{ name: "Crate", size: [400, 400, 400], at: [[2000, -199, 0]] }],
    });
    const walls = room.walls.map((wall, index) => ({ ...wall, glass: index === 0 }));
    const snags = arrangeSnags(arrangeRooms(document, [{ ...room, walls }]), document);
    expect(snags.find(({ rule }) => rule === "outside-room")?.things).toEqual(["p0.1", "K0~K1"]);
  });
});
