import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { arrangeRooms } from "../arrange/derive.ts";
import type { Arrangement, Mounted } from "../arrange/model.ts";
import type { ShowDocument } from "../document/tables.ts";
import type { Making } from "../make/model.ts";
import { arranged, moved, type Pair, type RoomWish } from "../testing/arranged.ts";
import { randomRoom } from "../testing/rooms.ts";
import { roomFaces } from "./faces.ts";
import type { SpaceFace, SpacePoint } from "./model.ts";

const ROOM: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -2000],
    [3500, -2000],
    [3500, -4500],
    [0, -4500],
  ],
  heights: [3100, 2900, 2950, 3000, 3050, 2800],
  baseDepth: 19,
  doors: [
    { wall: 0, offset: 800, width: 900 },
    { wall: 1, offset: 300, width: 1200, height: 1000, sill: 800, kind: "window" },
  ],
  fixtures: [
    { wall: 5, offset: 900, width: 1500, depth: 300, kind: "projection" },
    { wall: 0, offset: 3000, width: 500, height: 600, up: 900, kind: "panel" },
  ],
  pieces: [
    { name: "Bench", size: [1800, 500, 850], at: [[1500, -1500, 30]] },
    { name: "Bollard", size: [350, 350, 600], round: true, at: [[2600, -1200, 0]] },
    {
      name: "Wedge",
      size: [800, 800, 400],
      outline: [
        [0, 0],
        [800, 0],
        [100, 100],
        [0, 800],
      ],
      lift: 200,
      at: [[1000, -3500, 10]],
    },
  ],
  coverings: [{ x: 1700, y: -3200, width: 1400, depth: 900, thickness: 5, turn: 12 }],
  neighbours: [{ x: 5000, y: -1000, width: 600, depth: 600, round: true }],
};

function seen(
  wish: RoomWish,
  change: (arrangement: Arrangement) => Arrangement = (one) => one,
): {
  readonly document: ShowDocument;
  readonly arrangement: Arrangement;
  readonly faces: readonly SpaceFace[];
} {
  const { document, room } = arranged(wish);
  const [first] = arrangeRooms(document, [room]);
  const arrangement = change(first!);
  return { document, arrangement, faces: roomFaces(arrangement, document, undefined) };
}

/** Area as a vector, by Newell's sum: it points to where the ring runs counterclockwise. */
function areaOf(ring: readonly SpacePoint[]): readonly [number, number, number] {
  let [x, y, z] = [0, 0, 0];
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    x += (a.y * b.z - a.z * b.y) / 2;
    y += (a.z * b.x - a.x * b.z) / 2;
    z += (a.x * b.y - a.y * b.x) / 2;
  });
  return [x, y, z];
}
const size = ([x, y, z]: readonly [number, number, number]): number => Math.hypot(x, y, z);
const free = (face: SpaceFace): number =>
  size(areaOf(face.ring)) - face.holes.reduce((sum, hole) => sum + size(areaOf(hole)), 0);

/** How far the points of a face stray from its plane. */
function bend(face: SpaceFace): number {
  const normal = areaOf(face.ring);
  const origin = face.ring[0]!;
  return Math.max(
    ...[face.ring, ...face.holes]
      .flat()
      .map(
        (p) =>
          Math.abs(
            (p.x - origin.x) * normal[0] + (p.y - origin.y) * normal[1] + (p.z - origin.z) * normal[2],
          ) / size(normal),
      ),
  );
}

const place = ({ x, y, z }: SpacePoint): string =>
  [x, y, z].map((value) => value.toFixed(6).replace(/^-0\.0+$/, "0.000000")).join(" ");

/** Edges that do not run exactly once each way: none in closed solids. */
function openEdges(faces: readonly SpaceFace[]): readonly string[] {
  const runs = new Map<string, number>();
  for (const { ring } of faces)
    ring.forEach((a, i) => {
      const [from, to] = [place(a), place(ring[(i + 1) % ring.length]!)];
      const forth = from < to;
      const key = forth ? `${from} | ${to}` : `${to} | ${from}`;
      runs.set(key, (runs.get(key) ?? 0) + (forth ? 1 : -1));
    });
  return [...runs].filter(([, balance]) => balance !== 0).map(([key]) => key);
}

