/** A length longer than a stick: cut in as few pieces as will do, that meet in scarfs. */
import type { Stock } from "../document/tables.ts";
import type { CutPart } from "./model.ts";

/**
 * The pieces of a length, left to right: itself where it fits a stick or has none, else the fewest equal pieces. At
 * each scarf, cut at 45 degrees, the piece on the left is longer by the stick's thickness. None where no stick is
 * longer than its own thickness, and so no number of pieces would do.
 */
export function scarfed(part: CutPart, stock: Stock | undefined): readonly CutPart[] {
  if (stock === undefined || part.length <= stock.length) return [part];
  const gain = stock.length - stock.thickness;
  if (gain <= 0) return [];
  const count = Math.ceil((part.length - stock.thickness) / gain - 1e-9);
  const shown = part.length / count;
  const over = (stock.thickness * (count - 1)) / count;
  return Array.from({ length: count }, (_, index) => ({
    ...part,
    id: `${part.id}~${index + 1}`,
    name: `${part.name}, piece ${index + 1} of ${count}`,
    length: shown + over,
  }));
}
