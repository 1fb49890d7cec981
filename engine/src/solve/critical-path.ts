/**
 * The critical path: when each task can begin and must end were there hands without end, and what slack it has.
 * A forward pass gives the earliest times, a backward pass the latest. Source: Kelley and Walker, Critical-path
 * planning and scheduling (1959). And durations nobody is sure of: three guesses a task, of which the mean and the
 * variance are taken as those of a beta distribution, and a path's length as normal. Source: Malcolm, Roseboom,
 * Clark and Fazar, Application of a technique for research and development program evaluation (1959).
 */
import { chiSquareTail } from "./chi-square.ts";

/** Any unit of time, the same throughout. */
export interface PathTask {
  readonly id: string;
  readonly minutes: number;
}

/** `after` begins no sooner than `lag` after `before` has ended; a lag below 0 lets them overlap by so much. */
export interface PathLink {
  readonly before: string;
  readonly after: string;
  readonly lag: number;
}

export interface PathTimes {
  readonly id: string;
  readonly earliestStart: number;
  readonly earliestFinish: number;
  readonly latestStart: number;
  readonly latestFinish: number;
  /** How much later it may be without the whole ending later. */
  readonly totalFloat: number;
  /** How much later it may be without any other beginning later than it could. */
  readonly freeFloat: number;
}

export interface CriticalPath {
  /** In listed order; empty where the links run in a circle. */
  readonly tasks: readonly PathTimes[];
  /** Ids of the tasks without total float, in order of earliest start. */
  readonly critical: readonly string[];
  /** From 0, when the first may begin, to the end of the last; 0 without tasks. */
  readonly length: number;
  /** Ids that wait for each other in a circle, each before the next and the last before the first; empty where none do. */
  readonly cycle: readonly string[];
}

/** Floats below this part of the length are rounding. */
const ROUNDING = 1e-9;

/**
 * The critical path of tasks and links. A circle of links is data: the answer then has the ids on it and no times.
 * Throws on two tasks of one id, a link to no task, and minutes below 0 or not finite.
 */
export function criticalPath(tasks: readonly PathTask[], links: readonly PathLink[]): CriticalPath {
  const net = netOf(tasks, links);
  const order = inOrder(net);
  if (order.length < tasks.length) return { tasks: [], critical: [], length: 0, cycle: circleIn(net, order) };
  const starts = earliestStarts(net, order);
  const length = order.reduce((last, id) => Math.max(last, starts.get(id)! + net.minutes.get(id)!), 0);
  const finishes = latestFinishes(net, order, length);
  const times = tasks.map(({ id }) => timesOf(net, id, { starts, finishes, length }));
  const critical = times
    .filter(({ totalFloat }) => totalFloat <= ROUNDING * length)
    .toSorted((a, b) => a.earliestStart - b.earliestStart || a.earliestFinish - b.earliestFinish)
    .map(({ id }) => id);
  return { tasks: times, critical, length, cycle: [] };
}

interface Net {
  readonly minutes: ReadonlyMap<string, number>;
  readonly before: ReadonlyMap<string, readonly PathLink[]>;
  readonly after: ReadonlyMap<string, readonly PathLink[]>;
}

function netOf(tasks: readonly PathTask[], links: readonly PathLink[]): Net {
  const minutes = new Map(tasks.map((task) => [task.id, task.minutes]));
  if (minutes.size < tasks.length) throw new RangeError(`two tasks of one id among ${JSON.stringify(tasks)}`);
  const wrong = tasks.find((task) => !(task.minutes >= 0 && task.minutes < Infinity));
  if (wrong) throw new RangeError(`no task can be ${JSON.stringify(wrong)}`);
  const before = new Map<string, PathLink[]>(tasks.map(({ id }) => [id, []]));
  const after = new Map<string, PathLink[]>(tasks.map(({ id }) => [id, []]));
  for (const link of links) {
    const [first, next] = [after.get(link.before), before.get(link.after)];
    if (!first || !next || !Number.isFinite(link.lag))
      throw new RangeError(`no link of these tasks can be ${JSON.stringify(link)}`);
    first.push(link);
    next.push(link);
  }
  return { minutes, before, after };
}