/** Volume by the divergence theorem: above 0 where every face looks outward. */
function volumeOf(faces: readonly SpaceFace[]): number {
  return faces.reduce((sum, { ring }) => {
    const origin = ring[0]!;
    const [nx, ny, nz] = areaOf(ring);
    return sum + (origin.x * nx + origin.y * ny + origin.z * nz) / 3;
  }, 0);
}

const solidKinds = new Set<SpaceFace["of"]>(["covering", "piece", "fitting", "neighbour"]);

describe("the faces of a room", () => {
  const turned = fc.record({ turn: fc.integer({ min: 0, max: 359 }), mirror: fc.boolean() });

  it("are flat, and no ring is smaller than its holes, however the room is turned or mirrored", () => {
    fc.assert(
      fc.property(turned, (motion) => {
        for (const face of seen(moved(ROOM, motion)).faces) {
          expect(bend(face)).toBeLessThan(1e-3);
          expect(free(face)).toBeGreaterThan(0);
          for (const hole of face.holes) {
            const [a, b] = [areaOf(face.ring), areaOf(hole)];
            expect(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]).toBeLessThan(0);
          }
        }
      }),
      { seed: 7, numRuns: 25 },
    );
  });

  it("close every piece, covering, neighbour and fitting into solids that look outward", () => {
    fc.assert(
      fc.property(turned, (motion) => {
        const { faces } = seen(moved(ROOM, motion));
        const records = new Set(faces.filter(({ of }) => solidKinds.has(of)).map(({ record }) => record));
        expect(records.size).toBe(5);
        for (const record of records) {
          const own = faces.filter((face) => face.record === record);
          expect(openEdges(own)).toEqual([]);
          expect(volumeOf(own)).toBeGreaterThan(0);
        }
      }),
      { seed: 8, numRuns: 25 },
    );
  });

  it("hold the volume their pieces have by hand", () => {
    const { faces } = seen(ROOM);
    const of = (record: string): number => volumeOf(faces.filter((face) => face.record === record));
    expect(of("p0.1")).toBeCloseTo(1800 * 500 * 850, 0);
    expect(of("p1.1") / (Math.PI * 175 ** 2 * 600)).toBeCloseTo(1, 6);
    expect(of("p2.1")).toBeCloseTo(800 * 100 * 400, 0);
    expect(of("c0")).toBeCloseTo(1400 * 900 * 5, 0);
    expect(
      Math.min(
        ...faces.filter(({ record }) => record === "p2.1").flatMap(({ ring }) => ring.map(({ z }) => z)),
      ),
    ).toBe(200);
  });

  it("have a floor as large as the room, seen from above", () => {
    for (let seed = 0; seed < 40; seed++) {
      const corners = randomRoom(seed).corners.map(({ x, y }): Pair => [x, y]);
      const [floor] = seen({ corners }).faces.filter(({ of }) => of === "floor");
      const [x, y, z] = areaOf(floor!.ring);
      let twice = 0;
      corners.forEach(
        ([px, py], i) =>
          (twice += px * corners[(i + 1) % corners.length]![1] - corners[(i + 1) % corners.length]![0] * py),
      );
      expect([x, y]).toEqual([0, 0]);
      expect(z / Math.abs(twice / 2)).toBeCloseTo(1, 12);
    }
  });

  it("have walls that look into the room, as large as their length times their mean height less what is cut out", () => {
    for (const mirror of [false, true]) {
      const wish = moved(ROOM, { turn: 33, mirror });
      const { faces, arrangement } = seen(wish);
      arrangement.room.walls.forEach((wall, i) => {
        const own = faces.filter(({ record, of }) => record === wall.id && of === "wall");
        const [a, b] = [ROOM.heights![i]!, ROOM.heights![(i + 1) % 6]!];
        const cut = i === 0 ? 900 * 2032 : i === 1 ? 1200 * 1000 : 0;
        expect(
          own.reduce((sum, face) => sum + free(face), 0) / (wall.length * ((a + b) / 2) - cut),
        ).toBeCloseTo(1, 6);
      });
      // The whole room with its ceiling left off: the walls' areas sum to nothing sideways, as those of any closed ring do.
      const inward = faces
        .filter(({ of }) => of === "wall")
        .map((face) => {
          const normal = areaOf(face.ring);
          const middle = face.ring.reduce(
            (sum, p) => ({ x: sum.x + p.x / face.ring.length, y: sum.y + p.y / face.ring.length }),
            { x: 0, y: 0 },
          );
          const step = {
            x: middle.x + (normal[0] / size(normal)) * 5,
            y: middle.y + (normal[1] / size(normal)) * 5,
          };
          let inside = false;
          wish.corners.forEach(([px, py], i) => {
            const [qx, qy] = wish.corners[(i + 1) % wish.corners.length]!;
            if (py > step.y !== qy > step.y && step.x < px + ((step.y - py) * (qx - px)) / (qy - py))
              inside = !inside;
          });
          return inside;
        });
      expect(inward).toEqual(inward.map(() => true));
    }
  });

  it("have a door to the floor as a notch, a window as a hole with a pane in it", () => {
    const { faces } = seen(ROOM);
    const wall = (id: string) => faces.filter(({ record, of }) => record === id && of === "wall");
    expect(wall("K0~K1").map(({ holes }) => holes.length)).toEqual([0]);
    expect(wall("K0~K1")[0]!.ring.length).toBe(8);
    expect(wall("K1~K2").map(({ holes }) => holes.length)).toEqual([1]);
    const panes = faces.filter(({ of }) => of === "glass");
    expect(panes.map(({ record }) => record)).toEqual(["d1"]);
    expect(free(panes[0]!)).toBeCloseTo(1200 * 1000, 0);
  });

  it("have no wall at an open side, and glass at a side of glass", () => {
    const { faces } = seen({ ...ROOM, open: [2] }, (arrangement) => ({
      ...arrangement,
      room: {
        ...arrangement.room,
        walls: arrangement.room.walls.map((wall, i) => (i === 3 ? { ...wall, glass: true } : wall)),
      },
    }));
    expect(faces.some(({ record }) => record === "K2~K3")).toBe(false);
    expect(faces.filter(({ record }) => record === "K3~K4").map(({ of }) => of)).toEqual(["glass"]);
  });

  it("show the venue's things: a box that stands out, a flat thing as its face", () => {
    const { faces } = seen(ROOM);
    const projection = faces.filter(({ record }) => record === "f0");
    expect(openEdges(projection)).toEqual([]);
    expect(volumeOf(projection)).toBeCloseTo(1500 * 300 * 3000, 0);
    const panel = faces.filter(({ record }) => record === "f1");
    expect(panel).toHaveLength(1);
    expect(panel[0]!.ring.map(place)).toEqual([
      "3000.000000 0.000000 900.000000",
      "3500.000000 0.000000 900.000000",
      "3500.000000 0.000000 1500.000000",
      "3000.000000 0.000000 1500.000000",
    ]);
  });

  it("are none for a room without a shape", () => {
    const { document, arrangement } = seen(ROOM);
    expect(
      roomFaces(
        { ...arrangement, room: { ...arrangement.room, corners: [], walls: [] } },
        document,
        undefined,
      ),
    ).toEqual([]);
  });
});

