/** One tile of a part as items: what is cut, scored and shown, the numbers on its edges, its register marks and its caption. */
import type { ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { CAP_HEIGHT, letters, line, readableTurn, shape, shownBy, towards } from "../sheet/drafting.ts";
import { shortenedTo, textWidth } from "../sheet/type.ts";
import type { Item, KnownLength, Pen } from "../sheet/vocabulary.ts";
import type { EdgeName } from "./edge-names.ts";
import { BEVEL } from "./joints.ts";
import type { CardPart } from "./model.ts";
import { inWindow, isIn, type Meeting, type Tile } from "./tiles.ts";

/** A tile where it lies on its sheet: the left top corner of its window, paper mm. */
export interface Laid {
  readonly part: CardPart;
  readonly tile: Tile;
  readonly at: Point;
  /** Paper it takes across, with its caption. */
  readonly width: number;
}

export interface TileWish {
  readonly names: readonly EdgeName[];
  /** The number of the sheet on which a tile of a part lies. */
  readonly sheetOf: (part: CardPart, column: number, row: number) => number;
  readonly scale: number;
  readonly corners: ShowDocument["corners"];
  /** How many of the first lines drawn on the part are its own edges, which are cut and not shown a second time. */
  readonly edges: number;
}

/** Room under a tile for two rows of words, mm. */
export const CAPTION_DEPTH = 8;
/** A caption is given this much, so that it says something under a narrow part. */
const NARROW_CAPTION = 42;
const SMALL = 2;
const LIGHT = { ink: "graphite-soft" } as const;

interface Drawn {
  readonly items: readonly Item[];
  readonly known: readonly KnownLength[];
}

/** The tile without its caption. */
export function drawTile(laid: Laid, wish: TileWish): Drawn {
  const { part, tile } = laid;
  const put = (place: Point): Point => onSheet(laid, place);
  const whole = tile.meets.length === 0;
  const ring = (points: readonly Point[], record: string): readonly Item[] =>
    whole
      ? [shape(points.map(put), "cut", shownBy(record, "card"))]
      : inWindow([...points, ...points.slice(0, 1)], tile.window).map((run) =>
          line(run.map(put), "cut", shownBy(record, "card")),
        );
  const shown = part.drawn
    .slice(wish.edges)
    .flatMap(({ record, points }) =>
      inWindow(points, tile.window).map((run) =>
        line(run.map(put), penOf(part, record, wish), { ...LIGHT, ...shownBy(record, "drawn") }),
      ),
    );
  const record = part.id.slice("card~".length);
  const marks = tile.meets.map((meeting) => registerMarks(laid, meeting, wish));
  return {
    items: [
      ...shown,
      ...ring(part.outline, record),
      ...part.holes.flatMap((hole) => ring(hole.outline, hole.record)),
      ...wish.names.flatMap((name) => edgeLettering(laid, name)),
      ...marks.flatMap(({ items }) => items),
    ],
    known: [...knownSides(laid, wish), ...marks.flatMap(({ known }) => known)],
  };
}

function onSheet({ tile: { window }, at }: Laid, { x, y }: Point): Point {
  return { x: at.x + x - window.left, y: at.y + window.top - y };
}

/** Where a bevel begins, at an inside corner, is scored; all else is only shown. */
function penOf(part: CardPart, record: string, { corners }: TileWish): Pen {
  const bevelled = part.joints.some((words) => words.startsWith(BEVEL));
  return bevelled && corners[record] ? "fold" : "dimension";
}

/** The text of an edge inside the part along it, with its number in front; the number alone on a short edge. */
function edgeLettering(laid: Laid, { number, text, from, to, record }: EdgeName): readonly Item[] {
  const { window, meets } = laid.tile;
  const [a, b] = inWindow([from, to], grownWindow(window))[0] ?? [];
  if (!a || !b) return [];
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const full = `${number}   ${text}`;
  const said = textWidth(full, "sans", SMALL) + 3 <= length ? full : `${number}`;
  if (textWidth(said, "sans", SMALL) + 0.6 > length) return [];
  const along = towards(a, b);
  // Left of the line lies the part; the text reads from below or from the right and keeps clear of the edge.
  const middle = { x: (a.x + b.x) / 2 - along.y * 2.2, y: (a.y + b.y) / 2 + along.x * 2.2 };
  const turn = readableTurn(onSheet(laid, a), onSheet(laid, b));
  const radians = (turn * Math.PI) / 180;
  const drop = (SMALL * CAP_HEIGHT) / 2;
  const centre = onSheet(laid, middle);
  if (meets.length > 0 && !isIn(window, middle)) return [];
  return [
    letters({ x: centre.x + Math.sin(radians) * drop, y: centre.y + Math.cos(radians) * drop }, said, SMALL, {
      align: "middle",
      turn,
      ...shownBy(record, "edge"),
    }),
  ];
}

function grownWindow({ left, right, bottom, top }: Tile["window"]): Tile["window"] {
  return { left: left - 1e-6, right: right + 1e-6, bottom: bottom - 1e-6, top: top + 1e-6 };
}

/** Half the length of the arms of a register cross, mm. */
const ARM = 3;

function registerMarks(laid: Laid, meeting: Meeting, { sheetOf }: TileWish): Drawn {
  const { part } = laid;
  const [a, b] = meeting.line.map((place) => onSheet(laid, place)) as [Point, Point];
  const spots = meeting.spots.map((place) => onSheet(laid, place)) as [Point, Point];
  const shown = shownBy(part.id.slice("card~".length), "register");
  const crosses = spots.flatMap(({ x, y }) => [
    line(
      [
        { x: x - ARM, y },
        { x, y },
        { x: x + ARM, y },
      ],
      "outline",
      shown,
    ),
    line(
      [
        { x, y: y - ARM },
        { x, y },
        { x, y: y + ARM },
      ],
      "outline",
      shown,
    ),
  ]);
  const turn = readableTurn(a, b);
  const radians = (turn * Math.PI) / 180;
  const words = `join to card sheet ${sheetOf(part, meeting.column, meeting.row)}`;
  const inward = inwardOf(laid.tile, meeting);
  const off = inward.x * 2.4 - inward.y * 2.4;
  const at = { x: (a.x + b.x) / 2 + (inward.x ? off : 0), y: (a.y + b.y) / 2 + (inward.y ? off : 0) };
  const drop = (SMALL * CAP_HEIGHT) / 2;
  return {
    items: [
      line([a, b], "dimension", { ...LIGHT, ...shown }),
      ...crosses,
      letters({ x: at.x + Math.sin(radians) * drop, y: at.y + Math.cos(radians) * drop }, words, SMALL, {
        align: "middle",
        turn,
        ...shown,
      }),
    ],
    known: [
      {
        name: `${part.name}, register ${laid.tile.column + 1}.${laid.tile.row + 1} to ${meeting.column + 1}.${meeting.row + 1}`,
        from: spots[0],
        to: spots[1],
        real: apart(meeting.spots[0], meeting.spots[1]),
        scale: 1,
      },
    ],
  };
}

/** From the line on which two tiles meet towards this tile, in the part's axes. */
function inwardOf({ column, row }: Tile, meeting: Meeting): Point {
  if (column !== meeting.column) return { x: column < meeting.column ? -1 : 1, y: 0 };
  return { x: 0, y: row < meeting.row ? -1 : 1 };
}

function apart(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

/** The sides of a part and of its holes that lie whole on this sheet: a part's in mm of board, an opening's in the room. */
function knownSides(laid: Laid, { scale }: TileWish): readonly KnownLength[] {
  const { part, tile } = laid;
  const sides = (ring: readonly Point[], name: string, times: number): readonly KnownLength[] =>
    ring.flatMap((a, index) => {
      const b = ring[(index + 1) % ring.length]!;
      if (!isIn(tile.window, a) || !isIn(tile.window, b)) return [];
      return [
        {
          name: `${name}, side ${index + 1}`,
          from: onSheet(laid, a),
          to: onSheet(laid, b),
          real: apart(a, b) * times,
          scale: times,
        },
      ];
    });
  return [
    ...sides(part.outline, part.name, 1),
    ...part.holes.flatMap((hole, index) => sides(hole.outline, `${part.name}, hole ${index + 1}`, scale)),
  ];
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
    letters({ x: at.x, y: y + 6.6 }, shortenedTo(ends, "sans", SMALL, width), SMALL, { ...LIGHT, ...shown }),
  ];
}
