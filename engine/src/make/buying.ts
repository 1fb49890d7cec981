/**
 * The buying list: how many rolls, sticks and sheets, what they cost, and the arithmetic in words, so that nobody has
 * to believe a bare number. Money is whole minor units of the show's currency.
 */
import { listed, showOf, type ShowDocument, type Stock } from "../document/tables.ts";
import { printLength } from "../units/length.ts";
import type { BuyingLine, LengthCutting, SheetCutting, Strip, WallWork } from "./model.ts";
import type { Plans } from "./plans.ts";

/** What has been laid out and cut. */
export interface Cut {
  readonly walls: readonly WallWork[];
  readonly cuts: readonly LengthCutting[];
  readonly sheets: readonly SheetCutting[];
}

export interface Buying {
  readonly buying: readonly BuyingLine[];
  readonly price: number;
  /** Lines without a price. */
  readonly unpriced: number;
}

/** One line for each stock that something is made from, in listed order. */
export function buyingOf(document: Pick<ShowDocument, "stocks" | "shows">, cut: Cut, plans: Plans): Buying {
  const print = (mm: number): string => printLength(mm, showOf(document as ShowDocument).units);
  const buying = listed(document.stocks).flatMap((stock) => {
    const count = counted(stock, cut, { plans, print });
    return count === undefined || count.count === 0 ? [] : [priced(stock, count)];
  });
  return {
    buying,
    price: buying.reduce((sum, { price }) => sum + (price ?? 0), 0),
    unpriced: buying.filter(({ price }) => price === undefined).length,
  };
}

type Counted = Pick<BuyingLine, "count" | "bound" | "why" | "because" | "proven">;

interface Counting {
  readonly plans: Plans;
  readonly print: (mm: number) => string;
}

function counted(stock: Stock, cut: Cut, counting: Counting): Counted | undefined {
  if (stock.form === "roll") return rolls(stock, cut.walls, counting);
  if (stock.form === "stick") return sticks(stock, cut.cuts, counting);
  return sheets(stock, cut.sheets, counting);
}

function priced(stock: Stock, line: Counted): BuyingLine {
  return {
    id: stock.id,
    stock,
    ...line,
    ...(stock.price === undefined ? {} : { price: stock.price * line.count }),
  };
}

/**
 * Rolls for all walls together: strips may share what is left of a roll, whatever wall they hang on. A patterned
 * strip's length is whole repeats already, so the next one begins where the pattern does.
 */
function rolls(stock: Stock, walls: readonly WallWork[], { plans, print }: Counting): Counted | undefined {
  const works = walls.filter((work) => work.stock.id === stock.id);
  const strips = works.flatMap((work) => work.strips);
  if (strips.length === 0) return undefined;
  const plan = plans.lengths({
    stock: stock.length,
    kerf: 0,
    parts: strips.map(({ id, length }) => ({ id, length })),
  });
  return {
    count: plan.sticks.length,
    bound: plan.bound,
    proven: plan.sticks.length === plan.bound,
    why: `${stripWords(strips, works, print)}, rolls of ${print(stock.length)}`,
    because: unique([stock.id, ...strips.flatMap(({ because }) => because)]),
  };
}

function stripWords(
  strips: readonly Strip[],
  works: readonly WallWork[],
  print: (mm: number) => string,
): string {
  const lengths = strips.map(({ length }) => length);
  const [least, most] = [Math.min(...lengths), Math.max(...lengths)].map(print);
  const each = [...new Set(works.map(({ perRoll }) => perRoll))].toSorted((a, b) => a - b);
  const long = least === most ? `of ${most}` : `of ${least} to ${most}`;
  return `${number(strips.length, "strip")} ${long}, ${each.join(" or ")} from a roll`;
}

function sticks(stock: Stock, cuts: readonly LengthCutting[], { print }: Counting): Counted | undefined {
  const cutting = cuts.find((one) => one.stock?.id === stock.id);
  const plan = cutting?.plan;
  if (!cutting || !plan) return undefined;
  const placed = cutting.parts.filter(({ id }) => !plan.unplaced.includes(id));
  const total = placed.reduce((sum, { length }) => sum + length, 0);
  const kerf = stock.kerf > 0 ? `, ${print(stock.kerf)} a cut` : "";
  return {
    count: plan.sticks.length,
    bound: plan.bound,
    proven: plan.sticks.length === plan.bound,
    why: `${number(placed.length, "length")}, ${print(total)} in all, from sticks of ${print(stock.length)}${kerf}`,
    because: unique([stock.id, ...placed.flatMap(({ because }) => because)]),
  };
}

function sheets(stock: Stock, cuttings: readonly SheetCutting[], { print }: Counting): Counted | undefined {
  const cutting = cuttings.find((one) => one.stock.id === stock.id);
  if (!cutting) return undefined;
  const { plan } = cutting;
  const placed = cutting.parts.filter(({ id }) => !plan.unplaced.includes(id));
  const kerf = stock.kerf > 0 ? `, ${print(stock.kerf)} a cut` : "";
  return {
    count: plan.sheets.length,
    bound: plan.bound,
    proven: plan.sheets.length === plan.bound,
    why: `${number(placed.length, "part")} from sheets of ${print(stock.width)} × ${print(stock.length)}${kerf}`,
    because: unique([stock.id, ...placed.flatMap(({ because }) => because)]),
  };
}

/** "1 strip", "9 strips". */
export function number(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}

function unique(ids: readonly string[]): readonly string[] {
  return [...new Set(ids)];
}
