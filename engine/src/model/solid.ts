/**
 * Solids as faces. Every ring runs counterclockwise as one looks at the face from outside of the solid; its holes run
 * clockwise. Solids are whole: every edge belongs to two faces, which run along it opposite ways.
 */
import { counterclockwise, ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import type { SpaceFace, SpacePoint } from "./model.ts";

export type Shown = Pick<SpaceFace, "record" | "of">;

/** An upright prism; one of no height is its top alone, one of no area is nothing. The ring may run either way round. */
export function prism(
  shown: Shown,
  outline: readonly Point[],
  low: number,
  high: number,
): readonly SpaceFace[] {
  if (outline.length < 3 || ringArea(outline) === 0 || high < low) return [];
  const ring = counterclockwise(outline);
  const top = ring.map(({ x, y }) => ({ x, y, z: high }));
  if (high === low) return [{ ...shown, ring: top, holes: [] }];
  return between(
    shown,
    ring.map(({ x, y }) => ({ x, y, z: low })),
    top,
  );
}

/** The solid between two flat rings of as many points, the second on the side from which the first runs counterclockwise. */
export function between(
  shown: Shown,
  near: readonly SpacePoint[],
  far: readonly SpacePoint[],
): readonly SpaceFace[] {
  const sides = near.map((a, index): SpaceFace => {
    const next = (index + 1) % near.length;
    return { ...shown, ring: [a, near[next]!, far[next]!, far[index]!], holes: [] };
  });
  return [{ ...shown, ring: far, holes: [] }, { ...shown, ring: near.toReversed(), holes: [] }, ...sides];
}
