/** What the measuring rules share. */
import type { ShowDocument, Units } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import type { TrueRoom } from "./model.ts";

/** A room as it is judged. */
export interface Judged {
  readonly room: TrueRoom;
  readonly document: ShowDocument;
  readonly units: Units;
}

/** Where a snag stands, if there is a place. */
export function place(point: Point | undefined): { at?: Point } {
  return point ? { at: { x: point.x, y: point.y } } : {};
}
