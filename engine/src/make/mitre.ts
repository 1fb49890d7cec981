/**
 * Saw settings for a corner. A trim that stands against the fence is mitred by half of what its corner turns; a
 * crown leans, so its cut leans too, and laid flat on the saw it needs a mitre and a bevel at once:
 *
 *     mitre = atan(sin s / tan(W / 2))     s  spring angle, between the crown's back and the wall
 *     bevel = asin(cos s · cos(W / 2))     W  angle between the two walls
 *
 * Source: operator's manuals of mitre saws, tables for crown laid flat (38 and 45 degree springs at 90 degrees:
 * 31.62 and 33.86; 35.26 and 30.00). A side of a slanted box is the same cut with s = 90 less its slope.
 */

/** Degrees from a square cut. */
export interface SawSetting {
  readonly mitre: number;
  readonly bevel: number;
}

const RADIANS = Math.PI / 180;

/** A trim standing against the fence: half of what the corner turns. `wall` is between the walls, over 0 to 180 degrees. */
export function standingCut(wall: number): SawSetting {
  return { mitre: 90 - cornerOf(wall) / 2, bevel: 0 };
}

/** A crown laid flat. `spring` is 0 (flat on the wall) to 90 (flat under the ceiling), `wall` over 0 to 180 degrees. */
export function flatCut(spring: number, wall: number): SawSetting {
  if (!(spring >= 0 && spring <= 90)) throw new Error(`a spring angle is 0 to 90 degrees, not ${spring}`);
  const half = (cornerOf(wall) / 2) * RADIANS;
  const lean = spring * RADIANS;
  return {
    // atan2 keeps a straight corner, whose tangent has no end, at no mitre at all.
    mitre: Math.atan2(Math.sin(lean) * Math.cos(half), Math.sin(half)) / RADIANS,
    bevel: Math.asin(Math.cos(lean) * Math.cos(half)) / RADIANS,
  };
}

/** The angle the saw sees: at a corner that comes into the room, what is left of the full turn. Degrees. */
export function sawAngle(inside: number): number {
  return inside > 180 ? 360 - inside : inside;
}

function cornerOf(wall: number): number {
  if (!(wall > 0 && wall <= 180)) throw new Error(`two walls meet at over 0 to 180 degrees, not ${wall}`);
  return wall;
}
