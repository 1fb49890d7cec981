/** Holding the lengths a sheet claims against the points some reader found in the written file. */
import type { Point } from "../plane/point.ts";
import type { Sheet } from "../sheet/vocabulary.ts";

export interface CheckedLength {
  readonly name: string;
  /** Measured between the points that were read, as a real length, mm of paper off what it should be. */
  readonly off: number;
}

/**
 * For each known length the distance between the read points nearest to its ends, less the real length over the
 * scale, in mm of paper. `printer` is what a printer makes of the paper (1.02: two per cent too large).
 */
export function checkKnown(
  sheet: Sheet,
  points: readonly Point[],
  printer = { across: 1, down: 1 },
): readonly CheckedLength[] {
  return sheet.known.map(({ name, from, to, real, scale }) => {
    const [a, b] = [nearest(points, from), nearest(points, to)];
    const paper = Math.hypot((b.x - a.x) * printer.across, (b.y - a.y) * printer.down);
    return { name, off: paper - real / (scale ?? sheet.scale ?? 1) };
  });
}

function nearest(points: readonly Point[], to: Point): Point {
  let best: Point = { x: Infinity, y: Infinity };
  for (const point of points)
    if (Math.hypot(point.x - to.x, point.y - to.y) < Math.hypot(best.x - to.x, best.y - to.y)) best = point;
  return best;
}
