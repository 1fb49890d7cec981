/**
 * What no plan can beat. First the critical path, each task running through the shifts as if all hands were its
 * own. Then ends are tried on: were the project over by E, each task would lie between its earliest start and its
 * latest end, and the tasks that lie wholly between two moments would need no more than the hands there are
 * between them. The smallest E against which nothing speaks bounds every plan; halving finds it, because an end
 * that is ruled out rules out all before it.
 *
 * Hands are counted in several ways, all of them sound: a task weighs what a weight says of its hands, and a shift
 * holds the most such weight that fits into it at one time. A crew of three thus holds one task of two people, not
 * one and a half. Sources: Demassey, Artigues and Michelon, Constraint-propagation-based cutting planes (2005),
 * for trying ends on; Carlier and Néron, Computing redundant resources for the RCPSP (2007), for the weights.
 */
import { mirrored, type Core } from "./project-core.ts";
import { unhinderedTimes, type Times } from "./project-serial.ts";

/** A way to count hands: what each task weighs, and what each shift can hold at one time. */
export interface Weight {
  readonly tasks: Float64Array;
  readonly shifts: readonly number[];
}

/** Ways to count that are kept for each kind of hands; more say little. */
const WEIGHT_LIMIT = 8;
/** Crews above this are counted plainly: what fits into them has little waste. */
const CROWD = 400;
/** Left ends of intervals that are looked at, of more only some, evenly taken; and fewer when there are many tasks. */
const LEFT_ENDS = 64;
const LEFT_WORK = 200_000;

/** Latest start and end of each task were the project over by `end`, all hands free for it alone. */
export function latestTimes(mirror: Core, end: number): Times {
  const { starts, ends } = unhinderedTimes(mirror, -end);
  return { starts: ends.map((time) => -time), ends: starts.map((time) => -time) };
}

/** Steps before which no plan of all tasks ends; infinite where not all find a place. `upper`: an end known to be reached, or Infinity. */
export function boundOf(core: Core, upper: number): number {
  if (core.count === 0) return 0;
  const earliest = unhinderedTimes(core, -Infinity);
  const trial = { core, mirror: mirrored(core), earliest, weights: weightsOf(core) };
  let low = earliest.ends.reduce((last, end) => Math.max(last, end), 0);
  let high = Math.min(upper, core.shifts.at(-1)?.to ?? 0);
  if (low > high) return Infinity;
  if (upper === Infinity && ruledOut(trial, high)) return Infinity;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (ruledOut(trial, middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

interface Trial {
  readonly core: Core;
  readonly mirror: Core;
  readonly earliest: Times;
  readonly weights: readonly Weight[];
}

/** Whether no plan ends by then. */
function ruledOut({ core, mirror, earliest, weights }: Trial, end: number): boolean {
  const latest = latestTimes(mirror, end);
  for (let task = 0; task < core.count; task++)
    if (!(latest.ends[task]! >= earliest.ends[task]!)) return true;
  const byEnd = core.order.toSorted((a, b) => latest.ends[a]! - latest.ends[b]!);
  const lefts = leftEnds(earliest.starts);
  return weights.some((weight) =>
    lefts.some((left) =>
      overfull(core, weight, left, {
        byEnd,
        ends: latest.ends,
        work: (task) => (earliest.starts[task]! < left ? 0 : weight.tasks[task]! * core.minutes[task]!),
      }),
    ),
  );
}

export interface Load {
  /** Tasks by their ends. */
  readonly byEnd: Int32Array;
  /** When each must be over. */
  readonly ends: Float64Array;
  /** How much of its weight times minutes lies between the moment looked from and its end, at least. */
  readonly work: (task: number) => number;
}

/** Whether from a moment on some tasks need more than the shifts hold until the last of them must be over. */
export function overfull(core: Core, weight: Weight, left: number, load: Load): boolean {
  const held = holding(core, weight.shifts, left);
  let sum = 0;
  for (const task of load.byEnd) {
    const work = load.work(task);
    if (work === 0) continue;
    sum += work;
    if (sum > held(load.ends[task]!)) return true;
  }
  return false;
}

/** What the shifts hold from one moment to others that come in rising order. */
function holding({ shifts }: Core, capacities: readonly number[], left: number): (right: number) => number {
  let shift = 0;
  let full = 0;
  const within = (right: number): number => {
    const { from, to } = shifts[shift]!;
    return Math.max(0, Math.min(to, right) - Math.max(from, left)) * capacities[shift]!;
  };
  return (right) => {
    while (shift < shifts.length - 1 && shifts[shift]!.to <= right) {
      full += within(right);
      shift++;
    }
    return full + within(right);
  };
}

function leftEnds(starts: Float64Array): readonly number[] {
  const all = [...new Set(starts)].toSorted((a, b) => a - b);
  const stride = Math.max(1, Math.ceil(all.length / Math.min(LEFT_ENDS, LEFT_WORK / starts.length)));
  return all.filter((_, place) => place % stride === 0);
}

/** The ways to count hands that are worth it, kind by kind. */
export function weightsOf(core: Core): readonly Weight[] {
  return Array.from({ length: core.kinds }, (_, kind) => kind).flatMap((kind) => {
    const needs = Float64Array.from(core.minutes, (_minutes, task) => core.needs[task * core.kinds + kind]!);
    const sizes = core.shifts.map(({ has }) => has[kind]!);
    return countings(needs, sizes).map((weigh) => {
      const tasks = needs.map(weigh);
      return { tasks, shifts: fillings(needs, tasks, sizes) };
    });
  });
}

type Weigh = (need: number) => number;

function itself(need: number): number {
  return need;
}

/** By heads; by who has more than half of a crew; and for each small need: those below it nothing, those that leave less than it the whole crew. */
function countings(needs: Float64Array, sizes: readonly number[]): readonly Weigh[] {
  const crews = [...new Set(sizes)].toSorted((a, b) => b - a);
  const most = crews[0] ?? 0;
  if (!counted(needs, sizes)) return [itself];
  const halves = crews.map(
    (crew): Weigh =>
      (need) =>
        Number(2 * need > crew),
  );
  const smalls = [...new Set(needs)].filter((need) => need > 0 && 2 * need <= most).toSorted((a, b) => a - b);
  const steps = smalls.map(
    (small): Weigh =>
      (need) =>
        need > most - small ? most : need < small ? 0 : need,
  );
  return [itself, ...halves.slice(0, WEIGHT_LIMIT / 2), ...steps.slice(0, WEIGHT_LIMIT / 2)];
}

/** Whether hands come in whole numbers, and few enough to try all fillings. */
function counted(needs: Float64Array, sizes: readonly number[]): boolean {
  return (
    [needs, sizes].every((hands) => hands.every((count) => Number.isInteger(count))) &&
    Math.max(0, ...sizes) <= CROWD
  );
}

/** The most weight that fits at one time into each crew (the knapsack, each kind of task as often as it likes). */
function fillings(needs: Float64Array, weights: Float64Array, sizes: readonly number[]): readonly number[] {
  if (!counted(needs, sizes)) return sizes;
  const kinds = new Map<number, number>();
  needs.forEach((need, task) => kinds.set(need, weights[task]!));
  // Those who need nobody weigh nothing in every way of counting, so they may be left out.
  kinds.delete(0);
  const best = new Float64Array(Math.max(0, ...sizes) + 1);
  for (let hands = 1; hands < best.length; hands++) {
    best[hands] = best[hands - 1]!;
    for (const [need, weight] of kinds)
      if (need <= hands) best[hands] = Math.max(best[hands]!, best[hands - need]! + weight);
  }
  return sizes.map((size) => best[size]!);
}
