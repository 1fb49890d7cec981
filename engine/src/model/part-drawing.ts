/** One tile of a part as items: what is cut, scored and shown, the numbers on its edges, its register marks and its caption. */
import type { ShowDocument } from "../document/tables.ts";
import { shared } from "../plane/clip.ts";
import type { Point } from "../plane/point.ts";
import {
  between,
  boxOfPoints,
  CAP_HEIGHT,
  letters,
  line,
  moved,
  onPlate,
  readableTurn,
  shape,
  shownBy,
  towards,
} from "../sheet/drafting.ts";
import { boxesAlong, labelField, type LabelField } from "../sheet/labels.ts";
import { shortenedTo, textWidth } from "../sheet/type.ts";
import type { Item, KnownLength, Lettering, Pen, Stroke } from "../sheet/vocabulary.ts";
import type { EdgeName } from "./edge-names.ts";
import { BEVEL } from "./joints.ts";
import type { CardPart } from "./model.ts";
import { inWindow, isIn, SHARED_STRIP, type Meeting, type Tile } from "./tiles.ts";

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
  readonly document: ShowDocument;
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
  const record = part.id.slice("card~".length);
  const shown = part.drawn.slice(wish.edges).flatMap((drawn) =>
    linesOn(laid, drawn.points, penOf(part, drawn, wish), {
      ...LIGHT,
      ...shownBy(drawn.record, "drawn"),
    }),
  );
  const cuts = [
    ...part.holes.flatMap((hole) => [
      ...waste(laid, hole),
      ...linesOn(laid, loop(hole.outline), "cut", shownBy(hole.record, "card")),
    ]),
    ...linesOn(laid, loop(part.outline), "cut", shownBy(record, "card")),
  ];
  const marks = tile.meets.map((meeting) => registerMarks(laid, meeting, wish));
  const field = fieldOver(laid, [...shown, ...cuts]);
  const names = [
    ...part.holes.flatMap((hole) => nameInside(laid, hole.record, hole.outline, wish, field)),
    ...part.drawn
      .slice(wish.edges)
      .flatMap((drawn) => nameInside(laid, drawn.record, drawn.points, wish, field)),
    ...wish.names.flatMap((name) => edgeLettering(laid, name, field)),
  ];
  return {
    items: [...shown, ...cuts, ...names, ...marks.flatMap(({ items }) => items)],
    known: [...knownSides(laid, wish), ...marks.flatMap(({ known }) => known)],
  };
}

function loop(ring: readonly Point[]): readonly Point[] {
  return [...ring, ...ring.slice(0, 1)];
}

/** A line of the part as far as it lies on this tile; one that comes back to where it began is closed where it is whole. */
function linesOn(
  laid: Laid,
  points: readonly Point[],
  pen: Pen,
  rest: Partial<Omit<Stroke, "kind">>,
): readonly Stroke[] {
  const [first, last] = [points[0], points.at(-1)];
  const closed = points.length > 3 && first && last && apart(first, last) < 1e-9;
  if (closed && points.every((place) => isIn(laid.tile.window, place)))
    return [
      shape(
        points.slice(0, -1).map((place) => onSheet(laid, place)),
        pen,
        rest,
      ),
    ];
  return inWindow(points, laid.tile.window).map((run) =>
    line(
      run.map((place) => onSheet(laid, place)),
      pen,
      rest,
    ),
  );
}

/** What falls out is hatched, so that nobody cuts out what is only shown. */
function waste(laid: Laid, hole: CardPart["holes"][number]): readonly Item[] {
  const { left, right, bottom, top } = laid.tile.window;
  const window = [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ];
  const rings = hole.outline.every((place) => isIn(laid.tile.window, place))
    ? [hole.outline]
    : shared([hole.outline], [window]);
  return rings.map((ring) =>
    shape(
      ring.map((place) => onSheet(laid, place)),
      "grid",
      {
        ...LIGHT,
        ...shownBy(hole.record, "waste"),
        fill: { ink: "graphite-soft", hatch: { turn: 45, apart: 3 } },
      },
    ),
  );
}

/** Lettering keeps off every line, and off what falls out. */
function fieldOver(laid: Laid, lines: readonly Item[]): LabelField {
  const field = labelField();
  for (const item of lines)
    if (item.kind === "stroke")
      for (const box of boxesAlong(item.closed ? loop(item.points) : item.points)) field.keepClear(box, 1);
  for (const { outline } of laid.part.holes)
    field.keepClear(boxOfPoints(outline.map((place) => onSheet(laid, place))), 0.5);
  return field;
}

/** The name of an opening, a thing of the venue's or a covering in its middle, on bare paper, where it has the room. */
function nameInside(
  laid: Laid,
  record: string,
  ring: readonly Point[],
  { document }: TileWish,
  field: LabelField,
): readonly Item[] {
  const name = (document.openings[record] ?? document.fixtures[record] ?? document.coverings[record])?.name;
  const { left, right, top, bottom } = boxOfPoints(ring);
  const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
  const own = ownPaper(laid.tile);
  if (name === undefined || bottom - top < 2 * SMALL) return [];
  const said = shortenedTo(name, "sans", SMALL, right - left - 1);
  const half = textWidth(said, "sans", SMALL) / 2;
  const whole = [-half, half].every((aside) => isIn(own, moved(middle, aside, 0)));
  if (!whole || said === "" || said === "…") return [];
  const at = moved(onSheet(laid, middle), 0, (SMALL * CAP_HEIGHT) / 2);
  const lettering = [letters(at, said, SMALL, { align: "middle", ...shownBy(record, "name") })];
  return onPlate(field.place([{ lettering, cost: 0 }]));
}

function onSheet({ tile: { window }, at }: Laid, { x, y }: Point): Point {
  return { x: at.x + x - window.left, y: at.y + window.top - y };
}

/** Where a bevel begins, at an inside corner, is scored; all else is only shown. */
function penOf(part: CardPart, { record, points }: CardPart["drawn"][number], { document }: TileWish): Pen {
  const { left, right } = boxOfPoints(part.outline);
  const end = (points[0]?.x ?? 0) < (left + right) / 2 ? 0 : 1;
  return document.corners[record] && part.joints[end].startsWith(BEVEL) ? "fold" : "dimension";
}

/** The window of a tile without what it shares with others. */
function ownPaper({ window, meets }: Tile): Tile["window"] {
  const off = meets.length > 0 ? SHARED_STRIP : 0;
  const { left, right, bottom, top } = window;
  return { left: left + off, right: right - off, bottom: bottom + off, top: top - off };
}

/** The text of an edge inside the part along it, with its number in front; the number alone on a short edge. */
function edgeLettering(
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
function centred(at: Point, text: string, turn: number, shown: ReturnType<typeof shownBy>): Lettering {
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

/** Half the length of the arms of a register cross, mm. */
const ARM = 3;

function registerMarks(laid: Laid, meeting: Meeting, { sheetOf }: TileWish): Drawn {
  const { part, tile } = laid;
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
  const inward = inwardOf(tile, meeting);
  const at = moved(between(a, b, 0.5), inward.x * 2.4, -inward.y * 2.4);
  const words = `join to card sheet ${sheetOf(part, meeting.column, meeting.row)}`;
  return {
    items: [
      line([a, b], "dimension", { ...LIGHT, ...shown }),
      ...crosses,
      ...onPlate([centred(at, words, readableTurn(a, b), shown)]),
    ],
    known: [
      {
        name: `${part.name}, register ${tile.column + 1}.${tile.row + 1} to ${meeting.column + 1}.${meeting.row + 1}`,
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
