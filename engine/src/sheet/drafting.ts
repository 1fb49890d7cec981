/** The few strokes every drawing is made of, as items. All in paper mm, y down. */
import type { Point } from "../plane/point.ts";
import { FACE_WIDTHS } from "./font-widths.generated.ts";
import { textWidth } from "./type.ts";
import type { Circle, Ink, Item, Lettering, Pen, Stroke } from "./vocabulary.ts";

/** An upright rectangle on the sheet. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

type Rest<T> = Partial<Omit<T, "kind">>;

/** An open line through points. */
export function line(points: readonly Point[], pen: Pen, rest: Rest<Stroke> = {}): Stroke {
  return { kind: "stroke", points, pen, ...rest };
}

/** A closed outline. */
export function shape(points: readonly Point[], pen: Pen, rest: Rest<Stroke> = {}): Stroke {
  return { kind: "stroke", points, closed: true, pen, ...rest };
}

/** A closed rectangle. */
export function boxShape(box: Box, pen: Pen, rest: Rest<Stroke> = {}): Stroke {
  const { left, top, right, bottom } = box;
  return shape(
    [
      { x: left, y: top },
      { x: right, y: top },
      { x: right, y: bottom },
      { x: left, y: bottom },
    ],
    pen,
    rest,
  );
}

/** A circle. */
export function ring(centre: Point, radius: number, pen: Pen, rest: Rest<Circle> = {}): Circle {
  return { kind: "circle", centre, radius, pen, ...rest };
}

/** A line of text with its baseline start (or middle, or end) at a point; sans, unless it says otherwise. */
export function letters(at: Point, text: string, size: number, rest: Rest<Lettering> = {}): Lettering {
  return { kind: "lettering", at, text, size, face: "sans", ...rest };
}

/** The point a part of the way from a to b. */
export function between(a: Point, b: Point, part: number): Point {
  return { x: a.x + (b.x - a.x) * part, y: a.y + (b.y - a.y) * part };
}

/** The point moved. */
export function moved(point: Point, x: number, y: number): Point {
  return { x: point.x + x, y: point.y + y };
}

/** Unit vector from a to b; (1, 0) where they coincide. */
export function towards(a: Point, b: Point): Point {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return length > 0 ? { x: (b.x - a.x) / length, y: (b.y - a.y) / length } : { x: 1, y: 0 };
}

/** Height of capitals over the type size in the sheet's faces; used to centre lettering on a line. */
export const CAP_HEIGHT = 0.7;

/** Degrees counterclockwise of a line on the sheet, turned so that lettering along it reads from below or from the right. */
export function readableTurn(a: Point, b: Point): number {
  let turn = (Math.atan2(a.y - b.y, b.x - a.x) * 180) / Math.PI;
  if (turn > 95) turn -= 180;
  if (turn <= -85) turn += 180;
  return turn;
}

export interface DimensionWish {
  readonly from: Point;
  readonly to: Point;
  readonly text: string;
  readonly size?: number;
  /** Where the measured thing ends, if not at the line: extension lines are drawn from there. */
  readonly witness?: readonly [Point, Point];
  readonly record?: string;
  readonly part?: string;
}

/** A dimension line with slant ticks and its witness lines; the lettering is apart, so that it can be placed clear of others. */
export function dimensionLine(wish: DimensionWish): readonly Item[] {
  const { from, to } = wish;
  const shown = shownBy(wish.record, wish.part ?? "dimension");
  const along = towards(from, to);
  const slant = { x: (along.x - along.y) * 0.85, y: (along.y + along.x) * 0.85 };
  const tick = (at: Point): Item =>
    line([moved(at, -slant.x, -slant.y), moved(at, slant.x, slant.y)], "outline", shown);
  const ends: readonly Point[] = [from, to];
  const witnesses = (wish.witness ?? []).flatMap((start, index) => {
    const end = ends[index];
    if (!end) return [];
    const out = towards(start, end);
    return [line([moved(start, out.x * 1.2, out.y * 1.2), moved(end, out.x, out.y)], "dimension", shown)];
  });
  return [line([from, to], "dimension", shown), tick(from), tick(to), ...witnesses];
}

