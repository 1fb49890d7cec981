import { describe, expect, it } from "vitest";
import type { Making } from "../make/model.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";
import { arranged, type Pair, type RoomWish } from "../testing/arranged.ts";
import type { CardModel, CardPart } from "./model.ts";
import { cardModels, createModels } from "./parts.ts";

const SHOW = { gridPitch: 5, gridSquare: 250, cardThickness: 1.5 };

function modelOf(wish: RoomWish, change: (room: TrueRoom) => TrueRoom = (room) => room): CardModel {
  const { document, room } = arranged({ ...wish, show: { ...SHOW, ...wish.show } });
  const [model] = cardModels(document, [change(room)], undefined);
  if (!model) throw new Error(`no model of ${wish.corners.length} corners`);
  return model;
}

const width = ({ outline }: CardPart): number =>
  Math.max(...outline.map(({ x }) => x)) - Math.min(...outline.map(({ x }) => x));

/** Area of a ring, counted counterclockwise. */
const area = (ring: readonly Point[]): number =>
  ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    return sum + (a.x * b.y - a.y * b.x) / 2;
  }, 0);

describe("a wall of card", () => {
  const corners: readonly Pair[] = [
    [0, 0],
    [5000, 0],
    [5000, -4000],
    [0, -4000],
  ];
  const door = { wall: 0, offset: 1000, width: 900 };

  it("has a door as a hole that begins at the floor, a strip of one board under it", () => {
    const [wall] = modelOf({ corners, doors: [door] }).walls;
    expect(wall?.holes).toEqual([
      {
        record: "d0",
        outline: [
          { x: 21.5, y: 1.5 },
          { x: 39.5, y: 1.5 },
          { x: 39.5, y: expect.closeTo(42.14, 9) as number },
          { x: 21.5, y: expect.closeTo(42.14, 9) as number },
        ],
      },
    ]);
    expect(wall?.because).toEqual(["room", "K0", "K1", "d0"]);
  });

  it("loses an opening that reaches to the ceiling or past the wall from its outline", () => {
    const [wall] = modelOf({
      corners,
      doors: [
        { ...door, height: 9000 },
        { wall: 0, offset: 4500, width: 900 },
      ],
    }).walls;
    expect(wall?.holes).toEqual([]);
    const whole = 101.5 * 61.5;
    const cutAway = 18 * 60 + 10 * 40.64;
    expect(area(wall?.outline ?? [])).toBeCloseTo(whole - cutAway, 2);
  });

  it("is not there for an open side or glass, whose neighbours end free", () => {
    const model = modelOf({ corners, open: [1] }, (room) => ({
      ...room,
      walls: room.walls.map((wall, i) => (i === 3 ? { ...wall, glass: true } : wall)),
    }));
    expect(model.walls.map(({ name }) => name)).toEqual(["Wall K0-K1", "Wall K2-K3"]);
    expect(model.walls.map(({ joints }) => joints)).toEqual([
      ["free end", "free end"],
      ["free end", "free end"],
    ]);
    expect(model.walls.map(width)).toEqual([100, 100]);
    expect(model.floor.drawn.slice(0, 4).map(({ record }) => record)).toEqual([
      "K0~K1",
      "K1~K2",
      "K2~K3",
      "K3~K0",
    ]);
  });

  it("shows seams, trims and the venue's things where they are", () => {
    const { document, room } = arranged({
      corners,
      baseDepth: 19,
      show: SHOW,
      doors: [{ wall: 0, offset: 600, width: 500, height: 2000 }],
      fixtures: [{ wall: 0, offset: 2000, width: 500, height: 600, up: 300, kind: "panel" }],
    });
    const trim = document.trims["base"]!;
    const run = {
      id: "base~K0~K1~1",
      name: "Base",
      wall: "K0~K1",
      room: "room",
      from: 100,
      to: 4900,
      up: 0,
      length: 4800,
      pieces: [],
      because: [],
    };
    const square = { kind: "square", angle: 180, sdAngle: 0, mitre: 0, bevel: 0 } as const;
    const strip = {
      id: "w~1",
      number: 1,
      left: -20,
      right: 900,
      low: 0,
      highLeft: 3000,
      highRight: 3000,
      length: 3100,
      patternDrop: 0,
      cutRound: [],
      because: [],
    };
    const making: Pick<Making, "trims" | "walls"> = {
      trims: [{ trim, name: "Base", runs: [{ ...run, ends: [square, square] }], length: 4800 }],
      walls: [
        {
          covering: {
            id: "w",
            room: "room",
            order: 0,
            name: "Kraft",
            from: "K0",
            to: "K1",
            stock: "s",
            fixing: "pins",
            lap: 0,
            turn: 0,
            extra: 0,
            low: 0,
          },
          stock: {
            id: "s",
            name: "Kraft",
            order: 0,
            form: "roll",
            width: 900,
            length: 30000,
            thickness: 0,
            repeat: 0,
            match: "free",
            kerf: 0,
            grained: false,
            flame: false,
          },
          name: "K0-K1",
          wall: "K0~K1",
          room: "room",
          outline: [],
          holes: [],
          strips: [strip, { ...strip, id: "w~2", number: 2, left: 900, right: 1800 }],
          ends: [900, 900],
          rolls: 1,
          perRoll: 9,
          area: 1,
          battens: [],
        },
      ],
    };
    const empty = {
      shares: [],
      floors: [],
      cuts: [],
      sheets: [],
      buying: [],
      hours: [],
      minutes: 0,
      price: 0,
      unpriced: 0,
    };
    const [model] = cardModels(document, [room], { ...making, ...empty });
    const drawn = model?.walls[0]?.drawn ?? [];
    const of = (record: string) => drawn.filter((one) => one.record === record).map(({ points }) => points);
    // The seam at 900 mm meets the door, which is 2 m high: it is drawn above it only.
    expect(of("w")).toEqual([
      [
        { x: 19.5, y: 41.5 },
        { x: 19.5, y: 61.5 },
      ],
    ]);
    expect(of("base")).toEqual([
      [
        { x: 3.5, y: 1.5 },
        { x: 99.5, y: 1.5 },
      ],
      [
        { x: 3.5, y: 1.5 + 184 / 50 },
        { x: 99.5, y: 1.5 + 184 / 50 },
      ],
    ]);
    expect(of("f0")[0]?.slice(0, 3)).toEqual([
      { x: 41.5, y: 7.5 },
      { x: 51.5, y: 7.5 },
      { x: 51.5, y: 19.5 },
    ]);
    expect(model?.walls[0]?.because).toEqual(["room", "K0", "K1", "d0", "base", "w", "f0"]);
  });
});

describe("card models of a document", () => {
  it("are the very same while nothing they show has changed", () => {
    const { document, room } = arranged({
      corners: [
        [0, 0],
        [5000, 0],
        [5000, -4000],
      ],
      show: SHOW,
    });
    const models = createModels();
    const rooms = [room];
    const once = models(document, rooms, undefined);
    expect(models({ ...document, pieces: {} }, rooms, undefined)).toBe(once);
    expect(models({ ...document, coverings: {} }, rooms, undefined)).not.toBe(once);
  });

  it("leave out a room without a shape or with walls that cross", () => {
    const { document, room } = arranged({
      corners: [
        [0, 0],
        [5000, 0],
        [5000, -4000],
      ],
      show: SHOW,
    });
    expect(
      cardModels(
        document,
        [
          { ...room, crossings: [[0, 1]] },
          { ...room, corners: [] },
        ],
        undefined,
      ),
    ).toEqual([]);
  });
});
