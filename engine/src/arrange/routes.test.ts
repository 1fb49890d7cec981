import { assert, boolean, double, property } from "fast-check";
import { describe, expect, it } from "vitest";
import { arranged, moved, type Pair, type PieceWish, type RoomWish } from "../testing/arranged.ts";
import { discPasses, discTouches, ringsMeet, type Floor, type Ring } from "../testing/free-floor.ts";
import { randomRoom, randomStream } from "../testing/rooms.ts";
import { arrangeRooms, createArrange } from "./derive.ts";
import type { Arrangement, Route } from "./model.ts";
import { nearestGaps } from "./nearest.ts";
import { judgeWay, waysAsked } from "./route-rules.ts";
import { arrangeSnags } from "./rules.ts";

const IN = 25.4;

const derived = (wish: RoomWish): Arrangement => {
  const { document, room } = arranged(wish);
  return arrangeRooms(document, [room])[0]!;
};

const routeTo = (wish: RoomWish, to: string): Route => {
  const route = derived(wish).routes.find((one) => one.to === to);
  if (!route) throw new Error(`no route to ${to}`);
  return route;
};

/** A hall 10 m long and as wide as wished, a door at either end. */
const hall = (width: number, pieces: readonly PieceWish[]): RoomWish => ({
  corners: [
    [0, 0],
    [10_000, 0],
    [10_000, -width],
    [0, -width],
  ],
  doors: [
    { wall: 1, offset: width / 2 - 500, width: 1000 },
    { wall: 3, offset: width / 2 - 500, width: 1000 },
  ],
  pieces,
});

/** Pieces across a hall that leave gaps of these widths, from the wall at the top down. */
const across = (gaps: readonly number[], thick = 400, long = 600): RoomWish => {
  let y = 0;
  const at = gaps.slice(0, -1).map((gap) => {
    y -= gap + thick;
    return [5000, y + thick / 2, 0] as const;
  });
  return hall(-y + gaps.at(-1)!, [{ name: "Plinth", size: [long, thick, 1000], at }]);
};

const bench = (x: number): PieceWish => ({ name: "Bench", size: [500, 300, 800], at: [[x, -2000, 0]] });

const behind = (apart: number): Route =>
  routeTo(
    hall(6000, [
      { name: "Panel", size: [200, 50, 900], at: [[5000, -25, 0]] },
      { name: "Table", size: [4000, 800, 900], at: [[5000, -50 - apart - 400, 0]] },
    ]),
    "p0.1",
  );

const nearestTo = (x: number) =>
  nearestGaps(
    derived({
      ...hall(4000, [bench(x)]),
      coverings: [
        { name: "Near cloth", x: 5000, y: -2000, width: 2000, depth: 2400 },
        { name: "Far cloth", x: 7500, y: -2000, width: 2000, depth: 2400 },
      ],
    }),
    "p0.1",
  ).map(({ bName, width }) => [bName, Math.round(width)]);

