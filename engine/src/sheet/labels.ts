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
  const buckets = new Map<number, Held[]>();
  const keepClear = (box: Box, weight: number): void => {
    const span = bucketsOf(box);
    const held = { box, weight };
    for (let { left } = span; left <= span.right; left += 1)
      for (let { top } = span; top <= span.bottom; top += 1) {
        const there = buckets.get(left * ROWS + top);
        if (there) there.push(held);
        else buckets.set(left * ROWS + top, [held]);
      }
  };
  const covered = (box: Box): number => {
    const span = bucketsOf(box);
    let cost = 0;
    for (let { left } = span; left <= span.right; left += 1)
      for (let { top } = span; top <= span.bottom; top += 1) {
        const there = buckets.get(left * ROWS + top);
        if (there) cost += coveredIn(there, box, left * ROWS + top);
      }
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
    for (const box of boxesAlong(candidate.leader.points)) {
      if (cost >= least) return cost;
      cost += covered(box);
    }
    return cost;
  };
  const place = (places: Iterable<LabelPlace>): readonly Item[] => {
    let best: LabelPlace | undefined;
    let least = Infinity;
    for (const candidate of places) {
      if (candidate.cost < least) {
        const cost = costBelow(candidate, least);
        if (cost < least) [best, least] = [candidate, cost];
      }
      // Asked before the next place is thought of: most labels stand well at their first.
      if (least <= GOOD_ENOUGH) break;
    }
    if (!best) return [];
    for (const item of best.lettering) keepClear(widened(boxOf(item)), OVER_LETTERING);
    return best.leader ? [best.leader, ...best.lettering] : best.lettering;
  };
  return { keepClear, place };
}

interface Held {
  readonly box: Box;
  readonly weight: number;
}

/** What a box covers of what a bucket holds. A box that lies in several buckets is counted in the first that both share, and only there. */
function coveredIn(held: readonly Held[], box: Box, key: number): number {
  let cost = 0;
  for (const { box: other, weight } of held) {
    const shared = common(box, other);
    if (shared > 0 && key === firstShared(box, other)) cost += shared * weight;
  }
  return cost;
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

/** The buckets a box lies in, by column and row; none for a box over very many. */
function bucketsOf(box: Box): Box {
  const left = Math.floor(box.left / BUCKET);
  const right = Math.floor(box.right / BUCKET);
  const top = Math.floor(box.top / BUCKET);
  const bottom = Math.floor(box.bottom / BUCKET);
  const many = !((right - left + 1) * (bottom - top + 1) <= MANY_BUCKETS);
  return many ? { left: 0, right: -1, top: 0, bottom: -1 } : { left, right, top, bottom };
}

/** A box with a little air round it, as lettering and signs want. */
export function widened({ left, top, right, bottom }: Box): Box {
  return { left: left - 0.8, top: top - 0.4, right: right + 0.8, bottom: bottom + 0.4 };
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
  /** Half the size of a thing about the point that the lettering stands off too, mm. */
  readonly half?: Point;
  /** Unit vector (on paper) to the side it had better stand on. */
  readonly prefer?: Point;
  readonly rest?: Partial<Omit<Lettering, "kind" | "at" | "text" | "size">>;
}

/** Where lettering about a point may stand: eight directions near, then further off with a leader. */
export function* placesAround(wish: AroundWish): Iterable<LabelPlace> {
  const half = wish.half ?? { x: 0, y: 0 };
  for (const further of [0, 1.6, 3.5, 7, 11])
    for (const direction of DIRECTIONS) {
      const off = wish.off + further;
      const edge = {
        x: wish.at.x + direction.x * off + Math.sign(direction.x) * half.x,
        y: wish.at.y + direction.y * off + Math.sign(direction.y) * half.y,
      };
      const align = direction.x > 0.1 ? "start" : direction.x < -0.1 ? "end" : "middle";
      const drop = wish.size * CAP_HEIGHT * (0.5 + direction.y * 0.5);
      const away = wish.prefer ? 1 - (direction.x * wish.prefer.x + direction.y * wish.prefer.y) : 0;
      yield {
        lettering: [letters({ x: edge.x, y: edge.y + drop }, wish.text, wish.size, { ...wish.rest, align })],
        // A word a little off still belongs to its sign; one further off is led to it.
        ...(further > 2
          ? {
              leader: line([wish.at, edge], "dimension", {
                ...shownBy(wish.rest?.record, "leader"),
                ink: "graphite-soft",
              }),
            }
          : {}),
        cost: further * 0.4 + away * 1.5 + (direction.x * direction.y === 0 ? 0 : 0.2),
      };
    }
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
