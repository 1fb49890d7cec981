/** A cut-out taken from the tray and let go: on the floor, on a piece, on a wall or hung, as such pieces go. */
import {
  type Arrangement,
  type Change,
  type Piece,
  type Point,
  type ShowDocument,
  showOf,
  type Standing,
  toHost,
} from "@cornerwise/engine";
import { fingerStep, inchUnits } from "../../sheet/ScaleRule.tsx";
import { middleOf } from "../areas.ts";
import { firstUp, fix, place } from "./commands.ts";
import { hostAt, nearestWall } from "./where.ts";

export interface LetGo {
  /** Where in the room; nothing where it was only pressed. */
  readonly at: Point | undefined;
  /** The piece that is chosen just now, on which a pressed accessory is put. */
  readonly chosen: Standing | undefined;
}

/** What it comes to, and which record is then there; nothing where no copy waits. */
export function setDown(
  document: ShowDocument,
  arrangement: Arrangement,
  piece: Piece,
  { at, chosen }: LetGo,
): { readonly change: Change; readonly on: "wall" | "room"; readonly id: string | undefined } {
  const { units } = showOf(document);
  const step = fingerStep(units);
  const room = arrangement.room.room.id;
  const up = firstUp(piece, inchUnits(units));
  const point = at ?? middleOf(arrangement.room, step);
  const wall = piece.layer === "fitting" ? nearestWall(arrangement.room, point) : undefined;
  if (wall) {
    const offset = Math.round(wall.offset / step) * step;
    const change = fix(document, piece, { ...wall, room, offset, up });
    return { change, on: "wall", id: change.edits[0]?.id };
  }
  const host = piece.layer === "accessory" ? (at ? hostAt(arrangement, at) : chosen) : undefined;
  const change = place(
    document,
    piece,
    host ? onHost(host, room, at) : { room, ...point, up: piece.layer === "hung" ? up : 0 },
  );
  return { change, on: "room", id: change.edits[0]?.id };
}

/** Where it was let go on the host, or its middle; facing as the host does. */
function onHost(host: Standing, room: string, at: Point | undefined) {
  const stand = { ...(at ?? host.stand), turn: host.stand.turn };
  return { room, ...toHost(stand, host), on: host.placement.id };
}
