/**
 * A part cut into tiles that fit on paper. Neighbouring tiles share a strip; in its middle runs the line on which the
 * sheets meet, and on that line stand two register crosses, at the same true spots of the part on both sheets.
 *
 *     ┌──────────────┬─┐ ┌─┬──────────────┐
 *     │            + │ │ │ │ +            │      the sheets are laid over one another until
 *     │   sheet 1    │ │ │ │    sheet 2   │      the crosses meet, and are taped
 *     │            + │ │ │ │ +            │
 *     └──────────────┴─┘ └─┴──────────────┘
 */
import type { Point } from "../plane/point.ts";

/** A window on a part, in the part's own axes (y up): `top` is the larger. */
export interface Window {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** A tile: its window, its place among the part's tiles, and where it meets others. */
export interface Tile {
  readonly window: Window;
  readonly column: number;
  readonly row: number;
  readonly meets: readonly Meeting[];
}

export interface Meeting {
  /** The tile it meets. */
  readonly column: number;
  readonly row: number;
  /** The line on which they meet, in the part's axes, and the two register spots on it. */
  readonly line: readonly [Point, Point];
  readonly spots: readonly [Point, Point];
}

/** What tiles share with their neighbours, mm: enough to hold a cross and a strip of tape. From memory. */
export const SHARED_STRIP = 12;

/** How many tiles a length takes. */
export function tilesAlong(length: number, room: number): number {
  return length <= room + 1e-9 ? 1 : Math.ceil((length - SHARED_STRIP) / (room - SHARED_STRIP) - 1e-9);
}

/** The tiles of a part of a size on paper of a free size, left to right and from the bottom up; of equal size. */
export function tilesOf(
  size: { readonly width: number; readonly height: number },
  room: { readonly width: number; readonly height: number },
): readonly Tile[] {
  const columns = spans(size.width, tilesAlong(size.width, room.width));
  const rows = spans(size.height, tilesAlong(size.height, room.height));
  return rows.flatMap(([bottom, top], row) =>
    columns.map(([left, right], column) => {
      const window = { left, right, bottom, top };
      const beside = [-1, 1].flatMap((step) => {
        const other = columns[column + step];
        return other
          ? [meeting(window, "upright", middle([left, right], other), { column: column + step, row })]
          : [];
      });
      const above = [-1, 1].flatMap((step) => {
        const other = rows[row + step];
        return other
          ? [meeting(window, "level", middle([bottom, top], other), { column, row: row + step })]
          : [];
      });
      return { window, column, row, meets: [...beside, ...above] };
    }),
  );
}

function spans(length: number, count: number): readonly (readonly [number, number])[] {
  const each = (length + (count - 1) * SHARED_STRIP) / count;
  return Array.from({ length: count }, (_, index) => {
    const start = index * (each - SHARED_STRIP);
    return [start, start + each];
  });
}

/** The middle of what two spans share. */
function middle(a: readonly [number, number], b: readonly [number, number]): number {
  return (Math.max(a[0], b[0]) + Math.min(a[1], b[1])) / 2;
}

function meeting(
  { left, right, bottom, top }: Window,
  way: "upright" | "level",
  at: number,
  other: { readonly column: number; readonly row: number },
): Meeting {
  const on = (part: number): Point =>
    way === "upright"
      ? { x: at, y: bottom + (top - bottom) * part }
      : { x: left + (right - left) * part, y: at };
  return { ...other, line: [on(0), on(1)], spots: [on(0.2), on(0.8)] };
}

/** The stretches of a line of points that lie inside a window (Liang, Barsky 1984, from memory). */
export function inWindow(points: readonly Point[], window: Window): readonly (readonly Point[])[] {
  const kept: Point[][] = [];
  points.slice(1).forEach((b, index) => {
    const clipped = segmentIn(points[index]!, b, window);
    if (!clipped) return;
    const last = kept.at(-1);
    const end = last?.at(-1);
    if (last && end && end.x === clipped[0].x && end.y === clipped[0].y) last.push(clipped[1]);
    else kept.push([...clipped]);
  });
  return kept;
}

function segmentIn(
  a: Point,
  b: Point,
  { left, right, bottom, top }: Window,
): readonly [Point, Point] | undefined {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  let [enter, leave] = [0, 1];
  for (const [step, room] of [
    [-dx, a.x - left],
    [dx, right - a.x],
    [-dy, a.y - bottom],
    [dy, top - a.y],
  ] as const) {
    if (step === 0 && room < 0) return undefined;
    if (step < 0) enter = Math.max(enter, room / step);
    if (step > 0) leave = Math.min(leave, room / step);
  }
  if (enter >= leave) return undefined;
  const at = (part: number): Point =>
    part === 0 ? a : part === 1 ? b : { x: a.x + dx * part, y: a.y + dy * part };
  return [at(enter), at(leave)];
}

/** A window as a box of its own, for measuring. */
export function sizeOf({ left, right, bottom, top }: Window): {
  readonly width: number;
  readonly height: number;
} {
  return { width: right - left, height: top - bottom };
}

/** Whether a point lies in a window, its edges included. */
export function isIn({ left, right, bottom, top }: Window, { x, y }: Point): boolean {
  return x >= left - 1e-9 && x <= right + 1e-9 && y >= bottom - 1e-9 && y <= top + 1e-9;
}
