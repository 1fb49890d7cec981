import { describe, expect, it } from "vitest";
import type { Stock } from "../document/tables.ts";
import { FT, IN, onWall } from "../testing/hangings.ts";

describe("strips as they are counted elsewhere", () => {
  // Common practice, no source: n = ceil((wall + turns - lap) / (width - lap)).
  const KRAFT = { lap: 0.5 * IN, turn: 1 * IN, extra: 4.5 * IN };

  it("are nine on a wall of 24 ft, both ends 21 in where the last would be 6 in", () => {
    const { strips, ends } = onWall(24 * FT, 122.5 * IN, KRAFT, {});
    expect(strips).toHaveLength(9);
    expect(24 * 12 + 2 - 8 * (36 - 0.5)).toBe(6);
    expect(ends.map((width) => width / IN)).toEqual([expect.closeTo(21, 6), expect.closeTo(21, 6)]);
  });

  // Common practice, no source: 9 + 6 + 9 + 6 strips of 10' 7", 317 ft of paper for a room of 24 by 16 1/2 ft.
  it("are thirty in a room of 24 ft by 16 ft 6 in, 317 ft of paper", () => {
    const walls = [24 * 12, 16 * 12 + 6, 24 * 12 + 1.25, 16 * 12 + 5.375].map((wall) =>
      onWall(wall * IN, 122.5 * IN, KRAFT, {}),
    );
    expect(walls.map(({ strips }) => strips.length)).toEqual([9, 6, 9, 6]);
    const lengths = walls.flatMap(({ strips }) => strips.map(({ length }) => length / IN));
    for (const length of lengths) expect(length).toBeCloseTo(10 * 12 + 7, 6);
    expect(Math.floor(lengths.reduce((a, b) => a + b, 0) / 12)).toBe(317);
  });

  interface Counted {
    readonly wall: number;
    readonly drop: number;
    readonly width: number;
    readonly roll: number;
    readonly strips: number;
    readonly perRoll: number;
    readonly rolls: number;
  }
  const counted = ({ wall, drop, width, roll: length }: Counted, stock: Partial<Stock> = {}) => {
    const { strips, perRoll, rolls } = onWall(wall, drop, {}, { width, length, ...stock });
    return { strips: strips.length, perRoll, rolls };
  };

  it.each<readonly [string, Counted]>([
    [
      // "Wallpaper measuring and planning", 2009, davesdiytips.com: 18.9 m round, rolls of 535 mm by 10 m, drops of 2.91 m.
      "36 drops, 3 from a roll, 12 rolls",
      { wall: 18_900, drop: 2910, width: 535, roll: 10_000, strips: 36, perRoll: 3, rolls: 12 },
    ],
    [
      // "How to calculate how much wallpaper you need", example 1, phrenologik.com: 178 in by 104 in, rolls of 20 1/2 in by 33 ft.
      "9 strips, 3 from a roll, 3 rolls",
      { wall: 178 * IN, drop: 104 * IN, width: 20.5 * IN, roll: 396 * IN, strips: 9, perRoll: 3, rolls: 3 },
    ],
    [
      // "Guide: how much wallpaper", howded.com: 18 m round, 0.5 by 10 m, 2.5 m high: 36 strips before any are deducted, 4 from a roll, 9 bought.
      "36 strips, 4 from a roll, 9 bought",
      { wall: 18_000, drop: 2500, width: 500, roll: 10_000, strips: 36, perRoll: 4, rolls: 9 },
    ],
    [
      // The Building Trades Pocketbook (International Correspondence Schools, about 1900), Papering: the rule for 18 in paper, numbers ours.
      "36 strips, 5 from 16 yards, 8 rolls",
      { wall: 54 * FT, drop: 9 * FT, width: 18 * IN, roll: 48 * FT, strips: 36, perRoll: 5, rolls: 8 },
    ],
    [
      // The same rule.
      "40 strips, 4 from 16 yards, 10 rolls",
      { wall: 60 * FT, drop: 10 * FT, width: 18 * IN, roll: 48 * FT, strips: 40, perRoll: 4, rolls: 10 },
    ],
  ])("are %s", (_, one) => {
    const { strips, perRoll, rolls } = one;
    expect(counted(one)).toEqual({ strips, perRoll, rolls });
  });

  // Pattern-match geometry, derived: strips of a straight match begin a whole number of repeats apart.
  it.each([
    [2350, 530, 3],
    [2500, 640, 3],
    [2600, 0, 3],
  ])("of %i mm with a repeat of %i mm come %i from a roll of 10.05 m", (drop, repeat, perRoll) => {
    const match = repeat === 0 ? "free" : "straight";
    const work = onWall(5000, drop, {}, { width: 530, length: 10_050, repeat, match });
    expect(work.perRoll).toBe(perRoll);
  });

  // The same geometry: where every second strip is half a repeat lower a roll gives at most so many.
  it.each([
    [2350, 530, 4],
    [2500, 640, 3],
  ])("of %i mm that drop by half of %i mm never promise more than %i from a roll", (drop, repeat, most) => {
    const work = onWall(5000, drop, {}, { width: 530, length: 10_050, repeat, match: "drop" });
    expect(work.perRoll).toBeLessThanOrEqual(most);
    expect(work.rolls).toBeGreaterThanOrEqual(Math.ceil(work.strips.length / most));
  });

  // Derived: 16.4 m round, 2.4 m and 100 mm over, repeat of 530 mm, rolls of 0.53 by 10.05 m (EN 233, from memory).
  it("are 31 of five repeats each, 3 from a roll, 11 rolls in a room of 16.4 m", () => {
    const work = onWall(
      16_400,
      2400,
      { extra: 100 },
      { width: 530, length: 10_050, repeat: 530, match: "straight" },
    );
    expect(work.strips).toHaveLength(31);
    expect(work.strips.map(({ length }) => length)).toEqual(work.strips.map(() => 2650));
    expect([work.perRoll, work.rolls]).toEqual([3, 11]);
  });
});
