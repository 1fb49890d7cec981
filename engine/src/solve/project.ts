/**
 * When each task of a project is done, by a crew whose size changes from shift to shift. Finding the earliest end
 * is hard in general (it holds job-shop scheduling within it), so plans are made by rules and by chance, bettered,
 * and held against a bound; small projects are searched through until the best is proven. The parts stand beside
 * this file: `project-core` (what is reckoned with), `-timetable`, `-serial` (from a list to a plan), `-bound`,
 * `-search` and `-exact`; `project-judge` checks a plan and knows nothing of them.
 */
import { boundOf } from "./project-bound.ts";
import { coreOf, narrowed, neighbours, orderOf, type Core } from "./project-core.ts";
import { planned, type PlanOptions } from "./project-plan.ts";
import { unhinderedTimes } from "./project-serial.ts";

/**
 * Tasks by a crew whose size changes from shift to shift. Time is in minutes from any moment, kept to 1/1024 of a
 * minute. A task runs only inside shifts. One that is not `whole` may begin in one shift and go on in the next: it
 * works in every shift that has people enough for it between its start and its end, from the shift's opening and
 * without idling, and rests in those that have too few.
 */
export interface ProjectJob {
  readonly tasks: readonly ProjectTask[];
  /** `after` begins no sooner than `lag` (0 or more) minutes of the clock (shifts or not) after `before` has ended. */
  readonly links: readonly { readonly before: string; readonly after: string; readonly lag: number }[];
  /** In order of time, not overlapping; two may touch, and a `whole` task still keeps to one. */
  readonly shifts: readonly { readonly from: number; readonly to: number; readonly people: number }[];
}

/** A task of no minutes is a mark in time: it wants a shift with people enough, but takes none of them. */
export interface ProjectTask {
  readonly id: string;
  readonly minutes: number;
  readonly people: number;
  readonly whole: boolean;
}

export interface ProjectPlan {
  /** In order of start. `spans` are the stretches worked, one a shift; one for a task done in one go. */
  readonly times: readonly {
    readonly id: string;
    readonly start: number;
    readonly end: number;
    readonly spans: readonly { readonly from: number; readonly to: number }[];
  }[];
  /** When the last task ends; 0 without tasks. */
  readonly end: number;
  /** No plan of the tasks in `times` can end sooner. */
  readonly bound: number;
  /** Tasks that find no place in the shifts, or that wait for one that finds none; in listed order. */
  readonly unplaced: readonly string[];
}

/** How hard to look. The same job with the same options has the same plan. */
export type ProjectOptions = PlanOptions;

/**
 * The best plan found: as many tasks placed as it can, then the earliest end; proven the earliest for its tasks
 * where `end` equals `bound`. A task that needs more people than any shift has, that is whole and longer than any
 * shift, that finds no time, or that lies on a circle of links is in `unplaced`, and so is all that waits for it.
 * The order tasks and links are listed in changes nothing but the order of `unplaced`. Throws where the job is none:
 * two tasks of one id, a link to no task, a number that is negative or none, shifts out of order.
 */
export function solveProject(job: ProjectJob, options: ProjectOptions = {}): ProjectPlan {
  const scale = scaleOf(checked(job));
  const { core, ids } = placeable(job, scale);
  if (core.count === 0) {
    options.progress?.(1);
    return { times: [], end: 0, bound: 0, unplaced: job.tasks.map(({ id }) => id) };
  }
  const { draft, bound } = planned(core, options);
  const placed = [...draft.starts.keys()].filter((task) => draft.starts[task] !== Infinity);
  const last = placed.reduce((end, task) => Math.max(end, draft.ends[task]!), 0);
  const least = placed.length === core.count ? bound : boundOf(narrowed(core, placed), last);
  const times = placed
    .toSorted((a, b) => draft.starts[a]! - draft.starts[b]! || draft.ends[a]! - draft.ends[b]! || a - b)
    .map((task) => timeOf({ core, id: ids[task]!, task, scale }, draft.starts[task]!, draft.ends[task]!));
  const there = new Set(times.map(({ id }) => id));
  return {
    times,
    end: placed.length === 0 ? 0 : minutesOf(last, scale),
    bound: placed.length === 0 ? 0 : minutesOf(least, scale),
    unplaced: job.tasks.map(({ id }) => id).filter((id) => !there.has(id)),
  };
}

/**
 * Before this minute no plan ends that holds every task which could find a place were it alone with those it waits
 * for; infinite where not all of these fit into the shifts together; 0 where there are none. Throws as `solveProject`.
 */
export function boundProject(job: ProjectJob): number {
  const scale = scaleOf(checked(job));
  const { core } = placeable(job, scale);
  return core.count === 0 ? 0 : minutesOf(boundOf(core, Infinity), scale);
}

/** How minutes become whole steps. */
interface Scale {
  /** The minute of step 0: the first shift's opening. */
  readonly origin: number;
  /** Steps of 1/1024 minute in one step of the core. */
  readonly grain: number;
}

