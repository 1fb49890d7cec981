/**
 * The best plan of a small project, or a proof that there is no better one. Tasks are put down in order of start;
 * at each point every task that may come next is tried. Branches are cut where a task can no longer end in time
 * for a better plan; where one could be over before the next begins (it may as well go first: Giffler and
 * Thompson, 1960); where a twin comes first; and where the same tasks have been put down before with nothing ending
 * later (Demeulemeester and Herroelen's cut sets, Management Science 38, 1992). What the search spends is counted
 * in points, never in time, so that it ends the same on every machine.
 */
import { latestTimes, overfull, weightsOf, type Weight } from "./project-bound.ts";
import { type Core } from "./project-core.ts";
import { draftOf, endOf, listBy, missingIn, type Draft, type Planner } from "./project-serial.ts";
import { Timetable } from "./project-timetable.ts";

/** Two halves of so many bits make a set of tasks one exact number. */
const HALF = 26;
/** Larger projects are not searched through. */
export const EXACT_TASKS = 2 * HALF;

export interface Searched {
  readonly best: Draft;
  /** Whether the search came to its end: nothing is better than `best`, unless `best` leaves tasks without a place. */
  readonly proven: boolean;
}

export interface SearchWish {
  /** The best plan known. */
  readonly best: Draft;
  /** Steps before which no plan ends: reached, the search is over. */
  readonly bound: number;
  /** Points of the search at most. */
  readonly nodes: number;
}

/** Searches for a plan of all tasks that betters `best`. Takes at most `EXACT_TASKS` tasks. */
export function searchThrough(planner: Planner, wish: SearchWish): Searched {
  if (planner.core.count > EXACT_TASKS)
    throw new RangeError(`${planner.core.count} tasks are too many to search through`);
  const search = new Search(planner, wish);
  const whole = search.below(-Infinity);
  const proven = whole || (missingIn(search.best) === 0 && endOf(search.best) === wish.bound);
  // The search lets no task begin before the one put down last; made again from its list, each begins as early as it can.
  const early = planner.plan(listBy(planner.core, search.best.starts));
  return { best: early.cost <= search.best.cost ? early : search.best, proven };
}

/** A point of the search that was gone into: the last start, and when each task put down ends and lets the others go. */
interface Seen {
  readonly last: number;
  readonly ends: Float64Array;
  readonly frees: Float64Array;
}

interface Choice {
  readonly task: number;
  readonly start: number;
  readonly end: number;
}

class Search {
  best: Draft;
  readonly #core: Core;
  readonly #wish: SearchWish;
  readonly #planner: Planner;
  readonly #timetable: Timetable;
  readonly #starts: Float64Array;
  readonly #ends: Float64Array;
  readonly #waits: Int32Array;
  readonly #twins: Int32Array;
  readonly #weights: readonly Weight[];
  readonly #seen = new Map<number, Seen[]>();
  #latest: Float64Array;
  #put = 0;
  #nodes = 0;
  #low = 0;
  #high = 0;

  constructor(planner: Planner, wish: SearchWish) {
    const { core } = planner;
    this.#core = core;
    this.#planner = planner;
    this.#wish = wish;
    this.best = wish.best;
    this.#timetable = new Timetable(core);
    this.#starts = new Float64Array(core.count).fill(Infinity);
    this.#ends = new Float64Array(core.count).fill(Infinity);
    this.#waits = Int32Array.from(core.before, (links) => links.length);
    this.#twins = twinsOf(core);
    this.#weights = weightsOf(core);
    this.#latest = this.#latestEnds();
  }

