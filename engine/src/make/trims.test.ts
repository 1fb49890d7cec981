import { describe, expect, it } from "vitest";
import { emptyDocument, type ShowDocument, type Stock, type Trim } from "../document/tables.ts";
import { measureRooms } from "../measure/derive.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";
import { handMadeRoom, type Wanted } from "../testing/hand-made.ts";
import { randomRoom } from "../testing/rooms.ts";
import { trimWorks } from "./trims.ts";

const trim = (said: Partial<Trim> = {}): Trim => ({
  id: "base",
  room: "room",
  order: 0,
  kind: "base",
  height: 184,
  depth: 19,
  up: 0,
  ...said,
});
const stick = (length: number): Stock => ({
  id: "stick",
  name: "Stick",
  order: 0,
  form: "stick",
  width: 184,
  length,
  thickness: 19,
  repeat: 0,
  match: "free",
  kerf: 3,
  grained: false,
  flame: false,
});
const showOf = (said: Partial<Trim> = {}, stock?: Stock): ShowDocument => ({
  ...emptyDocument(),
  trims: { base: trim({ ...said, ...(stock ? { stock: stock.id } : {}) }) },
  stocks: stock ? { [stock.id]: stock } : {},
});

/** 6 by 4 m, clockwise from the origin, so below it. */
const BOX = [
  { x: 0, y: 0, height: 2600 },
  { x: 6000, y: 0, height: 2600 },
  { x: 6000, y: -4000, height: 2600 },
  { x: 0, y: -4000, height: 2600 },
];
const runsIn = (wanted: Wanted | TrueRoom, said: Partial<Trim> = {}, stock?: Stock) => {
  const room = "walls" in wanted ? wanted : handMadeRoom(wanted);
  return trimWorks(showOf(said, stock), [room]).flatMap(({ runs }) => runs);
};
const spansOf = (wanted: Wanted | TrueRoom, said: Partial<Trim> = {}) =>
  runsIn(wanted, said).map(({ name, from, to }) => [name, Math.round(from), Math.round(to)]);

describe("trim along the walls of a plain room", () => {
  it("runs along each wall and is mitred at 45 in its square corners", () => {
    const runs = runsIn({ corners: BOX });
    expect(runs.map(({ name, length }) => [name, Math.round(length)])).toEqual([
      ["Base A-B 1", 6000],
      ["Base B-C 1", 4000],
      ["Base C-D 1", 6000],
      ["Base D-A 1", 4000],
    ]);
    for (const { ends } of runs)
      for (const end of ends) {
        expect(end).toMatchObject({ kind: "inside", bevel: 0 });
        expect(end.mitre).toBeCloseTo(45, 9);
      }
    expect(runs[0]?.ends.map(({ corner }) => corner)).toEqual(["A", "B"]);
    expect(runs[0]?.because).toEqual(["base", "A", "B"]);
  });

  it("is one piece of its whole length while nobody has said the sticks", () => {
    for (const run of runsIn({ corners: BOX }))
      expect(run.pieces.map(({ length }) => length)).toEqual([run.length]);
  });

  it("of a longer wall is joined from pieces that no stick is too short for", () => {
    for (const run of runsIn({ corners: BOX }, {}, stick(2400))) {
      expect(run.pieces.length).toBeGreaterThanOrEqual(Math.ceil(run.length / 2400));
      for (const piece of run.pieces) expect(piece.length).toBeLessThanOrEqual(2400 + 1e-6);
      expect(run.pieces.reduce((sum, { length }) => sum + length, 0)).toBeGreaterThanOrEqual(
        run.length - 1e-6,
      );
    }
  });
});

const windowAt = (sill: number) => ({ wall: 0, offset: 1000, width: 900, sill, height: 800 });

