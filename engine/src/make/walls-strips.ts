/** Strips side by side on the faces of a wall: where their edges lie, how high each hangs, and what is cut off the roll for it. */
import type { Stock, WallCovering } from "../document/tables.ts";
import type { FacingWall } from "../measure/facing.ts";
import type { TrueRoom } from "../measure/model.ts";
import { boundsOf, type Bounds } from "../plane/outline.ts";
import { CLOSE_TO_WALL, TOUCH } from "../tolerances.ts";
import type { Strip } from "./model.ts";
import { facesOf, holesOf, outlineOf, topAt, type Hanging } from "./walls-face.ts";

/** The strips of a covering from left to right, numbered from 1. The wall must take paper and the roll be wider than the lap. */
export function stripsOf(hanging: Hanging): readonly Strip[] {
  const holes = holesOf(hanging, outlineOf(hanging)).map(({ mass, outline }) => ({
    mass,
    ...boundsOf(outline),
  }));
  const hung = facesOf(hanging)
    .flatMap((face) => edgesOn(hanging, face))
    .flatMap((edges) => {
      const heights = heightsOf(hanging, holes, edges);
      return heights === undefined ? [] : [{ edges, heights }];
    });
  const level = hung.reduce((highest, { heights }) => Math.max(highest, topOf(heights)), 0);
  return hung.map((one, index) => stripOf(hanging, { ...one, level, number: index + 1 }));
}

/** Left and right edges of the strips of one face, as hung: balanced, and trimmed at the two ends. */
function edgesOn(
  { covering, stock, facing, room }: Hanging,
  [from, to]: readonly [number, number],
): readonly (readonly [number, number])[] {
  const start = from - (from === 0 ? turnAt(room, facing, covering, "left") : 0);
  const end = to + (to === facing.length ? turnAt(room, facing, covering, "right") : 0);
  const step = stock.width - covering.lap;
  const count = Math.max(1, Math.ceil((end - start - covering.lap) / step - 1e-9));
  const excess = count * step + covering.lap - (end - start);
  return Array.from({ length: count }, (_, index): readonly [number, number] => {
    const left = start - excess / 2 + index * step;
    return [index === 0 ? start : left, index === count - 1 ? end : left + stock.width];
  });
}

/** How far paper is carried round a corner: not out of the room, not onto what is no wall or takes nothing. */
function turnAt(room: TrueRoom, facing: FacingWall, covering: WallCovering, side: "left" | "right"): number {
  const { from, to, wall } = facing.line;
  const first = facing.x(0) === 0 ? "left" : "right";
  const corner = side === first ? from : to;
  const next = room.walls.find(
    (one) => one.id !== wall.id && (one.from === corner.id || one.to === corner.id),
  );
  if (corner.angle >= 180 || next === undefined || next.open || next.glass || next.refused) return 0;
  return covering.turn;
}

interface Heights {
  readonly low: number;
  readonly highLeft: number;
  readonly highRight: number;
}

/** Bottom and tops of a strip as hung: above a door or a low mass, below a beam. Undefined where these leave nothing of it. */
function heightsOf(
  hanging: Hanging,
  holes: readonly (Bounds & { readonly mass: boolean })[],
  [left, right]: readonly [number, number],
): Heights | undefined {
  const { facing, covering } = hanging;
  const [seenLeft, seenRight] = [Math.max(0, left), Math.min(facing.length, right)];
  const wider = holes.filter((hole) => seenLeft >= hole.left - TOUCH && seenRight <= hole.right + TOUCH);
  const low = Math.max(
    covering.low,
    ...wider.filter(({ bottom }) => bottom <= covering.low + TOUCH).map(({ top }) => top),
  );
  const ceiling = Math.min(facing.leftHeight, facing.rightHeight);
  const beams = wider.filter(
    ({ mass, bottom, top }) => mass && bottom > covering.low + TOUCH && top >= ceiling - TOUCH,
  );
  const under = Math.min(Infinity, ...beams.map(({ bottom }) => bottom));
  const [highLeft, highRight] = [
    Math.min(under, topAt(hanging, seenLeft)),
    Math.min(under, topAt(hanging, seenRight)),
  ];
  return Math.max(highLeft, highRight) - low > TOUCH ? { low, highLeft, highRight } : undefined;
}

function topOf({ highLeft, highRight }: Heights): number {
  return Math.max(highLeft, highRight);
}

interface Hung {
  readonly edges: readonly [number, number];
  readonly heights: Heights;
  readonly number: number;
  /** Top of the highest strip: the pattern runs level from there along the whole wall. */
  readonly level: number;
}

function stripOf(hanging: Hanging, { edges: [left, right], heights, number, level }: Hung): Strip {
  const { covering, stock } = hanging;
  const { low, highLeft, highRight } = heights;
  const plain = topOf(heights) - low + covering.extra;
  const patternDrop = stock.match === "drop" && number % 2 === 0 ? stock.repeat / 2 : 0;
  return {
    id: `${covering.id}~${number}`,
    number,
    left,
    right,
    low,
    highLeft,
    highRight,
    length: matchedLength(plain, level - topOf(heights) + patternDrop, stock),
    patternDrop,
    cutRound: cutRound(hanging, { left, right, low, high: topOf(heights) }),
    because: [covering.id, stock.id, covering.from, covering.to],
  };
}

/**
 * What is cut off the roll: where strips must match, whole repeats, so that the next begins where the pattern does. The
 * pattern stays level under a sloping ceiling: a strip whose top lies so far below the line its pattern begins at loses
 * that much above it, less whole repeats. A strip that hangs half a repeat lower is such a one.
 */
function matchedLength(plain: number, below: number, { repeat, match }: Stock): number {
  if (match === "free" || repeat === 0) return plain;
  const whole = Math.floor(below / repeat + 1e-9) * repeat;
  return Math.ceil((plain + Math.max(0, below - whole)) / repeat - 1e-9) * repeat;
}

/** Openings and things of the venue's that a strip is cut round. */
function cutRound(
  { room, facing }: Hanging,
  strip: { readonly left: number; readonly right: number; readonly low: number; readonly high: number },
): readonly string[] {
  const wall = facing.line.wall.id;
  const meets = (along: number, width: number, low: number, high: number): boolean => {
    const xs = [facing.x(along), facing.x(along + width)];
    return (
      Math.min(...xs) <= strip.right &&
      Math.max(...xs) >= strip.left &&
      low <= strip.high &&
      high >= strip.low
    );
  };
  return [
    ...room.openings
      .filter(({ wall: on, opening, along }) => {
        const [low, high] = [opening.sill, opening.sill + opening.height];
        return on === wall && high > strip.low + TOUCH && meets(along, opening.width, low, high);
      })
      .map(({ opening }) => opening.id),
    ...room.fixtures
      .filter(
        ({ wall: on, fixture, along, low, high }) =>
          on === wall && fixture.out < CLOSE_TO_WALL && meets(along, fixture.width, low, high),
      )
      .map(({ fixture }) => fixture.id),
  ];
}
