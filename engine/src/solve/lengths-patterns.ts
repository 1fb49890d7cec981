/**
 * Cutting by patterns (Gilmore and Gomory 1961, 1963). A pattern is what one stick gives; how often each is cut, in
 * fractions, so that every part is cut and the fewest sticks are used, is a linear programme. It starts from the
 * simplest patterns; its prices say what each part is worth; the most valuable stick by these prices joins it
 * while it is worth more than a stick. At the end the prices, taken down to whole numbers, prove a bound by
 * themselves: no stick holds parts worth more than V, so all parts worth P need P / V sticks (Farley 1990). The
 * simplex method is the revised one with the basis' inverse kept (Chvátal, Linear Programming, 1983, chapters 7
 * and 13); a price below 0 lets a surplus in.
 */
import type { Kinds } from "./lengths-fill.ts";
import { mostWorth, type Pattern } from "./lengths-knapsack.ts";

/** Numbers nearer to nothing than this are nothing to the simplex method. */
const NOTHING = 1e-9;

/** Prices are taken down to whole numbers of this many a stick. */
const FINE = 10_000_000;

export interface Relaxed {
  /** Patterns used, each with how often, in fractions. */
  readonly cuts: readonly { readonly pattern: Pattern; readonly times: number }[];
  /** Proven by whole numbers; 0 where the steps ran out first. */
  readonly bound: number;
}

interface Basis {
  readonly inverse: Float64Array;
  /** The pattern of each row of the basis, or the kind whose surplus stands there. */
  readonly inside: (Pattern | number)[];
  readonly amounts: Float64Array;
}

/**
 * The linear programme's end for kinds each of which has a count above 0; `pool` holds patterns found before and
 * takes up the new. Undefined where the steps ran out before the end.
 */
export function relaxed(
  kinds: Kinds,
  pool: Pattern[],
  step: (steps: number) => boolean,
): Relaxed | undefined {
  const size = kinds.sizes.length;
  const basis = simplest(kinds);
  for (;;) {
    // A pivot runs over the whole inverse, sixteen entries in about the time of one step.
    if (!step(1 + ((size * size) >> 4))) return undefined;
    const prices = pricesOf(basis, size);
    const negative = prices.findIndex((price) => price < -NOTHING);
    if (negative >= 0) {
      if (!pivot(basis, negative, size)) return undefined;
      continue;
    }
    const entering = worthwhile(kinds, prices, pool, step);
    if (entering === "unknown") return undefined;
    if (entering === undefined) return { cuts: cutsOf(basis), bound: proven(kinds, prices, step) };
    if (!pivot(basis, entering, size)) return undefined;
  }
}

/** Each stick full of one kind. */
function simplest({ capacity, sizes, counts }: Kinds): Basis {
  const size = sizes.length;
  const inverse = new Float64Array(size * size);
  const amounts = new Float64Array(size);
  const inside = sizes.map((length, kind): Pattern => {
    const pattern = new Int32Array(size);
    const times = Math.min(counts[kind]!, Math.floor(capacity / length));
    pattern[kind] = times;
    inverse[kind * size + kind] = 1 / times;
    amounts[kind] = counts[kind]! / times;
    return pattern;
  });
  return { inverse, inside, amounts };
}

function pricesOf({ inverse, inside }: Basis, size: number): Float64Array {
  const prices = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    if (typeof inside[row] === "number") continue;
    for (let k = 0; k < size; k++) prices[k]! += inverse[row * size + k]!;
  }
  return prices;
}

/** A pattern worth more than the stick it takes: from the pool if there is one, else the most valuable of all. */
function worthwhile(
  kinds: Kinds,
  prices: Float64Array,
  pool: Pattern[],
  step: (steps: number) => boolean,
): Pattern | "unknown" | undefined {
  let best: Pattern | undefined;
  let most = 1 + 1e-7;
  for (const pattern of pool) {
    let value = 0;
    for (let kind = 0; kind < prices.length; kind++) value += pattern[kind]! * prices[kind]!;
    if (value > most) [best, most] = [pattern, value];
  }
  if (best) return best;
  const found = mostWorth(kinds, { worths: prices, above: 1 + NOTHING * 10, step: () => step(1) });
  if (found.best) {
    pool.push(found.best.pattern);
    return found.best.pattern;
  }
  return found.sure ? undefined : "unknown";
}

/** Brings a pattern, or a kind's surplus, into the basis; false where nothing bounds it, which only lost digits can do. */
function pivot({ inverse, inside, amounts }: Basis, entering: Pattern | number, size: number): boolean {
  const direction = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    const start = row * size;
    if (typeof entering === "number") direction[row] = -inverse[start + entering]!;
    else
      for (let k = 0; k < size; k++)
        if (entering[k]! > 0) direction[row]! += inverse[start + k]! * entering[k]!;
  }
  let leaving = -1;
  let least = Infinity;
  for (let row = 0; row < size; row++) {
    if (direction[row]! <= NOTHING) continue;
    const ratio = Math.max(0, amounts[row]!) / direction[row]!;
    // Of equal ratios the largest pivot keeps the digits.
    if (ratio < least - NOTHING || (ratio < least + NOTHING && direction[row]! > direction[leaving]!))
      [leaving, least] = [row, Math.min(ratio, least)];
  }
  if (leaving < 0) return false;
  const by = direction[leaving]!;
  const from = leaving * size;
  for (let k = 0; k < size; k++) inverse[from + k]! /= by;
  amounts[leaving]! /= by;
  for (let row = 0; row < size; row++) {
    const factor = direction[row]!;
    if (row === leaving || factor === 0) continue;
    const start = row * size;
    for (let k = 0; k < size; k++) inverse[start + k]! -= factor * inverse[from + k]!;
    amounts[row]! -= factor * amounts[leaving]!;
  }
  inside[leaving] = entering;
  return true;
}

function cutsOf({ inside, amounts }: Basis): Relaxed["cuts"] {
  return inside.flatMap((pattern, row) =>
    typeof pattern === "number" || amounts[row]! < 1e-7 ? [] : [{ pattern, times: amounts[row]! }],
  );
}

/** The bound the prices prove; 0 where the steps run out before the most valuable stick is known. */
function proven(kinds: Kinds, prices: Float64Array, step: (steps: number) => boolean): number {
  const worths = Float64Array.from(prices, (price) => Math.max(0, Math.floor(price * FINE)));
  // Worths are whole, so a stick is only better by a whole one; what the rates lose is far below that.
  const { best, sure } = mostWorth(kinds, { worths, above: 0.5, step: () => step(1) });
  if (!best || !sure) return 0;
  let all = 0;
  for (let kind = 0; kind < worths.length; kind++) all += worths[kind]! * kinds.counts[kind]!;
  return Math.ceil(all / best.value);
}
