/** What stands close before a wall, as it is seen on the wall's elevation. */
import type { FacingWall, SeenBefore } from "../measure/elevation.ts";
import type { Arrangement, Block } from "./model.ts";

/** A piece this close to a wall is drawn on its elevation. Common practice, no source. mm. */
const CLOSE = 1000;

/** One rectangle for each block that comes within a metre of the wall and overlaps its length. */
export function seenBefore(arrangement: Arrangement, facing: FacingWall): readonly SeenBefore[] {
  return arrangement.standing.flatMap((standing) =>
    standing.blocks.flatMap((block, index): SeenBefore[] => {
      const span = spanBefore(block, facing);
      if (!span) return [];
      const name = index === 0 ? standing.name : "";
      return [
        {
          record: standing.placement.id,
          name,
          left: span[0],
          right: span[1],
          low: block.low,
          high: block.high,
        },
      ];
    }),
  );
}

function spanBefore(block: Block, facing: FacingWall): readonly [number, number] | undefined {
  const { from, along, out } = facing.line;
  let nearest = Infinity;
  const xs: number[] = [];
  for (const point of block.outline) {
    const [dx, dy] = [point.x - from.x, point.y - from.y];
    nearest = Math.min(nearest, -(dx * out.x + dy * out.y));
    xs.push(facing.x(dx * along.x + dy * along.y));
  }
  const [left, right] = [Math.max(0, Math.min(...xs)), Math.min(facing.length, Math.max(...xs))];
  return nearest > -50 && nearest < CLOSE && right - left > 1 ? [left, right] : undefined;
}