/** Ids, each after all it waits for; those on a circle or behind one are left out. */
function inOrder({ before, after }: Net): readonly string[] {
  const waits = new Map([...before].map(([id, links]) => [id, links.length]));
  const order = [...waits].flatMap(([id, count]) => (count === 0 ? [id] : []));
  // The list grows while it is read: each task read may free others.
  for (const id of order)
    for (const link of after.get(id)!) {
      const left = waits.get(link.after)! - 1;
      waits.set(link.after, left);
      if (left === 0) order.push(link.after);
    }
  return order;
}

/** One circle among the tasks left out of the order: each of them waits for another, so going back must close. */
function circleIn({ before }: Net, order: readonly string[]): readonly string[] {
  const clear = new Set(order);
  const walked: string[] = [];
  const places = new Map<string, number>();
  let id = [...before.keys()].find((one) => !clear.has(one))!;
  while (!places.has(id)) {
    places.set(id, walked.length);
    walked.push(id);
    id = before.get(id)!.find((link) => !clear.has(link.before))!.before;
  }
  return walked.slice(places.get(id)).toReversed();
}

function earliestStarts({ minutes, before }: Net, order: readonly string[]): ReadonlyMap<string, number> {
  const starts = new Map<string, number>();
  for (const id of order)
    starts.set(
      id,
      before
        .get(id)!
        .reduce(
          (start, link) => Math.max(start, starts.get(link.before)! + minutes.get(link.before)! + link.lag),
          0,
        ),
    );
  return starts;
}

function latestFinishes(
  { minutes, after }: Net,
  order: readonly string[],
  length: number,
): ReadonlyMap<string, number> {
  const finishes = new Map<string, number>();
  for (const id of order.toReversed())
    finishes.set(
      id,
      after
        .get(id)!
        .reduce(
          (finish, link) => Math.min(finish, finishes.get(link.after)! - minutes.get(link.after)! - link.lag),
          length,
        ),
    );
  return finishes;
}

interface Passes {
  readonly starts: ReadonlyMap<string, number>;
  readonly finishes: ReadonlyMap<string, number>;
  readonly length: number;
}

function timesOf({ minutes, after }: Net, id: string, { starts, finishes, length }: Passes): PathTimes {
  const earliestStart = starts.get(id)!;
  const earliestFinish = earliestStart + minutes.get(id)!;
  const latestFinish = finishes.get(id)!;
  const next = after
    .get(id)!
    .reduce((soonest, link) => Math.min(soonest, starts.get(link.after)! - link.lag), length);
  return {
    id,
    earliestStart,
    earliestFinish,
    latestStart: latestFinish - minutes.get(id)!,
    latestFinish,
    totalFloat: latestFinish - earliestFinish,
    freeFloat: next - earliestFinish,
  };
}

/** How long a task takes if all goes well, most likely, and if all goes wrong. */
export interface Estimate {
  readonly a: number;
  readonly m: number;
  readonly b: number;
}

export interface Expectation {
  readonly expected: number;
  readonly variance: number;
}

/** What to expect of each estimate: (a + 4 m + b) / 6, and ((b - a) / 6)². Throws where not a ≤ m ≤ b. */
export function pert(estimates: readonly Estimate[]): readonly Expectation[] {
  return estimates.map(({ a, m, b }) => {
    if (!(a >= 0 && a <= m && m <= b && b < Infinity))
      throw new RangeError(`no estimate runs from ${a} by ${m} to ${b}`);
    return { expected: (a + 4 * m + b) / 6, variance: ((b - a) / 6) ** 2 };
  });
}

/** What to expect of tasks done one after another, each independent of the others; 0 and 0 for none. */
export function pathExpectation(path: readonly Expectation[]): Expectation {
  return {
    expected: path.reduce((sum, { expected }) => sum + expected, 0),
    variance: path.reduce((sum, { variance }) => sum + variance, 0),
  };
}

/** Chance, 0 to 1, that a path is done by a time, its length taken as normal; 0 or 1 where nothing is in doubt. */
export function chanceBy({ expected, variance }: Expectation, by: number): number {
  if (variance === 0) return by >= expected ? 1 : 0;
  // The square of a normal deviate is chi-square of one degree; each side has half of its tail.
  const half = chiSquareTail((by - expected) ** 2 / variance, 1) / 2;
  return by >= expected ? 1 - half : half;
}
