/**
 * The model is folded up here by other means than it was cut: corners of the outside are crossings of the walls' lines
 * moved out by a board, and what the boards cover is held against the mitred offset of the room's outline by the
 * clipping library, of which the joints know nothing.
 */
import { Clipper64, ClipType, EndType, FillRule, inflatePaths, JoinType, type Paths64 } from "clipper2-ts";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TrueRoom } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";
import { arranged, type Pair, type RoomWish } from "../testing/arranged.ts";
import { randomRoom } from "../testing/rooms.ts";
import type { CardModel, CardPart } from "./model.ts";
import { cardModels } from "./parts.ts";

const SCALE = 50;
const BOARD = 1.5;
const SHOW = { gridPitch: 5, gridSquare: 250, cardThickness: BOARD };
const FINE = 100_000;

function modelOf(wish: RoomWish, change: (room: TrueRoom) => TrueRoom = (room) => room): CardModel {
  const { document, room } = arranged({ ...wish, show: { ...SHOW, ...wish.show } });
  const [model] = cardModels(document, [change(room)], undefined);
  if (!model) throw new Error(`no model of ${wish.corners.length} corners`);
  return model;
}

const width = ({ outline }: CardPart): number =>
  Math.max(...outline.map(({ x }) => x)) - Math.min(...outline.map(({ x }) => x));
const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;
const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;

/** The corners clockwise, in mm of board. */
function clockwiseCorners(corners: readonly Pair[]): readonly Point[] {
  const points = corners.map(([x, y]) => ({ x: x / SCALE, y: y / SCALE }));
  const twice = points.reduce((sum, a, i) => sum + cross(a, points[(i + 1) % points.length]!), 0);
  return twice < 0 ? points : points.toReversed();
}

interface Stood {
  readonly left: Point;
  readonly right: Point;
  readonly along: Point;
  readonly out: Point;
  readonly length: number;
}

/** The sides of a clockwise ring, left to right as seen from inside. */
function sidesOf(ring: readonly Point[]): readonly Stood[] {
  return ring.map((left, i) => {
    const right = ring[(i + 1) % ring.length]!;
    const length = Math.hypot(right.x - left.x, right.y - left.y);
    const along = { x: (right.x - left.x) / length, y: (right.y - left.y) / length };
    return { left, right, along, out: { x: -along.y, y: along.x }, length };
  });
}

/** Where the outside faces of two neighbouring sides cross. */
function outerCorner(a: Stood, b: Stood): Point {
  const p = { x: a.left.x + a.out.x * BOARD, y: a.left.y + a.out.y * BOARD };
  const q = { x: b.left.x + b.out.x * BOARD, y: b.left.y + b.out.y * BOARD };
  const part = cross(minus(q, p), b.along) / cross(a.along, b.along);
  return { x: p.x + a.along.x * part, y: p.y + a.along.y * part };
}

const area = (rings: Paths64): number =>
  rings.reduce(
    (sum, ring) => sum + ring.reduce((own, a, i) => own + cross(a, ring[(i + 1) % ring.length]!), 0),
    0,
  ) /
  2 /
  FINE ** 2;
const fine = (ring: readonly Point[]) =>
  ring.map(({ x, y }) => ({ x: Math.round(x * FINE), y: Math.round(y * FINE) }));

function clip(how: ClipType, one: Paths64, other: Paths64): Paths64 {
  const clipper = new Clipper64();
  clipper.addSubject(one);
  if (other.length > 0) clipper.addClip(other);
  const found: Paths64 = [];
  clipper.execute(how, FillRule.NonZero, found);
  return found;
}

/** Skylines: rooms of square corners, inside and outside ones, turned by any angle. */
const skyline = fc
  .record({
    columns: fc.array(
      fc.record({
        wide: fc.integer({ min: 900, max: 4000 }),
        step: fc.integer({ min: 600, max: 2500 }),
        up: fc.boolean(),
      }),
      {
        minLength: 1,
        maxLength: 5,
      },
    ),
    turn: fc.integer({ min: 0, max: 359 }),
    other: fc.boolean(),
  })
  .map(({ columns, turn, other }): readonly Pair[] => {
    const top: Pair[] = [];
    let [x, y] = [0, 3000];
    for (const { wide, step, up } of columns) {
      y = up || y - step < 900 ? y + step : y - step;
      top.push([x, y], [x + wide, y]);
      x += wide;
    }
    const ring: Pair[] = [[0, 0], ...top, [x, 0]];
    const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
    const turned = ring.map(([px, py]): Pair => [px * cos - py * sin, px * sin + py * cos]);
    return other ? turned.toReversed() : turned;
  });

