/**
 * How the boards of a card model meet. The inside faces are the room; the boards stand outside of them.
 *
 *     seen from above, inside below        a corner into the room (270°)
 *
 *          P           ┌──┐ N runs past            │  │
 *     ═════════════════╡  │ by a board             │ N│ N stops short by a board
 *     inside face of P └──┘                   ═════╧══╡
 *                      │  │ N                      P  │ P runs to the corner, its edge shows
 *
 * At each corner the board on the right as one stands inside (N, whose left end is there) runs past its inside
 * corner, and the one on the left (P, whose right end is there) butts against its inside face. With boards of
 * thickness t and an inside angle W the outside faces meet t / tan(W / 2) past the corner, measured along
 * either of them: exactly t for 90°, nothing for 180°, and less than nothing past it, -t for 270°, where N stops
 * short of the back of P. So one figure serves every corner: N's left end goes t / tan(W / 2) past.
 *
 * Cut square, the two leave a wedge between them that is t · |cot W| wide at most. While that is less than a
 * knife's cut it is glued shut; at a corner further from square both ends are cut on a bevel along the line that
 * halves the angle, which leaves nothing. A bevelled board is cut to its larger face, and the other is pared back:
 * the front, from the line of the inside corner, at a corner of less than 180°; the back, unseen, at any other. Derived here by plain trigonometry.
 */
import { facingWall } from "../measure/facing.ts";
import { clockwise } from "../measure/frame.ts";
import type { TrueRoom, TrueWall } from "../measure/model.ts";
import type { Point } from "../plane/point.ts";
import { CARD_MITRE, CARD_SLIVER } from "../tolerances.ts";

/** One end of a board. */
export interface PanelEnd {
  /** The corner it is at. */
  readonly corner: string;
  /** How far what is cut goes past the inside corner, mm of board; below 0 where it stops short. */
  readonly past: number;
  readonly bevelled: boolean;
  /** "runs past by 1.5 mm". */
  readonly words: string;
}

/** What a bevelled end's words begin with. */
export const BEVEL = "bevel";

/** Whether a board is cut for a wall: open sides and glass have none. */
export function hasBoard(wall: TrueWall): boolean {
  return !wall.open && !wall.glass && wall.length > 0;
}

/** The left and the right end of a wall's board as seen from inside; thickness in mm of board. */
export function panelEnds(room: TrueRoom, wall: TrueWall, board: number): readonly [PanelEnd, PanelEnd] {
  const ordered = clockwise(room) ? room.walls : room.walls.toReversed();
  const at = ordered.indexOf(wall);
  const [before, after] = [ordered.at(at - 1), ordered[(at + 1) % ordered.length]];
  const [left, right] = clockwise(room) ? [wall.from, wall.to] : [wall.to, wall.from];
  return [
    endOf(room, { corner: left, neighbour: before, runsPast: true }, board),
    endOf(room, { corner: right, neighbour: after, runsPast: false }, board),
  ];
}

interface Meeting {
  readonly corner: string;
  readonly neighbour: TrueWall | undefined;
  readonly runsPast: boolean;
}

function endOf(room: TrueRoom, { corner, neighbour, runsPast }: Meeting, board: number): PanelEnd {
  if (!neighbour || !hasBoard(neighbour)) return { corner, past: 0, bevelled: false, words: "free end" };
  const angle = insideAngle(room, corner);
  const radians = (angle * Math.PI) / 180;
  const full = board / Math.tan(radians / 2);
  // Past a very sharp corner the boards would run on for ever: they are cut off blunt there.
  const past = Math.max(-CARD_MITRE * board, Math.min(CARD_MITRE * board, full));
  if (Math.abs(past) < CARD_SLIVER / 10) return { corner, past: 0, bevelled: false, words: "meets flush" };
  if (Math.abs(board / Math.tan(radians)) <= CARD_SLIVER)
    return { corner, bevelled: false, ...squareEnd(past, runsPast) };
  const off = Number((90 - angle / 2).toFixed(1));
  return {
    corner,
    past: Math.max(0, past),
    bevelled: true,
    words: `${BEVEL} ${Math.abs(off)}° off square, ${past > 0 ? "front" : "back"} pared`,
  };
}

function squareEnd(past: number, runsPast: boolean): { readonly past: number; readonly words: string } {
  const by = `${Number(Math.abs(past).toFixed(2))} mm`;
  if (past > 0) return runsPast ? { past, words: `runs past by ${by}` } : { past: 0, words: "butts" };
  return runsPast
    ? { past, words: `stops short by ${by} and butts` }
    : { past: 0, words: "runs to the corner, its edge shows" };
}

/** The inside angle of a room at a corner by its places, degrees above 0 to below 360; 180 for a corner it has not. */
export function insideAngle(room: TrueRoom, id: string): number {
  const corners = clockwise(room) ? room.corners : room.corners.toReversed();
  const at = corners.findIndex((corner) => corner.id === id);
  const [before, here, after] = [corners.at(at - 1), corners[at], corners[(at + 1) % corners.length]];
  if (!before || !here || !after) return 180;
  const bearing = (to: Point): number => Math.atan2(to.y - here.y, to.x - here.x);
  const sweep = ((bearing(before) - bearing(after)) * 180) / Math.PI;
  return ((-sweep % 360) + 360) % 360 || 360;
}

/** Height of the room over a place along a wall, from its left end, mm; level past its ends. */
export function heightAlong(room: TrueRoom, wall: TrueWall): (x: number) => number {
  const facing = facingWall(room, wall.id);
  if (!facing) return () => 0;
  const { length, leftHeight, rightHeight } = facing;
  return (x) => {
    const part = length > 0 ? Math.min(1, Math.max(0, x / length)) : 0;
    return leftHeight + (rightHeight - leftHeight) * part;
  };
}
