/**
 * Cutting plans drawn as what lies on the bench: each stick as a board with its lengths in the order they are cut,
 * each sheet with its parts; what is left is hatched.
 *
 *     1 ┌────────────────┬───────────┬─────┬╱╱╱┐  left 3 1/2"
 *       │ 4  Base A-B 1  │ 9  Rail … │ 12  │╱╱╱│
 *       └────────────────┴───────────┴─────┴───┘
 */
import type { Stock } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { boxShape, letters, type Box } from "../sheet/drafting.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { shortenedTo, textWidth, wrapped } from "../sheet/type.ts";
import type { Face, Fill, Item } from "../sheet/vocabulary.ts";
import type { LengthPlan } from "../solve/lengths.ts";
import type { SheetPlan } from "../solve/sheets.ts";
import { number } from "./buying.ts";
import type { CutPart, LengthCutting, SheetCutting, SheetPart } from "./model.ts";
import { boundWords, printer, type MakeWish } from "./tables.ts";

/** What is left over: a graphite hatch, seen in black too. */
const LEFT: Fill = { ink: "graphite-soft", hatch: { turn: 45, apart: 1.6 } };
const PART: Fill = { ink: "sheet" };

/** Sticks and sheets drawn one by one; beyond it the lists say the rest. */
const MOST_DRAWN = 120;
const LEAD = 2.9;
const LEADING = 4.1;
/** Board and pitch of the rows of sticks, mm on paper. */
const BOARD = 8;
const PITCH = 10;

/** The sticks of one stock, as many a page as go; none without a plan. */
export function stickLeaves(wish: MakeWish, cutting: LengthCutting): readonly Leaf[] {
  const { plan, stock } = cutting;
  if (!plan || !stock || plan.sticks.length === 0) return [];
  const print = printer(wish.document);
  const kerf = stock.kerf > 0 ? `, each cut eats ${print(stock.kerf)}` : ", cut with a knife";
  const lead = [
    `${number(plan.sticks.length, "stick")} of ${print(stock.length)}${kerf}: ${boundWords(plan.sticks.length, plan.bound)}.`,
    "Cut from left to right; what is hatched is left over. Mark every length before the first cut.",
    ...overWords(plan.sticks.length, "sticks"),
  ].join(" ");
  const page = pageOf(wish, lead);
  const rows = Math.max(1, Math.floor((page.box.bottom - page.top) / PITCH));
  const title = `${stock.name}: cutting`;
  const draw = stickDrawing({ box: page.box, stock, parts: cutting.parts, print });
  return paged(plan.sticks.slice(0, MOST_DRAWN), rows).map((sticks, index) => ({
    id: `make.sticks.${stock.id}${index === 0 ? "" : `.${index + 1}`}`,
    title,
    paper: wish.paper,
    items: [
      ...page.head(title, index > 0),
      ...sticks.flatMap((stick, row) => draw(stick, index * rows + row + 1, page.top + row * PITCH)),
    ],
    known: [],
    frames: [],
  }));
}

interface StickWish {
  readonly box: Box;
  readonly stock: Stock;
  readonly parts: readonly CutPart[];
  readonly print: (mm: number) => string;
}

/** Draws a stick by its plan, its number and the height of its top edge on the page. */
function stickDrawing({ box: page, stock, parts, print }: StickWish) {
  const numbered = new Map(parts.map((part, index) => [part.id, { part, number: index + 1 }]));
  const [left, right] = [page.left + 8, page.right - 30];
  const scale = (right - left) / stock.length;
  return (stick: LengthPlan["sticks"][number], count: number, top: number): readonly Item[] => {
    const box = { left, right, top, bottom: top + BOARD };
    let at = left;
    const cuts = stick.parts.flatMap((id) => {
      const found = numbered.get(id);
      if (!found) return [];
      const { part } = found;
      const cut = { ...box, left: at, right: at + part.length * scale };
      at = cut.right + stock.kerf * scale;
      return partItems(cut, [`${found.number}  ${part.name}`, print(part.length)], part.because[0]);
    });
    const middle = top + BOARD / 2 + 1;
    return [
      boxShape(box, "cut", { fill: LEFT, part: "stick" }),
      ...cuts,
      boxShape(box, "outline", { part: "stick" }),
      letters({ x: page.left + 5, y: middle }, `${count}`, 2.9, { face: "sans-bold", align: "end" }),
      letters({ x: right + 2, y: middle }, `left ${print(stick.left)}`, 2.4, { face: "mono" }),
    ];
  };
}

/** The sheets of one stock, several a page, all at one size. */
export function sheetCutLeaves(wish: MakeWish, cutting: SheetCutting): readonly Leaf[] {
  const { plan, stock, parts } = cutting;
  if (plan.sheets.length === 0) return [];
  const print = printer(wish.document);
  const kerf = stock.kerf > 0 ? `, each cut eats ${print(stock.kerf)}` : ", cut with a knife";
  const grain = stock.grained ? " Its grain runs along the long side; no part is turned across it." : "";
  const lead = [
    `${number(plan.sheets.length, "sheet")} of ${print(stock.width)} × ${print(stock.length)}${kerf}: ${boundWords(plan.sheets.length, plan.bound)}.${grain}`,
    "Every cut runs from edge to edge; what is hatched is left over. Number the backs before cutting.",
    ...overWords(plan.sheets.length, "sheets"),
  ].join(" ");
  const page = pageOf(wish, lead);
  const drawn = plan.sheets.slice(0, MOST_DRAWN);
  const grid = sheetGrid(page, stock, drawn.length);
  const title = `${stock.name}: cutting`;
  const perPage = grid.columns * grid.rows;
  const draw = sheetDrawing(grid, parts, print);
  return paged(drawn, perPage).map((sheets, index) => ({
    id: `make.sheets.${stock.id}${index === 0 ? "" : `.${index + 1}`}`,
    title,
    paper: wish.paper,
    items: [
      ...page.head(title, index > 0),
      ...sheets.flatMap((sheet, place) =>
        draw(sheet, index * perPage + place + 1, {
          x: page.box.left + (place % grid.columns) * (grid.width + 6),
          y: page.top + 4 + Math.floor(place / grid.columns) * (grid.height + 10),
        }),
      ),
    ],
    known: [],
    frames: [],
  }));
}

