import { expect, test } from "vitest";
import type { Reading } from "../document/tables.ts";
import { normalDeviate, randomRoom, randomStream } from "../testing/rooms.ts";
import { measureRoom, measureRooms } from "./derive.ts";
import { pointDoubt, wallDistanceDoubt } from "./distances.ts";

const TRUTH = randomRoom(11, { corners: 6 });
const ROOM = measureRooms(TRUTH.document)[0]!;
const MIDDLE = { x: 2500, y: -2500 };

test("a point on the wall is at 0, one inside above 0 and one outside below", () => {
  const [a, b] = [ROOM.corners[0]!, ROOM.corners[1]!];
  expect(wallDistanceDoubt(ROOM, 0, { x: (a.x + b.x) / 2, y: 0 }).distance).toBe(0);
  expect(wallDistanceDoubt(ROOM, 0, { x: 100, y: -70 }).distance).toBeCloseTo(70, 9);
  expect(wallDistanceDoubt(ROOM, 0, { x: 100, y: 70 }).distance).toBeCloseTo(-70, 9);
});

test("at a corner the doubt is that corner's, square to the wall", () => {
  const last = ROOM.corners.at(-1)!;
  const wall = ROOM.corners.length - 1;
  // The last wall ends at the first corner, which the datum fixes.
  expect(wallDistanceDoubt(ROOM, wall, { x: 0, y: 0 }).sd).toBeCloseTo(0, 9);
  expect(pointDoubt(ROOM, wall, 0)).toEqual({ sdX: last.sdX, sdY: last.sdY });
  expect(pointDoubt(ROOM, wall, 1)).toEqual({ sdX: 0, sdY: 0 });
});

test("the stated deviation is the one hundreds of noisy measurings show", () => {
  const random = randomStream(99);
  const distances = Array.from({ length: 400 }, () => {
    const readings = Object.fromEntries(
      Object.values(TRUTH.document.readings).map((one): [string, Reading] => {
        const sigma = Math.hypot(1.6, (0.2 * one.value) / 1000);
        return [one.id, { ...one, value: one.value + sigma * normalDeviate(random) }];
      }),
    );
    return wallDistanceDoubt(measureRoom({ ...TRUTH.document, readings }, ROOM.room), 3, MIDDLE).distance;
  });
  const mean = distances.reduce((sum, one) => sum + one, 0) / distances.length;
  const sd = Math.sqrt(distances.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (distances.length - 1));
  const stated = wallDistanceDoubt(ROOM, 3, MIDDLE);
  // Four hundred samples know a deviation to about 3.5 %; three of those.
  expect(sd / stated.sd).toBeGreaterThan(0.89);
  expect(sd / stated.sd).toBeLessThan(1.11);
  expect(Math.abs(mean - stated.distance)).toBeLessThan((4 * stated.sd) / Math.sqrt(400));
});

test("a wall that is not there is a bug and says so", () => {
  expect(() => wallDistanceDoubt(ROOM, 6, MIDDLE)).toThrow("no wall 6");
});
