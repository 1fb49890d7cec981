/**
 * Fixed measured rooms for benchmarks: a hall of many corners with far more readings than needed, noisy as a
 * tape is. Star-shaped, so every line from a corner to one a few further on is a fair thing to measure.
 */
import type { ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { normalDeviate, randomStream, roomDocument } from "./rooms.ts";

export interface MeasuredNetwork {
  readonly name: string;
  readonly truth: readonly Point[];
  readonly document: ShowDocument;
}

/** A room of so many corners and readings (walls, then corner k to k + 2, k + 3, ...), the same each time. */
export function measuredNetwork(corners: number, readings: number): MeasuredNetwork {
  const random = randomStream(corners * 1000 + readings);
  const radius = 1200 * Math.sqrt(corners) + 1500;
  const truth = Array.from({ length: corners }, (_, k) => {
    const angle = (-k * 2 * Math.PI) / corners + 0.3 * (random() - 0.5) * (6 / corners);
    const reach = radius * (0.8 + 0.2 * random());
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });
  const pairs: [number, number][] = [];
  for (let step = 1; pairs.length < readings && step <= corners / 2; step++) {
    const full = 2 * step === corners ? corners / 2 : corners;
    for (let k = 0; k < full && pairs.length < readings; k++) pairs.push([k, (k + step) % corners]);
  }
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
