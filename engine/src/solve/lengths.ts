/**
 * Cutting parts from sticks of one length, in as few sticks as can be found, with a bound that says how few are
 * needed at least.
 *
 * Kerf. Parts p1 … pk fit in a stick when p1 + … + pk + (k - 1) · kerf is no longer than it: one cut between each
 * two. That is the same as packing sizes p + kerf into a capacity of stock + kerf, which is what the search does.
 * One more cut frees the last part. Where it ends exactly at the stick's end there is none; where less than a
 * kerf is left, the cut eats all of it (the saw trims the end). So `left` is the rest less one kerf, never below 0,
 * and the last cut never keeps a part out of a stick.
 *
 * Method: first and best fit decreasing, then sticks filled one by one as full as they will go (minimum bin
 * slack: Gupta and Ho 1999), and while the bound is not met the patterns of the linear programme (Gilmore and
 * Gomory 1961, 1963), limited by counted steps, never by a clock. Equal lengths are one kind with a count. Nothing
 * depends on the order the parts are listed in but which of equal parts goes where.
 */
import { boundOf } from "./lengths-bound.ts";
import { bestFit, firstFit, type Filling, type Kinds } from "./lengths-fill.ts";
import { searched } from "./lengths-search.ts";
import { commonMeasure, figureOf, whole } from "./whole.ts";

/** Parts to be cut from sticks of one length. Any unit, the same throughout; figures count to a thousandth of it. */
export interface LengthJob {
  readonly stock: number;
  /** What each cut eats. Between two parts there is one cut; the last part needs none where it ends at the stick's end. */
  readonly kerf: number;
  readonly parts: readonly { readonly id: string; readonly length: number }[];
}

export interface LengthPlan {
  /** Each stick's parts in the order they are cut, and what is left of it (after the cut that frees it). */
  readonly sticks: readonly { readonly parts: readonly string[]; readonly left: number }[];
  /** No plan can do with fewer sticks. */
  readonly bound: number;
  /** Ids of parts longer than a stick; they are in no stick. */
  readonly unplaced: readonly string[];
}

export interface LengthSearch {
  /** Steps the search may take after the quick answers; 1,500,000 unless said. 0 leaves only the quick answers. */
  readonly nodes?: number;
  /** Told from time to time what share of the work is done, 0 to 1, never falling. */
  readonly progress?: (share: number) => void;
}

/** Steps of the search unless the caller says otherwise: under half a second on a slow machine. */
const NODES = 1_500_000;

/**
 * The plan with the fewest sticks found; `sticks.length === bound` proves that fewer cannot do. Fullest sticks first,
 * longest parts first in each. A part no stick can give (too long, or not a length above 0) is in `unplaced`, in
 * listed order; nothing is thrown for data. Same job, same plan.
 */
export function solveLengths(job: LengthJob, options: LengthSearch = {}): LengthPlan {
  const all = sorted(job);
  const { kinds, unplaced } = all;
  const quick = [firstFit(kinds), bestFit(kinds)];
  const start = quick.reduce((a, b) => (b.length < a.length ? b : a));
  options.progress?.(0.05);
  const least = boundOf(kinds);
  const { sticks, bound } = searched(kinds, start, {
    bound: least,
    nodes: options.nodes ?? NODES,
    progress: (share) => options.progress?.(0.05 + 0.95 * share),
  });
  options.progress?.(1);
  return { sticks: named(job, sticks, all), bound, unplaced };
}

/** Sticks no plan can do without; 0 without parts. The bound of `solveLengths` is this, or higher where its search proved more. */
export function boundLengths(job: LengthJob): number {
  return boundOf(sorted(job).kinds);
}

interface Sorted {
  readonly kinds: Kinds;
  /** For each kind the places of its parts in the job, in listed order. */
  readonly members: readonly (readonly number[])[];
  readonly unplaced: readonly string[];
  /** The capacity and the kinds' sizes before they are divided by what measures them all, and the kerf: thousandths. */
  readonly lengths: { readonly capacity: number; readonly sizes: readonly number[]; readonly cut: number };
}

function sorted({ stock, kerf, parts }: LengthJob): Sorted {
  const cut = Math.max(0, whole(kerf) || 0);
  const capacity = whole(stock) + cut;
  const places = new Map<number, number[]>();
  const unplaced: string[] = [];
  parts.forEach(({ id, length }, place) => {
    const size = whole(length) + cut;
    if (!(length > 0 && size > 0 && size <= capacity && capacity < Infinity)) unplaced.push(id);
    else if (places.get(size)?.push(place) === undefined) places.set(size, [place]);
  });
  const sizes = [...places.keys()].toSorted((a, b) => b - a);
  const members = sizes.map((size) => places.get(size)!);
  const measure = commonMeasure(sizes);
  const kinds = {
    // What is left beyond a whole number of measures no part can use.
    capacity: Math.floor(capacity / measure),
    sizes: sizes.map((size) => size / measure),
    counts: members.map(({ length }) => length),
  };
  return { kinds, members, unplaced, lengths: { capacity, sizes, cut } };
}

/** The sticks with their parts' own ids and what is left of each. */
function named({ parts }: LengthJob, sticks: Filling, { members, lengths }: Sorted): LengthPlan["sticks"] {
  const { capacity, sizes, cut } = lengths;
  const next = sizes.map(() => 0);
  return sticks
    .map((stick) => stick.toSorted((a, b) => a - b))
    .map((stick) => ({ stick, rest: stick.reduce((rest, kind) => rest - sizes[kind]!, capacity) }))
    .toSorted((a, b) => a.rest - b.rest)
    .map(({ stick, rest }) => ({
      parts: stick.map((kind) => parts[members[kind]![next[kind]!++]!]!.id),
      left: figureOf(Math.max(0, rest - cut)),
    }));
}
