/** Tables and paragraphs as pages: rows break over pages with the head repeated, long words wrap in their cells. */
import { letters, line, shownBy, type Box } from "./drafting.ts";
import type { Paper } from "./papers.ts";
import { leafBox, type Leaf } from "./stamp.ts";
import { wrapped } from "./type.ts";
import type { Face, Ink, Item, Pen } from "./vocabulary.ts";

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
  /** How many stacks of rows stand beside each other; one, unless it is said. */
  readonly abreast?: number;
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
const ABREAST_GAP = 9;
const TITLE_DEPTH = 12;

/** Leaves with the whole table, at least one. A row taller than a page is cut to the page's height. */
export function tableSheets(wish: TableWish): readonly Leaf[] {
  const box = leafBox(wish.paper);
  const abreast = abreastOf(box, wish.abreast ?? 1).map((part) => ({
    part,
    cells: cellsOf(wish.columns, part),
  }));
  const cells = abreast[0]?.cells ?? [];
  const heads = wish.columns.map((column) => column.head);
  const head = rowOf(heads, cells, "sans-bold");
  let left: readonly SaidRow[] = wish.rows.map((row, index) => ({
    ...rowOf(row, cells),
    ...shownBy(wish.records?.[index]),
  }));
  const leaves: Item[][] = [];
  do {
    const { items, y: top } = opened(wish, box, leaves.length === 0);
    const first = top + head.depth + 1;
    const stacks = shared(left, box.bottom - first + LEADING, abreast.length);
    for (const [index, stack] of stacks.entries()) {
      const here = abreast[index];
      if (!here) continue;
      items.push(...setRow(head, here.cells, top), ruled(here.part, top + head.depth, "outline"));
      let y = first;
      for (const row of stack) {
        items.push(
          ...setRow(row, here.cells, y, row.record),
          ruled(here.part, y + row.depth, "dimension", { ink: "graphite-soft" }),
        );
        y += row.depth;
      }
    }
    if (wish.rows.length === 0)
      items.push(letters({ x: box.left, y: first + 2 }, wish.empty, BODY, { ink: "graphite-soft" }));
    leaves.push(items);
    left = left.slice(stacks.reduce((sum, stack) => sum + stack.length, 0));
  } while (left.length > 0);
  return leaves.map((items, index) => textLeaf(wish, index, items));
}

/** The title, and on the first page the lead; where the head of the columns may stand. */
function opened(
  { title, lead }: TableWish,
  box: Box,
  first: boolean,
): { readonly items: Item[]; readonly y: number } {
  const rows = first && lead !== undefined ? wrapped(lead, "sans", BODY, box.right - box.left) : [];
  const top = box.top + TITLE_DEPTH;
  return {
    items: [
      titleOf(first ? title : `${title} (continued)`, box),
      ...rows.map((row, index) => letters({ x: box.left, y: top + index * LEADING }, row, BODY)),
    ],
    y: top + rows.length * LEADING + (rows.length > 0 ? 2 : 0),
  };
}

function ruled(box: Box, y: number, pen: Pen, rest: { readonly ink?: Ink } = {}): Item {
  const at = y - RULE_UP;
  return line(
    [
      { x: box.left, y: at },
      { x: box.right, y: at },
    ],
    pen,
    rest,
  );
}

/** The page's width in equal parts beside each other. */
function abreastOf(box: Box, count: number): readonly Box[] {
  const width = (box.right - box.left - ABREAST_GAP * (count - 1)) / count;
  return Array.from({ length: count }, (_, index) => {
    const left = box.left + index * (width + ABREAST_GAP);
    return { ...box, left, right: left + width };
  });
}

/**
 * As many of the rows as go on a page, in stacks no deeper than it: shared out evenly where all of them go, else
 * one stack filled after the other. At least one row, where there is any; one empty stack where there is none.
 */
function shared(rows: readonly SaidRow[], depth: number, count: number): readonly (readonly SaidRow[])[] {
  const each = Math.ceil(rows.length / count);
  const even = Array.from({ length: count }, (_, index) => rows.slice(index * each, (index + 1) * each));
  const deep = (stack: readonly SaidRow[]): number => stack.reduce((sum, row) => sum + row.depth, 0);
  if (even.every((stack) => deep(stack) <= depth))
    return even.filter((stack, at) => at === 0 || stack.length > 0);
  const stacks: SaidRow[][] = [];
  let at = 0;
  while (stacks.length < count && at < rows.length) {
    const stack: SaidRow[] = [];
    for (let y = 0; at < rows.length; at++) {
      const row = rows[at];
      if (!row || (stack.length > 0 && y + row.depth > depth)) break;
      stack.push(row);
      y += row.depth;
    }
    stacks.push(stack);
  }
  return stacks;
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

/** A row, and the record it speaks of. */
interface SaidRow extends Row {
  readonly record?: string;
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
