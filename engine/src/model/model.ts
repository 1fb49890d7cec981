/**
 * The card model: parts to be cut from board at the model's scale, and the faces of the room and all that
 * stands in it for the model in three dimensions. Parts are in mm of board (paper mm), faces in room mm.
 */
import type { Point } from "../plane/point.ts";

export interface CardModel {
  /** Room id. */
  readonly room: string;
  readonly name: string;
  /** n of 1:n. */
  readonly scale: number;
  /** Thickness of the board, mm of board. */
  readonly board: number;
  readonly floor: CardPart;
  /** In the room's order; no part for an open side. */
  readonly walls: readonly CardPart[];
}

/** A flat part, x to the right and y up from its left bottom corner as seen from inside the room (the floor: from above). */
export interface CardPart {
  /** `card~${room}` for the floor, `card~${wall}` for a wall. */
  readonly id: string;
  /** "Floor", "Wall A-B". */
  readonly name: string;
  /** What is cut, counterclockwise. */
  readonly outline: readonly Point[];
  /** What is cut out of it: openings, one each. */
  readonly holes: readonly { readonly record: string; readonly outline: readonly Point[] }[];
  /** What is drawn on it: trims, strips' seams, where walls stand; each with the record it shows. */
  readonly drawn: readonly { readonly record: string; readonly points: readonly Point[] }[];
  /** How its ends meet its neighbours: it runs past by a board's thickness, butts, or is cut on a bevel. Left, right. */
  readonly joints: readonly [string, string];
  readonly because: readonly string[];
}

/** A flat face in room axes, mm: one ring and its holes, all in one plane. */
export interface SpaceFace {
  /** The record (or wall id) it shows. */
  readonly record: string;
  /** floor · wall (card) · strip (kraft on the wall) · trim · covering · piece · fitting · venue (things of the venue's) · neighbour. */
  readonly of:
    | "floor"
    | "wall"
    | "glass"
    | "strip"
    | "trim"
    | "covering"
    | "piece"
    | "fitting"
    | "venue"
    | "neighbour";
  /** Id of the wall it is of or fixed to: what goes with the wall when that is laid flat. */
  readonly wall?: string;
  readonly ring: readonly SpacePoint[];
  readonly holes: readonly (readonly SpacePoint[])[];
}

export interface SpacePoint extends Point {
  readonly z: number;
}

/** Somewhere to look from: "From Door 1, standing". */
export interface ViewFrom {
  readonly name: string;
  readonly eye: SpacePoint;
  readonly toward: SpacePoint;
}
