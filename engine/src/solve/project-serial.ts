/**
 * From a list of tasks to a plan: each in its turn at the earliest moment all it waits for and all hands allow
 * (serial generation). Every best plan comes from some list. A plan is bettered by pushing all tasks as late as
 * they go, last end first, and then as early as they go, first start first: that never makes it longer.
 *
 * Sources: Kelley, The critical-path method: resources planning and scheduling (1963), for the generation; Tormos
 * and Lova, A competitive heuristic solution technique (Annals of Operations Research 102, 2001) for the pushing.
 * That both hold with shifts follows because a task works in every shift that has hands for it between its start
 * and its end, so moving another task away from it never takes hands it had.
 */
import { mirrored, type Core } from "./project-core.ts";
import { Timetable } from "./project-timetable.ts";

/** Start and end of each task; infinite where it has no place. */
export interface Times {
  readonly starts: Float64Array;
  readonly ends: Float64Array;
}

export interface Draft extends Times {
  /** Smaller is better: first fewer tasks without a place, then the earlier end. */
  readonly cost: number;
}

/** One task without a place outweighs every end: ends stay below this many steps. */
const UNPLACED_COST = 2 ** 42;

/** The end of a draft's last placed task; 0 where none is placed. */
export function endOf({ cost }: Draft): number {
  return cost % UNPLACED_COST;
}

/** How many tasks of a draft have no place. */
export function missingIn({ cost }: Draft): number {
  return Math.floor(cost / UNPLACED_COST);
}

/** Makes plans of one project; keeps its timetables so that a plan costs no new memory to speak of. */
export class Planner {
  readonly core: Core;
  readonly mirror: Core;
  readonly #forward: Timetable;
  readonly #backward: Timetable;

  constructor(core: Core) {
    this.core = core;
    this.mirror = mirrored(core);
    this.#forward = new Timetable(core);
    this.#backward = new Timetable(this.mirror);
  }

  /** The plan a list makes; the list holds every task once, each after all it waits for. */
  plan(list: Int32Array): Draft {
    return draftOf(serial(this.core, this.#forward, list, -Infinity));
  }

  /** The plan pushed late and then early: no worse than the one given. */
  pushed(draft: Draft): Draft {
    const next = this.plan(this.#pushedList(draft));
    return next.cost <= draft.cost ? next : draft;
  }

  #pushedList(draft: Draft): Int32Array {
    const end = endOf(draft);
    const late = this.mirror.order
      .filter((task) => draft.ends[task] !== Infinity)
      .toSorted((a, b) => draft.ends[b]! - draft.ends[a]! || this.mirror.rank[a]! - this.mirror.rank[b]!);
    const { ends } = serial(this.mirror, this.#backward, late, -end);
    // A task without a place has no mirrored end either, and comes last.
    return listBy(
      this.core,
      ends.map((time) => (time === Infinity ? Infinity : -time)),
    );
  }
}

/** Tasks by a key, smaller first, each nevertheless after all it waits for; among equals by rank. */
export function listBy(core: Core, keys: Float64Array): Int32Array {
  const raised = Float64Array.from(keys);
  for (const task of core.order)
    for (const { task: first } of core.before[task]!) raised[task] = Math.max(raised[task]!, raised[first]!);
  // Two infinities differ by nothing, not by NaN.
  const apart = (a: number, b: number): number => (raised[a] === raised[b] ? 0 : raised[a]! - raised[b]!);
  return core.order.toSorted((a, b) => apart(a, b) || core.rank[a]! - core.rank[b]!);
}

/** Times of each task were all hands free for it alone: none can do better. `from` is when the first may begin. */
export function unhinderedTimes(core: Core, from: number): Times {
  const timetable = new Timetable(core);
  const { starts, ends, ready } = openTimes(core, from);
  for (const task of core.order) {
    if (ready[task] === Infinity) {
      // What waits for a task without a place finds none either, however far down the chain it stands.
      release(core, task, Infinity, ready);
      continue;
    }
    starts[task] = timetable.earliest(task, ready[task]!);
    ends[task] = timetable.end;
    release(core, task, timetable.end, ready);
  }
  return { starts, ends };
}

function serial(core: Core, timetable: Timetable, list: Int32Array, from: number): Times {
  timetable.clear();
  const { starts, ends, ready } = openTimes(core, from);
  for (const task of list) {
    if (ready[task] === Infinity) {
      // What waits for a task without a place finds none either, however far down the chain it stands.
      release(core, task, Infinity, ready);
      continue;
    }
    const start = timetable.earliest(task, ready[task]!);
    starts[task] = start;
    ends[task] = timetable.end;
    release(core, task, timetable.end, ready);
    if (start !== Infinity) timetable.put(task, start, timetable.end);
  }
  return { starts, ends };
}

function openTimes(core: Core, from: number): Times & { readonly ready: Float64Array } {
  const starts = new Float64Array(core.count).fill(Infinity);
  const ends = new Float64Array(core.count).fill(Infinity);
  return { starts, ends, ready: new Float64Array(core.count).fill(from) };
}

/** Tells those that wait for a task when it ends; without an end they wait for ever. */
function release(core: Core, task: number, end: number, ready: Float64Array): void {
  const links = core.after[task]!;
  for (const { task: next, lag } of links) ready[next] = Math.max(ready[next]!, end + lag);
}

/** A draft of times, with its cost. */
export function draftOf({ starts, ends }: Times): Draft {
  let [missing, last] = [0, 0];
  for (const end of ends)
    if (end === Infinity) missing++;
    else last = Math.max(last, end);
  return { starts, ends, cost: missing * UNPLACED_COST + last };
}
