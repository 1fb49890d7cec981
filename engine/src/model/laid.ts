/** A tile of a part where it lies on its sheet. */
import type { Point } from "../plane/point.ts";
import { boxOfPoints, type Box } from "../sheet/drafting.ts";
import type { CardPart } from "./model.ts";
import { SHARED_STRIP, type Tile } from "./tiles.ts";

/** A tile where it lies on its sheet: the left top corner of its window, paper mm. */
export interface Laid {
  readonly part: CardPart;
  readonly tile: Tile;
  readonly at: Point;
  /** Paper it takes across, with its caption. */
  readonly width: number;
}

/** Where a place of the part comes to lie on the sheet. */
export function onSheet({ tile: { window }, at }: Laid, { x, y }: Point): Point {
  return { x: at.x + x - window.left, y: at.y + window.top - y };
}

/** A window of a part as it lies on its sheet. */
export function sheetBox(laid: Laid, { left, right, bottom, top }: Tile["window"]): Box {
  return boxOfPoints([onSheet(laid, { x: left, y: bottom }), onSheet(laid, { x: right, y: top })]);
}

/** The window of a tile without what it shares with others. */
export function ownPaper({ window, meets }: Tile): Tile["window"] {
  const off = meets.length > 0 ? SHARED_STRIP : 0;
  const { left, right, bottom, top } = window;
  return { left: left + off, right: right - off, bottom: bottom + off, top: top - off };
}

/** A ring as a line that comes back to where it began. */
export function loop(ring: readonly Point[]): readonly Point[] {
  return [...ring, ...ring.slice(0, 1)];
}

/** The distance of two points. */
export function apart(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
