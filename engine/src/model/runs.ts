/** Where a run of trim lies on its wall. x along the wall from its left end as seen from inside, y above the floor, mm. */
import type { Trim } from "../document/tables.ts";
import type { Run } from "../make/model.ts";
import type { Point } from "../plane/point.ts";

/** The lower and the upper edge of a run, each from left to right; a crown follows the ceiling. */
export function runEdges(
  trim: Trim,
  { from, to, up }: Run,
  ceiling: (x: number) => number,
): readonly [readonly [Point, Point], readonly [Point, Point]] {
  const low = (x: number): number => (trim.kind === "crown" ? ceiling(x) - trim.height : up);
  const edge = (lift: number): readonly [Point, Point] => [
    { x: from, y: low(from) + lift },
    { x: to, y: low(to) + lift },
  ];
  return [edge(0), edge(trim.height)];
}
