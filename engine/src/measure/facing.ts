/** A wall turned to face the reader, and where its places lie on paper: what every part of an elevation is drawn by. */
import type { ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import type { LabelField } from "../sheet/labels.ts";
import type { Frame } from "../sheet/vocabulary.ts";
import { clockwise, wallLines, type WallLine } from "./frame.ts";
import type { TrueOpening, TrueRoom } from "./model.ts";

/** What stands before the wall, as it is seen on it: an upright rectangle (mm, elevation axes). */
export interface SeenBefore {
  readonly record: string;
  readonly name: string;
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

export interface ElevationWish {
  readonly room: TrueRoom;
  readonly document: ShowDocument;
  /** Its `wall` says which. */
  readonly frame: Frame;
  readonly field: LabelField;
  readonly before?: readonly SeenBefore[];
}

/** A wall turned to face the reader: distances along it become x from the left. */
export interface FacingWall {
  readonly line: WallLine;
  readonly length: number;
  readonly leftHeight: number;
  readonly rightHeight: number;
  /** One standard deviation of the heights, mm. */
  readonly leftSd: number;
  readonly rightSd: number;
  readonly leftName: string;
  readonly rightName: string;
  /** x from the left of a distance along the wall. */
  readonly x: (along: number) => number;
}

/** The wall as seen from inside; undefined where the room has no such wall. */
export function facingWall(room: TrueRoom, wall: string): FacingWall | undefined {
  const found = wallLines(room).find((candidate) => candidate.wall.id === wall);
  if (!found) return undefined;
  const { length } = found.wall;
  const [left, right] = clockwise(room) ? [found.from, found.to] : [found.to, found.from];
  return {
    line: found,
    length,
    leftHeight: left.height,
    rightHeight: right.height,
    leftSd: left.sdHeight,
    rightSd: right.sdHeight,
    leftName: left.name,
    rightName: right.name,
    x: left === found.from ? (along) => along : (along) => length - along,
  };
}

/** What an elevation is drawn by. */
export interface Scene {
  readonly wish: ElevationWish;
  readonly facing: FacingWall;
  /** Paper point of a place on the wall. */
  readonly at: (x: number, y: number) => Point;
}

/** Height of the sloping ceiling over a place on the wall. */
export function ceilingAt({ facing }: Pick<Scene, "facing">, x: number): number {
  const part = facing.length > 0 ? x / facing.length : 0;
  return facing.leftHeight + (facing.rightHeight - facing.leftHeight) * part;
}

/** An upright rectangle on the wall, mm. */
export interface Rectangle {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

/** Its corners on paper, from the lower left round by the top. */
export function corners({ at }: Scene, { left, right, low, high }: Rectangle): readonly Point[] {
  return [at(left, low), at(left, high), at(right, high), at(right, low)];
}

/** Left and right edge of an opening as seen from inside. */
export function edgesOf({ x }: FacingWall, { along, opening }: TrueOpening): readonly [number, number] {
  const [a, b] = [x(along), x(along + opening.width)];
  return a < b ? [a, b] : [b, a];
}
