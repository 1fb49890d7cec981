import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Stock } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { judgeLengths } from "../solve/lengths-judge.ts";
import { solveLengths } from "../solve/lengths.ts";
import { handMadeRoom } from "../testing/hand-made.ts";
import { box, covering, onWall, roll, worksIn } from "../testing/hangings.ts";
import { randomRoom, randomStream } from "../testing/rooms.ts";
import type { WallWork } from "./model.ts";
import { coverShares } from "./shares.ts";

// — Strips at random, on rooms at random, held to arithmetic written here —

interface Trial {
  readonly room: TrueRoom;
  readonly stock: Stock;
  readonly work: WallWork;
  /** Corner heights at the wall's left and right as seen from inside; its length; what stands on it, x from the left. */
  readonly heights: readonly [number, number];
  readonly length: number;
  readonly mass?: readonly [number, number];
  readonly door: { readonly left: number; readonly right: number; readonly high: number };
  readonly turns: readonly [number, number];
}

interface Way {
  readonly seed: number;
  readonly mirrored?: boolean;
  readonly turned?: number;
}

/** A wall of a random room with a door in its first third and sometimes a mass in its last. */
function trial({ seed, mirrored = false, turned = 0 }: Way): Trial {
  const random = randomStream(seed * 31 + 5);
  const { corners, heights } = randomRoom(seed);
  const flip = mirrored ? -1 : 1;
  const [cos, sin] = [Math.cos(turned), Math.sin(turned)];
  const places = corners.map(({ x, y }, index) => ({
    x: flip * x * cos - y * sin,
    y: flip * x * sin + y * cos,
    height: heights[index]!,
  }));
  const count = places.length;
  const wall = Math.floor(random() * count);
  const next = (wall + 1) % count;
  const length = Math.hypot(places[next]!.x - places[wall]!.x, places[next]!.y - places[wall]!.y);
  const doorHigh = 1900 + random() * 200;
  const low = random() < 0.6 ? 0 : random() * 600;
  const high = [undefined, undefined, 2150 + random() * 500, 1000 + random() * 800][Math.floor(random() * 4)];
  // Under a covering that ends below its head no strip is so narrow that the door takes all of it.
  const wide = length * (0.05 + 0.2 * random());
  const door = {
    from: length * 0.1,
    width: high !== undefined && high < 1900 ? Math.min(wide, 300) : wide,
    high: doorHigh,
  };
  const massive = random() < 0.5;
  const mass = { from: length * 0.7, width: length * 0.15 };
  const open = random() < 0.3 ? (wall + 1) % count : undefined;
  const room = handMadeRoom({
    corners: places,
    turn: mirrored ? "counterclockwise" : "clockwise",
    openings: [{ wall, offset: door.from, width: door.width, height: door.high }],
    fixtures: massive
      ? [{ wall, offset: mass.from, width: mass.width, depth: 300, kind: "projection", up: 0 }]
      : [],
    ...(open === undefined ? {} : { open: [open] }),
  });
  const repeat = random() < 0.5 ? 0 : 200 + random() * 500;
  const stock = roll({
    width: 400 + random() * 900,
    length: 9000 + random() * 20_000,
    repeat,
    match: repeat === 0 ? "free" : random() < 0.5 ? "drop" : "straight",
  });
  const said = covering({
    from: room.corners[wall]!.id,
    to: room.corners[next]!.id,
    lap: random() < 0.3 ? 0 : random() * 30,
    turn: random() * 50,
    extra: random() * 150,
    low,
    fixing: "battens",
    batten: "lath",
    ...(high === undefined ? {} : { high }),
  });
  const [work] = worksIn(room, [said], stock);
  if (!work) throw new Error(`seed ${seed} hangs nothing`);
  // From inside, the first corner of a clockwise room's wall is on the left.
  const x = (from: number, to: number): readonly [number, number] =>
    mirrored ? [length - to, length - from] : [from, to];
  const [left, right] = x(door.from, door.from + door.width);
  const ends = mirrored ? [next, wall] : [wall, next];
  const turnAt = (corner: number): number => {
    const [a, b, c] = [places[(corner + count - 1) % count]!, places[corner]!, places[(corner + 1) % count]!];
    const around = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    const inside = mirrored ? around > 0 : around < 0;
    const beside = corner === next ? (wall + 1) % count : (wall + count - 1) % count;
    return inside && beside !== open ? said.turn : 0;
  };
  return {
    room,
    stock,
    work,
    length,
    heights: [heights[ends[0]!]!, heights[ends[1]!]!],
    door: { left, right, high: door.high },
    ...(massive ? { mass: x(mass.from, mass.from + mass.width) } : {}),
    turns: [turnAt(ends[0]!), turnAt(ends[1]!)],
  };
}