  /** Goes through all that can follow; false where the points ran out or the bound was reached. */
  below(last: number): boolean {
    if (this.#put === this.#core.count) return this.#keep();
    if (++this.#nodes > this.#wish.nodes) return false;
    const choices = this.#choices(last);
    if (choices.length === 0 || this.#worse(last) || this.#overfull(last)) return true;
    return choices.every((choice) => this.#go(choice));
  }

  #keep(): boolean {
    const found = draftOf({ starts: this.#starts.slice(), ends: this.#ends.slice() });
    if (found.cost < this.best.cost) {
      this.best = found;
      this.#latest = this.#latestEnds();
    }
    return endOf(this.best) !== this.#wish.bound;
  }

  /** Latest ends for a plan a step better than the best. */
  #latestEnds(): Float64Array {
    const horizon = this.#core.shifts.at(-1)?.to ?? 0;
    const end = missingIn(this.best) > 0 ? horizon : endOf(this.best) - 1;
    return latestTimes(this.#planner.mirror, end).ends;
  }

  /** What may come next, most pressing first; nothing where some task is already too late. */
  #choices(last: number): readonly Choice[] {
    const all: Choice[] = [];
    let soonest: Choice | undefined;
    for (let task = 0; task < this.#core.count; task++) {
      if (this.#waits[task] !== 0 || this.#has(task)) continue;
      const start = this.#timetable.earliest(task, this.#readyAt(task, last));
      const choice = { task, start, end: this.#timetable.end };
      if (!(choice.end <= this.#latest[task]!)) return [];
      if (!soonest || choice.end < soonest.end) soonest = choice;
      all.push(choice);
    }
    return all
      .filter((choice) => choice === soonest || (choice.start < soonest!.end && this.#twinIsIn(choice.task)))
      .toSorted((a, b) => this.#latest[a.task]! - this.#latest[b.task]! || a.task - b.task);
  }

  #readyAt(task: number, last: number): number {
    let ready = last;
    for (const { task: first, lag } of this.#core.before[task]!)
      ready = Math.max(ready, this.#ends[first]! + lag);
    return ready;
  }

  /** Whether what is left needs more hands than there are from the last start on. */
  #overfull(last: number): boolean {
    const { core } = this.#planner;
    const ends = this.#ends.map((end, task) => (end === Infinity ? this.#latest[task]! : end));
    const left = core.minutes.map((minutes, task) =>
      this.#has(task) ? this.#workedAfter(task, last) : minutes,
    );
    const byEnd = core.order.toSorted((a, b) => ends[a]! - ends[b]!);
    return this.#weights.some((weight) =>
      overfull(core, weight, last, { byEnd, ends, work: (task) => left[task]! * weight.tasks[task]! }),
    );
  }

  /** Minutes of a task put down that lie after a moment, in the shifts it works in. */
  #workedAfter(task: number, moment: number): number {
    const [start, end] = [Math.max(this.#starts[task]!, moment), this.#ends[task]!];
    if (end <= start) return 0;
    return this.#core.shifts.reduce((sum, { from, to, has }) => {
      const within = Math.min(to, end) - Math.max(from, start);
      return within > 0 &&
        has.every((hands, kind) => hands >= this.#core.needs[task * this.#core.kinds + kind]!)
        ? sum + within
        : sum;
    }, 0);
  }

  #go({ task, start, end }: Choice): boolean {
    // The latest ends may have moved since the choice was made.
    if (end > this.#latest[task]!) return true;
    const cuts = this.#timetable.put(task, start, end);
    this.#mark(task, start, end, 1);
    const whole = this.below(start);
    this.#mark(task, Infinity, Infinity, -1);
    this.#timetable.takeUp(task, start, end, cuts);
    return whole;
  }

  #mark(task: number, start: number, end: number, sign: number): void {
    this.#starts[task] = start;
    this.#ends[task] = end;
    for (const { task: next } of this.#core.after[task]!) this.#waits[next]! -= sign;
    this.#put += sign;
    if (task < HALF) this.#low += sign * 2 ** task;
    else this.#high += sign * 2 ** (task - HALF);
  }

  #has(task: number): boolean {
    return this.#ends[task] !== Infinity;
  }

  #twinIsIn(task: number): boolean {
    const twin = this.#twins[task]!;
    return twin < 0 || this.#has(twin);
  }

  /** Whether the same tasks were put down before, and nothing that still matters ended later; else notes this point. */
  #worse(last: number): boolean {
    const key = this.#high * 2 ** HALF + this.#low;
    const seen = this.#seen.get(key) ?? [];
    if (seen.some((other) => this.#covers(other, last))) return true;
    seen.push({ last, ends: this.#ends.slice(), frees: this.#frees() });
    this.#seen.set(key, seen);
    return false;
  }

  /** A task matters no more when all it frees were free by the last start. */
  #covers(other: Seen, last: number): boolean {
    if (other.last > last) return false;
    for (let task = 0; task < this.#core.count; task++)
      if (this.#has(task) && other.ends[task]! > this.#ends[task]! && other.frees[task]! > last) return false;
    return true;
  }

  #frees(): Float64Array {
    return this.#ends.map((end, task) =>
      this.#core.after[task]!.reduce(
        (free, { task: next, lag }) => (this.#has(next) ? free : Math.max(free, end + lag)),
        end,
      ),
    );
  }
}

/** For each task the one before it that is its like in all: such tasks may go in one order only. -1 for none. */
function twinsOf(core: Core): Int32Array {
  const lastAlike = new Map<string, number>();
  return Int32Array.from(core.minutes, (minutes, task) => {
    const key = JSON.stringify([
      minutes,
      core.whole[task],
      [...core.needs.subarray(task * core.kinds, (task + 1) * core.kinds)],
      core.before[task]!.map(({ task: first, lag }) => [first, lag]).toSorted(byPlace),
      core.after[task]!.map(({ task: next, lag }) => [next, lag]).toSorted(byPlace),
    ]);
    const twin = lastAlike.get(key) ?? -1;
    lastAlike.set(key, task);
    return twin;
  });
}

function byPlace(a: readonly number[], b: readonly number[]): number {
  return a[0]! - b[0]! || a[1]! - b[1]!;
}
