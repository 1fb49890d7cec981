import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { emptyDocument, type ShowDocument, type Stock, type WallCovering } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { boxOf } from "../sheet/drafting.ts";
import { PAPERS, sideways, type Paper } from "../sheet/papers.ts";
import type { Item, Lettering } from "../sheet/vocabulary.ts";
import { handMadeRoom, handMadeShow, type Wanted } from "../testing/hand-made.ts";
import { randomRoom } from "../testing/rooms.ts";
import { makeOf } from "./derive.ts";
import { laidWalls, unfoldedLeaf } from "./unfolded.ts";

const high = (points: readonly (readonly [number, number])[], height = 2600) =>
  points.map(([x, y], index) => ({ x, y, height: height + 40 * (index % 3) }));

/** 8 by 6 m with a corner that comes in, clockwise. */
const ELL = high([
  [0, 0],
  [8000, 0],
  [8000, -3000],
  [4000, -3000],
  [4000, -6000],
  [0, -6000],
]);
const BOX = high([
  [0, 0],
  [7315, 0],
  [7340, -5029],
  [-10, -5015],
]);

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** How deep two convex outlines lie in each other, by the axis that tells them best apart; below 0 where they are clear. */
function depthOf(a: readonly Point[], b: readonly Point[]): number {
  const axes = [a, b].flatMap((ring) =>
    ring.map((p, index) => {
      const q = ring[(index + 1) % ring.length]!;
      const length = apart(p, q) || 1;
      return { x: (q.y - p.y) / length, y: (p.x - q.x) / length };
    }),
  );
  return Math.min(
    ...axes.map((axis) => {
      const reach = (ring: readonly Point[]) => ring.map(({ x, y }) => x * axis.x + y * axis.y);
      const [one, other] = [reach(a), reach(b)];
      return Math.min(Math.max(...one) - Math.min(...other), Math.max(...other) - Math.min(...one));
    }),
  );
}

/** Whether a point lies within an outline, by counting crossings. */
function within(ring: readonly Point[], { x, y }: Point): boolean {
  return ring.reduce((inside, a, index) => {
    const b = ring[(index + 1) % ring.length]!;
    const crosses = a.y > y !== b.y > y && x < a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y);
    return crosses ? !inside : inside;
  }, false);
}

/** Faces that lie on each other or on the floor by more than a millimetre. */
function faults(wanted: Wanted): readonly string[] {
  const room = handMadeRoom(wanted);
  const walls = laidWalls(room);
  const shares = [0.02, 0.3, 0.5, 0.7, 0.98];
  return walls.flatMap(({ ring, lies, facing }, index) => {
    const others = walls
      .slice(0, index)
      .filter((other) => depthOf(ring, other.ring) > 1)
      .map((other) => `${facing.line.wall.name} on ${other.facing.line.wall.name}`);
    const lowest = Math.min(facing.leftHeight, facing.rightHeight);
    const points = shares.flatMap((x) => shares.map((y) => lies(x * facing.length, y * lowest)));
    return points.some((point) => within(room.corners, point))
      ? [...others, `${facing.line.wall.name} on the floor`]
      : others;
  });
}

const mirrored = (corners: Wanted["corners"]): Wanted => ({
  corners: corners.map(({ x, y, height }) => ({ x: -x, y, height })),
  turn: "counterclockwise",
});