describe("what stands in the way of trim", () => {
  const door = { wall: 0, offset: 1000, width: 900, casing: 90 };

  it("breaks base and rail at a door with its casing, and lets crown pass over it", () => {
    expect(spansOf({ corners: BOX, openings: [door] }).slice(0, 2)).toEqual([
      ["Base A-B 1", 0, 910],
      ["Base A-B 2", 1990, 6000],
    ]);
    expect(spansOf({ corners: BOX, openings: [door] }, { kind: "crown", depth: 70 })[0]).toEqual([
      "Crown A-B 1",
      0,
      6000,
    ]);
  });

  it("names the opening and is cut square there", () => {
    const [first, second] = runsIn({ corners: BOX, openings: [door] });
    expect(first?.ends[1]).toEqual({ kind: "square", angle: 180, sdAngle: 0, mitre: 0, bevel: 0 });
    expect(first?.because).toEqual(["base", "opening0", "A"]);
    expect(second?.because).toEqual(["base", "opening0", "B"]);
  });

  it("lets base pass under a window and breaks a rail at it", () => {
    const window = { wall: 0, offset: 1000, width: 900, sill: 600, height: 1200, kind: "window" as const };
    expect(spansOf({ corners: BOX, openings: [window] })[0]).toEqual(["Base A-B 1", 0, 6000]);
    const rail = { kind: "rail" as const, up: 1000, height: 60 };
    expect(spansOf({ corners: BOX, openings: [window] }, rail).slice(0, 2)).toEqual([
      ["Rail A-B 1", 0, 1000],
      ["Rail A-B 2", 1900, 6000],
    ]);
  });

  it("is at one millimetre: a sill at the trim's top is passed, one below it is not", () => {
    expect(spansOf({ corners: BOX, openings: [windowAt(184)] })).toHaveLength(4);
    expect(spansOf({ corners: BOX, openings: [windowAt(185)] })).toHaveLength(4);
    expect(spansOf({ corners: BOX, openings: [windowAt(183)] })).toHaveLength(5);
  });

  it("breaks trim at a projection, and lets it pass behind what stands off the wall", () => {
    const mass = { wall: 2, offset: 2000, width: 1500, depth: 300, up: 0, kind: "projection" as const };
    expect(
      spansOf({ corners: BOX, fixtures: [{ ...mass, out: 0 }] }).filter(([name]) =>
        `${name}`.includes("C-D"),
      ),
    ).toEqual([
      ["Base C-D 1", 0, 2000],
      ["Base C-D 2", 3500, 6000],
    ]);
    expect(spansOf({ corners: BOX, fixtures: [{ ...mass, out: 19 }] })).toHaveLength(4);
    expect(spansOf({ corners: BOX, fixtures: [{ ...mass, out: 18 }] })).toHaveLength(5);
  });

  it("is not cut through by an outlet", () => {
    expect(
      spansOf({ corners: BOX, fixtures: [{ wall: 0, offset: 500, width: 80, height: 100, up: 50 }] }),
    ).toHaveLength(4);
  });

  it("keeps off open, glass and refused walls, and is square beside them", () => {
    const room = handMadeRoom({ corners: BOX });
    for (const barred of ["open", "glass", "refused"] as const) {
      const walls = room.walls.map((wall, index) => (index === 1 ? { ...wall, [barred]: true } : wall));
      const runs = runsIn({ ...room, walls });
      expect(runs.map(({ wall }) => wall)).toEqual(["A~B", "C~D", "D~A"]);
      expect(runs[0]?.ends.map(({ kind }) => kind)).toEqual(["inside", "square"]);
      expect(runs[1]?.ends.map(({ kind }) => kind)).toEqual(["square", "inside"]);
    }
  });

  it("leaves a square end where the neighbour's trim does not reach the corner", () => {
    const [first, second] = runsIn({
      corners: BOX,
      openings: [{ wall: 1, offset: 50, width: 900, casing: 60 }],
    });
    expect(first?.ends[1].kind).toBe("square");
    expect(second?.ends[0].kind).toBe("square");
  });
});

