import { describe, expect, test } from "vitest";
import type { Reading, ShowDocument } from "../document/tables.ts";
import { randomRoom, randomStream } from "../testing/rooms.ts";
import { measureRooms } from "./derive.ts";
import type { TrueRoom } from "./model.ts";

function only(document: ShowDocument): TrueRoom {
  const [room] = measureRooms(document);
  if (!room) throw new Error("no room");
  return room;
}

function ellipse(room: TrueRoom, id: string): number {
  return room.corners.find((corner) => corner.id === id)!.ellipse.major;
}

function worstOff(room: TrueRoom, truth: readonly { x: number; y: number }[]): number {
  return Math.max(...room.corners.map(({ x, y }, k) => Math.hypot(x - truth[k]!.x, y - truth[k]!.y)));
}

describe("200 random rooms without a right angle", () => {
  const rooms = Array.from({ length: 200 }, (_, seed) => randomRoom(seed + 1));

  test("exact readings give back the true shape and nothing is assumed", () => {
    const bad = rooms.flatMap((truth, seed) => {
      const room = only(truth.document);
      const off = worstOff(room, truth.corners);
      const clean =
        room.settled && room.assumptions.length === 0 && room.readings.every(({ suspect }) => !suspect);
      return off < 0.01 && clean && !room.alternative
        ? []
        : [
            {
              seed: seed + 1,
              off,
              n: truth.corners.length,
              alt: !!room.alternative,
              settled: room.settled,
              sum: room.test.sum,
            },
          ];
    });
    expect(bad).toEqual([]);
  });

  test("noisy readings give it back within its own doubt", () => {
    const ratios = Array.from({ length: 200 }, (_, seed) => {
      const truth = randomRoom(seed + 1, { noise: 1 });
      const room = only(truth.document);
      return Math.max(
        ...room.corners
          .slice(2)
          .map(({ x, y, sdX, sdY }, k) =>
            Math.max(
              Math.abs(x - truth.corners[k + 2]!.x) / sdX,
              Math.abs(y - truth.corners[k + 2]!.y) / sdY,
            ),
          ),
      );
    });
    expect(ratios.filter((ratio) => ratio > 5)).toEqual([]);
  });

  test("redundancy numbers add up to the degrees of freedom", () => {
    for (const { document } of rooms) {
      const room = only(document);
      const sum = room.readings.reduce(
        (total, { redundancy, reading }) => total + (reading.kind === "height" ? 0 : redundancy),
        0,
      );
      expect(sum).toBeCloseTo(room.test.freedom, 6);
    }
  });
});

test("walls and inside angles alone give back 100 random rooms", () => {
  const bad = Array.from({ length: 100 }, (_, k) => k + 1).filter((seed) => {
    const truth = randomRoom(seed);
    const size = truth.corners.length;
    const walls = Object.values(truth.document.readings).filter(({ from, to }) => {
      if (to === undefined) return false;
      const steps = Math.abs(truth.document.corners[from]!.order - truth.document.corners[to]!.order);
      return steps === 1 || steps === size - 1;
    });
    const angles = truth.corners.map((here, corner): Reading => {
      const next = truth.corners[(corner + 1) % size]!;
      const previous = truth.corners[(corner + size - 1) % size]!;
      const out = Math.atan2(next.y - here.y, next.x - here.x);
      const back = Math.atan2(previous.y - here.y, previous.x - here.x);
      const value = (((out - back) * 180) / Math.PI + 720) % 360 || 360;
      const from = Object.values(truth.document.corners).find(({ order }) => order === corner)!.id;
      return {
        id: `a${corner}`,
        room: "room",
        order: corner,
        kind: "angle",
        from,
        value,
        typed: "",
        instrument: "tape",
      };
    });
    const readings = Object.fromEntries([...walls, ...angles].map((one) => [one.id, one]));
    const room = only({ ...truth.document, readings });
    return worstOff(room, truth.corners) > 0.01 || room.assumptions.length > 0 || !room.settled;
  });
  expect(bad).toEqual([]);
});

describe("the same room said otherwise", () => {
  const document = randomRoom(5, { noise: 1, corners: 8 }).document;
  const room = only(document);

  test("readings in any order give the same room", () => {
    const random = randomStream(3);
    const readings = Object.fromEntries(
      Object.values(document.readings).map((one): [string, Reading] => [
        one.id,
        { ...one, order: Math.floor(random() * 1e6) },
      ]),
    );
    expect(worstOff(only({ ...document, readings }), room.corners)).toBe(0);
  });

  test("readings said from the other end give the same room", () => {
    const readings = Object.fromEntries(
      Object.values(document.readings).map((one): [string, Reading] => [
        one.id,
        one.to === undefined ? one : { ...one, from: one.to, to: one.from },
      ]),
    );
    expect(worstOff(only({ ...document, readings }), room.corners)).toBe(0);
  });

  test("corners named the other way round give the mirror image", () => {
    const mirrored = only({
      ...document,
      rooms: { room: { ...document.rooms["room"]!, turn: "counterclockwise" } },
    });
    expect(
      worstOff(
        mirrored,
        room.corners.map(({ x, y }) => ({ x, y: -y })),
      ),
    ).toBeLessThan(1e-6);
  });

  test("naming from another corner turns the room and changes no distance", () => {
    const count = room.corners.length;
    const corners = Object.fromEntries(
      Object.values(document.corners).map((corner) => [
        corner.id,
        { ...corner, order: (corner.order + 3) % count },
      ]),
    );
    const turned = only({ ...document, corners });
    const at = new Map(turned.corners.map((corner) => [corner.id, corner]));
    for (const p of room.corners) {
      for (const q of room.corners) {
        const [a, b] = [at.get(p.id)!, at.get(q.id)!];
        expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeCloseTo(Math.hypot(p.x - q.x, p.y - q.y), 6);
      }
    }
    for (const { id } of room.corners) expect(ellipse(turned, id)).toBeCloseTo(ellipse(room, id), 6);
  });
});