const ceiling = ({ heights: [left, right], length }: Trial, x: number): number =>
  left + ((right - left) * Math.min(length, Math.max(0, x))) / length;
const topAt = (one: Trial, x: number): number =>
  Math.min(one.work.covering.high ?? Infinity, ceiling(one, x));

const ways = fc.record({
  seed: fc.integer({ min: 1, max: 5000 }),
  mirrored: fc.boolean(),
  turned: fc.double({ min: 0, max: 6.3, noNaN: true }),
});
const always = (law: (one: Trial) => void, numRuns = 150): void => {
  fc.assert(
    fc.property(ways, (way) => law(trial(way))),
    { seed: 2027, numRuns },
  );
};

describe("strips on any wall of any room", () => {
  it("cover each face from end to end with just the lap between neighbours, the first as wide as the last", () => {
    always((one) => {
      const { work, stock, mass, length, turns } = one;
      const faces: (readonly [number, number])[] = mass
        ? [
            [-turns[0], mass[0]],
            [mass[1], length + turns[1]],
          ]
        : [[-turns[0], length + turns[1]]];
      let told = 0;
      for (const [from, to] of faces) {
        const strips = work.strips.filter(({ left, right }) => left >= from - 0.01 && right <= to + 0.01);
        told += strips.length;
        const step = stock.width - work.covering.lap;
        expect(strips).toHaveLength(Math.max(1, Math.ceil((to - from - work.covering.lap) / step - 1e-6)));
        expect(strips[0]!.left).toBeCloseTo(from, 4);
        expect(strips.at(-1)!.right).toBeCloseTo(to, 4);
        strips.slice(1).forEach((strip, index) => {
          expect(strips[index]!.right - strip.left).toBeCloseTo(work.covering.lap, 4);
        });
        for (const strip of strips.slice(1, -1)) expect(strip.right - strip.left).toBeCloseTo(stock.width, 4);
        const [first, last] = [strips[0]!, strips.at(-1)!];
        expect(first.right - first.left).toBeCloseTo(last.right - last.left, 4);
        expect(first.right - first.left).toBeLessThanOrEqual(stock.width + 1e-4);
      }
      expect(told).toBe(work.strips.length);
    });
  });

  it("reach up to the ceiling or to what was said, and stand on what they stand on", () => {
    always((one) => {
      const { work, door, length } = one;
      for (const strip of work.strips) {
        const [left, right] = [Math.max(0, strip.left), Math.min(length, strip.right)];
        expect(strip.highLeft).toBeCloseTo(topAt(one, left), 4);
        expect(strip.highRight).toBeCloseTo(topAt(one, right), 4);
        const within = left >= door.left && right <= door.right;
        expect(strip.low).toBe(within ? door.high : work.covering.low);
      }
    });
  });

  it("are cut just as long as they hang with what is cut over, in whole repeats that stay level where they match", () => {
    always(({ work, stock }) => {
      const tops = work.strips.map(({ highLeft, highRight }) => Math.max(highLeft, highRight));
      work.strips.forEach((strip, index) => {
        const top = tops[index]!;
        const hung = top - strip.low + work.covering.extra;
        const drop = stock.match === "drop" && strip.number % 2 === 0 ? stock.repeat / 2 : 0;
        expect(strip.patternDrop).toBe(drop);
        if (stock.match === "free") expect(strip.length).toBeCloseTo(hung, 6);
        else {
          const repeats = strip.length / stock.repeat;
          expect(repeats).toBeCloseTo(Math.round(repeats), 6);
          // The pattern begins at the same lines all along the wall: at the lowest of them that clears its top it is hung.
          const lines = Array.from(
            { length: 60 },
            (_, step) => Math.max(...tops) - drop + (5 - step) * stock.repeat,
          );
          const line = Math.min(...lines.filter((one) => one >= top - 1e-4));
          const left = strip.length - (line - top);
          expect(left).toBeGreaterThanOrEqual(hung - 1e-3);
          expect(left - stock.repeat).toBeLessThan(hung + 1e-3);
        }
      });
    });
  });

  it("have ids of their own, numbered from the left, that stay when the room is turned", () => {
    always(({ work }) => {
      expect(work.strips.map(({ id }) => id)).toEqual(work.strips.map((_, index) => `cover~${index + 1}`));
      const lefts = work.strips.map(({ left }) => left);
      expect(lefts).toEqual(lefts.toSorted((a, b) => a - b));
    });
    const straight = trial({ seed: 12 });
    const turned = trial({ seed: 12, turned: 2.2 });
    expect(turned.work.strips.map(({ id }) => id)).toEqual(straight.work.strips.map(({ id }) => id));
    turned.work.strips.forEach((strip, index) =>
      expect(strip.left).toBeCloseTo(straight.work.strips[index]!.left, 4),
    );
  });

  it("hang the other way round in the mirrored room", () => {
    for (let seed = 1; seed <= 40; seed++) {
      const [one, other] = [trial({ seed }), trial({ seed, mirrored: true })];
      const mirrored = other.work.strips.toReversed();
      expect(mirrored).toHaveLength(one.work.strips.length);
      one.work.strips.forEach((strip, index) => {
        expect(mirrored[index]!.left).toBeCloseTo(one.length - strip.right, 4);
        expect(mirrored[index]!.highLeft).toBeCloseTo(strip.highRight, 4);
      });
      expect(other.work.area).toBeCloseTo(one.work.area, -2);
    }
  });

  it("come from rolls enough, cut as a judge who did not plan them accepts", () => {
    always(({ work, stock }) => {
      const lengths = work.strips.map(({ length }) => length);
      const longest = Math.max(...lengths);
      const total = lengths.reduce((a, b) => a + b, 0);
      expect(work.rolls * stock.length).toBeGreaterThanOrEqual(total - 1e-3);
      expect(work.perRoll).toBe(Math.floor(stock.length / longest + 1e-9));
      const job = { stock: stock.length, kerf: 0, parts: work.strips };
      const plan = solveLengths(job);
      expect(judgeLengths(job, plan)).toEqual([]);
      expect(plan.sticks).toHaveLength(work.rolls);
    }, 60);
  });

  it("cover what is left of the wall's face without openings and masses", () => {
    always((one) => {
      const { work, door, mass, length, heights } = one;
      const { low, high } = work.covering;
      const bend = high === undefined ? [] : [((high - heights[0]) / (heights[1] - heights[0])) * length];
      const cuts = [0, length, door.left, door.right, ...(mass ?? []), ...bend].filter(
        (x) => Number.isFinite(x) && x >= 0 && x <= length,
      );
      const sorted = cuts.toSorted((a, b) => a - b);
      let area = 0;
      sorted.slice(1).forEach((to, index) => {
        const from = sorted[index]!;
        const x = (from + to) / 2;
        if (mass && x > mass[0] && x < mass[1]) return;
        const foot = x > door.left && x < door.right ? Math.max(low, door.high) : low;
        area += (to - from) * Math.max(0, topAt(one, x) - foot);
      });
      // The plane counts whole micrometres: some square millimetres on a wall.
      expect(Math.abs(work.area - area)).toBeLessThan(50);
    });
  });

  it("never cover more than there is of a wall", () => {
    always(({ work, room }) => {
      const [share] = coverShares([work], [room], { rooms: { room: room.room } });
      expect(share!.share).toBeGreaterThanOrEqual(0);
      expect(share!.share).toBeLessThanOrEqual(1 + 1e-9);
      expect(Math.abs(share!.covered - work.area)).toBeLessThan(1);
      const twice = coverShares([work, work], [room], { rooms: { room: room.room } });
      expect(twice[0]!.share).toBeCloseTo(share!.share, 9);
    });
  });

  it("hang from battens that run from end to end and pass no opening and no mass", () => {
    always(({ work, door, mass, length }) => {
      for (const { from, to, up, length: long } of work.battens) {
        expect(long).toBeCloseTo(to - from, 9);
        const meets = (left: number, right: number, high: number): boolean =>
          from < right - 0.1 && to > left + 0.1 && up < high - 0.1;
        expect(meets(door.left, door.right, door.high)).toBe(false);
        if (mass) expect(meets(mass[0], mass[1], 3000)).toBe(false);
      }
      const bottom = work.battens.filter(({ id }) => id.includes("bottom"));
      const gaps =
        (work.covering.low < door.high ? door.right - door.left : 0) + (mass ? mass[1] - mass[0] : 0);
      expect(bottom.reduce((sum, run) => sum + run.length, 0)).toBeCloseTo(length - gaps, 3);
    });
  });
});

