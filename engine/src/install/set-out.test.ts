import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Point } from "../plane/point.ts";
import { installShow, type InstallShowWish } from "../testing/installed.ts";
import { normalDeviate, randomStream } from "../testing/rooms.ts";
import { bestCorners, crossingAt, setOutOf, tapeDoubt } from "./set-out.ts";

const IN = 25.4;
const inches = (feet: number, inch: number): number => (feet * 12 + inch) * IN;
const setOut = (wish: InstallShowWish) => setOutOf(installShow(wish).arrangements[0]!);

/** Where the two arcs cross on the room's side of the base: the textbook circle intersection, not shared with the code. */
function crossed(a: Point, b: Point, [ra, rb]: readonly [number, number]): readonly [Point, Point] {
  const base = Math.hypot(b.x - a.x, b.y - a.y);
  const along = (ra ** 2 - rb ** 2 + base ** 2) / (2 * base);
  const off = Math.sqrt(Math.max(0, ra ** 2 - along ** 2));
  const [ux, uy] = [(b.x - a.x) / base, (b.y - a.y) / base];
  const at = (side: number): Point => ({
    x: a.x + ux * along - side * uy * off,
    y: a.y + uy * along + side * ux * off,
  });
  return [at(1), at(-1)];
}

const angleAt = (p: Point, a: Point, b: Point): number => {
  const [u, v, w] = [
    Math.hypot(p.x - a.x, p.y - a.y),
    Math.hypot(p.x - b.x, p.y - b.y),
    Math.hypot(a.x - b.x, a.y - b.y),
  ];
  const degrees =
    (Math.acos(Math.max(-1, Math.min(1, (u * u + v * v - w * w) / (2 * u * v)))) * 180) / Math.PI;
  return Math.min(degrees, 180 - degrees);
};

