/** Words on a part: numbers and names on its edges, names of what is drawn on it, and its caption. */
import type { ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import {
  boxOf,
  boxOfPoints,
  CAP_HEIGHT,
  letters,
  moved,
  onPlate,
  readableTurn,
  shownBy,
  towards,
  type Box,
} from "../sheet/drafting.ts";
import { boxesAlong, labelField, placesAround, type LabelField } from "../sheet/labels.ts";
import { shortenedTo, textWidth } from "../sheet/type.ts";
import type { Item, Lettering } from "../sheet/vocabulary.ts";
import type { EdgeName } from "./edge-names.ts";
import { apart, loop, onSheet, ownPaper, sheetBox, type Laid } from "./laid.ts";
import type { CardPart } from "./model.ts";
import { inWindow, type Tile } from "./tiles.ts";

/** Room under a tile for two rows of words, mm. */
export const CAPTION_DEPTH = 8;
/** A caption is given this much, so that it says something under a narrow part. */
const NARROW_CAPTION = 42;
/** Type size of words on a part, mm. */
const SMALL = 2;

/** Lettering keeps off every line, and off what falls out. */
export function fieldOver(laid: Laid, lines: readonly Item[]): LabelField {
  const field = labelField();
  for (const item of lines)
    if (item.kind === "stroke")
      for (const box of boxesAlong(item.closed ? loop(item.points) : item.points)) field.keepClear(box, 1);
  for (const { outline } of laid.part.holes)
    field.keepClear(boxOfPoints(outline.map((place) => onSheet(laid, place))), 0.5);
  return field;
}

/** The name of an opening, a thing of the venue's or a covering: in its middle on bare paper, else beside it on the part. */
export function nameOf(
  laid: Laid,
  record: string,
  ring: readonly Point[],
  document: ShowDocument,
  field: LabelField,
): readonly Item[] {
  const name = (document.openings[record] ?? document.fixtures[record] ?? document.coverings[record])?.name;
  const { left, right, top, bottom } = boxOfPoints(ring);
  const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
  const paper = sheetBox(laid, ownPaper(laid.tile));
  const at = onSheet(laid, middle);
  if (name === undefined || !within(boxOfPoints([at]), paper)) return [];
  const rest = shownBy(record, "name");
  const half = textWidth(name, "sans", SMALL) / 2;
  if (2 * half + 1 <= right - left && bottom - top >= 2 * SMALL) {
    const lettering = centred(at, name, 0, rest);
    return within(boxOf(lettering), paper) ? onPlate(field.place([{ lettering: [lettering], cost: 0 }])) : [];
  }
  const wish = {
    at,
    text: name,
    size: SMALL,
    off: 0.8,
    half: { x: (right - left) / 2, y: (bottom - top) / 2 },
    rest,
  };
  return field.place(
    [...placesAround(wish)].filter(({ lettering }) => lettering.every((one) => within(boxOf(one), paper))),
  );
}

function within(inner: Box, outer: Box): boolean {
  return (
    inner.left >= outer.left &&
    inner.right <= outer.right &&
    inner.top >= outer.top &&
    inner.bottom <= outer.bottom
  );
}

/** The text of an edge inside the part along it, with its number in front; the number alone on a short edge. */
export function edgeLettering(
  laid: Laid,
  { number, text, from, to, record }: EdgeName,
  field: LabelField,
): readonly Item[] {
  const [a, b] = inWindow([from, to], grownWindow(laid.tile.window))[0] ?? [];
  if (!a || !b) return [];
  const length = apart(a, b);
  const full = `${number}   ${text}`;
  const said = textWidth(full, "sans", SMALL) + 3 <= length ? full : `${number}`;
  const width = textWidth(said, "sans", SMALL);
  if (width + 0.6 > length) return [];
  const along = towards(a, b);
  const turn = readableTurn(onSheet(laid, a), onSheet(laid, b));
  const place = (part: number, off: number): Lettering => {
    const run = Math.min(length - width / 2 - 0.3, Math.max(width / 2 + 0.3, length * part));
    // Left of the line lies the part; the text keeps clear of the edge.
    const middle = { x: a.x + along.x * run - along.y * off, y: a.y + along.y * run + along.x * off };
    return centred(onSheet(laid, middle), said, turn, shownBy(record, "edge"));
  };
  return field.place(
    [2.2, 3.4, 4.8].flatMap((off, step) =>
      [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92].map((part, index) => ({
        lettering: [place(part, off)],
        cost: step * 0.3 + index * 0.1,
      })),
    ),
  );
}

/** Small lettering with its middle at a point of the sheet. */
export function centred(at: Point, text: string, turn: number, shown: ReturnType<typeof shownBy>): Lettering {
  const radians = (turn * Math.PI) / 180;
  const drop = (SMALL * CAP_HEIGHT) / 2;
  return letters(moved(at, Math.sin(radians) * drop, Math.cos(radians) * drop), text, SMALL, {
    align: "middle",
    turn,
    ...shown,
  });
}

function grownWindow({ left, right, bottom, top }: Tile["window"]): Tile["window"] {
  return { left: left - 1e-6, right: right + 1e-6, bottom: bottom - 1e-6, top: top + 1e-6 };
}

/** How wide a tile's caption wants to be, on a sheet with so much room. */
export function captionWidth(part: CardPart, room: number): number {
  return Math.min(room, Math.max(NARROW_CAPTION, textWidth(part.name, "sans-bold", 2.8)));
}

/** The name of the part, which tile of it this is, and how its ends are cut. */
export function captionOf({ part, tile, at, width }: Laid): readonly Item[] {
  const y = at.y + (tile.window.top - tile.window.bottom);
  const name = tile.meets.length === 0 ? part.name : `${part.name}, part ${tile.row + 1}.${tile.column + 1}`;
  const shown = shownBy(part.id.slice("card~".length), "card name");
  const ends = part.name === "Floor" ? "seen from above" : `left ${part.joints[0]}; right ${part.joints[1]}`;
  return [
    letters({ x: at.x, y: y + 3.4 }, shortenedTo(name, "sans-bold", 2.8, width), 2.8, {
      face: "sans-bold",
      ...shown,
    }),
    letters({ x: at.x, y: y + 6.6 }, shortenedTo(ends, "sans", SMALL, width), SMALL, {
      ink: "graphite-soft",
      ...shown,
    }),
  ];
}