describe("a strip that must match", () => {
  // By hand: the ceiling falls by 300 over 3000; strips end at 2800, 2700 and 2600 and the pattern begins at 2800.
  const fall = handMadeRoom({
    corners: [
      { x: 0, y: 0, height: 2800 },
      { x: 3000, y: 0, height: 2500 },
      { x: 3000, y: -4000, height: 2500 },
      { x: 0, y: -4000, height: 2800 },
    ],
  });
  it.each([
    // 2700 is five repeats of 540, and its pattern begins 100 above it.
    ["straight", 540, [3240, 3240, 3240]],
    // The second hangs 270 lower: 100 and 270 above its 2700 make 3070, six repeats.
    ["drop", 540, [3240, 3240, 3240]],
    // 2600 and 200 above it are five of 560; 2700 with 100 are five too; lower by 280 they are six.
    ["straight", 560, [2800, 2800, 2800]],
    ["drop", 560, [2800, 3360, 2800]],
    // 200 above its 2600 are a whole repeat: nothing is lost.
    ["straight", 200, [2800, 2800, 2600]],
  ] as const)("%s by %i mm under a falling ceiling is cut so long", (match, repeat, lengths) => {
    const [work] = worksIn(fall, [covering()], roll({ width: 1000, repeat, match }));
    expect(work!.strips.map(({ length }) => Math.round(length))).toEqual(lengths);
  });
});

