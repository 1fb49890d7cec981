/** One tile of a part as items: what is cut, scored and shown, its register marks and the lengths a person may measure. */
import type { ShowDocument } from "../document/tables.ts";
import { shared } from "../plane/clip.ts";
import type { Point } from "../plane/point.ts";
import {
  between,
  boxOfPoints,
  line,
  moved,
  onPlate,
  readableTurn,
  shape,
  shownBy,
} from "../sheet/drafting.ts";
import type { Item, KnownLength, Pen, Stroke } from "../sheet/vocabulary.ts";
import type { EdgeName } from "./edge-names.ts";
import { BEVEL } from "./joints.ts";
import { apart, loop, onSheet, type Laid } from "./laid.ts";
import type { CardPart } from "./model.ts";
import { centred, edgeLettering, fieldOver, nameOf } from "./part-lettering.ts";
import { inWindow, isIn, type Meeting, type Tile } from "./tiles.ts";

/** The ink of what is only shown. */
const LIGHT = { ink: "graphite-soft" } as const;

/** What a tile is drawn by, besides itself. */
export interface TileWish {
  readonly names: readonly EdgeName[];
  /** The number of the sheet on which a tile of a part lies. */
  readonly sheetOf: (part: CardPart, column: number, row: number) => number;
  readonly scale: number;
  readonly document: ShowDocument;
  /** How many of the first lines drawn on the part are its own edges, which are cut and not shown a second time. */
  readonly edges: number;
}

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
    ...part.holes.flatMap((hole) => nameOf(laid, hole.record, hole.outline, wish.document, field)),
    ...part.drawn
      .slice(wish.edges)
      .flatMap((drawn) => nameOf(laid, drawn.record, drawn.points, wish.document, field)),
    ...wish.names.flatMap((name) => edgeLettering(laid, name, field)),
  ];
  return {
    items: [...shown, ...cuts, ...names, ...marks.flatMap(({ items }) => items)],
    known: [...knownSides(laid, wish), ...marks.flatMap(({ known }) => known)],
  };
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

/** Where a bevel begins, at an inside corner, is scored; all else is only shown. */
function penOf(part: CardPart, { record, points }: CardPart["drawn"][number], { document }: TileWish): Pen {
  const { left, right } = boxOfPoints(part.outline);
  const end = (points[0]?.x ?? 0) < (left + right) / 2 ? 0 : 1;
  return document.corners[record] && part.joints[end].startsWith(BEVEL) ? "fold" : "dimension";
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
