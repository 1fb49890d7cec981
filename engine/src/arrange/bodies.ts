/** Everything solid in a room as upright convex parts, whoever put it there: what the rules of space ask about. */
import { convexParts } from "../plane/convex.ts";
import { boundsOf, counterclockwise } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { rounded, type Rounded } from "../plane/rounded.ts";
import { TOUCH } from "../tolerances.ts";
import type { Arrangement, Block, Mounted, Standing } from "./model.ts";
import { fixtureName, neighbourThing, shapeOf, standsOnFloorPlan } from "./obstacles.ts";

/** A solid thing by the record that put it there. */
export interface Body {
  /** Placement, mount, neighbour or fixture id. */
  readonly id: string;
  readonly name: string;
  readonly kind: "standing" | "mounted" | "neighbour" | "fixture";
  readonly parts: readonly BodyPart[];
}

/** An upright convex part: its shape (a cylinder by its true circle), a ring of it, and its heights. */
export interface BodyPart {
  readonly shape: Rounded;
  readonly outline: readonly Point[];
  readonly low: number;
  readonly high: number;
}

/** A piece where it stands or hangs. */
export function standingBody(standing: Standing): Body {
  return kept(standing, ({ placement, name, blocks }) => ({
    id: placement.id,
    name,
    kind: "standing",
    parts: partsOf(blocks),
  }));
}

/** A copy fixed to a wall. */
export function mountedBody(mounted: Mounted): Body {
  return kept(mounted, ({ mount, name, blocks }) => ({
    id: mount.id,
    name,
    kind: "mounted",
    parts: partsOf(blocks),
  }));
}

const bodies = new WeakMap<object, Body>();

/** Every rule of space asks after every change, so a body is made once for each value. */
function kept<T extends object>(value: T, make: (value: T) => Body): Body {
  const known = bodies.get(value) ?? make(value);
  bodies.set(value, known);
  return known;
}

/** The neighbours' works, each from the floor to its top. */
export function neighbourBodies({ neighbours }: Arrangement): readonly Body[] {
  return neighbours.map((one) => {
    const { id, name, obstacles } = neighbourThing(one);
    const outline = counterclockwise(one.outline);
    const parts = obstacles.map(({ shape }) => ({ shape, outline, low: 0, high: one.neighbour.height }));
    return { id, name, kind: "neighbour", parts };
  });
}

/** The venue's things that take room on the plan. */
export function fixtureBodies({ room }: Arrangement): readonly Body[] {
  return room.fixtures.filter(standsOnFloorPlan).map(({ fixture, footprint, low, high }) => ({
    id: fixture.id,
    name: fixtureName(fixture),
    kind: "fixture",
    parts: convexParts(footprint).map((outline) => ({ shape: rounded(outline), outline, low, high })),
  }));
}

function partsOf(blocks: readonly Block[]): readonly BodyPart[] {
  return blocks.map((block) => ({ ...block, shape: shapeOf(block) }));
}

/** Where a piece is on the plan: the middle of the box round it; its said place where it has no size. */
export function placeOf({ outline, stand }: Standing): Point {
  if (outline.length === 0) return { x: stand.x, y: stand.y };
  const { left, right, bottom, top } = boundsOf(outline.flat());
  return { x: (left + right) / 2, y: (bottom + top) / 2 };
}

/** Whether it hangs from the ceiling: meant to, or up in the air and on nothing. */
export function hangs({ piece, placement, on }: Standing): boolean {
  return on === undefined && placement.on === undefined && (piece.layer === "hung" || placement.up > TOUCH);
}