describe("trim in rooms of any shape", () => {
  it("goes from long point to long point, as offset lines meet, and both sides of a corner are cut alike", () => {
    let outside = 0;
    for (let seed = 1; seed <= 30; seed += 1) {
      const { document } = randomRoom(seed);
      const [room] = measureRooms(document);
      if (!room) throw new Error(`no room of seed ${seed}`);
      const runs = runsIn(room, { depth: 25 });
      expect(runs).toHaveLength(room.walls.length);
      for (const run of runs) {
        const wanted = longPoints(room, run.wall, 25);
        expect(run.length, `${seed} ${run.name}`).toBeCloseTo(wanted, 5);
        outside += run.ends.filter(({ kind }) => kind === "outside").length;
      }
      for (const corner of room.corners) {
        const cuts = runs.flatMap(({ ends }) => ends).filter((end) => end.corner === corner.id);
        expect(cuts).toHaveLength(2);
        expect(cuts[0]).toEqual(cuts[1]);
        expect(cuts[0]?.mitre).toBeCloseTo(Math.abs(90 - corner.angle / 2), 9);
        expect(cuts[0]?.sdAngle).toBe(corner.sdAngle);
      }
    }
    expect(outside).toBeGreaterThan(10);
  });

  it("is the same trim in the room's mirror image", () => {
    const mirrored = BOX.map(({ x, y, height }) => ({ x, y: -y, height }));
    const openings = [{ wall: 0, offset: 1000, width: 900, casing: 90 }];
    const there = runsIn({ corners: BOX, openings }).map(({ length }) => Math.round(length));
    const here = runsIn({ corners: mirrored, turn: "counterclockwise", openings }).map(({ length }) =>
      Math.round(length),
    );
    expect(here.toSorted((a, b) => a - b)).toEqual(there.toSorted((a, b) => a - b));
  });

  it("takes a crown's spring from its depth and height where nobody said it", () => {
    const said = runsIn({ corners: BOX }, { kind: "crown", depth: 70, height: 70, spring: 45 });
    const derived = runsIn({ corners: BOX }, { kind: "crown", depth: 70, height: 70 });
    expect(derived.map(({ ends }) => ends)).toEqual(said.map(({ ends }) => ends));
    // Source: operator's manuals of mitre saws: 45 degree spring, 90 degree corner: 35.3 and 30.
    expect(said[0]?.ends[0].mitre).toBeCloseTo(35.26, 2);
    expect(said[0]?.ends[0].bevel).toBeCloseTo(30, 2);
  });
});

/** Length of a wall's trim by plane geometry alone: its face is the wall moved in by the depth, met with its neighbours'. */
function longPoints(room: TrueRoom, wall: string, depth: number): number {
  const size = room.corners.length;
  const index = room.walls.findIndex(({ id }) => id === wall);
  const corner = (k: number): Point => room.corners[(k + size) % size]!;
  const inward = room.room.turn === "clockwise" ? -1 : 1;
  const face = (k: number): readonly [Point, Point] => {
    const [a, b] = [corner(k), corner(k + 1)];
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const off = { x: (-(b.y - a.y) / length) * depth * inward, y: ((b.x - a.x) / length) * depth * inward };
    return [
      { x: a.x + off.x, y: a.y + off.y },
      { x: b.x + off.x, y: b.y + off.y },
    ];
  };
  const [a, b] = [corner(index), corner(index + 1)];
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const along = (p: Point): number => ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length;
  const start = along(meet(face(index - 1), face(index)));
  const end = along(meet(face(index), face(index + 1)));
  return Math.max(length, end) - Math.min(0, start);
}

function meet([p, q]: readonly [Point, Point], [r, s]: readonly [Point, Point]): Point {
  const [dx, dy, ex, ey] = [q.x - p.x, q.y - p.y, s.x - r.x, s.y - r.y];
  const t = ((r.x - p.x) * ey - (r.y - p.y) * ex) / (dx * ey - dy * ex);
  return { x: p.x + t * dx, y: p.y + t * dy };
}
