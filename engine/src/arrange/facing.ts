/** What stands close before a wall, as it is seen on the wall's elevation. */
import type { FacingWall, SeenBefore } from "../measure/facing.ts";
import type { Arrangement, Block, Mounted } from "./model.ts";

/** A piece this close to a wall is drawn on its elevation. Common practice, no source. mm. */
const CLOSE = 1000;

/** A rectangle for every block of each piece that comes within a metre of the wall and overlaps its length. */
export function seenBefore(arrangement: Arrangement, facing: FacingWall): readonly SeenBefore[] {
  const onWall = arrangement.mounted.flatMap((one) => mountBefore(one, facing));
  const standing = arrangement.standing.flatMap((piece) => {
    if (!piece.blocks.some((block) => isBefore(spanOf(block, facing), facing))) return [];
    const spans = piece.blocks.map((block) => ({ block, span: spanOf(block, facing) }));
    const named = piece.blocks.findIndex((block) => overlaps(spanOf(block, facing), facing));
    return spans.flatMap(({ block, span }, index): SeenBefore[] =>
      overlaps(span, facing)
        ? [
            {
              record: piece.placement.id,
              name: index === named ? piece.name : "",
              left: Math.max(0, span.left),
              right: Math.min(facing.length, span.right),
              low: block.low,
              high: block.high,
            },
          ]
        : [],
    );
  });
  return [...standing, ...onWall];
}

/** A thing fixed to this very wall; of many copies of one piece only the first is named. */
function mountBefore(one: Mounted, facing: FacingWall): readonly SeenBefore[] {
  if (one.wall !== facing.line.wall.id) return [];
  const middle = facing.x(one.along);
  return [
    {
      record: one.mount.id,
      name: one.mount.number === 1 ? one.piece.name : "",
      left: Math.max(0, middle - one.width / 2),
      right: Math.min(facing.length, middle + one.width / 2),
      low: one.low,
      high: one.high,
    },
  ];
}

interface Span {
  /** Distance of the block's nearest point from the wall line, into the room. */
  readonly nearest: number;
  readonly left: number;
  readonly right: number;
}

function spanOf(block: Block, { line: { from, along, out }, x }: FacingWall): Span {
  let nearest = Infinity;
  let [left, right] = [Infinity, -Infinity];
  // Plain loops: this is asked of every block for every wall after each change.
  for (const point of block.outline) {
    const dx = point.x - from.x;
    const dy = point.y - from.y;
    nearest = Math.min(nearest, -(dx * out.x + dy * out.y));
    const at = x(dx * along.x + dy * along.y);
    if (at < left) left = at;
    if (at > right) right = at;
  }
  return { nearest, left, right };
}

function overlaps({ left, right }: Span, { length }: FacingWall): boolean {
  return Math.min(length, right) - Math.max(0, left) > 1;
}

function isBefore(span: Span, facing: FacingWall): boolean {
  return span.nearest > -50 && span.nearest < CLOSE && overlaps(span, facing);
}