describe("setting out by two tapes", () => {
  it("gives the tape lengths of the trade's example: 10' 1 3/8\" and 5' 9 1/4\"", () => {
    // Common practice's worked example: corners 12' apart, a point 8' 10 1/2" along and 4' 10 1/4" out.
    const found = setOut({
      corners: [
        [0, 0],
        [inches(12, 0), 0],
        [inches(12, 0), -inches(20, 0)],
        [0, -inches(20, 0)],
      ],
      pieces: [{ round: true, at: [{ x: inches(8, 10.5), y: -inches(4, 10.25) }] }],
    });
    const toAB = installShow({
      corners: [
        [0, 0],
        [inches(12, 0), 0],
        [inches(12, 0), -inches(20, 0)],
        [0, -inches(20, 0)],
      ],
    }).arrangements[0]!.room.corners.slice(0, 2);
    const mark = found!.marks[0]!;
    const tapes = toAB.map(({ x, y }) => Math.hypot(mark.at.x - x, mark.at.y - y));
    // To the nearest 1/8 in, as a tape is read.
    expect(tapes.map((tape) => Math.round(tape / (IN / 8)))).toEqual(
      [inches(10, 1.375), inches(5, 9.25)].map((tape) => Math.round(tape / (IN / 8))),
    );
  });

  it("marks the corners of what is rectangular and the middle of what is round or hangs, and nothing that stands on others", () => {
    const found = setOut({
      floors: [{ panels: 1, border: 0 }],
      pieces: [
        {
          name: "Bench",
          at: [
            { x: 1000, y: -1000, turn: 90 },
            { x: 4000, y: -3000 },
          ],
        },
        { name: "Bollard", round: true, at: [{ x: 3000, y: -3000 }] },
        { name: "Bell", layer: "hung", at: [{ x: 2000, y: -2500, up: 2000 }] },
        { name: "Urn", layer: "accessory", at: [{ on: "p0.1" }] },
        { name: "Hook", layer: "fitting", mounts: [0] },
      ],
    });
    expect(found?.marks.map(({ number, name }) => `${number} ${name}`)).toEqual([
      "1 Floor 0, front left",
      "2 Floor 0, front right",
      "3 Floor 0, back right",
      "4 Floor 0, back left",
      "5 Bench 1, front left",
      "6 Bench 1, front right",
      "7 Bench 2, front left",
      "8 Bench 2, front right",
      "9 Bollard, middle",
      "10 Bell, middle",
    ]);
    // At no turn the front looks along -y; turned a quarter counterclockwise it looks along +x, its left, faced, lies towards -y.
    const [left, right] = [found!.marks[4]!.at, found!.marks[5]!.at];
    expect([left.x, left.y, right.x, right.y].map((value) => Math.round(value))).toEqual([
      1200, -1300, 1200, -700,
    ]);
    expect(new Set(found?.marks.map(({ id }) => id)).size).toBe(10);
  });

  it("is nothing in a room without a mark", () => {
    expect(setOut({ walls: [{ wall: 0, strips: 3 }] })).toBeUndefined();
  });

  it("takes the two corners no other two do better than, over all rooms and marks", () => {
    const place = fc.record({
      x: fc.integer({ min: 400, max: 5600 }),
      y: fc.integer({ min: -3600, max: -400 }),
    });
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 6 }), (at) => {
        const { arrangements } = installShow({ pieces: [{ at }] });
        const found = setOutOf(arrangements[0]!)!;
        const { corners } = arrangements[0]!.room;
        // The angle between two directions by the law of cosines, folded: another road to the same figure.
        const worst = (a: Point, b: Point): number =>
          Math.min(...found.marks.map((mark) => angleAt(mark.at, a, b)));
        const held = found.from.map((id) => corners.find((corner) => corner.id === id)!);
        const best = Math.max(...corners.flatMap((a, i) => corners.slice(i + 1).map((b) => worst(a, b))));
        expect(worst(held[0]!, held[1]!)).toBeGreaterThan(best - 0.11);
        expect(Math.min(...found.marks.map(({ crossing }) => crossing))).toBeCloseTo(
          worst(held[0]!, held[1]!),
          4,
        );
        for (const mark of found.marks) {
          const points = crossed(held[0]!, held[1]!, mark.tapes);
          expect(
            Math.min(...points.map((point) => Math.hypot(point.x - mark.at.x, point.y - mark.at.y))),
          ).toBeLessThan(0.01);
        }
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it("prefers corners from which every mark is seen over the floor", () => {
    // An L: from its far ends the tape would run through the wall.
    const corners = [
      [0, 0],
      [6000, 0],
      [6000, -2000],
      [2000, -2000],
      [2000, -6000],
      [0, -6000],
    ] as const;
    const { arrangements } = installShow({
      corners,
      pieces: [
        {
          round: true,
          at: [
            { x: 5000, y: -1000 },
            { x: 1000, y: -5000 },
          ],
        },
      ],
    });
    const room = arrangements[0]!.room;
    const turned = {
      ...room,
      corners: room.corners.map((corner, index) => ({ ...corner, angle: index === 3 ? 270 : 90 })),
    };
    const pair = bestCorners(
      turned,
      setOutOf(arrangements[0]!)!.marks.map(({ at }) => at),
    );
    // A and the inner corner see both arms.
    expect(pair).toEqual([0, 3]);
  });

  it("crosses at 90 degrees on the circle over the base, at 0 on the base, whichever way it is turned", () => {
    // Thales: an angle in a semicircle is a right angle.
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 3.09, noNaN: true }),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        (angle, turn) => {
          const turned = (x: number, y: number): Point => ({
            x: x * Math.cos(turn) - y * Math.sin(turn),
            y: x * Math.sin(turn) + y * Math.cos(turn),
          });
          const [a, b] = [turned(-1000, 0), turned(1000, 0)];
          expect(crossingAt(turned(1000 * Math.cos(angle), 1000 * Math.sin(angle)), a, b)).toBeCloseTo(90, 6);
          expect(crossingAt(turned(1000 * Math.cos(angle), 0), a, b)).toBeCloseTo(0, 6);
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });

  it("is as unsure as tapes in rooms drawn at random from the doubt of the corners", () => {
    const { arrangements } = installShow({
      doubt: 4,
      pieces: [{ round: true, at: [{ x: 4200, y: -2900 }] }],
    });
    const { room } = arrangements[0]!;
    const at = { x: 4200, y: -2900 };
    const random = randomStream(7);
    const corner = room.corners[0]!;
    const drawn = Array.from({ length: 20_000 }, () =>
      Math.hypot(at.x - corner.x - 4 * normalDeviate(random), at.y - corner.y - 4 * normalDeviate(random)),
    );
    const mean = drawn.reduce((sum, value) => sum + value, 0) / drawn.length;
    const spread = Math.sqrt(drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (drawn.length - 1));
    expect(tapeDoubt(room, 0, at) / spread).toBeGreaterThan(0.97);
    expect(tapeDoubt(room, 0, at) / spread).toBeLessThan(1.03);
    expect(tapeDoubt(room, 0, corner)).toBeGreaterThan(0);
  });
});
