/** A length longer than a stick: cut in as few pieces as will do, that meet in scarfs. */
import type { Stock } from "../document/tables.ts";
import { SHORTEST_PIECE } from "../tolerances.ts";
import type { CutPart } from "./model.ts";

/**
 * The pieces of a length, left to right: itself where it fits a stick or has none; else whole sticks, and what is left
 * as the last, so that short rests of several runs can come from one stick. A rest too short to look well takes from
 * the stick before it. At each scarf, cut at 45 degrees, the piece on the left is longer by the stick's thickness.
 * None where no stick is longer than its own thickness, and so no number of pieces would do.
 */
export function scarfed(part: CutPart, stock: Stock | undefined): readonly CutPart[] {
  if (stock === undefined || part.length <= stock.length) return [part];
  const gain = stock.length - stock.thickness;
  if (gain <= 0) return [];
  const count = Math.ceil((part.length - stock.thickness) / gain - 1e-9);
  const rest = part.length - (count - 1) * gain;
  const wanted = Math.min(Math.max(rest, SHORTEST_PIECE), stock.length / 2);
  const given = Math.max(0, wanted - rest);
  return Array.from({ length: count }, (_, index) => ({
    ...part,
    id: `${part.id}~${index + 1}`,
    name: `${part.name}, piece ${index + 1} of ${count}`,
    length: index === count - 1 ? rest + given : stock.length - (index === count - 2 ? given : 0),
  }));
}
