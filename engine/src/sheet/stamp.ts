/**
 * The foot of every sheet: check bars of 2 in and 50 mm, and the stamp (show, title, scale, date, state, page x of
 * y). A leaf is a page before it is bound: binding puts the foot on and counts the pages.
 */
import type { Point } from "../plane/point.ts";
import { letters, line, type Box } from "./drafting.ts";
import { PAPER_MARGIN, type Paper } from "./papers.ts";
import { scaleWords } from "./scales.ts";
import { shortenedTo, textWidth } from "./type.ts";
import type { Face, Frame, Item, KnownLength, Sheet, Stamp } from "./vocabulary.ts";

/** A page without its foot. */
export interface Leaf {
  readonly id: string;
  readonly title: string;
  readonly paper: Paper;
  readonly scale?: number;
  /** What the scale means in squares, where the page is on grid paper. */
  readonly scaleSentence?: string;
  readonly items: readonly Item[];
  readonly known: readonly KnownLength[];
  readonly frames: readonly Frame[];
}

/** Height of the foot above the bottom margin, mm. */
export const FOOT_HEIGHT = 14;
/** Width of the check bars with their captions, mm. */
const BARS_WIDTH = 68;
export const TWO_INCHES = 50.8;
export const FIFTY_MILLIMETRES = 50;

/** The part of a page a leaf may draw on. `edge` is the white margin, 10 mm unless said. */
export function leafBox(paper: Paper, edge = PAPER_MARGIN): Box {
  return { left: edge, top: edge, right: paper.width - edge, bottom: paper.height - edge - FOOT_HEIGHT - 3 };
}

/** The leaves as sheets, each with its foot and its place among all of them. */
export function bound(leaves: readonly Leaf[], stamp: Stamp): readonly Sheet[] {
  return leaves.map((leaf, index) => boundOne(leaf, stamp, `page ${index + 1} of ${leaves.length}`));
}

function boundOne(leaf: Leaf, stamp: Stamp, page: string): Sheet {
  const foot = checkBars({ x: PAPER_MARGIN, y: leaf.paper.height - PAPER_MARGIN - FOOT_HEIGHT });
  return {
    id: leaf.id,
    title: leaf.title,
    width: leaf.paper.width,
    height: leaf.paper.height,
    ...(leaf.scale === undefined ? {} : { scale: leaf.scale }),
    items: [...leaf.items, ...stampItems(leaf, stamp, page), ...foot.items],
    known: [...foot.known, ...leaf.known],
    frames: leaf.frames,
  };
}

/** The two bars across, one under the other, from a top left point. */
export function checkBars(at: Point): {
  readonly items: readonly Item[];
  readonly known: readonly KnownLength[];
} {
  const inch = checkBar({
    from: { x: at.x, y: at.y + 5.6 },
    length: TWO_INCHES,
    caption: "2 in",
    name: "check bar 2 in",
  });
  const metric = checkBar({
    from: { x: at.x, y: at.y + 11.6 },
    length: FIFTY_MILLIMETRES,
    caption: "50 mm",
    name: "check bar 50 mm",
  });
  return { items: [...inch.items, ...metric.items], known: [...inch.known, ...metric.known] };
}

interface BarWish {
  readonly from: Point;
  readonly length: number;
  readonly caption: string;
  readonly name: string;
  readonly down?: boolean;
}

/** One check bar: a heavy line between end ticks with the middle marked, and what it should measure. */
export function checkBar({ from, length, caption, name, down = false }: BarWish): {
  readonly items: readonly Item[];
  readonly known: readonly KnownLength[];
} {
  const at = (along: number, across: number): Point =>
    down ? { x: from.x + across, y: from.y + along } : { x: from.x + along, y: from.y + across };
  const shown = { part: name };
  const items: readonly Item[] = [
    line([at(0, 0), at(length, 0)], "bar", shown),
    line([at(0, -1.6), at(0, 1.6)], "outline", shown),
    line([at(length, -1.6), at(length, 1.6)], "outline", shown),
    line([at(length / 2, -1), at(length / 2, 1)], "dimension", shown),
    letters(down ? at(length + 3.4, 0) : at(length + 1.6, 0.9), caption, 2.5, {
      face: "mono",
      align: down ? "middle" : "start",
      ...shown,
    }),
  ];
  return { items, known: [{ name, from: at(0, 0), to: at(length, 0), real: length, scale: 1 }] };
}

function stampItems(leaf: Leaf, stamp: Stamp, page: string): readonly Item[] {
  const left = PAPER_MARGIN + BARS_WIDTH;
  const right = leaf.paper.width - PAPER_MARGIN;
  const top = leaf.paper.height - PAPER_MARGIN - FOOT_HEIGHT;
  const scale = leaf.scaleSentence ?? (leaf.scale === undefined ? "not to scale" : scaleWords(leaf.scale));
  const row = (y: number, start: [string, Face], end: string, size = 2.8): readonly Item[] => {
    const room = right - left - textWidth(end, "sans", size) - 4;
    return [
      letters({ x: left, y: top + y }, shortenedTo(start[0], start[1], size, room), size, {
        face: start[1],
        part: "stamp",
      }),
      letters({ x: right, y: top + y }, end, size, { align: "end", part: "stamp" }),
    ];
  };
  const longest = (right - left) * 0.6;
  return [
    line(
      [
        { x: PAPER_MARGIN, y: top },
        { x: right, y: top },
      ],
      "outline",
      { part: "stamp" },
    ),
    ...row(4.4, [stamp.show, "sans-bold"], page, 3.2),
    ...row(9, [leaf.title, "sans"], shortenedTo(scale, "sans", 2.8, longest)),
    ...row(13.2, [`State: ${stamp.state}`, "sans"], shortenedTo(stamp.date, "sans", 2.8, longest)),
  ];
}
