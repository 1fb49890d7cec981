/**
 * Making do with a sheet less: the emptiest sheet is taken apart, and its parts lie aside. Again and again a few sheets
 * are drawn by a fixed stream of numbers and repacked together with what lies aside, by a drawn order and rule or
 * room by room, and the new packing is kept where no less area lies on them than before. Where nothing lies aside
 * any more, a sheet is saved. Source: ruin and recreate, Schrimpf, Schneider, Stamm-Wilbrandt and Dueck 2000.
 */
import { areaOf, FITS, laid, SPLITS, type Layout, type Placed, type Rule, type Shop } from "./sheets-fill.ts";
import { roomByRoom } from "./sheets-room.ts";

export interface Reach {
  readonly bound: number;
  /** Parts laid on trial at most. */
  readonly nodes: number;
  readonly progress: (share: number) => void;
}

/** Parts from aside that take part in one repacking, at most: more only make it slow. */
const ASIDE_AT_ONCE = 24;

/** Packings tried of one set of sheets. */
const TRIES = 4;

/** The layout with as many sheets saved as the steps allow; the given one where none is. */
export function bettered(shop: Shop, start: Layout, { bound, nodes, progress }: Reach): Layout {
  const draw = stream(start.length);
  let best = start;
  let left = nodes;
  while (best.length > Math.max(bound, 1)) {
    if (left <= 0) break;
    const saved = oneLess(shop, best, {
      draw,
      take: (parts) => {
        left -= parts;
        progress(1 - Math.max(0, left) / nodes);
        return left > 0;
      },
    });
    if (!saved) break;
    best = saved;
  }
  return best;
}

interface Means {
  readonly draw: () => number;
  /** Counts parts laid on trial; false once there have been enough. */
  readonly take: (parts: number) => boolean;
}

function oneLess(shop: Shop, from: Layout, { draw, take }: Means): Layout | undefined {
  const sorted = from.toSorted((a, b) => areaOf(b) - areaOf(a));
  let aside = sorted.pop()!.map(({ kind }) => kind);
  const sheets: (readonly Placed[])[] = sorted;
  do {
    const drawn = drawnPlaces(sheets.length, 1 + Math.floor(draw() * 3), draw);
    const before = drawn.reduce((sum, place) => sum + areaOf(sheets[place]!), 0);
    const joining = drawnPlaces(aside.length, ASIDE_AT_ONCE, draw).toSorted((a, b) => a - b);
    const parts = [
      ...drawn.flatMap((place) => sheets[place]!.map(({ kind }) => kind)),
      ...joining.map((place) => aside[place]!),
    ];
    for (let attempt = 0; attempt < TRIES; attempt++) {
      const tried =
        attempt % 2 === 0
          ? roomByRoom(shop, parts, drawn.length, draw)
          : laid(shop, mixed(shop, parts, draw), drawnRule(draw), drawn.length);
      const after = tried.sheets.reduce((sum, sheet) => sum + areaOf(sheet), 0);
      const going = take(parts.length);
      if (after >= before && tried.sheets.length === drawn.length) {
        drawn.forEach((place, k) => (sheets[place] = tried.sheets[k]!));
        const gone = new Set(joining);
        aside = [...aside.filter((_, place) => !gone.has(place)), ...tried.rest];
        break;
      }
      if (!going) return undefined;
    }
    if (aside.length === 0) return sheets;
  } while (take(1));
  return undefined;
}

/** So many different places out of `count`, drawn (the first steps of Fisher and Yates); all where there are no more. */
function drawnPlaces(count: number, wanted: number, draw: () => number): number[] {
  const places = Array.from({ length: count }, (_, place) => place);
  const many = Math.min(count, wanted);
  for (let k = 0; k < many; k++) {
    const other = k + Math.floor(draw() * (count - k));
    [places[k], places[other]] = [places[other]!, places[k]!];
  }
  return places.slice(0, many);
}

/** Parts by falling size, each size drawn a little larger or smaller than it is. */
function mixed({ kinds }: Shop, parts: readonly number[], draw: () => number): number[] {
  const by = Math.floor(draw() * 3);
  const spread = draw() ** 2;
  return parts
    .map((kind) => {
      const { width, depth } = kinds[kind]!;
      const size = by === 0 ? Math.sqrt(width * depth) : by === 1 ? Math.max(width, depth) : width + depth;
      return { kind, key: size * (1 + spread * (draw() - 0.5)) };
    })
    .toSorted((a, b) => b.key - a.key || a.kind - b.kind)
    .map(({ kind }) => kind);
}

function drawnRule(draw: () => number): Rule {
  return { fit: FITS[Math.floor(draw() * FITS.length)]!, split: SPLITS[Math.floor(draw() * SPLITS.length)]! };
}

/** A fixed stream of numbers from 0 to less than 1 (Lehmer's, with Park and Miller's 1988 constants). */
function stream(seed: number): () => number {
  let state = 1 + (seed % 2147483646);
  return () => {
    state = (state * 48271) % 2147483647;
    return (state - 1) / 2147483646;
  };
}