function isClockwise(corners: readonly Pair[]): boolean {
  const first = clockwiseCorners(corners)[0]!;
  return first.x === corners[0]![0] / SCALE && first.y === corners[0]![1] / SCALE;
}

/** The board of each side, in the order of the sides, whichever way the room is named. */
function boardsOf(model: CardModel, corners: readonly Pair[]): readonly CardPart[] {
  const forward = isClockwise(corners);
  // In a ring turned round, side i runs from corner n - 1 - i to the one named before it.
  return forward ? model.walls : model.walls.map((_, i, all) => all[(2 * all.length - 2 - i) % all.length]!);
}

describe("a card model with square corners", () => {
  it("folds up to the room's outline, a board round it, without gap or overlap", () => {
    fc.assert(
      fc.property(skyline, (corners) => {
        const model = modelOf({ corners });
        const ring = clockwiseCorners(corners);
        const sides = sidesOf(ring);
        const boards = boardsOf(model, corners);
        expect(boards).toHaveLength(sides.length);
        // The right end of every board is at its inside corner; how far its left end goes is the claim.
        const feet = sides.map(({ right, along, out }, i) => {
          const left = { x: right.x - along.x * width(boards[i]!), y: right.y - along.y * width(boards[i]!) };
          const back = (p: Point): Point => ({ x: p.x + out.x * BOARD, y: p.y + out.y * BOARD });
          return fine([left, right, back(right), back(left)]);
        });
        feet.forEach((foot, i) =>
          feet
            .slice(i + 1)
            .forEach((other) =>
              expect(Math.abs(area(clip(ClipType.Intersection, [foot], [other])))).toBeLessThan(1e-3),
            ),
        );
        const floor = [fine(ring)];
        const whole = inflatePaths(
          clip(ClipType.Union, floor, []),
          BOARD * FINE,
          JoinType.Miter,
          EndType.Polygon,
          4,
        );
        const covered = clip(
          ClipType.Union,
          [
            ...feet.map((foot) => (area([foot]) < 0 ? foot.toReversed() : foot)),
            ...clip(ClipType.Union, floor, []),
          ],
          [],
        );
        expect(Math.abs(area(clip(ClipType.Xor, covered, whole)))).toBeLessThan(1e-2);
      }),
      { seed: 20, numRuns: 120 },
    );
  });

  it("is 121.5 by 55.5 mm for a wall of 6 m by 2.7 m at 1:50 in board of 1.5 mm", () => {
    const model = modelOf({
      corners: [
        [0, 0],
        [6000, 0],
        [6000, -4000],
        [0, -4000],
      ],
      heights: [2700, 2700, 2700, 2700],
    });
    const [wall] = model.walls;
    expect(wall?.outline).toEqual([
      { x: 0, y: 0 },
      { x: 121.5, y: 0 },
      { x: 121.5, y: 55.5 },
      { x: 0, y: 55.5 },
    ]);
    expect(wall?.joints).toEqual(["runs past by 1.5 mm", "butts"]);
    expect(model.scale).toBe(50);
    expect(wall?.drawn[0]).toEqual({
      record: "K0",
      points: [
        { x: expect.closeTo(1.5, 9) as number, y: 0 },
        { x: expect.closeTo(1.5, 9) as number, y: 55.5 },
      ],
    });
  });

  it("stops a board short where a corner comes into the room", () => {
    const model = modelOf({
      corners: [
        [0, 0],
        [6000, 0],
        [6000, -2000],
        [3000, -2000],
        [3000, -4000],
        [0, -4000],
      ],
    });
    expect(model.walls.map(width)).toEqual(
      [121.5, 41.5, 61.5, 38.5, 61.5, 81.5].map((value) => expect.closeTo(value, 9)),
    );
    expect(model.walls[2]?.joints[1]).toBe("runs to the corner, its edge shows");
    expect(model.walls[3]?.joints[0]).toBe("stops short by 1.5 mm and butts");
  });
});