/** Finer than this no time is told apart: 1/1024 of a minute, a number that binary sums keep exactly. */
const FINEST = 1024;

/** What takes any time at all takes the finest. */
function fineOf(minutes: number): number {
  return minutes > 0 ? Math.max(1, Math.round(minutes * FINEST)) : 0;
}

function minutesOf(step: number, { origin, grain }: Scale): number {
  return origin + (step * grain) / FINEST;
}

function scaleOf({ tasks, links, shifts }: ProjectJob): Scale {
  const origin = shifts[0]?.from ?? 0;
  const all = [
    ...tasks.map(({ minutes }) => minutes),
    ...links.map(({ lag }) => lag),
    ...shifts.flatMap(({ from, to }) => [from - origin, to - origin]),
  ];
  const grain = all.reduce((shared, minutes) => greatestDivisor(shared, fineOf(minutes)), 0);
  return { origin, grain: Math.max(1, grain) };
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** The core of the tasks that could find a place were all hands theirs, and their ids by place. */
function placeable(job: ProjectJob, scale: Scale): { readonly core: Core; readonly ids: readonly string[] } {
  const tasks = job.tasks.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  const whole = wholeCore(job, tasks, scale);
  const kept =
    whole.core.shifts.length === 0
      ? []
      : [...unhinderedTimes(whole.core, -Infinity).ends.entries()].flatMap(([task, end]) =>
          end === Infinity ? [] : [task],
        );
  return { core: narrowed(whole.core, kept), ids: kept.map((task) => tasks[whole.kept[task]!]!.id) };
}

/** The core of all tasks that are neither on a circle of links nor behind one; `kept` are their places in `tasks`. */
function wholeCore(
  job: ProjectJob,
  tasks: readonly ProjectTask[],
  scale: Scale,
): { readonly core: Core; readonly kept: readonly number[] } {
  const steps = (minutes: number): number => fineOf(minutes) / scale.grain;
  const places = new Map(tasks.map(({ id }, place) => [id, place]));
  const links = job.links.map(({ before, after, lag }) => ({
    before: places.get(before)!,
    after: places.get(after)!,
    lag: steps(lag),
  }));
  const { before, after } = neighbours(tasks.length, links);
  const kept = orderOf(tasks.length, before, after).toSorted((a, b) => a - b);
  const again = new Map(kept.map((task, place) => [task, place]));
  const core = coreOf({
    tasks: kept.map((task) => {
      const { minutes, people, whole } = tasks[task]!;
      return { minutes: steps(minutes), needs: [people], whole };
    }),
    // Sorted, so that the order links are listed in decides nothing.
    links: links
      .flatMap((link) => {
        const [first, next] = [again.get(link.before), again.get(link.after)];
        return first === undefined || next === undefined
          ? []
          : [{ before: first, after: next, lag: link.lag }];
      })
      .toSorted((a, b) => a.before - b.before || a.after - b.after || a.lag - b.lag),
    shifts: job.shifts
      .map(({ from, to, people }) => ({
        from: steps(from - scale.origin),
        to: steps(to - scale.origin),
        has: [people],
      }))
      .filter(({ from, to }) => to > from),
  });
  return { core, kept };
}

interface Placed {
  readonly core: Core;
  readonly task: number;
  readonly id: string;
  readonly scale: Scale;
}

/** The spans a start and an end stand for: every shift between them that has people enough. */
function timeOf({ core, task, id, scale }: Placed, start: number, end: number): ProjectPlan["times"][number] {
  const span = (from: number, to: number) => ({ from: minutesOf(from, scale), to: minutesOf(to, scale) });
  const worked = core.shifts
    .filter(({ from, to, has }) => from < end && to > start && has[0]! >= core.needs[task]!)
    .map(({ from, to }) => span(Math.max(from, start), Math.min(to, end)));
  const { from, to } = span(start, end);
  return { id, start: from, end: to, spans: start === end ? [{ from, to }] : worked };
}

function checked(job: ProjectJob): ProjectJob {
  const ids = new Set(job.tasks.map(({ id }) => id));
  if (ids.size < job.tasks.length)
    throw new RangeError(`two tasks of one id among ${JSON.stringify([...ids])}`);
  for (const task of job.tasks)
    if (!reckonable(task.minutes) || !reckonable(task.people))
      throw new RangeError(`no task can be ${JSON.stringify(task)}`);
  for (const link of job.links)
    if (!reckonable(link.lag) || !ids.has(link.before) || !ids.has(link.after))
      throw new RangeError(`no link of these tasks can be ${JSON.stringify(link)}`);
  let last = -Infinity;
  for (const shift of job.shifts) {
    const { from, to, people } = shift;
    if (!(Number.isFinite(from) && from >= last && to > from && to < Infinity && reckonable(people)))
      throw new RangeError(`no shift after minute ${last} can be ${JSON.stringify(shift)}`);
    last = shift.to;
  }
  return job;
}

/** Zero or more, and finite. */
function reckonable(value: number): boolean {
  return value >= 0 && value < Infinity;
}
