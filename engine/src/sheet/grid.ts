/** Grid paper as items: fine squares, every fourth line heavier (1 in on quarter-inch paper, 1 m at 1:50 on 5 mm paper). */
import type { Point } from "../plane/point.ts";
import { line, type Box } from "./drafting.ts";
import type { Item } from "./vocabulary.ts";

const HEAVY_EVERY = 4;

export interface GridWish {
  readonly box: Box;
  /** Side of a square on paper, mm. */
  readonly pitch: number;
  /** A point a heavy line passes through both ways. */
  readonly through: Point;
}

/** The lines of the grid inside the box; none finer than the pitch, none where the pitch is wider than the box. */
export function gridPaper({ box, pitch, through }: GridWish): readonly Item[] {
  const down = stops(box.left, box.right, through.x, pitch).map(({ at, heavy }) =>
    ruled(
      [
        { x: at, y: box.top },
        { x: at, y: box.bottom },
      ],
      heavy,
    ),
  );
  const across = stops(box.top, box.bottom, through.y, pitch).map(({ at, heavy }) =>
    ruled(
      [
        { x: box.left, y: at },
        { x: box.right, y: at },
      ],
      heavy,
    ),
  );
  return [...down, ...across].toSorted((a, b) => (a.pen === b.pen ? 0 : a.pen === "grid" ? -1 : 1));
}

const ruled = (points: readonly Point[], heavy: boolean) =>
  heavy ? line(points, "grid-heavy", { ink: "grid-heavy" }) : line(points, "grid", { ink: "grid" });

function stops(
  from: number,
  to: number,
  through: number,
  pitch: number,
): { readonly at: number; readonly heavy: boolean }[] {
  const first = Math.ceil((from - through) / pitch - 1e-9);
  const last = Math.floor((to - through) / pitch + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const step = first + index;
    return { at: through + step * pitch, heavy: step % HEAVY_EVERY === 0 };
  });
}
