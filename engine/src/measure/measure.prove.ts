/** Long simulations of the measuring: whether stated ellipses hold what they promise, and how often a blunder is named. */
import { expect, test } from "vitest";
import type { Reading, ShowDocument } from "../document/tables.ts";
import { normalDeviate, randomRoom, randomStream } from "../testing/rooms.ts";
import { measureRooms } from "./derive.ts";

const ROOMS = 300;

function middle(points: readonly { x: number; y: number }[]): { x: number; y: number } {
  return {
    x: points.reduce((sum, { x }) => sum + x, 0) / points.length,
    y: points.reduce((sum, { y }) => sum + y, 0) / points.length,
  };
}

/** The second shape set on the first by the shift and turn that leave least between them (plane Procrustes). */
function laidOver(
  onto: readonly { x: number; y: number }[],
  shape: readonly { x: number; y: number }[],
): readonly { x: number; y: number }[] {
  const [a, b] = [middle(onto), middle(shape)];
  let [dot, cross] = [0, 0];
  shape.forEach(({ x, y }, k) => {
    const [px, py, qx, qy] = [x - b.x, y - b.y, onto[k]!.x - a.x, onto[k]!.y - a.y];
    dot += px * qx + py * qy;
    cross += px * qy - py * qx;
  });
  const turn = Math.atan2(cross, dot);
  return shape.map(({ x, y }) => ({
    x: a.x + (x - b.x) * Math.cos(turn) - (y - b.y) * Math.sin(turn),
    y: a.y + (x - b.x) * Math.sin(turn) + (y - b.y) * Math.cos(turn),
  }));
}

test("95 % ellipses of the free network hold 93 to 97 % of the true corners", () => {
  let [inside, all, held, intervals] = [0, 0, 0, 0];
  for (let seed = 1; seed <= ROOMS; seed++) {
    const { corners, document } = randomRoom(seed, { noise: 1, extras: 4 });
    const room = measureRooms(document)[0]!;
    // The free network's datum: true corners laid over the adjusted ones with least squares between them.
    const truth = laidOver(room.corners, corners);
    room.corners.forEach(({ x, y, ellipse }, k) => {
      const turn = (ellipse.turn * Math.PI) / 180;
      const [dx, dy] = [truth[k]!.x - x, truth[k]!.y - y];
      const along = dx * Math.cos(turn) + dy * Math.sin(turn);
      const across = dy * Math.cos(turn) - dx * Math.sin(turn);
      all++;
      if ((along / ellipse.major) ** 2 + (across / Math.max(ellipse.minor, 1e-9)) ** 2 <= 1) inside++;
      if (k < 2) return;
      intervals++;
      const ox = corners[k]!.x - x;
      if (Math.abs(ox) <= 1.96 * room.corners[k]!.sdX) held++;
    });
  }
  console.log(
    `ellipse coverage ${((100 * inside) / all).toFixed(2)} % of ${all} corners; x intervals ${((100 * held) / intervals).toFixed(2)} %`,
  );
  expect(inside / all).toBeGreaterThan(0.93);
  expect(inside / all).toBeLessThan(0.97);
  expect(held / intervals).toBeGreaterThan(0.93);
  expect(held / intervals).toBeLessThan(0.97);
});

test("a foot misread in one of many readings is noticed, and mostly named", () => {
  const random = randomStream(4711);
  const counts = {
    rooms: 0,
    noticed: 0,
    named: 0,
    amongNamed: 0,
    falseAlarms: 0,
    controlled: 0,
    namedControlled: 0,
  };
  for (let seed = 1; seed <= ROOMS; seed++) {
    const { document } = randomRoom(seed, { noise: 1, extras: 8, corners: 6 + (seed % 5) });
    const clean = measureRooms(document)[0]!;
    counts.rooms++;
    if (clean.readings.some(({ suspect }) => suspect)) counts.falseAlarms++;
    const distances = clean.readings.filter(({ reading }) => reading.kind === "distance");
    const victim = distances[Math.floor(random() * distances.length)]!;
    const slip = (random() < 0.5 ? -1 : 1) * 304.8;
    const room = measureRooms(withSlip(document, victim.reading, slip))[0]!;
    const suspects = room.readings.filter(({ suspect }) => suspect);
    const among = suspects.some(({ reading }) => reading.id === victim.reading.id);
    if (!room.test.passes || suspects.length > 0) counts.noticed++;
    if (among) counts.amongNamed++;
    if (among && suspects.length === 1) counts.named++;
    if (victim.redundancy < 0.1) continue;
    counts.controlled++;
    if (among) counts.namedControlled++;
  }
  console.log(`blunder of a foot: ${JSON.stringify(counts)}`);
  expect(counts.falseAlarms / counts.rooms).toBeLessThan(0.06);
  expect(counts.noticed / counts.rooms).toBeGreaterThan(0.9);
  expect(counts.namedControlled / counts.controlled).toBeGreaterThan(0.9);
});

test("four hundred rooms with readings misread or left out at random never break", () => {
  const random = randomStream(12);
  for (let seed = 1; seed <= 400; seed++) {
    const { document } = randomRoom(seed, { noise: 1 });
    const readings = Object.fromEntries(
      Object.values(document.readings)
        .filter(() => random() < 0.75)
        .map((one): [string, Reading] => [
          one.id,
          random() < 0.2 ? { ...one, value: Math.max(1e-3, one.value * (0.01 + 3 * random())) } : one,
        ]),
    );
    const room = measureRooms({ ...document, readings })[0]!;
    const figures = [
      ...room.covariance.flat(),
      ...room.corners.flatMap(({ x, y, sdX, sdY, angle, sdAngle, height, ellipse }) => [
        x,
        y,
        sdX,
        sdY,
        angle,
        sdAngle,
        height,
        ellipse.major,
        ellipse.minor,
        ellipse.turn,
      ]),
      ...room.walls.flatMap(({ length, sdLength }) => [length, sdLength]),
      ...room.readings.flatMap(({ residual, standardised, redundancy }) => [
        residual,
        standardised,
        redundancy,
      ]),
      room.area,
      room.sdArea,
      room.test.sum,
    ];
    expect(
      figures.filter((figure) => !Number.isFinite(figure)),
      `seed ${seed}`,
    ).toEqual([]);
  }
});

function withSlip(document: ShowDocument, reading: Reading, slip: number): ShowDocument {
  const value = Math.max(1, reading.value + slip);
  return { ...document, readings: { ...document.readings, [reading.id]: { ...reading, value } } };
}

test("the noise used here is normal", () => {
  const random = randomStream(8);
  const values = Array.from({ length: 20_000 }, () => normalDeviate(random));
  const outside = values.filter((value) => Math.abs(value) > 1.96).length;
  expect(outside / values.length).toBeGreaterThan(0.045);
  expect(outside / values.length).toBeLessThan(0.055);
});