describe("a card model with any corners", () => {
  const rooms = Array.from({ length: 60 }, (_, seed) =>
    randomRoom(seed).corners.map(({ x, y }): Pair => [x, y]),
  );

  it("has an outside that meets in its crossings, but for slivers at nearly square corners", () => {
    let checked = 0;
    for (const corners of rooms) {
      const ring = clockwiseCorners(corners);
      const sides = sidesOf(ring);
      const model = modelOf({ corners });
      const boards = boardsOf(model, corners);
      const feet = sides.map((side, i) => {
        const [before, after] = [sides.at(i - 1)!, sides[(i + 1) % sides.length]!];
        const outer = [outerCorner(before, side), outerCorner(side, after)].map((p) =>
          dot(minus(p, side.left), side.along),
        ) as [number, number];
        const [left, right] = boards[i]!.joints;
        const sharp = [outer[0], side.length - outer[1]].some((past) => Math.abs(past) > 4 * BOARD);
        // What a board of such ends must be to reach both the inside corners and the crossings.
        const start = left.startsWith("bevel")
          ? Math.min(0, outer[0])
          : left === "meets flush"
            ? 0
            : outer[0];
        const end = right.startsWith("bevel") ? Math.max(side.length, outer[1]) : side.length;
        if (!sharp) expect(width(boards[i]!)).toBeCloseTo(end - start, 6);
        checked += sharp ? 0 : 1;
        const at = (x: number, off: number): Point => ({
          x: side.left.x + side.along.x * x + side.out.x * off,
          y: side.left.y + side.along.y * x + side.out.y * off,
        });
        const inner: [number, number] = [left.startsWith("bevel") ? 0 : start, side.length];
        const far: [number, number] = [
          left.startsWith("bevel") ? outer[0] : start,
          right.startsWith("bevel") ? outer[1] : side.length,
        ];
        return sharp
          ? []
          : fine([at(inner[0], 0), at(far[0], BOARD), at(far[1], BOARD), at(inner[1], 0)]).toReversed();
      });
      // A wedge is at most 0.25 mm wide and a board long, half of it filled.
      const sliver = 0.25 * BOARD;
      feet.forEach((foot, i) => {
        const next = feet[(i + 1) % feet.length]!;
        if (foot.length > 0 && next.length > 0)
          expect(Math.abs(area(clip(ClipType.Intersection, [foot], [next])))).toBeLessThan(sliver);
      });
      if (feet.some((foot) => foot.length === 0)) continue;
      const floor = clip(ClipType.Union, [fine(ring)], []);
      const whole = inflatePaths(floor, BOARD * FINE, JoinType.Miter, EndType.Polygon, 8);
      const covered = clip(ClipType.Union, [...feet, ...floor], []);
      expect(Math.abs(area(clip(ClipType.Xor, covered, whole)))).toBeLessThan(sliver * sides.length);
    }
    expect(checked).toBeGreaterThan(200);
  });

  it("stands up: every wall's inside face has the room's corners and heights, its foot a board lower", () => {
    for (const [seed, corners] of rooms.entries()) {
      const heights = corners.map((_, i) => 2300 + ((i * 137 + seed * 61) % 700));
      const model = modelOf({ corners, heights });
      model.walls.forEach((part, i) => {
        const next = (i + 1) % corners.length;
        const forward = isClockwise(corners);
        const [left, right] = forward ? [i, next] : [next, i];
        const marks = new Map(part.drawn.map(({ record, points }) => [record, points]));
        for (const corner of [left, right]) {
          const mark = marks.get(`K${corner}`);
          const edge = corner === left ? Math.min(...part.outline.map(({ x }) => x)) : width(part);
          const tops = part.outline
            .filter(({ x, y }) => Math.abs(x - edge) < 1e-9 && y > 0)
            .map(({ y }) => y);
          const words = part.joints[corner === left ? 0 : 1];
          if (words.startsWith("stops short")) continue;
          expect(mark?.[1]?.y ?? Math.max(...tops)).toBeCloseTo(heights[corner]! / SCALE + BOARD, 9);
          expect(mark?.[0]?.y ?? 0).toBe(0);
        }
        const length =
          Math.hypot(corners[next]![0] - corners[i]![0], corners[next]![1] - corners[i]![1]) / SCALE;
        const [a, b] = [marks.get(`K${left}`)?.[0]?.x ?? 0, marks.get(`K${right}`)?.[0]?.x ?? width(part)];
        if (!part.joints[0].startsWith("stops short")) expect(b - a).toBeCloseTo(length, 6);
      });
      expect(Math.min(...model.floor.outline.map(({ x }) => x))).toBe(0);
      expect(Math.min(...model.floor.outline.map(({ y }) => y))).toBe(0);
    }
  });

  it("has the room's own floor, whichever way the corners are named", () => {
    for (const corners of rooms) {
      const one = modelOf({ corners });
      const other = modelOf({ corners: corners.toReversed() });
      expect(area([fine(one.floor.outline)])).toBeCloseTo(
        Math.abs(area([fine(clockwiseCorners(corners))])),
        2,
      );
      const widths = (model: CardModel): readonly number[] =>
        model.walls.map(width).toSorted((a, b) => a - b);
      widths(one).forEach((value, i) => expect(widths(other)[i]).toBeCloseTo(value, 6));
    }
  });
});
