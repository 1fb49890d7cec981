/** Pieces in the true room. Lengths mm, angles degrees, room axes. */
import type { Covering, Mount, Neighbour, Piece, Placement } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { Stand } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";

export interface Arrangement {
  readonly room: TrueRoom;
  /** What stands on the floor, on another piece, or hangs: all with a placement. */
  readonly standing: readonly Standing[];
  /** What is fixed to the walls: all with a mount. */
  readonly mounted: readonly Mounted[];
  readonly coverings: readonly LaidCovering[];
  readonly neighbours: readonly StandingNeighbour[];
  readonly routes: readonly Route[];
  /** How many works have ways nobody looked at, for the room is too full; absent where all were. */
  readonly unjudged?: number;
  readonly views: readonly NeighbourView[];
  /** Copies of pieces that stand nowhere yet. */
  readonly tray: readonly TrayRow[];
}

/** A convex upright block: an outline (counterclockwise, at least 3 points) from `low` to `high`. */
export interface Block {
  readonly outline: readonly Point[];
  readonly low: number;
  readonly high: number;
  /** The true circle of an upright cylinder; its outline is a polygon of the same area. */
  readonly round?: { readonly middle: Point; readonly radius: number };
}

export interface Standing {
  readonly placement: Placement;
  readonly piece: Piece;
  /** "Bench 2"; just "Gangplank" where there is one only. */
  readonly name: string;
  readonly blocks: readonly Block[];
  /** The outline(s) seen from above: the union of the blocks, outer rings counterclockwise. */
  readonly outline: readonly (readonly Point[])[];
  /** Top above the floor. */
  readonly height: number;
  /** Underside above the floor: 0 on the floor, the top of what it stands on, or where it hangs. */
  readonly low: number;
  /** Unit vector of its front. */
  readonly front: Point;
  /** Its place and turn in room axes, also of what stands on another copy. */
  readonly stand: Stand;
  /** Placement id of what it stands on. */
  readonly on?: string;
}

/** A copy fixed to a wall. */
export interface Mounted {
  readonly mount: Mount;
  readonly piece: Piece;
  /** "Hook 3". */
  readonly name: string;
  /** Wall id. */
  readonly wall: string;
  /** Distance of its middle from the wall's first corner. */
  readonly along: number;
  /** Its extent along the wall, and out from its face. */
  readonly width: number;
  readonly depth: number;
  readonly low: number;
  readonly high: number;
  readonly blocks: readonly Block[];
  readonly outline: readonly (readonly Point[])[];
}

export interface LaidCovering {
  readonly covering: Covering;
  readonly outline: readonly Point[];
  /** The field inside the border; empty where there is no border. */
  readonly field: readonly Point[];
}

export interface StandingNeighbour {
  readonly neighbour: Neighbour;
  readonly outline: readonly Point[];
}

/** The clear distance between two things. `a` and `b` are record ids; a wall is its wall id. */
export interface Gap {
  readonly a: string;
  readonly b: string;
  readonly aName: string;
  readonly bName: string;
  /** The two nearest points. */
  readonly at: readonly [Point, Point];
  readonly width: number;
  /** One standard deviation of the width from the room's readings. */
  readonly doubt: number;
  /** For how long the way may be narrower than the place asks, doubt and all, measured along it; 0 where it is surely wide enough. */
  readonly run: number;
}

/** The widest way between a door and a goal, and what pinches it. */
export interface Route {
  readonly from: string;
  readonly fromName: string;
  /** Record id of the goal: another door, a piece, a covering. */
  readonly to: string;
  readonly toName: string;
  /** Undefined where nothing pinches it below `WIDE_ENOUGH` (tolerances). */
  readonly pinch?: Gap;
}

/** How much of a neighbour's work is seen, by width of it, from the middle of the promised door. */
export interface NeighbourView {
  readonly neighbour: string;
  readonly from: string;
  readonly eye: Point;
  /** 0 to 1. */
  readonly seen: number;
  readonly hiddenBy: readonly string[];
}

export interface TrayRow {
  readonly piece: Piece;
  /** Numbers of the copies that wait. At most the first 1,000; `count` has them all. */
  readonly numbers: readonly number[];
  readonly count: number;
}
