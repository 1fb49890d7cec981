import { describe, expect, it } from "vitest";
import type { Mount } from "../document/tables.ts";
import { facingWall, type SeenBefore } from "../measure/facing.ts";
import { arranged, type RoomWish } from "../testing/arranged.ts";
import { arrangeRooms } from "./derive.ts";
import { seenBefore } from "./facing.ts";

const HALL: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
  pieces: [
    { name: "Hook", size: [80, 100, 90], count: 9, at: [] },
    { name: "Counter", size: [1200, 500, 900], at: [[3000, -400, 0]] },
    { name: "Fish", size: [100, 60, 20], count: 9, at: [] },
    { name: "Lamp", size: [300, 300, 250], at: [[5000, -400, 0]] },
  ],
};

const hook = (number: number, said: Partial<Mount> = {}): Mount => ({
  id: `hook${number}`,
  piece: "p0",
  room: "room",
  number,
  from: "K0",
  to: "K1",
  datum: "K0",
  offset: 400 * number,
  up: 1500,
  ...said,
});

/** What is seen on a wall of the hall with these hooks, so many fish on its counter, and the lamp hung at 2200. */
function seenOn(wall: string, mounts: readonly Mount[], fish = 0): readonly SeenBefore[] {
  const { document, room } = arranged(HALL);
  const counter = document.placements["p1.1"]!;
  const onCounter = Array.from({ length: fish }, (_, k) => ({
    ...counter,
    id: `fish${k + 1}`,
    piece: "p2",
    number: k + 1,
    x: -500 + 120 * k,
    y: 0,
    on: "p1.1",
  }));
  const lamp = { ...document.placements["p3.1"]!, up: 2200 };
  const placements = [counter, lamp, ...onCounter];
  const full = {
    ...document,
    placements: Object.fromEntries(placements.map((one) => [one.id, one])),
    mounts: Object.fromEntries(mounts.map((one) => [one.id, one])),
  };
  return seenBefore(arrangeRooms(full, [room])[0]!, facingWall(room, wall)!);
}

const named = (seen: readonly SeenBefore[]): readonly string[] =>
  seen.map(({ name }) => name).filter((name) => name !== "");

describe("what is seen on a wall", () => {
  it("shows what is fixed to it where it was said, and what is fixed to another wall not at all", () => {
    const mounts = [hook(1), hook(2, { from: "K1", to: "K2", datum: "K1" })];
    expect(seenOn("K0~K1", mounts).find(({ record }) => record === "hook1")).toEqual({
      record: "hook1",
      name: "Hook 1",
      left: 360,
      right: 440,
      low: 1500,
      high: 1590,
    });
    expect(seenOn("K0~K1", mounts).some(({ record }) => record === "hook2")).toBe(false);
  });

  it("shows what hangs and what lies on others at their own heights", () => {
    const heights = seenOn("K0~K1", [], 1).map(({ record, low, high }) => [record, low, high]);
    expect(heights).toEqual([
      ["p1.1", 0, 900],
      ["p3.1", 2200, 2450],
      ["fish1", 900, 920],
    ]);
  });

  it("names three alike each, and of four only the first on every wall, by what they all are", () => {
    const three = [hook(1), hook(2), hook(3)];
    expect(named(seenOn("K0~K1", three))).toEqual(["Counter", "Lamp", "Hook 1", "Hook 2", "Hook 3"]);
    expect(named(seenOn("K0~K1", [...three, hook(4)]))).toEqual(["Counter", "Lamp", "Hook"]);
    const other = [5, 6, 7, 8].map((number) => hook(number, { from: "K1", to: "K2", datum: "K1" }));
    expect(named(seenOn("K1~K2", [...three, ...other]))).toEqual(["Lamp", "Hook"]);
    expect(named(seenOn("K0~K1", [], 4))).toEqual(["Counter", "Lamp", "Fish"]);
  });

  it("shows no more of a thing than there is wall behind, and nothing past its end", () => {
    const faces = seenOn("K0~K1", [hook(1, { offset: 5980 }), hook(2, { offset: 6100 })]);
    expect(
      faces.filter(({ record }) => record.startsWith("hook")).map(({ left, right }) => [left, right]),
    ).toEqual([[5940, 6000]]);
  });
});