/** Draws a sheet by its plan, its number and its top left corner. It lies on its long side: its length runs across the page. */
function sheetDrawing(
  { scale, width, height }: { readonly scale: number; readonly width: number; readonly height: number },
  parts: readonly SheetPart[],
  print: (mm: number) => string,
) {
  const byId = new Map(parts.map((part) => [part.id, part]));
  return (sheet: SheetPlan["sheets"][number], count: number, { x, y }: Point): readonly Item[] => {
    const box = { left: x, top: y, right: x + width, bottom: y + height };
    return [
      letters({ x, y: y - 1.2 }, `${count}`, 2.9, { face: "sans-bold" }),
      boxShape(box, "cut", { fill: LEFT, part: "sheet" }),
      ...sheet.parts.flatMap((cut) => {
        const part = byId.get(cut.id);
        const lying = {
          left: x + cut.y * scale,
          right: x + (cut.y + cut.depth) * scale,
          top: y + cut.x * scale,
          bottom: y + (cut.x + cut.width) * scale,
        };
        const words = [part?.name ?? "", `${print(cut.depth)} × ${print(cut.width)}`] as const;
        return partItems(lying, words, part?.because[0]);
      }),
      boxShape(box, "outline", { part: "sheet" }),
    ];
  };
}

interface Page {
  readonly box: Box;
  /** Where the drawing may begin. */
  readonly top: number;
  readonly head: (title: string, continued: boolean) => readonly Item[];
}

function pageOf({ paper }: MakeWish, lead: string): Page {
  const box = leafBox(paper);
  const lines = wrapped(lead, "sans", LEAD, box.right - box.left);
  return {
    box,
    top: box.top + 12 + lines.length * LEADING,
    head: (title, continued) => [
      titleOf(continued ? `${title} (continued)` : title, box),
      ...lines.map((text, row) => letters({ x: box.left, y: box.top + 11 + row * LEADING }, text, LEAD)),
    ],
  };
}

function overWords(count: number, word: string): readonly string[] {
  return count > MOST_DRAWN ? [`The first ${MOST_DRAWN} ${word} are drawn; the cut list has them all.`] : [];
}

function paged<T>(things: readonly T[], size: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(things.length / size) }, (_, page) =>
    things.slice(page * size, (page + 1) * size),
  );
}

/** Columns and rows of lying sheets: as large as they go, yet no more columns than sheets. */
function sheetGrid(page: Page, stock: { readonly width: number; readonly length: number }, count: number) {
  const [wide, high] = [page.box.right - page.box.left, page.box.bottom - page.top];
  const sized = (columns: number) => {
    const scale = Math.min((wide - (columns - 1) * 6) / columns / stock.length, (high - 6) / stock.width);
    const [width, height] = [stock.length * scale, stock.width * scale];
    return { columns, scale, width, height, rows: Math.max(1, Math.floor((high + 4) / (height + 10))) };
  };
  // Two to four abreast read well; one alone where there is one.
  const [least, most] = count === 1 ? [1, 1] : [2, 4];
  let best = sized(least);
  for (let columns = least + 1; columns <= most && best.columns * best.rows < count; columns += 1)
    best = sized(columns);
  return best;
}

/** A part with its name and size in it, as far as they can be read there. */
function partItems(box: Box, [name, size]: readonly [string, string], record?: string): readonly Item[] {
  const shown = record === undefined ? {} : { record };
  const [width, height] = [box.right - box.left, box.bottom - box.top];
  // A narrow upright part is lettered upright.
  const upright = height > width * 1.4 && width < 14;
  const [room, across] = upright ? [height, width] : [width, height];
  const fitting = partWords([name, size], room - 1.6, across);
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  return [
    boxShape(box, "cut", { ...shown, fill: PART, part: "cut" }),
    ...fitting.map(({ text, face }, row) => {
      const drop = (row - (fitting.length - 1) / 2) * 3 + 0.8;
      const at = upright ? { x: x + drop, y } : { x, y: y + drop };
      return letters(at, text, face === "sans" ? NAME : SIZE, {
        ...shown,
        face,
        align: "middle",
        part: "cut",
        ...(upright ? { turn: 90 } : {}),
      });
    }),
  ];
}

const NAME = 2.3;
const SIZE = 2.1;

interface Words {
  readonly text: string;
  readonly face: Face;
}

/** Two rows where there is height for them, one where there is not; nothing that could not be read. */
function partWords([name, size]: readonly [string, string], room: number, across: number): readonly Words[] {
  if (across < 3) return [];
  const short: Words = { text: shortenedTo(name, "sans", NAME, room), face: "sans" };
  // A name cut down to a sign or two says nothing; the list has it by its number.
  const named = short.text === name || short.text.length > 3 ? [short] : [];
  if (across < 6.4) {
    const both = `${name}, ${size}`;
    return textWidth(both, "sans", NAME) <= room ? [{ text: both, face: "sans" }] : named;
  }
  return textWidth(size, "mono", SIZE) <= room + 0.6 ? [...named, { text: size, face: "mono" }] : named;
}