describe("a strip", () => {
  const shortWall = { corners: box(6000, 2600).corners.map(({ x, y, height }) => ({ x, y, height })) };
  const fixed = (kind: "projection" | "radiator", up: number, height: number) =>
    handMadeRoom({
      ...shortWall,
      fixtures: [{ wall: 0, offset: 2500, width: 1500, kind, up, height, depth: 300 }],
    });

  const hungBy = (mass: {
    readonly offset: number;
    readonly width: number;
    readonly up: number;
    readonly height: number;
  }) => {
    const fixtures = [{ wall: 0, kind: "projection", ...mass }] as const;
    const [work] = worksIn(handMadeRoom({ ...shortWall, fixtures }), [covering()], roll({ width: 600 }));
    return work!.strips;
  };

  it("stands on a low mass that is wider than it, and hangs to the floor beside it", () => {
    const [work] = worksIn(fixed("projection", 0, 900), [covering()], roll({ width: 600 }));
    const lows = work!.strips.map(({ left, right, low }) => [Math.round(left), Math.round(right), low]);
    expect(lows.filter(([, , low]) => low === 900)).toEqual([[3000, 3600, 900]]);
  });

  it("ends under a beam that is wider than it", () => {
    const [work] = worksIn(fixed("projection", 2200, 400), [covering()], roll({ width: 600 }));
    expect(work!.strips.filter(({ highLeft }) => highLeft === 2200)).toHaveLength(1);
  });

  it.each([
    [6.3, 2400],
    [6.4, 2600],
  ])("at the end of a beam taped %d mm short of the wall's end reaches up to %i", (gap, high) => {
    const strips = hungBy({ offset: 0, width: 6000 - gap, up: 2400, height: 200 });
    expect(strips.map(({ highRight }) => highRight)).toEqual([...Array(9).fill(2400), high]);
  });

  it.each([
    [6.3, 1006.3],
    [6.4, 0],
  ])("begins, where a mass was taped %d mm from the corner, at %d", (gap, left) => {
    const [first] = hungBy({ offset: gap, width: 1000, up: 0, height: 2600 });
    expect(first!.left).toBeCloseTo(left, 6);
  });

  it("leaves a mass bare, which is still wall to look at", () => {
    const room = fixed("projection", 0, 2600);
    const works = worksIn(room, [covering()]);
    const [share] = coverShares(works, [room], { rooms: { room: room.room } });
    expect(share!.wallArea).toBeCloseTo(6000 * 2600, 0);
    expect(share!.covered).toBeCloseTo(4500 * 2600, 0);
  });

  it("has no number where a door as high as the room leaves nothing of it", () => {
    const room = handMadeRoom({
      ...shortWall,
      openings: [{ wall: 0, offset: 600, width: 1200, height: 2600 }],
    });
    const [work] = worksIn(room, [covering()], roll({ width: 600 }));
    expect(work!.strips.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(work!.strips.map(({ left }) => Math.round(left))).toEqual([
      0, 1800, 2400, 3000, 3600, 4200, 4800, 5400,
    ]);
  });

  it("hangs nowhere where the lap eats the roll, or the wall is open, of glass or refused", () => {
    expect(onWall(6000, 2600, { lap: 600 }, { width: 600 }).strips).toEqual([]);
    const room = box(6000, 2600);
    for (const said of [{ open: true }, { glass: true }, { refused: true }]) {
      const walls = room.walls.map((wall, index) => (index === 0 ? { ...wall, ...said } : wall));
      const [work] = worksIn({ ...room, walls }, [covering({ fixing: "battens" })]);
      expect([work!.strips, work!.battens, work!.rolls]).toEqual([[], [], 0]);
    }
  });

  it("is not carried onto what is no wall", () => {
    const room = box(6000, 2600);
    const walls = room.walls.map((wall, index) => (index === 1 ? { ...wall, glass: true } : wall));
    const [work] = worksIn({ ...room, walls }, [covering({ turn: 25 })]);
    expect([work!.strips[0]!.left, work!.strips.at(-1)!.right]).toEqual([-25, 6000]);
  });

  it("needs battens that stop at a door, though nobody has said yet what they are cut from", () => {
    const room = handMadeRoom({ ...shortWall, openings: [{ wall: 0, offset: 1000, width: 900 }] });
    const [work] = worksIn(room, [covering({ fixing: "battens" })]);
    const bottom = work!.battens.filter(({ id }) => id.includes("bottom"));
    expect(bottom.map(({ from, to }) => [from, to])).toEqual([
      [0, 1000],
      [1900, 6000],
    ]);
  });
});
