/**
 * Lettering that keeps clear of other lettering. Each label offers the places it could stand, the best
 * first; labels are set in order of weight, each at the place that covers least. This is the plain greedy
 * method for point-feature labels (Christensen, Marks, Shieber 1995, from memory), with an even grid of
 * buckets so that thousands of labels stay quick.
 */
import type { Point } from "../plane/point.ts";
import { between, boxOf, CAP_HEIGHT, letters, line, shownBy, type Box } from "./drafting.ts";
import type { Item, Lettering } from "./vocabulary.ts";

/** One place a label could stand. */
export interface LabelPlace {
  readonly lettering: readonly Lettering[];
  /** A line from a label that stands aside to its thing. */
  readonly leader?: Item;
  /** How much worse than the best place this is, in mm² of covered lettering. */
  readonly cost: number;
}

export interface LabelField {
  /** A place to keep clear of; weight 1 for lettering, less for lines that may be crossed. */
  readonly keepClear: (box: Box, weight: number) => void;
  /** The place of least cost; its lettering is then kept clear. */
  readonly place: (places: Iterable<LabelPlace>) => readonly Item[];
}

/** Lettering over lettering cannot be read: the dearest cover. */
const OVER_LETTERING = 3;
/** A place that costs no more than this is taken without looking at those after it. mm². */
const GOOD_ENOUGH = 0.7;
/** Side of a bucket: a little more than a usual label. mm. */
const BUCKET = 12;
/** Two bucket numbers make one key; a sheet has far fewer rows of buckets. */
const ROWS = 1_000_003;
/** A box over more buckets than this is the whole drawing, and no label can keep clear of it. */
const MANY_BUCKETS = 4000;

/** An empty field to set labels in. */
export function labelField(): LabelField {
  const buckets = new Map<number, { readonly box: Box; readonly weight: number }[]>();
  const keepClear = (box: Box, weight: number): void => {
    for (const key of bucketsOf(box)) {
      const held = buckets.get(key);
      if (held) held.push({ box, weight });
      else buckets.set(key, [{ box, weight }]);
    }
  };
  const covered = (box: Box): number => {
    // A box that lies in several buckets is counted in the first bucket both share, and only there.
    let cost = 0;
    for (const key of bucketsOf(box))
      for (const held of buckets.get(key) ?? [])
        if (key === firstShared(box, held.box)) cost += common(box, held.box) * held.weight;
    return cost;
  };
  /** The cost of a place; it may stop adding once it is no better than the best so far. */
  const costBelow = (candidate: LabelPlace, least: number): number => {
    let cost = candidate.cost;
    for (const item of candidate.lettering) {
      if (cost >= least) return cost;
      cost += covered(boxOf(item));
    }
    if (cost >= least || candidate.leader?.kind !== "stroke") return cost;
    return boxesAlong(candidate.leader.points).reduce((sum, box) => sum + covered(box), cost);
  };
  const place = (places: Iterable<LabelPlace>): readonly Item[] => {
    let best: LabelPlace | undefined;
    let least = Infinity;
    for (const candidate of places) {
      if (least <= GOOD_ENOUGH) break;
      if (candidate.cost >= least) continue;
      const cost = costBelow(candidate, least);
      if (cost < least) [best, least] = [candidate, cost];
    }
    if (!best) return [];
    for (const item of best.lettering) keepClear(widened(boxOf(item)), OVER_LETTERING);
    return best.leader ? [best.leader, ...best.lettering] : best.lettering;
  };
  return { keepClear, place };
}

/** Small boxes along an open line, 1.5 mm apart: what lettering had better not cross. */
export function boxesAlong(points: readonly Point[]): readonly Box[] {
  return points.slice(1).flatMap((to, index) => {
    const from = points[index] ?? to;
    const count = Math.min(400, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 1.5));
    return Array.from({ length: count }, (_, step) => {
      const at = between(from, to, (step + 0.5) / count);
      return { left: at.x - 0.75, right: at.x + 0.75, top: at.y - 0.75, bottom: at.y + 0.75 };
    });
  });
}

function bucketsOf(box: Box): readonly number[] {
  const keys: number[] = [];
  const [left, right] = [Math.floor(box.left / BUCKET), Math.floor(box.right / BUCKET)];
  const [top, bottom] = [Math.floor(box.top / BUCKET), Math.floor(box.bottom / BUCKET)];
  if (!((right - left + 1) * (bottom - top + 1) <= MANY_BUCKETS)) return keys;
  for (let x = left; x <= right; x += 1) for (let y = top; y <= bottom; y += 1) keys.push(x * ROWS + y);
  return keys;
}

/** A little air round lettering. */
function widened({ left, top, right, bottom }: Box): Box {
  return { left: left - 0.4, top: top - 0.3, right: right + 0.4, bottom: bottom + 0.3 };
}

function firstShared(a: Box, b: Box): number {
  const x = Math.floor(Math.max(a.left, b.left) / BUCKET);
  return x * ROWS + Math.floor(Math.max(a.top, b.top) / BUCKET);
}

function common(a: Box, b: Box): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}

export interface AroundWish {
  readonly at: Point;
  readonly text: string;
  readonly size: number;
  /** How far the lettering stands off the point, mm. */
  readonly off: number;
  /** Unit vector (on paper) to the side it had better stand on. */
  readonly prefer?: Point;
  readonly rest?: Partial<Omit<Lettering, "kind" | "at" | "text" | "size">>;
}

/** Where lettering about a point may stand: eight directions near, then further off with a leader. */
export function* placesAround(wish: AroundWish): Iterable<LabelPlace> {
  for (const further of [0, 3.5, 7, 11])
    yield* DIRECTIONS.map((direction): LabelPlace => {
      const off = wish.off + further;
      const edge = { x: wish.at.x + direction.x * off, y: wish.at.y + direction.y * off };
      const align = direction.x > 0.1 ? "start" : direction.x < -0.1 ? "end" : "middle";
      const drop = wish.size * CAP_HEIGHT * (0.5 + direction.y * 0.5);
      const away = wish.prefer ? 1 - (direction.x * wish.prefer.x + direction.y * wish.prefer.y) : 0;
      return {
        lettering: [letters({ x: edge.x, y: edge.y + drop }, wish.text, wish.size, { ...wish.rest, align })],
        ...(further > 0
          ? {
              leader: line([wish.at, edge], "dimension", {
                ...shownBy(wish.rest?.record, "leader"),
                ink: "graphite-soft",
              }),
            }
          : {}),
        cost: further * 0.4 + away * 1.5 + (direction.x * direction.y === 0 ? 0 : 0.2),
      };
    });
}

const SLANT = Math.SQRT1_2;
const DIRECTIONS: readonly Point[] = [
  { x: 1, y: 0 },
  { x: -1, y: 0 },
  { x: 0, y: -1 },
  { x: 0, y: 1 },
  { x: SLANT, y: -SLANT },
  { x: -SLANT, y: -SLANT },
  { x: SLANT, y: SLANT },
  { x: -SLANT, y: SLANT },
];
