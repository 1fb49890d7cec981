import { describe, expect, it } from "vitest";
import { arrangeRooms } from "../arrange/derive.ts";
import { arranged, type RoomWish } from "../testing/arranged.ts";
import type { ViewFrom } from "./model.ts";
import { viewsFrom } from "./views.ts";

const ROOM: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
  open: [1],
  doors: [
    { wall: 0, offset: 1000, width: 900, name: "Door 1" },
    { wall: 3, offset: 500, width: 1000, kind: "window", name: "Window 1" },
  ],
};

function views(entered: boolean, glass = -1): readonly ViewFrom[] {
  const { document, room } = arranged(ROOM);
  const record = { ...document.rooms["room"]!, entered };
  const walls = room.walls.map((wall, i) => (i === glass ? { ...wall, glass: true } : wall));
  const said = { ...document, rooms: { room: record } };
  return viewsFrom(arrangeRooms(said, [{ ...room, room: record, walls }])[0]!, said);
}

describe("where a room is looked at from", () => {
  it("is each of its doors and open sides, at three heights of eye, toward its middle", () => {
    const seen = views(true);
    expect(seen.map(({ name }) => name)).toEqual([
      "From Door 1, standing",
      "From Door 1, seated",
      "From Door 1, a child",
      "From the open side K1-K2, standing",
      "From the open side K1-K2, seated",
      "From the open side K1-K2, a child",
    ]);
    // Heights of eye of 62, 48 and 42 in: common practice, from memory.
    expect(seen.slice(0, 3).map(({ eye }) => eye)).toEqual(
      [62, 48, 42].map((inches) => ({ x: 1450, y: expect.closeTo(0, 9) as number, z: inches * 25.4 })),
    );
    expect(seen[3]?.eye).toMatchObject({ x: 6000, y: -2000 });
    expect(seen[0]?.toward).toEqual({
      x: expect.closeTo(3000, 9) as number,
      y: expect.closeTo(-2000, 9) as number,
      z: 62 * 25.4,
    });
  });

  it("is 1.5 m before the glass and the open side of a room that nobody enters", () => {
    const seen = views(false, 2);
    expect(seen.map(({ name }) => name)).toEqual([
      "Over the open side K1-K2, standing",
      "Over the open side K1-K2, seated",
      "Through the glass K2-K3, standing",
      "Through the glass K2-K3, seated",
    ]);
    expect(seen[0]?.eye).toEqual({ x: 7500, y: -2000, z: 62 * 25.4 });
    expect(seen[2]?.eye).toEqual({ x: 3000, y: -5500, z: 62 * 25.4 });
  });

  it("is nowhere for a room without a shape", () => {
    const { document, room } = arranged(ROOM);
    expect(viewsFrom(arrangeRooms(document, [{ ...room, corners: [], walls: [] }])[0]!, document)).toEqual(
      [],
    );
  });
});