describe("the widest way", () => {
  it("takes the widest of parallel gaps (BOTTLENECK-1: widest path = max over routes of the smallest gap)", () => {
    expect(routeTo(across([900, 1500, 1200]), "d1").pinch?.width).toBeCloseTo(1500, 6);
  });

  it("measures round things by their true circles (GAP-CIRCLES: closed-form plane geometry, 1443.171)", () => {
    const pieces: readonly PieceWish[] = [
      { name: "Drum", size: [800, 800, 900], round: true, at: [[4000, -3000, 0]] },
      { name: "Keg", size: [700, 700, 900], round: true, at: [[6000, -2100, 0]] },
    ];
    const [gap] = nearestGaps(derived(hall(6000, pieces)), "p0.1");
    expect(gap).toMatchObject({ aName: "Drum", bName: "Keg", doubt: 0 });
    expect(gap?.width).toBeCloseTo(1443.171, 2);
  });

  it("passes over the covering a piece stands on as its nearest, and counts one that it stands beside", () => {
    // Wholly on it, half on it, and half a metre off it.
    expect(nearestTo(5000)[0]).toEqual(["Far cloth", 1250]);
    expect(nearestTo(5900)).not.toContainEqual(["Near cloth", 0]);
    expect(nearestTo(3250)[0]).toEqual(["Near cloth", 500]);
  });

  it("counts neither a doorway nor a piece hung above head height as a gap", () => {
    const wish = hall(4000, [
      { name: "Board", size: [600, 3900, 200], lift: 80 * IN, at: [[5000, -2000, 0]] },
    ]);
    // What is left is the way out of a corner by the door, far wider than the door.
    expect(routeTo(wish, "d1").pinch?.width).toBeCloseTo(2500, 6);
    expect(
      routeTo({ ...wish, pieces: [{ ...wish.pieces![0]!, lift: 80 * IN - 1 }] }, "d1").pinch?.width,
    ).toBeCloseTo(50, 6);
  });

  it("counts a piece in front of a door", () => {
    const wish = hall(4000, [{ name: "Crate", size: [400, 1400, 900], at: [[500, -2000, 0]] }]);
    // From either jamb to the near corner of the crate: 200 further along the wall and 300 out.
    expect(routeTo(wish, "d1").pinch?.width).toBeCloseTo(300, 6);
  });

  it("measures to the base trim, and to the bare wall where there is none", () => {
    const wish = across([1000, 800]);
    expect(routeTo(wish, "d1").pinch?.width).toBeCloseTo(1000, 6);
    expect(routeTo({ ...wish, baseDepth: 19 }, "d1").pinch?.width).toBeCloseTo(981, 6);
  });

  it("ends at a covering nobody may walk on, for all that stands on it", () => {
    const wish = hall(4000, [{ name: "Bench", size: [500, 300, 800], at: [[5000, -2000, 0]] }]);
    const cloth = { x: 5000, y: -2000, width: 2000, depth: 2400 };
    const { routes } = derived({ ...wish, coverings: [cloth] });
    expect(routes.map(({ to }) => to)).toEqual(["d1", "c0"]);
    expect(routes[0]?.pinch?.width).toBeCloseTo(800, 6);
    expect(
      derived({ ...wish, coverings: [{ ...cloth, walkable: true }] }).routes.map(({ to }) => to),
    ).toEqual(["d1", "p0.1"]);
  });

  it("ends before a work: neighbours flush in a row along a wall leave the middle one to be reached", () => {
    const row: PieceWish = {
      name: "Shelf",
      size: [600, 300, 900],
      at: [4400, 5000, 5600].map((x) => [x, -150, 0] as const),
    };
    const { routes } = derived(hall(4000, [row]));
    for (const { pinch } of routes) expect(pinch?.width ?? Infinity).toBeGreaterThan(914.4);
  });

  it("stops where a long table leaves nobody room to stand before a work by the wall", () => {
    expect(behind(500).pinch).toMatchObject({ aName: "Panel", bName: "Table" });
    expect(behind(500).pinch?.width).toBeCloseTo(500, 6);
    expect(behind(950).pinch?.width ?? Infinity).toBeGreaterThan(914.4);
  });

  it("stops the one piece that shuts the one door", () => {
    const crate: PieceWish = { name: "Crate", size: [400, 1400, 900], at: [[500, -2000, 0]] };
    const one = hall(4000, [crate]);
    const { pinch } = routeTo({ ...one, doors: [one.doors![1]!] }, "p0.1");
    expect(pinch?.width).toBeCloseTo(300, 6);
  });

  it("is entered through an open side where there is no door, and has no routes where there is neither", () => {
    const wish = { ...across([700, 900]), doors: [] };
    expect(derived(wish).routes).toEqual([]);
    const open = derived({ ...wish, open: [1, 3] }).routes;
    expect(open.find(({ to }) => to === "K3~K0")?.pinch?.width).toBeCloseTo(900, 6);
  });

  it("is the same in a room that is turned, mirrored and shifted", () => {
    const wish = across([900, 1337, 1200]);
    assert(
      property(double({ min: -360, max: 360, noNaN: true }), boolean(), (turn, mirror) => {
        const route = routeTo(moved(wish, { turn, mirror, shift: [1234.5, -987.6] }), "d1");
        expect(route.pinch?.width).toBeCloseTo(1337, 4);
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});

/** The same floor for the validator, from the wish alone: thin closed walls with the two doors left out. */
function floorOf(wish: RoomWish): {
  readonly floor: Floor;
  readonly from: Pair;
  readonly to: Pair;
  readonly pieces: readonly Ring[];
} {
  const { corners, doors = [] } = wish;
  const point = (wall: number, along: number, out: number): Pair => {
    const [[ax, ay], [bx, by]] = [corners[wall]!, corners[(wall + 1) % corners.length]!];
    const length = Math.hypot(bx - ax, by - ay);
    const [dx, dy] = [(bx - ax) / length, (by - ay) / length];
    return [ax + dx * along - dy * out, ay + dy * along + dx * out];
  };
  const walls = corners.flatMap((_, wall): Ring[] => {
    const [[ax, ay], [bx, by]] = [corners[wall]!, corners[(wall + 1) % corners.length]!];
    const length = Math.hypot(bx - ax, by - ay);
    const door = doors.find((one) => one.wall === wall);
    const stretches = door
      ? [
          [0, door.offset],
          [door.offset + door.width, length],
        ]
      : [[0, length]];
    return stretches.map(([from, to]) => [
      point(wall, from!, 0),
      point(wall, to!, 0),
      point(wall, to!, 0.002),
      point(wall, from!, 0.002),
    ]);
  });
  const passages = doors.map((door): Ring => [
    point(door.wall, door.offset, -5),
    point(door.wall, door.offset + door.width, -5),
    point(door.wall, door.offset + door.width, 20),
    point(door.wall, door.offset, 20),
  ]);
  const stand = (index: number): Pair => {
    const door = doors[index]!;
    return point(door.wall, door.offset + door.width / 2, 1);
  };
  const pieces = (wish.pieces ?? []).flatMap(({ size, at }) =>
    at.map(([x, y, turn]): Ring => {
      const [w, d] = [size![0] / 2, size![1] / 2];
      const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      const own: Ring = [
        [-w, -d],
        [w, -d],
        [w, d],
        [-w, d],
      ];
      return own.map(([u, v]): Pair => [x + u * cos - v * sin, y + u * sin + v * cos]);
    }),
  );
  return {
    floor: { rooms: [corners, ...passages], obstacles: [...walls, ...pieces] },
    from: stand(0),
    to: stand(1),
    pieces,
  };
}

/** Widths compared, mm. */
const WIDEST = 1400;

/** A random room without a right angle, two wide doors in its two longest walls, pieces strewn about its middle. */
function strewn(seed: number): RoomWish | undefined {
  const random = randomStream(seed);
  const corners = randomRoom(seed).corners.map(({ x, y }): Pair => [x, y]);
  const lengths = corners.map(([x, y], i) => {
    const [u, v] = corners[(i + 1) % corners.length]!;
    return Math.hypot(u - x, v - y);
  });
  const [first, second] = lengths.map((_, i) => i).toSorted((a, b) => lengths[b]! - lengths[a]!);
  const doors = [first!, second!].map((wall) => ({
    wall,
    offset: lengths[wall]! * 0.1,
    width: lengths[wall]! * 0.8,
  }));
  const middle = [0, 1].map(
    (axis) => corners.reduce((sum, corner) => sum + corner[axis]!, 0) / corners.length,
  );
  // Nothing stands within half a way of a door: what is there would be passed outside, where the validator has no floor.
  const clearOfDoors = (x: number, y: number): boolean =>
    doors.every(({ wall }) => {
      const [[ax, ay], [bx, by]] = [corners[wall]!, corners[(wall + 1) % corners.length]!];
      const share = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / lengths[wall]! ** 2;
      const held = Math.min(1, Math.max(0, share));
      return Math.hypot(ax + (bx - ax) * held - x, ay + (by - ay) * held - y) > WIDEST / 2 + 700;
    });
  const pieces = Array.from({ length: 24 }, (_, k): PieceWish => ({
    name: `Thing ${k}`,
    size: [300 + random() * 900, 200 + random() * 500, 900],
    at: [[middle[0]! + (random() - 0.5) * 7000, middle[1]! + (random() - 0.5) * 7000, random() * 360]],
  })).filter(({ at }) => clearOfDoors(at[0]![0], at[0]![1]));
  return { corners, doors, pieces };
}

describe("the widest way in random rooms", () => {
  it("is what growing every obstacle by half the width says, a millimetre either side", () => {
    let compared = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const wish = strewn(seed)!;
      const { document, room } = arranged(wish);
      const route = arrangeRooms(document, [room])[0]!.routes.find(({ to }) => to === "d1");
      const narrowestDoor = Math.min(...wish.doors!.map(({ width }) => width));
      const width = route?.pinch?.width;
      if (width === undefined || width < 2 || width > Math.min(WIDEST, narrowestDoor) - 2) continue;
      const { floor, from, to } = floorOf(wish);
      const [less, more] = [
        discPasses(floor, width - 1, [from, to]),
        discPasses(floor, width + 1, [from, to]),
      ];
      // Too wide to stand in the door itself: growing obstacles cannot tell whether it would get past.
      if (less === "cannot stand" || more === "cannot stand") continue;
      compared++;
      expect([less, more], `seed ${seed}, width ${width}`).toEqual(["passes", "stopped"]);
    }
    expect(compared).toBeGreaterThan(30);
  });

  it("to a work ends where someone touches its edge: growing obstacles agrees, either way of the figures", () => {
    const clear = waysAsked({ place: "US" }).clear;
    const compared = { passes: 0, stopped: 0 };
    for (let seed = 1; seed <= 24; seed++) {
      const wish = strewn(seed)!;
      const { document, room } = arranged(wish);
      const { routes } = arrangeRooms(document, [room])[0]!;
      const { floor, from, to, pieces } = floorOf(wish);
      for (const route of routes.filter((one) => one.to.startsWith("p"))) {
        const own = pieces[Number(/^p(\d+)/.exec(route.to)![1])]!;
        if (pieces.some((other) => other !== own && ringsMeet(own, other))) continue;
        const width = route.pinch?.width ?? Infinity;
        // Between the two figures either may be said: a standing person is narrower than a way.
        if (width >= 760 && width < clear) continue;
        const [expected, wide] = width < clear ? (["stopped", clear] as const) : (["passes", 740] as const);
        const found = [from, to].map((start) => discTouches(floor, wide, [start, [own]]));
        if (found.includes("cannot stand")) continue;
        compared[expected]++;
        expect(found.includes("passes"), `seed ${seed}, ${route.to}, width ${width}`).toBe(
          expected === "passes",
        );
      }
    }
    expect(Math.min(compared.passes, compared.stopped)).toBeGreaterThan(3);
  });

  it("is the same when everything is worked out anew and when one piece at a time moved there", () => {
    for (let seed = 1; seed <= 12; seed++) {
      const wish = strewn(seed)!;
      const { document, room } = arranged(wish);
      const live = createArrange();
      const rooms = [room];
      live(document, rooms);
      let now = document;
      for (const placement of Object.values(document.placements)) {
        const there = { ...placement, x: placement.x + 211, y: placement.y - 97, turn: placement.turn + 13 };
        now = { ...now, placements: { ...now.placements, [placement.id]: there } };
        const kept = live(now, rooms)[0]!;
        const anew = arrangeRooms(now, rooms)[0]!;
        expect(kept.routes.map(({ pinch }) => pinch?.width)).toEqual(
          anew.routes.map(({ pinch }) => pinch?.width),
        );
        expect(arrangeSnags([kept], now)).toEqual(arrangeSnags([anew], now));
      }
    }
  });
});

const narrows = (wish: RoomWish) => {
  const { document, room } = arranged(wish);
  return arrangeSnags(arrangeRooms(document, [room]), document).filter(
    ({ rule, things }) => rule === "narrow-route" && things.includes("d1"),
  );
};

const pass = (place: "US" | "GB" | "DE", width: number, run: number) =>
  judgeWay({ width, doubt: 0, run }, waysAsked({ place }));

const doubtful = (width: number): RoomWish => ({ ...across([width, 300], 400, 3000), doubt: 5 });

const beforeDoor = (distance: number) =>
  narrows(hall(4000, [{ name: "Crate", size: [400, 1400, 900], at: [[200 + distance, -2000, 0]] }]));

describe("a way's width judged (2010 ADA Standards 403.5.1)", () => {
  const us = waysAsked({ place: "US" });

  it("asks 36 in: 914 mm fails, 915 and 916 pass (ADA-T1)", () => {
    const judged = [914, 915, 916].map((width) => judgeWay({ width, doubt: 0, run: 5000 }, us));
    expect(judged).toEqual(["fails", "passes", "passes"]);
    expect([914, 915, 916].map((width) => narrows(across([width, 100], 400, 3000)).length)).toEqual([
      1, 0, 0,
    ]);
  });

  it("lets 32 in pass for 24 in and not for 24 1/2 in (ADA-T2)", () => {
    const long = (length: number) => narrows(across([32 * IN, 100], 400, length * IN)).length;
    expect([long(24), long(24.5)]).toEqual([0, 1]);
    expect(narrows(across([31.9 * IN, 100], 400, 24 * IN))).toHaveLength(1);
  });

  it("adds up the lengths of things that stand in a row", () => {
    const row: RoomWish = {
      ...hall(32 * IN + 400, []),
      pieces: [
        {
          name: "Plinth",
          size: [15 * IN, 400, 900],
          at: [
            [5000, -32 * IN - 200, 0],
            [5000 + 15 * IN, -32 * IN - 200, 0],
          ],
        },
      ],
      doors: [
        { wall: 1, offset: 50, width: 800 },
        { wall: 3, offset: 350, width: 800 },
      ],
    };
    expect(routeTo(row, "d1").pinch?.run).toBeCloseTo(30 * IN, 4);
    expect(narrows(row)).toHaveLength(1);
  });

  it("cannot tell while the doubt of the room straddles the figure", () => {
    const wish = across([910, 100], 400, 3000);
    expect(narrows(wish)[0]).toMatchObject({ level: "stop", doubt: 0 });
    const [unsure] = narrows({ ...wish, doubt: 10 });
    expect(unsure).toMatchObject({ level: "mind" });
    expect(unsure!.doubt).toBeGreaterThan(6);
    expect(unsure!.sentence).toContain("Cannot tell yet");
    expect(narrows({ ...wish, doubt: 1 })[0]).toMatchObject({ level: "stop" });
  });

  it("says how far to slide so that it passes with all the doubt of the room", () => {
    const [snag] = narrows(doubtful(850));
    const by = Number(/^Slide Plinth (\d+) mm away from wall K0-K1\.$/.exec(snag?.mend ?? "")?.[1]);
    expect(by).toBeGreaterThan(914.4 - 850 + 1.96 * snag!.doubt!);
    expect(by % 5).toBe(0);
    const slid = (more: number) => {
      const before = doubtful(850);
      const piece = before.pieces![0]!;
      const [[x, y, turn]] = piece.at as [readonly [number, number, number]];
      return narrows({ ...before, pieces: [{ ...piece, at: [[x, y - by - more, turn]] }] });
    };
    expect(slid(0)).toEqual([]);
    expect(slid(-5).map(({ level }) => level)).toEqual(["mind"]);
    expect(slid(-5)[0]?.mend).toBe(
      "Measure the room again there. Or: Slide Plinth 5 mm away from wall K0-K1.",
    );
  });

  it("prints the slide in whole quarter inches where the show is in feet and inches", () => {
    const [snag] = narrows({ ...across([36 * IN - 20, 100], 400, 3000), show: { units: "ft-in" } });
    // 20 mm are a little more than three quarters of an inch.
    expect(snag?.mend).toBe('Slide Plinth 1" away from wall K0-K1.');
  });

  it("stops a piece that stands nearer to a door than a way is wide", () => {
    const [near] = beforeDoor(300);
    expect(near).toMatchObject({ level: "stop", things: expect.arrayContaining(["p0.1", "d0"]) as unknown });
    expect(beforeDoor(1000)).toEqual([]);
  });

  it("judges by the place: 1 m passes in the US, not in GB, and 1.2 m not in DE unless it is short", () => {
    expect([pass("US", 1000, 999), pass("GB", 1000, 999), pass("DE", 1200, 999)]).toEqual([
      "passes",
      "fails",
      "fails",
    ]);
    expect(pass("DE", 1500, 999)).toBe("passes");
  });
});
