/**
 * The quick answers: first fit and best fit, longest first (Johnson 1973), and sticks filled one by one as full
 * as they will go (Gupta and Ho 1999, with Fleszar and Hindi's 2002 change: the longest part left always goes in).
 */

/** Sizes to be packed, equal ones counted together. Whole numbers; sizes falling, each above 0 and at most the capacity. */
export interface Kinds {
  readonly capacity: number;
  readonly sizes: readonly number[];
  readonly counts: readonly number[];
}

/** For each stick the kinds in it, one entry a part. */
export type Filling = readonly (readonly number[])[];

/** Longest first, each into the first stick it fits. */
export function firstFit(kinds: Kinds): number[][] {
  return fitted(kinds, (rooms, size, from) => {
    let at = from;
    while (at < rooms.length && rooms[at]! < size) at++;
    return at;
  });
}

/** Longest first, each into the fullest stick it fits. */
export function bestFit(kinds: Kinds): number[][] {
  return fitted(kinds, (rooms, size) => {
    let best = rooms.length;
    let tightest = Infinity;
    for (let at = 0; at < rooms.length; at++) {
      const room = rooms[at]!;
      if (room >= size && room < tightest) [best, tightest] = [at, room];
    }
    return best;
  });
}

function fitted(
  { capacity, sizes, counts }: Kinds,
  place: (rooms: readonly number[], size: number, from: number) => number,
): number[][] {
  const sticks: number[][] = [];
  const rooms: number[] = [];
  sizes.forEach((size, kind) => {
    // Sticks before one that took a part of this size are too full for another of it.
    let from = 0;
    for (let k = 0; k < counts[kind]!; k++) {
      from = place(rooms, size, from);
      if (from === rooms.length) {
        rooms.push(capacity);
        sticks.push([]);
      }
      rooms[from]! -= size;
      sticks[from]!.push(kind);
    }
  });
  return sticks;
}

/** How thoroughly `fullest` looks. */
export interface Care {
  /** Steps for one stick. */
  readonly steps: number;
  /** A stick with no more than this left is full enough. Sizes' unit. */
  readonly enough: number;
}

/**
 * Stick after stick, the longest part left and then whatever fills the rest best. `counts` are the parts to be
 * packed. Told after each stick how many parts are packed.
 */
export function fullest(kinds: Kinds, care: Care, told: (packed: number) => void = () => {}): number[][] {
  const left = Int32Array.from(kinds.counts);
  const live = new Live(left);
  const sticks: number[][] = [];
  let packed = 0;
  for (let first = live.from(0); first < left.length; first = live.from(first)) {
    left[first]!--;
    const stick = [first, ...fill(kinds, { left, live, first, care })];
    for (const kind of stick.slice(1)) left[kind]!--;
    sticks.push(stick);
    packed += stick.length;
    told(packed);
  }
  return sticks;
}

/** Kinds of which any are left, found quickly by leaping over those used up. */
class Live {
  private readonly leap: Int32Array;

  constructor(private readonly left: Int32Array) {
    this.leap = Int32Array.from({ length: left.length + 1 }, (_, kind) => kind);
  }

  /**
   * The first kind at or after `kind` of which any are left, or how many kinds there are. Parts never come back,
   * so a leap once made stays true.
   */
  from(kind: number): number {
    let at = kind;
    while (at < this.left.length && (this.left[at] ?? 0) === 0) at = Math.max(at + 1, this.leap[at]!);
    for (let walk = kind; walk < at;) {
      const next = Math.max(walk + 1, this.leap[walk]!);
      this.leap[walk] = at;
      walk = next;
    }
    return at;
  }
}

interface Filled {
  readonly left: Int32Array;
  readonly live: Live;
  readonly first: number;
  readonly care: Care;
}

/** Kinds that fill best what `first` leaves of a stick, found by taking the larger first and stepping back. */
function fill({ capacity, sizes }: Kinds, { left, live, first, care }: Filled): number[] {
  let best: number[] = [];
  let least = capacity - sizes[first]!;
  let steps = care.steps;
  const taken: number[] = [];
  const smallest = sizes.at(-1)!;
  const deeper = (from: number, room: number, used: number): boolean => {
    if (room < least) {
      least = room;
      best = taken.slice();
      if (least <= care.enough) return true;
    }
    if (room < smallest) return false;
    for (let kind = live.from(Math.max(from, firstWithin(sizes, room, from))); kind < sizes.length;) {
      const again = kind === from ? used : 0;
      if (again < left[kind]!) {
        if (--steps < 0) return true;
        taken.push(kind);
        if (deeper(kind, room - sizes[kind]!, again + 1)) return true;
        taken.pop();
      }
      kind = live.from(kind + 1);
    }
    return false;
  };
  deeper(first, least, 0);
  return best;
}

/** The first place at or after `from` whose size is no more than `room`; sizes fall. */
export function firstWithin(sizes: readonly number[], room: number, from: number): number {
  let [low, high] = [from, sizes.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sizes[middle]! <= room) high = middle;
    else low = middle + 1;
  }
  return low;
}
