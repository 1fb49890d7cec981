import { fullest, type Filling, type Kinds } from "./lengths-fill.ts";

/** How far to look. */
export interface Reach {
  readonly bound: number;
  readonly nodes: number;
  readonly progress: (share: number) => void;
}

/** The best filling found and the best bound proved. */
export interface Searched {
  readonly sticks: Filling;
  readonly bound: number;
}

export function searched(kinds: Kinds, start: Filling, { bound, progress }: Reach): Searched {
  if (start.length <= bound) return { sticks: start, bound };
  const total = kinds.counts.reduce((sum, count) => sum + count, 0);
  const tight = fullest(kinds, { steps: 3000, enough: 0 }, (packed) => progress(packed / total));
  return { sticks: tight.length < start.length ? tight : start, bound };
}