const corner = (kind: "inside" | "outside", angle: number) =>
  ({ kind, angle, sdAngle: 0, mitre: angle / 2, bevel: 0 }) as const;

const run = (wall: string, from: number, to: number) => ({
  id: `x~${wall}`,
  name: "Trim",
  wall,
  room: "room",
  from,
  to,
  up: 0,
  length: to - from,
  pieces: [],
  because: [],
});

const points = (list: readonly SpaceFace[]): ReadonlySet<string> =>
  new Set(list.flatMap(({ ring }) => ring.map(place)));

describe("what is made, in space", () => {
  const base = { id: "base", room: "room", order: 0, kind: "base", height: 95, depth: 15, up: 0 } as const;
  const crown = { ...base, id: "crown", kind: "crown", height: 110, depth: 90 } as const;
  const square = { kind: "square", angle: 180, sdAngle: 0, mitre: 0, bevel: 0 } as const;
  const strip = { number: 1, low: 0, patternDrop: 0, length: 3200, cutRound: [], because: [] };
  const making: Making = {
    trims: [
      {
        trim: base,
        name: "Base",
        length: 0,
        runs: [
          { ...run("K1~K2", 0, 2000), ends: [corner("inside", 90), corner("inside", 90)] },
          { ...run("K2~K3", 0, 2500), ends: [corner("inside", 90), corner("outside", 270)] },
        ],
      },
      {
        trim: crown,
        name: "Crown",
        length: 0,
        runs: [{ ...run("K0~K1", 100, 5000), ends: [square, square] }],
      },
    ],
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
        strips: [
          { ...strip, id: "w~1", left: -30, right: 870, highLeft: 3101, highRight: 3071 },
          { ...strip, id: "w~2", left: 870, right: 1770, highLeft: 2500, highRight: 2500 },
        ],
        ends: [870, 900],
        rolls: 1,
        perRoll: 9,
        area: 1,
        battens: [],
      },
    ],
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
  const { document, arrangement } = seen(ROOM);
  const withTrims = { ...document, trims: { base, crown } };
  const mount: Mounted = {
    mount: {
      id: "m",
      piece: "p0",
      room: "room",
      number: 1,
      from: "K0",
      to: "K1",
      datum: "K0",
      offset: 4000,
      up: 1500,
    },
    piece: document.pieces["p0"]!,
    name: "Hook",
    wall: "K0~K1",
    along: 4000,
    width: 100,
    depth: 80,
    low: 1500,
    high: 1600,
    blocks: [
      {
        outline: [
          { x: 3950, y: -80 },
          { x: 4050, y: -80 },
          { x: 4050, y: 0 },
          { x: 3950, y: 0 },
        ],
        low: 1500,
        high: 1600,
      },
    ],
    outline: [],
  };
  const faces = roomFaces({ ...arrangement, mounted: [mount] }, withTrims, making);

  it("hangs strips in the plane of their wall, cut round the door, no further than the wall", () => {
    const strips = faces.filter(({ of }) => of === "strip");
    expect(strips.every(({ ring }) => ring.every(({ y }) => Math.abs(y) < 1e-9))).toBe(true);
    expect(Math.min(...strips.flatMap(({ ring }) => ring.map(({ x }) => x)))).toBe(0);
    // Strip 1: 870 wide under the sloping ceiling less 70 by 2032 of the door; strip 2: 900 by 2500 less 830 by 2032.
    const [ceiling0, ceiling870] = [3100, 3100 - (200 * 870) / 6000];
    const first = (870 * (ceiling0 + ceiling870)) / 2 - 70 * 2032;
    const second = 900 * 2500 - 830 * 2032;
    expect(strips.reduce((sum, face) => sum + free(face), 0) / (first + second)).toBeCloseTo(1, 5);
  });

  it("closes every length of trim, mitred at its corners so that neighbours meet in one face", () => {
    const lengths = faces.filter(({ of, record }) => of === "trim" && record === "base");
    expect(lengths).toHaveLength(12);
    expect(openEdges(lengths.slice(0, 6))).toEqual([]);
    expect(volumeOf(lengths.slice(0, 6))).toBeCloseTo(((2000 + 1970) / 2) * 15 * 95, 0);
    expect(volumeOf(lengths.slice(6))).toBeCloseTo(((2500 + 2500) / 2) * 15 * 95, 0);
    const [one, other] = [points(lengths.slice(0, 6)), points(lengths.slice(6))];
    expect([...one].filter((point) => other.has(point))).toHaveLength(4);
  });

  it("holds a crown under its sloping ceiling", () => {
    const crowns = faces.filter(({ record }) => record === "crown");
    const tops = crowns
      .flatMap(({ ring }) => ring)
      .filter(({ x }) => Math.abs(x - 5000) < 1e-6)
      .map(({ z }) => z);
    expect(Math.max(...tops)).toBeCloseTo(3100 - (200 * 5000) / 6000, 6);
    expect(Math.max(...tops) - Math.min(...tops)).toBeCloseTo(110, 6);
    expect(crowns.every((face) => bend(face) < 1e-9)).toBe(true);
  });

  it("closes what is fixed to a wall", () => {
    const own = faces.filter(({ of }) => of === "fitting");
    expect(own.map(({ record }) => record)).toEqual(own.map(() => "m"));
    expect(openEdges(own)).toEqual([]);
    expect(volumeOf(own)).toBeCloseTo(100 * 80 * 100, 6);
  });

  it("shows no trim that the document no longer has", () => {
    const without = roomFaces(arrangement, { ...withTrims, trims: { base } }, making);
    expect(without.some(({ record }) => record === "crown")).toBe(false);
  });
});