describe("walls laid flat", () => {
  it("lie round the floor of a plain room, each with its foot on its own edge", () => {
    const room = handMadeRoom({ corners: BOX });
    expect(faults({ corners: BOX })).toEqual([]);
    laidWalls(room).forEach(({ ring }, index) => {
      const [a, b] = [room.corners[index]!, room.corners[(index + 1) % 4]!];
      expect(apart(ring[0]!, a) + apart(ring[1]!, b)).toBeLessThan(1e-6);
    });
  });

  it("stand in a row where a corner that comes in would lay one on another", () => {
    expect(faults({ corners: ELL })).toEqual([]);
    expect(faults(mirrored(ELL))).toEqual([]);
    const floor = Math.min(...ELL.map(({ y }) => y));
    for (const { ring } of laidWalls(handMadeRoom({ corners: ELL })))
      for (const { y } of ring) expect(y).toBeLessThan(floor);
  });

  it("lie on nothing and keep their size in any room, mirrored and turned too", () => {
    const ways = fc.record({
      seed: fc.integer({ min: 1, max: 5000 }),
      flip: fc.boolean(),
      turn: fc.double({ min: 0, max: 6.3, noNaN: true }),
    });
    fc.assert(
      fc.property(ways, ({ seed, flip, turn }) => {
        const { corners, heights } = randomRoom(seed);
        const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
        const places = corners.map(({ x, y }, index) => ({
          x: x * cos - y * sin,
          y: x * sin + y * cos,
          height: heights[index]!,
        }));
        const wanted: Wanted = flip ? mirrored(places) : { corners: places };
        expect(faults(wanted)).toEqual([]);
        const room = handMadeRoom(wanted);
        for (const { ring, facing } of laidWalls(room)) {
          const [leftFoot, rightFoot, rightTop, leftTop] = ring as [Point, Point, Point, Point];
          const ends = [facing.line.from, facing.line.to];
          expect(apart(leftFoot, rightFoot)).toBeCloseTo(apart(ends[0]!, ends[1]!), 4);
          const sides = [apart(leftFoot, leftTop), apart(rightFoot, rightTop)];
          const heightsOf = ends.map(({ height }) => height);
          if (flip) heightsOf.reverse();
          sides.forEach((side, index) => expect(side).toBeCloseTo(heightsOf[index]!, 4));
        }
      }),
      { seed: 31, numRuns: 150 },
    );
  });
});

const kraft: Stock = {
  id: "roll",
  name: "Paper",
  order: 0,
  form: "roll",
  width: 914.4,
  length: 30_480,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: true,
};
const hung = (id: string, from: string, to: string, said: Partial<WallCovering> = {}): WallCovering => ({
  id,
  room: "room",
  order: 0,
  name: id,
  from,
  to,
  stock: "roll",
  fixing: "pasted",
  lap: 12.7,
  turn: 25.4,
  extra: 100,
  low: 0,
  ...said,
});

/** The leaf of a room with paper on its first two walls, a door, a window and things in the way. */
function leafOf(corners: Wanted["corners"], paper: Paper = PAPERS.letter) {
  const { document, arrangement } = handMadeShow({
    corners,
    openings: [
      { wall: 0, offset: 900, width: 900, casing: 89 },
      { wall: 1, offset: 800, width: 1500, sill: 760, height: 1200, kind: "window", name: "Window 1" },
    ],
    fixtures: [
      { wall: 0, offset: 2800, up: 600 },
      { wall: 0, offset: 3900, up: 640 },
    ],
  });
  const show: ShowDocument = {
    ...emptyDocument(),
    ...document,
    stocks: { roll: kraft },
    wallCoverings: { one: hung("one", "A", "B"), two: hung("two", "B", "C", { fixing: "magnets" }) },
  };
  const making = makeOf(show, [arrangement.room]);
  const leaf = unfoldedLeaf({ document: show, arrangement, making, paper: sideways(paper) });
  return { leaf, making, room: arrangement.room };
}

const lettering = (items: readonly Item[]): readonly Lettering[] =>
  items.flatMap((item) => (item.kind === "lettering" ? [item] : []));

