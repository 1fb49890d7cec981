/**
 * What is cut from what: every length from its sticks, every panel from its sheets, one list and one plan for each
 * stock. The plans come from the solvers; what is listed here is only gathered.
 */
import { listed, type Part, type Piece, type ShowDocument, type Stock } from "../document/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import type {
  CutPart,
  FloorWork,
  LengthCutting,
  SheetCutting,
  SheetPart,
  TrimWork,
  WallWork,
} from "./model.ts";
import type { Plans } from "./plans.ts";
import { stockOf } from "./stocks.ts";

/** What calls for something to be cut. */
export interface Wanted {
  readonly document: Pick<ShowDocument, "stocks" | "parts" | "pieces">;
  readonly walls: readonly WallWork[];
  readonly trims: readonly TrimWork[];
  readonly floors: readonly FloorWork[];
}

/** Everything cut from sticks: trim, then battens, then parts of pieces; stocks in listed order, what has none last. */
export function lengthCuttings(wanted: Wanted, plans: Plans): readonly LengthCutting[] {
  const { document } = wanted;
  const lists = new Map<Stock | undefined, CutPart[]>();
  const put = (stock: Stock | undefined, parts: readonly CutPart[]): void => {
    if (parts.length === 0) return;
    const list = lists.get(stock) ?? [];
    for (const part of parts) list.push(calledFor(part, stock));
    lists.set(stock, list);
  };
  for (const { stock, runs } of wanted.trims) for (const run of runs) put(stock, run.pieces);
  for (const { covering, battens } of wanted.walls)
    for (const run of battens) put(stockOf(document, covering.batten, "stick"), run.pieces);
  for (const { stock, parts } of pieceParts(document).told) put(stock, parts);
  const stocks = [...listed(document.stocks), undefined];
  return stocks.flatMap((stock) => {
    const parts = lists.get(stock);
    return parts === undefined ? [] : [lengthCutting(stock, parts, plans)];
  });
}

function lengthCutting(stock: Stock | undefined, parts: readonly CutPart[], plans: Plans): LengthCutting {
  if (stock === undefined) return { name: "Lengths of no stock yet", parts };
  const plan = plans.lengths({
    stock: stock.length,
    kerf: stock.kerf,
    parts: parts.map(({ id, length }) => ({ id, length })),
  });
  return { stock, name: stock.name, parts, plan };
}

function calledFor(part: CutPart, stock: Stock | undefined): CutPart {
  if (stock === undefined || part.because.includes(stock.id)) return part;
  return { ...part, because: [...part.because, stock.id] };
}

interface PieceParts {
  readonly told: readonly {
    readonly part: Part;
    readonly stock: Stock;
    readonly parts: readonly CutPart[];
  }[];
  /** Records that call for more lengths than are told one by one. */
  readonly untold: readonly Part[];
}

/** The lengths of every copy of every piece; a record that would bring its stock over the most is not told. */
export function pieceParts(document: Pick<ShowDocument, "stocks" | "parts" | "pieces">): PieceParts {
  const most = figureOf("too-many-to-cut", "most", "");
  const counts = new Map<string, number>();
  const lengths = new Map<string, number>();
  const told: { part: Part; stock: Stock; parts: readonly CutPart[] }[] = [];
  const untold: Part[] = [];
  for (const part of listed(document.parts)) {
    const piece = document.pieces[part.piece];
    const stock = stockOf(document, part.stock, "stick");
    if (!piece || !stock) continue;
    const count = (counts.get(stock.id) ?? 0) + piece.count * part.count;
    if (count > most) untold.push(part);
    else {
      counts.set(stock.id, count);
      told.push({ part, stock, parts: copiesOf(part, piece, lengths.get(piece.id) ?? 0) });
    }
    lengths.set(piece.id, (lengths.get(piece.id) ?? 0) + part.count);
  }
  return { told, untold };
}

/** Lengths of one copy count on from those of the piece's parts before this one. */
function copiesOf(part: Part, piece: Piece, before: number): readonly CutPart[] {
  return Array.from({ length: piece.count * part.count }, (_, index) => {
    const [copy, number] = [Math.floor(index / part.count) + 1, (index % part.count) + 1];
    return {
      id: `${part.id}~${copy}~${number}`,
      name: `${piece.name}${piece.count > 1 ? ` ${copy}` : ""}, length ${before + number}`,
      length: part.length,
      because: [part.id, piece.id],
    };
  });
}

/** Everything cut from sheets: panels, then border lengths, covering by covering; stocks in listed order. */
export function sheetCuttings(
  { document, floors }: Pick<Wanted, "document" | "floors">,
  plans: Plans,
): readonly SheetCutting[] {
  return listed(document.stocks).flatMap((stock) => {
    const parts = floors
      .filter((work) => work.stock?.id === stock.id)
      .flatMap((work) => sheetParts(work, stock));
    if (parts.length === 0) return [];
    const plan = plans.sheets({
      width: stock.width,
      depth: stock.length,
      kerf: stock.kerf,
      turning: !stock.grained,
      parts: parts.map(({ id, width, depth }) => ({ id, width, depth })),
    });
    return [{ stock, parts, plan }];
  });
}

/** Panels as they lie; border lengths along the sheet, since grain runs along a border. */
function sheetParts(work: FloorWork, stock: Stock): readonly SheetPart[] {
  const because = [work.covering.id, stock.id];
  return [
    ...work.panels.map(({ id, name, width, depth }) => ({ id, name, width, depth, because })),
    ...work.border.map(({ id, name, width, depth }) => ({
      id,
      name,
      width: work.covering.border,
      depth: depth === work.covering.border ? width : depth,
      because,
    })),
  ];
}
