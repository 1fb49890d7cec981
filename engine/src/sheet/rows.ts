/**
 * Filling paper with upright boxes in rows: the tallest first, each in the first row that still has room
 * (first-fit decreasing height on strips; Coffman, Garey, Johnson, Tarjan 1980, from memory). The free paper
 * may be several rectangles, which are filled in turn.
 */
import type { Box } from "./drafting.ts";

export interface BoxToSet {
  readonly width: number;
  readonly height: number;
}

/** Left top corners of the boxes as listed; undefined for one that found no room. `gap` mm between neighbours. */
export function setInRows(
  boxes: readonly BoxToSet[],
  free: readonly Box[],
  gap: number,
): readonly ({ readonly x: number; readonly y: number } | undefined)[] {
  const places: ({ x: number; y: number } | undefined)[] = Array.from({ length: boxes.length });
  const strips = free.map((space) => ({ space, rows: [] as Row[], bottom: space.top }));
  const tallestFirst = boxes
    .map((box, index) => ({ box, index }))
    .toSorted((a, b) => b.box.height - a.box.height || b.box.width - a.box.width || a.index - b.index);
  for (const { box, index } of tallestFirst) {
    for (const strip of strips) {
      const place = setInStrip(strip, box, gap);
      if (!place) continue;
      places[index] = place;
      break;
    }
  }
  return places;
}

/** Left top corners of boxes set in reading order until the paper is full; undefined for all from the first that found no room. */
export function setInOrder(
  boxes: readonly BoxToSet[],
  space: Box,
  gap: number,
): readonly ({ readonly x: number; readonly y: number } | undefined)[] {
  let [x, y, depth, full] = [space.left, space.top, 0, false];
  return boxes.map((box) => {
    if (x > space.left && x + box.width > space.right + 1e-9)
      [x, y, depth] = [space.left, y + depth + gap, 0];
    full ||= x + box.width > space.right + 1e-9 || y + box.height > space.bottom + 1e-9;
    if (full) return undefined;
    const place = { x, y };
    x += box.width + gap;
    depth = Math.max(depth, box.height);
    return place;
  });
}

interface Row {
  readonly top: number;
  readonly height: number;
  right: number;
}

interface Strip {
  readonly space: Box;
  readonly rows: Row[];
  bottom: number;
}

function setInStrip(strip: Strip, box: BoxToSet, gap: number): { x: number; y: number } | undefined {
  const { space } = strip;
  if (box.width > space.right - space.left + 1e-9) return undefined;
  const row = strip.rows.find(
    ({ right, height }) => right + box.width <= space.right + 1e-9 && box.height <= height + 1e-9,
  );
  if (row) {
    const place = { x: row.right, y: row.top };
    row.right += box.width + gap;
    return place;
  }
  if (strip.bottom + box.height > space.bottom + 1e-9) return undefined;
  const next: Row = { top: strip.bottom, height: box.height, right: space.left + box.width + gap };
  strip.rows.push(next);
  strip.bottom += box.height + gap;
  return { x: space.left, y: next.top };
}
