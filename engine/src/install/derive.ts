/**
 * From the show to its install: tasks, the shifts they may be done in, when each is done, and the marks on the
 * floor. The plan is kept by what the job says, so that a piece pushed about the room is set out anew but not
 * scheduled anew.
 */
import type { Arrangement } from "../arrange/model.ts";
import type { ShowDocument } from "../document/tables.ts";
import type { Making } from "../make/model.ts";
import { solveProject, type ProjectJob, type ProjectOptions, type ProjectPlan } from "../solve/project.ts";
import { REST_BEYOND } from "../tolerances.ts";
import type { Installing, OpenShift, Task, TaskTime } from "./model.ts";
import { setOutOf } from "./set-out.ts";
import { accessOf } from "./shifts.ts";
import { installTasks } from "./tasks.ts";

/** Derives the install with a memory of the last: keep one for each live document. */
export function createInstall(
  progress?: (share: number) => void,
): (document: ShowDocument, arrangements: readonly Arrangement[], making: Making) => Installing {
  const plan = createPlan(progress === undefined ? {} : { progress });
  let last: { readonly parts: readonly unknown[]; readonly installing: Installing } | undefined;
  return (document, arrangements, making) => {
    const { rates, chores, shifts, shows } = document;
    const parts = [arrangements, making, rates, chores, shifts, shows];
    if (!last || parts.some((part, index) => part !== last?.parts[index]))
      last = { parts, installing: installOf(document, { arrangements, making, plan }) };
    return last.installing;
  };
}

interface From {
  readonly arrangements: readonly Arrangement[];
  readonly making: Making;
  readonly plan: (tasks: readonly Task[], shifts: readonly OpenShift[]) => Planned;
}

function installOf(document: ShowDocument, { arrangements, making, plan }: From): Installing {
  const tasks = installTasks(document, arrangements, making);
  const { shifts } = accessOf(document);
  return {
    tasks,
    shifts,
    ...plan(tasks, shifts),
    minutes: tasks.reduce((sum, task) => sum + task.minutes * task.people, 0),
    setOuts: arrangements.flatMap((arrangement) => setOutOf(arrangement) ?? []),
  };
}

type Planned = Pick<Installing, "times" | "unplaced" | "end" | "bound" | "lacking">;

const NO_PLAN: Planned = { times: [], unplaced: [], end: 0, bound: 0 };

/** Plans, answering from memory while the job says the same. */
function createPlan(telling: ProjectOptions): From["plan"] {
  let last: { readonly key: string; readonly planned: Planned } | undefined;
  return (tasks, shifts) => {
    if (tasks.length === 0 || shifts.length === 0) return NO_PLAN;
    const job = jobOf(tasks, shifts);
    const key = JSON.stringify([job, shifts.map(({ shift }) => shift.id)]);
    if (last?.key !== key) last = { key, planned: plannedOf(job, shifts, telling) };
    return last.planned;
  };
}

/** The job as the solver takes it. What hangs is not left half hung over night; other long work may rest. */
export function jobOf(tasks: readonly Task[], shifts: readonly OpenShift[]): ProjectJob {
  return {
    tasks: tasks.map(({ id, work, minutes, people }) => ({
      id,
      minutes,
      people,
      whole: (work === "hung" || minutes <= REST_BEYOND) && minutes <= longestFor(people, shifts),
    })),
    links: tasks.flatMap(({ id, after }) => after.map(({ task, lag }) => ({ before: task, after: id, lag }))),
    shifts: shifts.map(({ from, to, shift }) => ({ from, to, people: shift.people })),
  };
}

/** The longest shift with so many people: what fits into none in one go must be let rest. */
function longestFor(people: number, shifts: readonly OpenShift[]): number {
  return Math.max(
    0,
    ...shifts.filter(({ shift }) => shift.people >= people).map(({ from, to }) => to - from),
  );
}

function plannedOf(job: ProjectJob, shifts: readonly OpenShift[], telling: ProjectOptions): Planned {
  const plan = solveProject(job, telling);
  if (plan.unplaced.length === 0) return inShifts(plan, shifts);
  const longer = longerJob(job);
  if (!longer) return inShifts(plan, shifts);
  const whole = solveProject(longer, telling);
  const last = job.shifts.at(-1);
  if (!last || whole.unplaced.length > 0) return inShifts(plan, shifts);
  if (whole.end <= last.to) return inShifts(whole, shifts);
  const given = workedUntil(job, last.to);
  return { ...inShifts(plan, shifts), lacking: { needed: workedUntil(longer, whole.end), given } };
}

/**
 * The job with its last shift kept open until all is done; not there where a task takes more people than ever come,
 * for then no hours would do.
 */
function longerJob(job: ProjectJob): ProjectJob | undefined {
  const most = Math.max(...job.shifts.map(({ people }) => people));
  if (job.tasks.some(({ people }) => people > most)) return undefined;
  const spare =
    job.tasks.reduce((sum, { minutes }) => sum + minutes, 0) +
    job.links.reduce((sum, { lag }) => sum + lag, 0);
  return {
    ...job,
    shifts: job.shifts.map((shift, index) =>
      index < job.shifts.length - 1 ? shift : { ...shift, to: shift.to + spare, people: most },
    ),
  };
}

/** Minutes of shifts up to a moment. */
function workedUntil(job: ProjectJob, end: number): number {
  return job.shifts.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(to, end) - from), 0);
}

function inShifts({ times, end, bound, unplaced }: ProjectPlan, shifts: readonly OpenShift[]): Planned {
  return {
    times: times.map(({ id, start, end: done, spans }): TaskTime => ({
      task: id,
      start,
      end: done,
      spans: spans.map(({ from, to }) => ({ from, to, shift: shiftAt(shifts, from) })),
    })),
    end,
    bound,
    unplaced,
  };
}

function shiftAt(shifts: readonly OpenShift[], from: number): string {
  const found = shifts.find((shift) => shift.from <= from && from < shift.to);
  if (!found) throw new Error(`work at minute ${from} lies in no shift`);
  return found.shift.id;
}
