/** What stands close before a wall, as it is seen on the wall's elevation. */
import type { Piece } from "../document/tables.ts";
import type { FacingWall, SeenBefore } from "../measure/facing.ts";
import type { Arrangement, Block, Mounted, Standing } from "./model.ts";

/** A piece this close to a wall is drawn on its elevation. Common practice, no source. mm. */
const CLOSE = 1000;

/** Of more small things alike than this only the first is named, by what they all are. */
const MANY_ALIKE = 3;

/**
 * A rectangle for every block of each piece that comes within a metre of the wall and overlaps its length, and one for
 * all that is fixed to it. Each thing is named once; of many alike that lie on others or are fixed, only the first.
 */
export function seenBefore(arrangement: Arrangement, facing: FacingWall): readonly SeenBefore[] {
  const seen = [
    ...arrangement.standing.flatMap((one) => standingSeen(one, facing)),
    ...arrangement.mounted.flatMap((one) => mountSeen(one, facing)),
  ];
  const alike = new Map<string, number>();
  for (const { piece, small } of seen) if (small) alike.set(piece.id, (alike.get(piece.id) ?? 0) + 1);
  const told = new Set<string>();
  return seen.flatMap(({ piece, name, small, faces }) => {
    const many = small && (alike.get(piece.id) ?? 0) > MANY_ALIKE;
    const words = !many ? name : told.has(piece.id) ? "" : piece.name;
    told.add(piece.id);
    return faces.map((face, index) => ({ ...face, name: index === 0 ? words : "" }));
  });
}

/** A thing seen before a wall: its rectangles, that which bears its name first. */
interface Seen {
  readonly piece: Piece;
  readonly name: string;
  /** Whether it lies on another or is fixed to the wall. */
  readonly small: boolean;
  readonly faces: readonly Omit<SeenBefore, "name">[];
}

function standingSeen({ placement, piece, name, blocks, on }: Standing, facing: FacingWall): readonly Seen[] {
  const spans = blocks.map((block) => ({ block, span: spanOf(block, facing) }));
  if (!spans.some(({ span }) => isBefore(span, facing))) return [];
  const faces = spans
    .filter(({ span }) => overlaps(span, facing))
    .map(({ block: { low, high }, span }) => ({
      record: placement.id,
      left: Math.max(0, span.left),
      right: Math.min(facing.length, span.right),
      low,
      high,
    }));
  return [{ piece, name, small: on !== undefined, faces }];
}

function mountSeen(one: Mounted, facing: FacingWall): readonly Seen[] {
  if (one.wall !== facing.line.wall.id) return [];
  const middle = facing.x(one.along);
  const left = Math.max(0, middle - one.width / 2);
  const right = Math.min(facing.length, middle + one.width / 2);
  // What is fixed past the end of its wall altogether is nowhere on it; a snag says so.
  if (right <= left) return [];
  const { low, high, piece, name } = one;
  return [{ piece, name, small: true, faces: [{ record: one.mount.id, left, right, low, high }] }];
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
