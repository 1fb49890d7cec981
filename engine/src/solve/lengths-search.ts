/**
 * The search while the bound is not met: sticks filled one by one as full as they will go, then patterns. The linear
 * programme of the patterns says how often each is cut, in fractions; its whole part is cut, the most used of
 * the rest is cut once more, and what is still wanted makes a smaller programme, until nothing is left ("diving").
 * At every depth the rest is also filled stick by stick. Dives that fail are followed by others that cut another
 * pattern first. The bound rises to what the first programme proves.
 */
import { fullest, type Filling, type Kinds } from "./lengths-fill.ts";
import { relaxed } from "./lengths-patterns.ts";
import type { Pattern } from "./lengths-knapsack.ts";

/** How far to look. */
export interface Reach {
  readonly bound: number;
  /** Steps at most: sticks tried part by part. */
  readonly nodes: number;
  readonly progress: (share: number) => void;
}

/** The best filling found and the best bound proved. */
export interface Searched {
  readonly sticks: Filling;
  readonly bound: number;
}

/** Steps for one stick in the quick fillings: first a glance, then a long look. */
const GLANCE = 300;
const LOOK = 5000;

/** Fewer kinds than this in the rest of a dive are looked at long. */
const CLOSE = 40;

/** Kinds beyond which a programme is too large to be worth its steps. */
const PROGRAMME_LIMIT = 600;

/** Dives that begin differently, at most. */
const DIVES = 12;

/** The filling with the fewest sticks found from a first one, which is given back where none is better. */
export function searched(kinds: Kinds, start: Filling, { bound, nodes, progress }: Reach): Searched {
  let sticks = start;
  const total = kinds.counts.reduce((sum, count) => sum + count, 0);
  for (const [turn, steps] of [GLANCE, LOOK].entries()) {
    if (sticks.length <= bound) return { sticks, bound };
    const tight = fullest(kinds, { steps, enough: 0 }, (packed) => progress((turn + packed / total) / 4));
    if (tight.length < sticks.length) sticks = tight;
  }
  if (sticks.length <= bound || kinds.sizes.length > PROGRAMME_LIMIT) return { sticks, bound };
  let left = nodes;
  const step = (steps: number): boolean => {
    left -= steps;
    return left > 0;
  };
  const pool: Pattern[] = sticks.map((stick) => patternOf(stick, kinds));
  let least = bound;
  for (let dive = 0; dive < DIVES && sticks.length > least; dive++) {
    if (left <= 0) break;
    const found = dived(kinds, { pool, step, detour: dive, most: sticks.length - 1 });
    least = Math.max(least, found.bound);
    if (found.sticks) sticks = found.sticks;
    progress(0.5 + 0.5 * Math.max((dive + 1) / DIVES, 1 - Math.max(0, left) / nodes));
  }
  return { sticks, bound: Math.min(least, sticks.length) };
}

function patternOf(stick: readonly number[], { sizes }: Kinds): Pattern {
  const pattern = new Int32Array(sizes.length);
  for (const kind of stick) pattern[kind]!++;
  return pattern;
}

interface Dive {
  readonly pool: Pattern[];
  readonly step: (steps: number) => boolean;
  /** Which dive it is: the depth at which it cuts the second most used pattern; 0 never does. */
  readonly detour: number;
  /** Sticks it may take. */
  readonly most: number;
}

function dived(
  kinds: Kinds,
  { pool, step, detour, most }: Dive,
): { readonly sticks?: Filling; readonly bound: number } {
  const cut: number[][] = [];
  const left = Int32Array.from(kinds.counts);
  let bound = 0;
  for (let depth = 1; ; depth++) {
    const rest = wanted(kinds, left);
    if (rest.sizes.length === 0) return { sticks: cut, bound };
    const tight = fullest(rest, { steps: rest.sizes.length < CLOSE ? LOOK : GLANCE, enough: 0 }).map(
      (stick) => stick.map((kind) => rest.of[kind]!),
    );
    if (!step(tight.length * 20)) return { bound };
    if (cut.length + tight.length <= most) return { sticks: [...cut, ...tight], bound };
    const fractions = programme(rest, pool, step);
    if (depth === 1) bound = fractions?.bound ?? 0;
    if (!fractions || cut.length + fractions.bound > most) return { bound };
    for (const stick of rounded(fractions.cuts, rest, depth === detour ? 1 : 0)) {
      const parts = stick.filter((kind) => left[kind]! > 0 && left[kind]!-- > 0);
      if (parts.length > 0) cut.push(parts);
    }
  }
}

/** The kinds still wanted; `of` says which kind of the whole job each is. */
interface Wanted extends Kinds {
  readonly of: readonly number[];
}

function wanted({ capacity, sizes }: Kinds, left: Int32Array): Wanted {
  const of = sizes.flatMap((_, kind) => (left[kind]! > 0 ? [kind] : []));
  return { capacity, of, sizes: of.map((kind) => sizes[kind]!), counts: of.map((kind) => left[kind]!) };
}

/** The programme of what is wanted; patterns go in and out of the pool in the whole job's kinds. */
function programme(rest: Wanted, pool: Pattern[], step: Dive["step"]): ReturnType<typeof relaxed> {
  const own = pool.flatMap((pattern) => {
    const cut = Int32Array.from(rest.of, (kind, place) => Math.min(pattern[kind]!, rest.counts[place]!));
    return cut.some((times) => times > 0) ? [cut] : [];
  });
  const known = own.length;
  const size = pool[0]?.length ?? 0;
  const fractions = relaxed(rest, own, step);
  for (const pattern of own.slice(known)) {
    const whole = new Int32Array(size);
    pattern.forEach((times, place) => (whole[rest.of[place]!] = times));
    pool.push(whole);
  }
  return fractions;
}

/** The whole part of the fractions, or, where there is none, one stick of the most used pattern (of the one after it on a detour). */
function rounded(
  cuts: readonly { readonly pattern: Pattern; readonly times: number }[],
  rest: Wanted,
  detour: number,
): number[][] {
  const stick = (pattern: Pattern): number[] =>
    rest.of.flatMap((kind, place) => Array.from({ length: pattern[place]! }, () => kind));
  const whole = cuts.flatMap(({ pattern, times }) =>
    Array.from({ length: Math.floor(times + 1e-7) }, () => stick(pattern)),
  );
  if (whole.length > 0) return whole;
  const sorted = cuts.toSorted((a, b) => b.times - a.times);
  const chosen = sorted[Math.min(detour, sorted.length - 1)];
  return chosen ? [stick(chosen.pattern)] : [];
}
