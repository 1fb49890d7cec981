/**
 * A floor covering made in parts: a border of one width all round, and inside it the field, cut in as few equal panels
 * as anyone can carry and a sheet can give. Front and back borders run the whole width, left and right ones lie
 * between them.
 *
 *     ┌────────────────────────┐   back        the front is nearest -y, as a piece's is;
 *     ├──┬─────┬─────┬─────┬───┤               panels count from the front left, row by row;
 *     │  │  4  │  5  │  6  │   │               border lengths from the front, then back, left,
 *     │  ├─────┼─────┼─────┤   │               right
 *     │  │  1  │  2  │  3  │   │
 *     ├──┴─────┴─────┴─────┴───┤
 *     └────────────────────────┘   front
 *
 * Trade arithmetic: field = overall less two borders; an 8 by 10 ft covering with a 4 in border has a field of 88 by
 * 112 in, and panels up to 32 by 48 in make it three by three. Common practice, no source.
 */
import { listed, type Covering, type ShowDocument, type Stock } from "../document/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import { HAIR } from "../tolerances.ts";
import type { FloorPanel, FloorWork } from "./model.ts";
import { stockOf } from "./stocks.ts";

/** One for each floor covering, in listed order. One whose borders meet, or of too many parts to be told, has no panels. */
export function floorWorks(document: Pick<ShowDocument, "coverings" | "stocks">): readonly FloorWork[] {
  return listed(document.coverings).map((covering) =>
    floorWork(covering, stockOf(document, covering.stock, "sheet")),
  );
}

/** One covering, from sheets of the stock where somebody said which. */
export function floorWork(covering: Covering, stock?: Stock): FloorWork {
  const { width, depth, border } = covering;
  const field = { width: Math.max(0, width - 2 * border), depth: Math.max(0, depth - 2 * border) };
  const whole = field.width > 0 && field.depth > 0;
  const grid = whole ? fewest(covering, field, stock) : { columns: 0, rows: 0 };
  const runs = whole ? borderRuns(covering, stock) : [];
  const count = grid.columns * grid.rows + runs.reduce((sum, { pieces }) => sum + pieces, 0);
  const told = count <= figureOf("too-many-to-cut", "most", "");
  return {
    covering,
    ...(stock === undefined ? {} : { stock }),
    room: covering.room,
    name: covering.name,
    field,
    ...grid,
    panels: told ? panelsOf(covering, field, grid) : [],
    border: told ? runs.flatMap((run) => piecesOf(run)).map(numbered(covering)) : [],
    seams: whole ? (grid.columns - 1) * field.depth + (grid.rows - 1) * field.width : 0,
    diagonal: Math.hypot(width, depth),
  };
}

/** How many parts a covering would be cut in, told or not: what the rule of too many asks. */
export function floorParts(work: FloorWork): number {
  const runs = work.columns > 0 ? borderRuns(work.covering, work.stock) : [];
  return work.columns * work.rows + runs.reduce((sum, { pieces }) => sum + pieces, 0);
}

interface Size {
  readonly width: number;
  readonly depth: number;
}

interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** Fewest panels; of as few, the shortest seams; of equal ones, the panels' long side along the field's. */
function fewest(covering: Covering, field: Size, stock?: Stock): Grid {
  const carried = { width: covering.panelWidth ?? Infinity, depth: covering.panelDepth ?? Infinity };
  const ways = sheetWays(stock).map((sheet) => ({
    columns: parts(field.width, Math.min(carried.width, sheet.width)),
    rows: parts(field.depth, Math.min(carried.depth, sheet.depth)),
  }));
  const seams = ({ columns, rows }: Grid): number => (columns - 1) * field.depth + (rows - 1) * field.width;
  const across = ({ columns, rows }: Grid): number =>
    field.width / columns >= field.depth / rows === field.width >= field.depth ? 0 : 1;
  const [best] = ways.toSorted(
    (a, b) =>
      a.columns * a.rows - b.columns * b.rows || beyondHair(seams(a) - seams(b)) || across(a) - across(b),
  );
  return best ?? { columns: 1, rows: 1 };
}

/** The largest part a sheet gives, as it may lie: grain keeps a panel's depth along the sheet's long side. */
function sheetWays(stock?: Stock): readonly Size[] {
  if (stock === undefined) return [{ width: Infinity, depth: Infinity }];
  const upright = { width: stock.width, depth: stock.length };
  return stock.grained ? [upright] : [upright, { width: stock.length, depth: stock.width }];
}

/** Equal parts no longer than the most. */
function parts(length: number, most: number): number {
  return most === Infinity ? 1 : Math.max(1, Math.ceil((length - HAIR) / most));
}

function beyondHair(difference: number): number {
  return Math.abs(difference) > HAIR ? difference : 0;
}

function panelsOf(covering: Covering, field: Size, { columns, rows }: Grid): readonly FloorPanel[] {
  const [width, depth] = [field.width / Math.max(1, columns), field.depth / Math.max(1, rows)];
  return Array.from({ length: columns * rows }, (_, index): FloorPanel => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return {
      id: `${covering.id}~${index + 1}`,
      name: `${covering.name} ${index + 1}`,
      number: index + 1,
      x: -field.width / 2 + column * width,
      y: -field.depth / 2 + row * depth,
      width,
      depth,
      because: [covering.id],
    };
  });
}

interface BorderRun extends Size {
  readonly x: number;
  readonly y: number;
  readonly along: "width" | "depth";
  readonly pieces: number;
}

/** Front, back, left, right; none where the covering has no border. */
function borderRuns(covering: Covering, stock?: Stock): readonly BorderRun[] {
  const { width, depth, border } = covering;
  if (!(border > 0)) return [];
  const most = borderMost(covering, stock);
  const side = depth - 2 * border;
  const lying = { x: -width / 2, width, depth: border, along: "width", pieces: parts(width, most) } as const;
  const upright = {
    y: -side / 2,
    width: border,
    depth: side,
    along: "depth",
    pieces: parts(side, most),
  } as const;
  return [
    { ...lying, y: -depth / 2 },
    { ...lying, y: depth / 2 - border },
    { ...upright, x: -width / 2 },
    { ...upright, x: width / 2 - border },
  ];
}

/** The longest border length: a sheet's long side, its short one where the border is wider than that; else what can be carried. */
function borderMost({ border, panelWidth, panelDepth }: Covering, stock?: Stock): number {
  if (stock === undefined) return Math.max(panelWidth ?? 0, panelDepth ?? 0) || Infinity;
  const turned = border > stock.width && !stock.grained && border <= stock.length;
  return turned ? stock.width : stock.length;
}

type Unnumbered = Pick<FloorPanel, "x" | "y" | "width" | "depth">;

function piecesOf(run: BorderRun): readonly Unnumbered[] {
  const { x, y, width, depth, along, pieces } = run;
  return Array.from({ length: pieces }, (_, index) =>
    along === "width"
      ? { x: x + (index * width) / pieces, y, width: width / pieces, depth }
      : { x, y: y + (index * depth) / pieces, width, depth: depth / pieces },
  );
}

function numbered(covering: Covering): (piece: Unnumbered, index: number) => FloorPanel {
  return (piece, index) => ({
    ...piece,
    id: `${covering.id}~b${index + 1}`,
    name: `${covering.name} border ${index + 1}`,
    number: index + 1,
    because: [covering.id],
  });
}
