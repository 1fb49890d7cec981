/** Two things in one place: pieces with pieces, with the venue's projections and with the neighbours' works. */
import { eachNearPair } from "../plane/pairs.ts";
import type { Bounds } from "../plane/outline.ts";
import { boundsGap, overlapDepth, rounded, type Rounded } from "../plane/rounded.ts";
import type { Point } from "../plane/point.ts";
import type { Snag } from "../snags/snag.ts";
import { OVERLAP_LIMIT, TOUCH } from "../tolerances.ts";
import { mountedBody, standingBody, type Body as Solid } from "./bodies.ts";
import { opening, printAtLeast, type Judging } from "./judging.ts";
import type { Arrangement } from "./model.ts";
import { fixtureName, neighbourThing, standsOnFloorPlan } from "./obstacles.ts";

interface Body {
  readonly id: string;
  readonly name: string;
  /** Whether the artist may move it. */
  readonly ours: boolean;
  readonly parts: readonly Part[];
  readonly bounds: Bounds;
}

interface Part {
  readonly shape: Rounded;
  readonly low: number;
  readonly high: number;
}

/** One snag for every two things that overlap in plan and in height by more than a touch. */
export function overlapSnags(judging: Judging): readonly Snag[] {
  const { arrangement } = judging;
  const all = [
    ...arrangement.standing.map((one) => bodyOf(standingBody(one))),
    ...arrangement.mounted.map((one) => bodyOf(mountedBody(one))),
    ...venueBodies(arrangement),
  ];
  const snags: Snag[] = [];
  let more = false;
  eachNearPair(
    all.map((body) => body.bounds),
    0,
    (i, j) => {
      const [a, b] = [all[i]!, all[j]!];
      if (!a.ours && !b.ours) return true;
      const worst = worstOverlap(a, b);
      if (!worst) return true;
      more = snags.length >= OVERLAP_LIMIT;
      if (!more) snags.push(overlapSnag(judging, a, b, worst));
      return !more;
    },
  );
  return more ? [...snags, moreSnag(arrangement)] : snags;
}

const bodies = new WeakMap<Solid, Body>();

function bodyOf(solid: Solid): Body {
  const known = bodies.get(solid);
  if (known) return known;
  const { id, name, parts } = solid;
  const body = { id, name, ours: true, parts, bounds: around(parts) };
  bodies.set(solid, body);
  return body;
}

function around(parts: readonly Part[]): Bounds {
  const all = parts.map(({ shape }) => shape.bounds);
  return {
    left: Math.min(...all.map((bounds) => bounds.left)),
    right: Math.max(...all.map((bounds) => bounds.right)),
    bottom: Math.min(...all.map((bounds) => bounds.bottom)),
    top: Math.max(...all.map((bounds) => bounds.top)),
  };
}

const SOLID = new Set(["projection", "column", "radiator"]);

function venueBodies({ room, neighbours }: Arrangement): readonly Body[] {
  const fixtures = room.fixtures
    .filter((one) => SOLID.has(one.fixture.kind) && standsOnFloorPlan(one))
    .map(({ fixture, footprint, low, high }) => {
      const parts = [{ shape: rounded(footprint), low, high }];
      return { id: fixture.id, name: fixtureName(fixture), ours: false, parts, bounds: around(parts) };
    });
  const works = neighbours.map((one) => {
    const thing = neighbourThing(one);
    const parts = [{ shape: thing.obstacles[0]!.shape, low: 0, high: one.neighbour.height }];
    return { id: thing.id, name: thing.name, ours: false, parts, bounds: around(parts) };
  });
  return [...fixtures, ...works];
}

interface Overlap {
  readonly depth: number;
  readonly at: Point;
  /** How many pairs of parts overlap: with one, its depth parts the things. */
  readonly pairs: number;
}

function worstOverlap(a: Body, b: Body): Overlap | undefined {
  let worst: Overlap | undefined;
  for (const p of a.parts) {
    for (const q of b.parts) {
      if (Math.min(p.high, q.high) - Math.max(p.low, q.low) <= TOUCH) continue;
      if (boundsGap(p.shape.bounds, q.shape.bounds) > 0) continue;
      const { depth } = overlapDepth(p.shape, q.shape);
      if (depth <= TOUCH) continue;
      const pairs = (worst?.pairs ?? 0) + 1;
      worst =
        worst && worst.depth >= depth ? { ...worst, pairs } : { depth, at: between(p.shape, q.shape), pairs };
    }
  }
  return worst;
}

/** The middle of the box both stand in. */
function between({ bounds: a }: Rounded, { bounds: b }: Rounded): Point {
  return {
    x: (Math.max(a.left, b.left) + Math.min(a.right, b.right)) / 2,
    y: (Math.max(a.bottom, b.bottom) + Math.min(a.top, b.top)) / 2,
  };
}

function overlapSnag(judging: Judging, a: Body, b: Body, { depth, at, pairs }: Overlap): Snag {
  const slide = `Slide ${a.name} ${printAtLeast(judging, depth)} away from ${b.name}.`;
  return {
    rule: "pieces-overlap",
    level: "stop",
    sentence: `${opening(a.name)} and ${b.name} stand in the same place, ${judging.print(depth)} deep.`,
    things: [a.id, b.id],
    room: judging.arrangement.room.room.id,
    at,
    measured: depth,
    doubt: 0,
    wanted: 0,
    ...(pairs === 1 ? { mend: slide } : {}),
  };
}

function moreSnag({ room }: Arrangement): Snag {
  return {
    rule: "pieces-overlap",
    level: "stop",
    sentence: `More than ${OVERLAP_LIMIT} pairs of things stand in the same place; only the first are listed.`,
    things: [],
    room: room.room.id,
  };
}
