/** Tables and paragraphs as pages: rows break over pages with the head repeated, long words wrap in their cells. */
import { letters, line, type Box } from "./drafting.ts";
import type { Paper } from "./papers.ts";
import { leafBox, type Leaf } from "./stamp.ts";
import { wrapped } from "./type.ts";
import type { Face, Item } from "./vocabulary.ts";

export interface Column {
  readonly head: string;
  /** Share of the page's width among the columns. */
  readonly share: number;
  readonly face?: Face;
  readonly align?: "start" | "end";
}

export interface TableWish {
  readonly id: string;
  readonly title: string;
  /** A sentence or two under the title on the first page. */
  readonly lead?: string;
  readonly paper: Paper;
  readonly columns: readonly Column[];
  /** One text a column. */
  readonly rows: readonly (readonly string[])[];
  /** The record each row speaks of, where it speaks of one: what is touched on the row touches it. */
  readonly records?: readonly (string | undefined)[];
  /** What stands there where there are no rows. */
  readonly empty: string;
}

export interface ProseWish {
  readonly id: string;
  readonly title: string;
  readonly paper: Paper;
  readonly paragraphs: readonly Paragraph[];
}

/** A paragraph; one with a head word has it in bold before it. */
export interface Paragraph {
  readonly head?: string;
  readonly text: string;
}

const BODY = 2.9;
const LEADING = 4.1;
const ROW_PADDING = 1.5;
/** A row's rule stands this far above the next row's baseline: under its own type, clear of the next. */
const RULE_UP = LEADING + 0.1;
const COLUMN_GAP = 3.5;
const TITLE_DEPTH = 12;

/** Leaves with the whole table, at least one. A row taller than a page is cut to the page's height. */
export function tableSheets(wish: TableWish): readonly Leaf[] {
  const box = leafBox(wish.paper);
  const cells = cellsOf(wish.columns, box);
  const rows = wish.rows.map((row) => rowOf(row, cells));
  const head = rowOf(
    wish.columns.map((column) => column.head),
    cells,
    "sans-bold",
  );
  const lead = wish.lead === undefined ? [] : wrapped(wish.lead, "sans", BODY, box.right - box.left);
  const leaves: Item[][] = [];
  let y = 0;
  const open = (): Item[] => {
    const first = leaves.length === 0;
    const items: Item[] = [titleOf(first ? wish.title : `${wish.title} (continued)`, box)];
    y = box.top + TITLE_DEPTH;
    for (const row of first ? lead : []) {
      items.push(letters({ x: box.left, y }, row, BODY));
      y += LEADING;
    }
    if (first && lead.length > 0) y += 2;
    items.push(
      ...setRow(head, cells, y),
      line(
        [
          { x: box.left, y: y + head.depth - RULE_UP },
          { x: box.right, y: y + head.depth - RULE_UP },
        ],
        "outline",
      ),
    );
    y += head.depth + 1;
    leaves.push(items);
    return items;
  };
  let page = open();
  for (const [index, row] of rows.entries()) {
    if (y + row.depth - LEADING > box.bottom && page.length > 0) page = open();
    page.push(
      ...setRow(row, cells, y, wish.records?.[index]),
      line(
        [
          { x: box.left, y: y + row.depth - RULE_UP },
          { x: box.right, y: y + row.depth - RULE_UP },
        ],
        "dimension",
        { ink: "graphite-soft" },
      ),
    );
    y += row.depth;
  }
  if (rows.length === 0)
    page.push(letters({ x: box.left, y: y + 2 }, wish.empty, BODY, { ink: "graphite-soft" }));
  return leaves.map((items, index) => textLeaf(wish, index, items));
}

/** Leaves with the paragraphs, set no wider than reads well. */
export function proseSheets(wish: ProseWish): readonly Leaf[] {
  const box = leafBox(wish.paper);
  const width = Math.min(180, box.right - box.left);
  const leaves: Item[][] = [[titleOf(wish.title, box)]];
  let y = box.top + TITLE_DEPTH;
  for (const { head, text } of wish.paragraphs) {
    const rows = [
      ...(head === undefined ? [] : [{ text: head, face: "sans-bold" as const }]),
      ...wrapped(text, "sans", 3.2, width).map((row) => ({ text: row, face: "sans" as const })),
    ];
    for (const row of rows) {
      if (y > box.bottom) {
        leaves.push([titleOf(`${wish.title} (continued)`, box)]);
        y = box.top + TITLE_DEPTH;
      }
      leaves.at(-1)?.push(letters({ x: box.left, y }, row.text, 3.2, { face: row.face }));
      y += 4.7;
    }
    y += 2.6;
  }
  return leaves.map((items, index) => textLeaf(wish, index, items));
}

/** The title of a page, at its top left. */
export function titleOf(title: string, box: Box): Item {
  return letters({ x: box.left, y: box.top + 5 }, title, 5, { face: "sans-bold", part: "title" });
}

function textLeaf(
  { id, title, paper }: { readonly id: string; readonly title: string; readonly paper: Paper },
  index: number,
  items: readonly Item[],
): Leaf {
  return { id: index === 0 ? id : `${id}.${index + 1}`, title, paper, items, known: [], frames: [] };
}

interface Cell {
  readonly left: number;
  readonly width: number;
  readonly column: Column;
}

function cellsOf(columns: readonly Column[], box: Box): readonly Cell[] {
  const shares = columns.reduce((sum, column) => sum + column.share, 0);
  const free = box.right - box.left - COLUMN_GAP * (columns.length - 1);
  let left = box.left;
  return columns.map((column) => {
    const cell = { left, width: (free * column.share) / shares, column };
    left += cell.width + COLUMN_GAP;
    return cell;
  });
}

interface Row {
  readonly cells: readonly { readonly rows: readonly string[]; readonly face: Face }[];
  readonly depth: number;
}

/** The most rows of type in a cell: what fits on the smallest page. */
const MOST_ROWS = 34;

function rowOf(texts: readonly string[], cells: readonly Cell[], face?: Face): Row {
  const set = cells.map(({ width, column }, index) => {
    const own = face ?? column.face ?? "sans";
    return { rows: wrapped(texts[index] ?? "", own, BODY, width).slice(0, MOST_ROWS), face: own };
  });
  return { cells: set, depth: Math.max(1, ...set.map(({ rows }) => rows.length)) * LEADING + ROW_PADDING };
}

function setRow(row: Row, cells: readonly Cell[], y: number, record?: string): readonly Item[] {
  const shown = record === undefined ? {} : { record };
  return row.cells.flatMap(({ rows, face }, index) => {
    const cell = cells[index];
    if (!cell) return [];
    const end = cell.column.align === "end";
    return rows
      .filter((text) => text !== "")
      .map((text, at) =>
        letters({ x: end ? cell.left + cell.width : cell.left, y: y + at * LEADING }, text, BODY, {
          face,
          ...shown,
          ...(end ? { align: "end" as const } : {}),
        }),
      );
  });
}
