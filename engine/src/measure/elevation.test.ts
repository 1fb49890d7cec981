import { describe, expect, it } from "vitest";
import { arranged, type RoomWish } from "../testing/arranged.ts";
import { boxOf, boxOfPoints, type Box } from "../sheet/drafting.ts";
import { labelField } from "../sheet/labels.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { wallElevation } from "./elevation.ts";
import type { SeenBefore } from "./facing.ts";

const HALL: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
};

/** The wall K0-K1 at 1:48 with what is seen on it; of glass where it is said. */
function drawn(before: readonly SeenBefore[], glass = false): readonly Item[] {
  const { document, room } = arranged(HALL);
  const walls = room.walls.map((wall, index) => (index === 0 ? { ...wall, glass } : wall));
  return wallElevation({
    room: { ...room, walls },
    document,
    frame: { room: "room", wall: "K0~K1", origin: { x: 20, y: 80 }, scale: 48 },
    field: labelField(),
    before,
  }).items;
}

const face = (name: string, left: number, low: number, [width, height]: readonly [number, number]) => ({
  record: name,
  name,
  left,
  right: left + width,
  low,
  high: low + height,
});

/** Two rows of plates of which one is named, two tubes side by side, a board too flat for its name, and a bench. */
const FITTED: readonly SeenBefore[] = [
  ...Array.from({ length: 24 }, (_, k) => ({
    ...face(`plate ${k}`, 2600 + 230 * (k % 12), k < 12 ? 1500 : 1650, [150, 100]),
    name: k === 0 ? "Berth plate" : "",
  })),
  face("Speaking tube 1", 2000, 1470, [200, 200]),
  face("Speaking tube 2", 2200, 1470, [200, 200]),
  face("Departures board", 2000, 2050, [2100, 127]),
  face("Bench", 3000, 0, [1800, 860]),
];

const area = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) *
  Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top));

const wordsIn = (items: readonly Item[]) => items.filter((item) => item.kind === "lettering");

describe("the names of what is on a wall", () => {
  const items = drawn(FITTED);
  const words = wordsIn(items);

  it("all stand there, none over another", () => {
    const texts = words.map(({ text }) => text);
    for (const { name } of FITTED) if (name !== "") expect(texts).toContain(name);
    for (const [index, one] of words.entries())
      for (const other of words.slice(index + 1))
        expect([one.text, other.text, area(boxOf(one), boxOf(other))]).toEqual([one.text, other.text, 0]);
  });

  it("cover no small thing, neither their own nor another", () => {
    const small = items.flatMap((item) =>
      item.kind === "stroke" && item.part === "seen" && item.record !== "Bench"
        ? [{ record: item.record, box: boxOfPoints(item.points) }]
        : [],
    );
    expect(small).toHaveLength(27);
    const named = words.filter(({ record }) => FITTED.some((seen) => seen.record === record));
    for (const word of named)
      for (const { record, box } of small)
        expect([word.text, record, area(boxOf(word), box) < 0.3]).toEqual([word.text, record, true]);
  });

  it("stand in what has room for them", () => {
    const bench = items.find((item) => item.record === "Bench" && item.part === "seen");
    const word = words.find(({ text }) => text === "Bench")!;
    const [inner, outer] = [boxOf(word), bench?.kind === "stroke" ? boxOfPoints(bench.points) : boxOf(word)];
    expect(area(inner, outer)).toBeCloseTo((inner.right - inner.left) * (inner.bottom - inner.top), 6);
    expect(outer.right - outer.left).toBeCloseTo(1800 / 48, 6);
  });
});

/** Whether the wall is called a side of glass, the pen of its edge, and how many strokes of glass it bears. */
const toldOf = (glass: boolean): readonly [boolean, string | undefined, number] => {
  const items = drawn([], glass);
  const strokes = items.flatMap((item) => (item.kind === "stroke" && item.record === "K0~K1" ? [item] : []));
  return [
    wordsIn(items).some(({ text }) => text === "side of glass"),
    strokes.find(({ part, points }) => part === undefined && points.length >= 4)?.pen,
    strokes.filter(({ part }) => part === "glass").length,
  ];
};

describe("a side of glass", () => {
  it("says so, is drawn thin and bears the strokes of glass, as no wall does", () => {
    expect(toldOf(true)).toEqual([true, "outline", 2]);
    expect(toldOf(false)).toEqual([false, "wall", 0]);
  });
});
