/**
 * Fixed measured rooms for benchmarks: rooms of many corners with far more readings than needed, noisy as a
 * tape is, every line inside the room.
 */
import type { ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { linesOfSight, normalDeviate, randomStream, roomDocument, triangulation } from "./rooms.ts";

export interface MeasuredNetwork {
  readonly name: string;
  readonly truth: readonly Point[];
  readonly document: ShowDocument;
}

/** A room of so many corners and readings (walls, a triangulation, then other lines of sight), the same each time. */
export function measuredNetwork(corners: number, readings: number): MeasuredNetwork {
  const random = randomStream(corners * 1000 + readings);
  const radius = 1200 * Math.sqrt(corners) + 1500;
  const truth = Array.from({ length: corners }, (_, k) => {
    const angle = ((-k + 0.4 * (random() - 0.5)) * 2 * Math.PI) / corners;
    const reach = radius * (0.85 + 0.15 * random());
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });
  const walls = truth.map((_, k): [number, number] => [k, (k + 1) % corners]);
  const cuts = triangulation(random, truth);
  const seen = linesOfSight(random, truth, corners * corners);
  const more = seen.filter(([a, b]) => !cuts.some(([c, d]) => Math.min(c, d) === a && Math.max(c, d) === b));
  const pairs = [...walls, ...cuts, ...more].slice(0, readings);
  const distances = pairs.map(([from, to]) => {
    const value = Math.hypot(truth[from]!.x - truth[to]!.x, truth[from]!.y - truth[to]!.y);
    return { from, to, value: value + Math.hypot(1.6, (0.2 * value) / 1000) * normalDeviate(random) };
  });
  return {
    name: `${corners} corners, ${pairs.length} readings`,
    truth,
    document: roomDocument(corners, distances),
  };
}
