/**
 * What nobody sees in a room that is only looked into. The eye stands two steps before the middle of the glass (or
 * of the open side, where there is no glass) at the height of somebody standing, and looks for each piece down
 * to half its height, past everything else that stands, hangs or is built there. One plane of sight for each piece:
 * what is lower than that plane hides nothing of it. A thing that lies flat below the eye shows its top, so the front
 * row on a counter does not hide the row behind.
 * Seated eyes, and eyes that walk along the glass, are not asked.
 */
import { alongWall, wallLines } from "../measure/frame.ts";
import { convexParts } from "../plane/convex.ts";
import { boundsOf } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { sightOf, type Blind, type Eye } from "../plane/sight.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { LOOKING_IN } from "../tolerances.ts";
import { placeOf } from "./bodies.ts";
import type { Judging } from "./judging.ts";
import type { Arrangement, Standing } from "./model.ts";
import { standsOnFloorPlan } from "./obstacles.ts";

/** Pieces in a room that is not entered of which too little is seen from before its glass. */
export function unseenSnags(judging: Judging): readonly Snag[] {
  const { arrangement, place } = judging;
  if (arrangement.room.room.entered || !arrangement.room.settled) return [];
  const eyes = eyesOf(arrangement, figureOf("work-unseen", "eye", place));
  if (eyes.length === 0) return [];
  const wanted = figureOf("work-unseen", "share", place);
  const blinds = blindsOf(arrangement);
  const seenBy = eyes.map((eye) => blinds.map((blind) => ({ ...blind, ...fieldOf(eye, blind.outline) })));
  return arrangement.standing.flatMap((one) => {
    if (one.blocks.length === 0) return [];
    const sights = eyes.map((eye, index) => seenOf(eye, one, seenBy[index]!));
    const best = sights.toSorted((a, b) => b.seen - a.seen)[0]!;
    return best.seen < wanted ? [unseenSnag(judging, { one, wanted, ...best })] : [];
  });
}

/** An eye and the way it looks, square to the glass. */
interface Onlooker extends Eye {
  readonly ahead: Point;
}

function eyesOf({ room }: Arrangement, height: number): readonly Onlooker[] {
  const lines = wallLines(room);
  const glass = lines.filter(({ wall }) => wall.glass);
  const sides = glass.length > 0 ? glass : lines.filter(({ wall }) => wall.open);
  return sides.map((line) => ({
    ...alongWall(line, line.wall.length / 2, LOOKING_IN),
    height,
    ahead: { x: -line.out.x, y: -line.out.y },
  }));
}

/** Something that may hide others, by the record it belongs to. */
interface Hider extends Blind {
  readonly id: string;
  readonly name: string;
}

/** Higher than any ceiling, mm. */
const TOP = 1e6;

function blindsOf({ room, standing, neighbours }: Arrangement): readonly Hider[] {
  const walls = wallLines(room)
    .filter(({ wall }) => !wall.glass && !wall.open)
    .map(({ wall, from, to }) => ({
      id: wall.id,
      name: `wall ${wall.name}`,
      outline: [from, to],
      low: 0,
      high: TOP,
    }));
  const fixtures = room.fixtures
    .filter(standsOnFloorPlan)
    .flatMap(({ fixture, footprint, low, high }) =>
      convexParts(footprint).map((outline) => ({ id: fixture.id, name: fixture.name, outline, low, high })),
    );
  const pieces = standing.flatMap(({ placement, name, blocks }) =>
    blocks.map(({ outline, low, high }) => ({ id: placement.id, name, outline, low, high })),
  );
  const works = neighbours.map(({ neighbour: { id, name, height }, outline }) => ({
    id,
    name,
    outline,
    low: 0,
    high: height,
  }));
  return [...walls, ...fixtures, ...pieces, ...works];
}

/** Where an outline is in an eye's field: between which angles, and from how deep to how deep ahead. */
interface Field {
  readonly from: number;
  readonly to: number;
  readonly near: number;
  readonly far: number;
}

function fieldOf(eye: Onlooker, outline: readonly Point[]): Field {
  let [from, to, near, far] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const point of outline) {
    const [x, y] = [point.x - eye.x, point.y - eye.y];
    const depth = x * eye.ahead.x + y * eye.ahead.y;
    const angle = Math.atan2(eye.ahead.x * y - eye.ahead.y * x, depth);
    from = Math.min(from, angle);
    to = Math.max(to, angle);
    near = Math.min(near, depth);
    far = Math.max(far, depth);
  }
  return { from, to, near, far };
}

interface Seen {
  readonly seen: number;
  readonly hiders: readonly Hider[];
}

function seenOf(eye: Onlooker, one: Standing, blinds: readonly (Hider & Field)[]): Seen {
  const field = fieldOf(eye, one.outline.flat());
  // What is wholly to one side, or wholly deeper, hides nothing.
  const others = blinds.filter(
    ({ id, from, to, near }) =>
      id !== one.placement.id && to > field.from && from < field.to && near < field.far,
  );
  const { seen, hiddenBy } = sightOf(eye, { outline: one.outline.flat(), low: lineOf(eye, one) }, others);
  const byId = new Map(hiddenBy.map((index) => [others[index]!.id, others[index]!]));
  return { seen, hiders: [...byId.values()] };
}

/** Down to which height a piece must be seen. */
function lineOf(eye: Eye, { outline, low, height }: Standing): number {
  const { left, right, bottom, top } = boundsOf(outline.flat());
  const flat = height - low < Math.min(right - left, top - bottom);
  return flat && height < eye.height ? height : (low + height) / 2;
}

function unseenSnag(
  judging: Judging,
  { one, wanted, seen, hiders }: Seen & { readonly one: Standing; readonly wanted: number },
): Snag {
  const part = seen === 0 ? "Nothing" : `Only ${Math.max(1, Math.floor(seen * 100))} %`;
  const [first, ...rest] = hiders.map(({ name }) => name);
  const by = first === undefined ? "" : `, behind ${first}${rest.length > 0 ? " and more" : ""}`;
  return {
    rule: "work-unseen",
    level: "know",
    sentence: `${part} of ${one.name} is seen from outside${by}.`,
    things: [one.placement.id, ...hiders.map(({ id }) => id)],
    room: judging.arrangement.room.room.id,
    at: placeOf(one),
    measured: seen,
    wanted,
    mend: "Slide it to where it is seen, or leave it out.",
  };
}
