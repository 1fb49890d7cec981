/** The live reading while a piece is moved: what stands nearest before, behind, left and right of it, and nearest of all. */
import { narrowest } from "../plane/facing.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, nearest, overlapDepth } from "../plane/rounded.ts";
import { TOUCH, WIDE_ENOUGH } from "../tolerances.ts";
import { groundFor, worksOf } from "./derive.ts";
import { doubtOf } from "./gaps.ts";
import type { Arrangement, Gap, Standing } from "./model.ts";
import { type Obstacle, pieceThing, type Thing } from "./obstacles.ts";

/**
 * Gaps from a standing piece to what is round it: nearest of all first, then the nearest square before it,
 * behind, left and right, as far as anything stands there within `WIDE_ENOUGH`; none twice. A covering it stands
 * on, in whole or in part, is passed over; one beside it counts. Runs are not worked
 * out here and are 0. Empty for a placement that does not stand in the arrangement.
 */
export function nearestGaps(arrangement: Arrangement, placementId: string): readonly Gap[] {
  const standing = arrangement.standing.find(({ placement }) => placement.id === placementId);
  if (!standing) return [];
  const own = pieceThing(standing).obstacles;
  const others = othersNear(arrangement, placementId, own);
  const closest = least(own, others, (a, b) => nearest(a.shape, b.shape));
  const found = closest ? [closest] : [];
  for (const across of squareTo(standing)) {
    const facing = least(own, others, (a, b) => facingGap(a, b, across));
    if (facing && !found.some((known) => sameGap(known, facing))) found.push(facing);
  }
  return found.map(({ a, b, width, from, to }) => ({
    a: a.id,
    b: b.id,
    aName: a.name,
    bName: b.name,
    at: [from, to],
    width,
    doubt: doubtOf({ a, b, width, from, to }, arrangement.room),
    run: 0,
  }));
}

interface Found {
  readonly a: Obstacle;
  readonly b: Obstacle;
  readonly width: number;
  readonly from: Point;
  readonly to: Point;
}

function othersNear(
  arrangement: Arrangement,
  placementId: string,
  own: readonly Obstacle[],
): readonly Obstacle[] {
  return [...groundFor(arrangement.room).things, ...worksOf(arrangement)]
    .filter((thing) => thing.id !== placementId && !standsOn(own, thing))
    .flatMap((thing) => thing.obstacles)
    .filter((other) => own.some((mine) => boundsGap(mine.shape.bounds, other.shape.bounds) < WIDE_ENOUGH));
}

/** A covering under the piece is no distance away: it is what the piece stands on. */
function standsOn(own: readonly Obstacle[], { kind, obstacles }: Thing): boolean {
  return (
    kind === "covering" &&
    own.some((mine) => obstacles.some((under) => overlapDepth(mine.shape, under.shape).depth > TOUCH))
  );
}

function squareTo({ front: { x, y } }: Standing): readonly Point[] {
  return [
    { x, y },
    { x: -x, y: -y },
    { x: -y, y: x },
    { x: y, y: -x },
  ];
}

/** The width straight across, where the other stands beyond; undefined where it does not. */
function facingGap(a: Obstacle, b: Obstacle, across: Point): ReturnType<typeof narrowest> {
  const found = narrowest(a.shape, b.shape, across);
  return found && found.width >= 0 && found.width < WIDE_ENOUGH ? found : undefined;
}

function least(
  own: readonly Obstacle[],
  others: readonly Obstacle[],
  measure: (a: Obstacle, b: Obstacle) => ReturnType<typeof narrowest>,
): Found | undefined {
  let best: Found | undefined;
  for (const a of own) {
    for (const b of others) {
      const gap = measure(a, b);
      if (gap && gap.width < (best?.width ?? WIDE_ENOUGH)) {
        best = { a, b, width: gap.width, from: gap.a, to: gap.b };
      }
    }
  }
  return best;
}

/** The same thing at the same width: one reading is enough. */
function sameGap(p: Found, q: Found): boolean {
  return p.b === q.b && Math.abs(p.width - q.width) < 1e-6;
}