/** Lettering above the middle of a line, `lift` mm off it (below it where negative). */
export function letteringAlong(wish: DimensionWish, part = 0.5, lift = 0.8): Lettering {
  const size = wish.size ?? 2.5;
  const turn = readableTurn(wish.from, wish.to);
  const radians = (turn * Math.PI) / 180;
  const rise = lift < 0 ? lift - size * CAP_HEIGHT : lift;
  const at = moved(between(wish.from, wish.to, part), -Math.sin(radians) * rise, -Math.cos(radians) * rise);
  return letters(at, wish.text, size, {
    align: "middle",
    turn,
    face: "mono",
    ...shownBy(wish.record, wish.part ?? "dimension"),
  });
}

/** The record and part of an item, only where they are there. */
export function shownBy(
  record?: string,
  part?: string,
): { readonly record?: string; readonly part?: string } {
  // Written out, not spread: a sheet asks for this thousands of times after every change.
  if (record === undefined) return part === undefined ? {} : { part };
  return part === undefined ? { record } : { record, part };
}

/** The items moved. */
export function movedItems(items: readonly Item[], x: number, y: number): readonly Item[] {
  return items.map((item) => mapped(item, (point) => moved(point, x, y)));
}

/** An item with every point put through a map; radii and sizes stay. */
export function mapped(item: Item, map: (point: Point) => Point): Item {
  if (item.kind === "stroke") return { ...item, points: item.points.map(map) };
  if (item.kind === "lettering") return { ...item, at: map(item.at) };
  return { ...item, centre: map(item.centre) };
}

/** The upright box round an item; a full circle for an arc. */
export function boxOf(item: Item): Box {
  if (item.kind === "stroke") return boxOfPoints(item.points);
  if (item.kind === "lettering") return boxOfLettering(item);
  const { centre, radius } = item;
  return {
    left: centre.x - radius,
    top: centre.y - radius,
    right: centre.x + radius,
    bottom: centre.y + radius,
  };
}

/** The upright box round points; an inside-out box for none. */
export function boxOfPoints(points: readonly Point[]): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { left, top, right, bottom };
}

/** The upright box round all items; inside out where there are none. */
export function boxOfItems(items: readonly Item[]): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const item of items) {
    const box = boxOf(item);
    left = Math.min(left, box.left);
    right = Math.max(right, box.right);
    top = Math.min(top, box.top);
    bottom = Math.max(bottom, box.bottom);
  }
  return { left, top, right, bottom };
}

function boxOfLettering(item: Lettering): Box {
  const width = textWidth(item.text, item.face, item.size);
  const { descent, unitsPerEm } = FACE_WIDTHS[item.face];
  const below = (-descent / unitsPerEm) * item.size * 0.8;
  const above = item.size * (CAP_HEIGHT + 0.06);
  const start = item.align === "end" ? -width : item.align === "middle" ? -width / 2 : 0;
  const radians = ((item.turn ?? 0) * Math.PI) / 180;
  const turned = (x: number, y: number): Point => ({
    x: item.at.x + x * Math.cos(radians) + y * Math.sin(radians),
    y: item.at.y - x * Math.sin(radians) + y * Math.cos(radians),
  });
  const [end, top] = [start + width, -above];
  return boxOfPoints([turned(start, top), turned(end, top), turned(end, below), turned(start, below)]);
}

/** The ink an item's text or line has where it is not graphite. */
export const SOFT: { readonly ink: Ink } = { ink: "graphite-soft" };

/** A piece of bare paper under lettering that would else stand on hatching or lines. */
function plateUnder(lettering: readonly Lettering[]): Item {
  const { left, top, right, bottom } = boxOfItems(lettering);
  const grown = { left: left - 0.5, top: top - 0.4, right: right + 0.5, bottom: bottom + 0.1 };
  return boxShape(grown, "grid", {
    ...shownBy(lettering[0]?.record, "plate"),
    ink: "sheet",
    fill: { ink: "sheet" },
  });
}

/** The items with bare paper under their lettering, leaders below it. */
export function onPlate(items: readonly Item[]): readonly Item[] {
  const lettering = items.filter((item) => item.kind === "lettering");
  if (lettering.length === 0) return items;
  return [...items.filter((item) => item.kind !== "lettering"), plateUnder(lettering), ...lettering];
}
