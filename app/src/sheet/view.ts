/** Where the sheet lies under the eye: paper millimetres to screen pixels and room millimetres, and back. */
import type { Frame, Point } from "@cornerwise/engine";
import { createContext, useContext } from "react";

/** screen = paper * k + (x, y); k in px per mm, x and y in px from the top left of the drawing area. */
export interface View {
  readonly k: number;
  readonly x: number;
  readonly y: number;
}

/** A rectangle on the paper, mm. */
export interface PaperArea {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const SMALLEST = 0.4;
const LARGEST = 40;

export function paperToScreen(view: View, paper: Point): Point {
  return { x: paper.x * view.k + view.x, y: paper.y * view.k + view.y };
}

export function screenToPaper(view: View, screen: Point): Point {
  return { x: (screen.x - view.x) / view.k, y: (screen.y - view.y) / view.k };
}

/** Room axes to paper, see `Frame`. */
export function roomToPaper(frame: Frame, room: Point): Point {
  return { x: frame.origin.x + room.x / frame.scale, y: frame.origin.y - room.y / frame.scale };
}

export function paperToRoom(frame: Frame, paper: Point): Point {
  return { x: (paper.x - frame.origin.x) * frame.scale, y: -(paper.y - frame.origin.y) * frame.scale };
}

/** The view zoomed by a factor about a fixed screen point. */
export function zoomed(view: View, factor: number, about: Point): View {
  const k = Math.min(LARGEST, Math.max(SMALLEST, view.k * factor));
  const real = k / view.k;
  return { k, x: about.x - (about.x - view.x) * real, y: about.y - (about.y - view.y) * real };
}

/** The view that shows a whole area in a drawing area of a size, with margins in px. */
export function fitting(
  area: PaperArea,
  size: { readonly width: number; readonly height: number },
  margin: number,
): View {
  const width = Math.max(1, area.right - area.left);
  const height = Math.max(1, area.bottom - area.top);
  const k = Math.min(
    LARGEST,
    Math.max(SMALLEST, Math.min((size.width - 2 * margin) / width, (size.height - 2 * margin) / height)),
  );
  return {
    k,
    x: size.width / 2 - (k * (area.left + area.right)) / 2,
    y: size.height / 2 - (k * (area.top + area.bottom)) / 2,
  };
}

/** The smallest area that holds all points. */
export function areaOf(points: readonly Point[]): PaperArea {
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

export interface Desk {
  readonly view: View;
  /** The drawing area, px. */
  readonly size: { readonly width: number; readonly height: number };
  /** A pointer's client position on the paper. */
  readonly paperAt: (client: { readonly clientX: number; readonly clientY: number }) => Point;
}

export const DeskContext = createContext<Desk | undefined>(undefined);

/** The desk the sheet lies on. Throws outside of one. */
export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error("useDesk is called outside the sheet");
  return desk;
}