describe("the sheet of the unfolded room", () => {
  it.each([
    ["a plain room", BOX],
    ["a room with a corner that comes in", ELL],
  ])("shows every wall of %s at true length, and all of it on the paper", (_, corners) => {
    const { leaf, room } = leafOf(corners);
    expect(leaf.known).toHaveLength(corners.length);
    leaf.known.forEach(({ name, from, to, real }, index) => {
      const [a, b] = [corners[index]!, corners[(index + 1) % corners.length]!];
      expect(name).toBe(`wall ${room.walls[index]!.name}`);
      expect(real).toBeCloseTo(apart(a, b), 6);
      expect(apart(from, to) * leaf.scale!).toBeCloseTo(apart(a, b), 3);
    });
    const { width, height } = sideways(PAPERS.letter);
    for (const item of lettering(leaf.items)) {
      const box = boxOf(item);
      expect(box.left).toBeGreaterThanOrEqual(9.9);
      expect(box.right).toBeLessThanOrEqual(width - 9.9);
      expect(box.bottom).toBeLessThan(height - 10);
    }
  });

  it("numbers every strip that is seen, and nothing hides a number", () => {
    for (const corners of [BOX, ELL]) {
      // A row of six walls needs a larger sheet for numbers beside a door.
      const { leaf, making } = leafOf(corners, PAPERS["ansi-d"]);
      const strips = making.walls.flatMap((work) => work.strips.map(({ id }) => id));
      const numbers = leaf.items.flatMap((item, at) =>
        item.kind === "lettering" && item.part !== undefined && strips.includes(item.part)
          ? [{ item, at }]
          : [],
      );
      expect(new Set(numbers.map(({ item }) => item.part))).toEqual(new Set(strips));
      expect(numbers).toHaveLength(strips.length);
      for (const { item, at } of numbers) {
        const box = boxOf(item);
        const ring = [
          { x: box.left, y: box.top },
          { x: box.right, y: box.top },
          { x: box.right, y: box.bottom },
          { x: box.left, y: box.bottom },
        ];
        const hiding = leaf.items.slice(at + 1).filter((later) => {
          if (later.kind === "circle")
            return apart(later.centre, { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 }) < 2;
          const solid =
            later.kind === "stroke" && later.closed && later.fill?.hatch === undefined && later.fill;
          return solid && depthOf(ring, later.points) > 0;
        });
        expect(hiding).toEqual([]);
      }
    }
  });

  it("draws nothing of the venue's above the ceiling it stands under", () => {
    for (const corners of [BOX, ELL]) {
      const { document, arrangement } = handMadeShow({
        corners,
        fixtures: [{ wall: 0, offset: 600, width: 400, depth: 300, kind: "column", up: 0, height: 3000 }],
      });
      const making = makeOf(document, [arrangement.room]);
      const { items } = unfoldedLeaf({ document, arrangement, making, paper: sideways(PAPERS.letter) });
      const ringOf = (record: string, part?: string) =>
        items.flatMap((item) =>
          item.kind === "stroke" && item.record === record && item.part === part ? item.points : [],
        );
      const [leftFoot, , rightTop, leftTop] = ringOf("A~B", "face") as [Point, Point, Point, Point];
      const above = ({ x, y }: Point): number =>
        ((rightTop.x - leftTop.x) * (y - leftTop.y) - (rightTop.y - leftTop.y) * (x - leftTop.x)) *
        Math.sign((rightTop.x - leftTop.x) * (leftFoot.y - leftTop.y));
      const column = ringOf("fixture0");
      expect(column).toHaveLength(4);
      for (const point of column) expect(above(point)).toBeGreaterThan(-1e-6);
    }
  });

  it("writes each wall's name beyond its top, where no other wall lies", () => {
    for (const corners of [BOX, ELL]) {
      const { leaf } = leafOf(corners);
      const faces = leaf.items.flatMap((item) =>
        item.kind === "stroke" && item.part === "face" ? [item.points] : [],
      );
      const names = lettering(leaf.items).filter(({ part, face }) => part === "name" && face === "sans-bold");
      expect(names).toHaveLength(corners.length);
      for (const name of names) {
        const box = boxOf(name);
        const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
        expect(faces.filter((ring) => within(ring, middle))).toEqual([]);
      }
    }
  });
});
