/** The live reading while a piece is moved: what stands nearest before, behind, left and right of it, and nearest of all. */
import { narrowest } from "../plane/facing.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, nearest, overlapDepth } from "../plane/rounded.ts";
import { TOUCH, WIDE_ENOUGH } from "../tolerances.ts";
import {
  fixtureBodies,
  mountedBody,
  neighbourBodies,
  standingBody,
  type Body,
  type BodyPart,
} from "./bodies.ts";
import { groundFor, worksOf } from "./derive.ts";
import { doubtOf } from "./gaps.ts";
import type { Arrangement, Gap, Standing } from "./model.ts";
import { type Obstacle, pieceThing, ringOf, type Thing } from "./obstacles.ts";

/**
 * Gaps from a copy to what is round it: nearest of all first, then the nearest square before it, behind, left and
 * right, as far as anything is there within `WIDE_ENOUGH`; none twice. What carries it and what it carries are passed
 * over, and so is a covering it stands on, in whole or in part; one beside it counts. A copy up in the air, hung or on
 * another, is told of bare walls and of what is as high as itself; one on the floor, of what narrows a way. Runs are not
 * worked out here and are 0. Empty for a placement that has no place in the arrangement.
 */
export function nearestGaps(arrangement: Arrangement, placementId: string): readonly Gap[] {
  const standing = arrangement.standing.find(({ placement }) => placement.id === placementId);
  if (!standing) return [];
  const aloft = standing.low > 0;
  const own = aloft ? obstaclesOf(standingBody(standing)) : pieceThing(standing).obstacles;
  const things = aloft ? thingsAloft(arrangement, standing) : thingsInTheWay(arrangement);
  const others = othersNear(things, stackOf(arrangement, standing), own);
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

function thingsInTheWay(arrangement: Arrangement): readonly Thing[] {
  return [...groundFor(arrangement.room).things, ...worksOf(arrangement)];
}

/** Walls, bare, and whatever is somewhere as high as a copy up in the air. */
function thingsAloft(arrangement: Arrangement, { low, height }: Standing): readonly Thing[] {
  const { room, standing, mounted } = arrangement;
  const wallOf = new Map<string, string>([
    ...room.fixtures.map(({ fixture, wall }) => [fixture.id, wall] as const),
    ...mounted.map(({ mount, wall }) => [mount.id, wall] as const),
  ]);
  const level = (part: BodyPart): boolean => part.low < height - TOUCH && part.high > low + TOUCH;
  const bodies = [
    ...fixtureBodies(arrangement),
    ...standing.map(standingBody),
    ...mounted.map(mountedBody),
    ...neighbourBodies(arrangement),
  ];
  return [
    ...ringOf(room, 0).map(({ obstacle }): Thing => ({
      id: obstacle.id,
      name: obstacle.name,
      kind: "wall",
      obstacles: [obstacle],
    })),
    ...bodies.map((body): Thing => {
      const wall = room.walls.findIndex(({ id }) => id === wallOf.get(body.id));
      const obstacles = obstaclesOf({ ...body, parts: body.parts.filter(level) }, wall);
      return { id: body.id, name: body.name, kind: KINDS[body.kind], obstacles };
    }),
  ];
}

const KINDS = { standing: "piece", mounted: "fixture", neighbour: "neighbour", fixture: "fixture" } as const;

function obstaclesOf({ id, name, parts }: Body, wall = -1): readonly Obstacle[] {
  return parts.map(({ shape }) => ({ id, name, shape, heart: shape.middle, ...(wall < 0 ? {} : { wall }) }));
}

/** Ids of a copy, of all that carries it and of all it carries. */
function stackOf({ standing }: Arrangement, one: Standing): ReadonlySet<string> {
  const byId = new Map(standing.map((each) => [each.placement.id, each]));
  const carried = new Map<string, string[]>();
  for (const { placement, on } of standing) {
    if (on === undefined) continue;
    const list = carried.get(on);
    if (list) list.push(placement.id);
    else carried.set(on, [placement.id]);
  }
  const stack = new Set([one.placement.id]);
  // A set is walked on into what is put in on the way.
  for (const id of stack) for (const upon of carried.get(id) ?? []) stack.add(upon);
  for (let host = byId.get(one.on ?? ""); host; host = byId.get(host.on ?? "")) stack.add(host.placement.id);
  return stack;
}

function othersNear(
  things: readonly Thing[],
  stack: ReadonlySet<string>,
  own: readonly Obstacle[],
): readonly Obstacle[] {
  return things
    .filter((thing) => !stack.has(thing.id) && !standsOn(own, thing))
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
