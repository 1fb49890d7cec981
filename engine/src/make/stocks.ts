/** Looking up what something is made from. */
import type { ShowDocument, Stock } from "../document/tables.ts";

/**
 * The stock of an id where it is there and comes in that form; else nothing, as if nobody had said: sticks cannot
 * be cut from a roll.
 */
export function stockOf(
  { stocks }: Pick<ShowDocument, "stocks">,
  id: string | undefined,
  form: Stock["form"],
): Stock | undefined {
  const stock = id === undefined ? undefined : stocks[id];
  return stock?.form === form ? stock : undefined;
}
