/**
 * The plane's one door to integer coordinates: rings go in as millimetres, are rounded once to whole
 * micrometres, united, cut or grown by the clipping library, and come back as millimetres. Outer rings run
 * counterclockwise, holes clockwise. Clipping itself: B. R. Vatti (1992) as built in the Clipper2 library.
 */
import { ClipType, Clipper64, EndType, FillRule, inflatePaths, JoinType, type Paths64 } from "clipper2-ts";
import type { Point } from "./point.ts";
import { GRID } from "./side.ts";

export type Rings = readonly (readonly Point[])[];

/** Chords of rounded corners stay this near the true arc, mm. */
const ARC_ERROR = 0.1;

/** Everything covered by any of the rings, each of which counts as filled whichever way it runs. */
export function united(rings: Rings): Rings {
  return clipped(ClipType.Union, rings, []);
}

/** What the first rings cover and the second do not. */
export function cut(rings: Rings, away: Rings): Rings {
  return clipped(ClipType.Difference, rings, away);
}

/** What both cover. */
export function shared(rings: Rings, others: Rings): Rings {
  return clipped(ClipType.Intersection, rings, others);
}

/** Rings grown (or shrunk, below 0) by a distance with round corners. */
export function grown(rings: Rings, by: number): Rings {
  const paths = inflatePaths(
    toGrid(united(rings)),
    by * GRID,
    JoinType.Round,
    EndType.Polygon,
    2,
    ARC_ERROR * GRID,
  );
  return fromGrid(paths);
}

function clipped(how: ClipType, subject: Rings, clip: Rings): Rings {
  const clipper = new Clipper64();
  clipper.addSubject(toGrid(subject));
  if (clip.length > 0) clipper.addClip(toGrid(clip));
  const solution: Paths64 = [];
  clipper.execute(how, FillRule.NonZero, solution);
  return fromGrid(solution);
}

function toGrid(rings: Rings): Paths64 {
  return rings.map((ring) => ring.map(({ x, y }) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) })));
}

function fromGrid(paths: Paths64): Rings {
  return paths.map((path) => path.map(({ x, y }) => ({ x: x / GRID, y: y / GRID })));
}
