/**
 * Correcting for a printer that does not print true. The person measures the check bars of a print; the next
 * sheet is drawn larger or smaller by wanted over measured, across and down apart, about the middle of the
 * page, so that what leaves the printer is true. The known lengths keep the real lengths they stand for; their
 * points move with the drawing. Correct sheet × printer error = true paper.
 */
import { mapped } from "./drafting.ts";
import type { Point } from "../plane/point.ts";
import type { Item, PrintCorrection, Sheet } from "./vocabulary.ts";

/** Sides of the polygon that stands for a circle once it has become an ellipse. */
const ELLIPSE_SIDES = 96;

/** The sheet as it must be sent to that printer. A corrected sheet has no frames: nobody points at it with a finger. */
export function corrected(sheet: Sheet, correction: PrintCorrection): Sheet {
  const { across, down } = correction;
  if (!(across > 0 && down > 0)) throw new Error(`a print correction is above 0, not ${across} by ${down}`);
  if (across === 1 && down === 1) return sheet;
  const [middleX, middleY] = [sheet.width / 2, sheet.height / 2];
  const map = ({ x, y }: Point): Point => ({
    x: middleX + (x - middleX) * across,
    y: middleY + (y - middleY) * down,
  });
  return {
    ...sheet,
    items: sheet.items.map((item) =>
      mapped(across === down ? resized(item, across) : straightened(item), map),
    ),
    known: sheet.known.map((length) => ({ ...length, from: map(length.from), to: map(length.to) })),
    frames: [],
  };
}

function resized(item: Item, factor: number): Item {
  return item.kind === "circle" || item.kind === "arc" ? { ...item, radius: item.radius * factor } : item;
}

/** Circles and arcs as many-sided lines, which can be stretched one way. */
function straightened(item: Item): Item {
  if (item.kind !== "circle" && item.kind !== "arc") return item;
  const [from, to] = item.kind === "arc" ? [item.from, item.to] : [0, 360];
  const sides = Math.max(4, Math.ceil((ELLIPSE_SIDES * Math.abs(to - from)) / 360));
  const count = item.kind === "arc" ? sides + 1 : sides;
  const points = Array.from({ length: count }, (_, index) => {
    const radians = ((from + ((to - from) * index) / sides) * Math.PI) / 180;
    return {
      x: item.centre.x + item.radius * Math.cos(radians),
      y: item.centre.y - item.radius * Math.sin(radians),
    };
  });
  const { pen, record, part, ink } = item;
  return {
    kind: "stroke",
    points,
    pen,
    ...(item.kind === "circle" ? { closed: true } : {}),
    ...(item.kind === "circle" && item.fill ? { fill: item.fill } : {}),
    ...(ink === undefined ? {} : { ink }),
    ...(record === undefined ? {} : { record }),
    ...(part === undefined ? {} : { part }),
  };
}
