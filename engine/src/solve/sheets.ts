/**
 * Cutting rectangles from equal sheets by straight cuts from edge to edge, on as few sheets as can be found, with a
 * bound that says how few are needed at least.
 *
 * Kerf. A cut across a sheet takes a kerf from between the two pieces it makes. So parts of w × d from a sheet of
 * W × D fit just when parts of (w + kerf) × (d + kerf) fit a sheet of (W + kerf) × (D + kerf) without any kerf,
 * which is what the search reckons with. A trimming cut may eat less than a kerf of waste, never of a part.
 *
 * Method: the sheet is kept as free rectangles; each part goes into the one it fits best, and what is left is cut
 * in two (guillotine placement, Jylänki 2010, "A thousand ways to pack the bin"). Several orders and rules are
 * tried, then the emptiest sheet is taken apart and its parts are worked into others that are repacked a few at a
 * time (ruin and recreate: Schrimpf and others 2000). Counted steps limit it, never a clock.
 */
import { bettered } from "./sheets-better.ts";
import { boundOf } from "./sheets-bound.ts";
import { areaOf, manyWays, type Layout, type Shop } from "./sheets-fill.ts";
import { commonMeasure, figureOf, whole } from "./whole.ts";

/** Rectangles to be cut from equal sheets by straight cuts from edge to edge. Any unit, the same throughout; figures count to a thousandth of it. */
export interface SheetJob {
  readonly width: number;
  readonly depth: number;
  /** What each cut eats. */
  readonly kerf: number;
  /** Whether a part may be turned by a quarter. */
  readonly turning: boolean;
  readonly parts: readonly { readonly id: string; readonly width: number; readonly depth: number }[];
}

export interface CutOut {
  readonly id: string;
  /** Left bottom corner on the sheet, and its size as it lies. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly depth: number;
}

export interface SheetPlan {
  readonly sheets: readonly { readonly parts: readonly CutOut[] }[];
  /** No plan can do with fewer sheets. */
  readonly bound: number;
  /** Ids of parts larger than a sheet; they are on no sheet. */
  readonly unplaced: readonly string[];
}

export interface SheetSearch {
  /** Steps the search may take after the quick answers (a part laid on trial is one); 200,000 unless said. 0 leaves only the quick answers. */
  readonly nodes?: number;
  /** Told from time to time what share of the work is done, 0 to 1, never falling. */
  readonly progress?: (share: number) => void;
}

/** Steps of the search unless the caller says otherwise: under half a second on a slow machine. */
const NODES = 200_000;

/**
 * The plan with the fewest sheets found; `sheets.length === bound` proves that fewer cannot do. Fullest sheets first.
 * A part no sheet can give (too large, or without a size above 0) is in `unplaced`, in listed order; nothing is
 * thrown for data. Same job, same plan; the number of sheets does not depend on the order of the parts.
 */
export function solveSheets(job: SheetJob, options: SheetSearch = {}): SheetPlan {
  const { shop, members, unplaced } = sorted(job);
  const bound = boundOf(shop);
  const progress = (share: number) => options.progress?.(share);
  const quick = manyWays(shop, bound, (share) => progress(share / 2));
  const reach = {
    bound,
    nodes: options.nodes ?? NODES,
    progress: (share: number) => progress(0.5 + share / 2),
  };
  const layout = bettered(shop, quick, reach);
  progress(1);
  return { sheets: named(job, layout, shop, members), bound, unplaced };
}

/** Sheets no plan can do without; 0 without parts. The bound of `solveSheets`. */
export function boundSheets(job: SheetJob): number {
  return boundOf(sorted(job).shop);
}

interface Sorted {
  readonly shop: Shop;
  /** For each kind the places of its parts in the job, in listed order. */
  readonly members: readonly (readonly number[])[];
  readonly unplaced: readonly string[];
}

function sorted(job: SheetJob): Sorted {
  const cut = Math.max(0, whole(job.kerf) || 0);
  const [width, depth] = [whole(job.width) + cut, whole(job.depth) + cut];
  const places = new Map<string, { readonly sides: readonly [number, number]; readonly at: number[] }>();
  const unplaced: string[] = [];
  job.parts.forEach((part, place) => {
    const [w, d] = [whole(part.width) + cut, whole(part.depth) + cut];
    const fits = (w <= width && d <= depth) || (job.turning && d <= width && w <= depth);
    if (
      !(part.width > 0 && part.depth > 0 && w > 0 && d > 0 && fits && width < Infinity && depth < Infinity)
    ) {
      unplaced.push(part.id);
      return;
    }
    const sides = job.turning && w < d ? ([d, w] as const) : ([w, d] as const);
    const found = places.get(sides.join("×"));
    if (found) found.at.push(place);
    else places.set(sides.join("×"), { sides, at: [place] });
  });
  const all = [...places.values()].toSorted((a, b) => b.sides[0] - a.sides[0] || b.sides[1] - a.sides[1]);
  const measure = commonMeasure(all.length > 0 ? [width, depth, ...all.flatMap(({ sides }) => sides)] : []);
  const shop = {
    width: width / measure,
    depth: depth / measure,
    measure,
    turning: job.turning,
    kinds: all.map(({ sides: [w, d] }) => ({ width: w / measure, depth: d / measure })),
    counts: all.map(({ at }) => at.length),
  };
  return { shop, members: all.map(({ at }) => at), unplaced };
}

/** The layout with the parts' own ids and sizes. */
function named(
  { parts, turning }: SheetJob,
  layout: Layout,
  { kinds, measure }: Shop,
  members: Sorted["members"],
): SheetPlan["sheets"] {
  const next = kinds.map(() => 0);
  const cutOut = ({ kind, x, y, width, depth }: Layout[number][number]): CutOut => {
    const part = parts[members[kind]![next[kind]!++]!]!;
    const turned = turning && part.width > part.depth !== width > depth;
    return {
      id: part.id,
      x: figureOf(x * measure),
      y: figureOf(y * measure),
      width: turned ? part.depth : part.width,
      depth: turned ? part.width : part.depth,
    };
  };
  return layout
    .map((sheet) => ({ sheet, used: areaOf(sheet) }))
    .toSorted((a, b) => b.used - a.used)
    .map(({ sheet }) => ({ parts: sheet.toSorted((a, b) => a.y - b.y || a.x - b.x).map(cutOut) }));
}
