/**
 * Whether a plan of a project may be believed. Knows nothing of how plans are made: it reads the plan's own spans
 * and holds them against the job, moment by moment. For plans made by hand as well as by the solver.
 */
import type { ProjectJob, ProjectPlan, ProjectTask } from "./project.ts";

type Time = ProjectPlan["times"][number];
type Shift = ProjectJob["shifts"][number];

/** Times closer than this are one moment: plans are kept to 1/1024 of a minute, and a day's sums stay well within. Minutes. */
const MOMENT = 1 / 256;

/**
 * What is wrong with a plan, a sentence each; empty for a sound one. Checks: each task once, placed or unplaced;
 * spans that add up to its minutes, lie in shifts with people enough, and go on without idling (a rest only where a
 * shift ends, passing over no shift that has people enough); `whole` tasks in one span; links and lags, also to
 * tasks without a place; never more people at work than a shift has; `times` in order; `end`; and that the bound is
 * no later than the end. It does not check that the bound is true, nor that unplaced tasks could not be placed.
 */
export function judgeProject(job: ProjectJob, plan: ProjectPlan): readonly string[] {
  const tasks = new Map(job.tasks.map((task) => [task.id, task]));
  const times = new Map(plan.times.map((time) => [time.id, time]));
  return [
    ...listing(job, plan),
    ...plan.times.flatMap((time) => {
      const task = tasks.get(time.id);
      return task ? spanFaults(job, task, time) : [];
    }),
    ...job.links.flatMap((link) => linkFaults(link, times)),
    ...crowding(job, plan, tasks),
    ...closing(plan),
  ];
}

/** Every task is in the plan once and no other is. */
function listing(job: ProjectJob, plan: ProjectPlan): readonly string[] {
  const named = new Map<string, number>();
  for (const id of [...plan.times.map((time) => time.id), ...plan.unplaced])
    named.set(id, (named.get(id) ?? 0) + 1);
  const wanted = new Set(job.tasks.map(({ id }) => id));
  return [
    ...[...wanted].filter((id) => !named.has(id)).map((id) => `${id} is neither placed nor unplaced`),
    ...[...named].filter(([, count]) => count > 1).map(([id, count]) => `${id} is named ${count} times`),
    ...[...named.keys()].filter((id) => !wanted.has(id)).map((id) => `${id} is no task of the job`),
  ];
}

function spanFaults(job: ProjectJob, task: ProjectTask, time: Time): readonly string[] {
  const { id, spans } = time;
  const faults: string[] = [];
  const [first, last] = [spans[0], spans.at(-1)];
  if (!first || !last) return [`${id} is placed but has no span`];
  if (!near(first.from, time.start))
    faults.push(`${id} starts at ${time.start}, its first span at ${first.from}`);
  if (!near(last.to, time.end)) faults.push(`${id} ends at ${time.end}, its last span at ${last.to}`);
  const worked = spans.reduce((sum, { from, to }) => sum + to - from, 0);
  if (!near(worked, task.minutes)) faults.push(`${id} is worked on for ${worked} of ${task.minutes} minutes`);
  if (task.whole && spans.length > 1) faults.push(`${id} is to be done in one go, and rests`);
  for (const span of spans) {
    if (!(span.to > span.from) && task.minutes > 0)
      faults.push(`${id} has a span from ${span.from} to ${span.to}`);
    const shift = shiftOf(job, span);
    if (!shift) faults.push(`${id} is worked on outside the shifts from ${span.from} to ${span.to}`);
    else if (shift.people < task.people)
      faults.push(`${id} needs ${task.people} people from ${span.from}, and ${shift.people} are there`);
  }
  return [...faults, ...restFaults(job, task, time)];
}

/** Between two spans lie only time outside shifts and shifts with too few people. */
function restFaults(job: ProjectJob, task: ProjectTask, { id, spans }: Time): readonly string[] {
  return spans.slice(1).flatMap((span, index) => {
    const before = spans[index]!;
    if (span.from < before.to - MOMENT)
      return [`${id} begins anew at ${span.from}, before it rests at ${before.to}`];
    const idle = job.shifts.find(
      ({ from, to, people }) =>
        people >= task.people && Math.min(to, span.from) - Math.max(from, before.to) > MOMENT,
    );
    return idle ? [`${id} idles from ${before.to} to ${span.from}, in the shift from ${idle.from}`] : [];
  });
}

function linkFaults(link: ProjectJob["links"][number], times: ReadonlyMap<string, Time>): readonly string[] {
  const [before, after] = [times.get(link.before), times.get(link.after)];
  if (!after) return [];
  if (!before) return [`${link.after} is placed, and ${link.before}, which it waits for, is not`];
  const wait = after.start - before.end;
  if (wait >= link.lag - MOMENT) return [];
  return [`${link.after} starts ${wait} minutes after ${link.before}, and ${link.lag} are wanted`];
}

/** The people at work, whenever that changes. */
function crowding(
  job: ProjectJob,
  plan: ProjectPlan,
  tasks: ReadonlyMap<string, ProjectTask>,
): readonly string[] {
  const changes = plan.times.flatMap(({ id, spans }) => {
    const people = tasks.get(id)?.people ?? 0;
    return spans.flatMap(({ from, to }) => [
      { at: from + MOMENT, people },
      { at: to, people: -people },
    ]);
  });
  // A span shorter than a moment would end before it begins; its two changes then cancel, as they should.
  const moments = changes.toSorted((a, b) => a.at - b.at || a.people - b.people);
  const faults: string[] = [];
  let [working, shift] = [0, 0];
  for (const { at, people } of moments) {
    working += people;
    while (shift < job.shifts.length - 1 && job.shifts[shift]!.to <= at) shift++;
    const there = job.shifts[shift]?.people ?? 0;
    // Work outside the shifts is told of elsewhere.
    if (people > 0 && working > there + 1e-9)
      faults.push(`at ${at - MOMENT} there is work for ${working} people, and ${there} are there`);
  }
  return faults;
}

function closing(plan: ProjectPlan): readonly string[] {
  const last = plan.times.reduce((end, time) => Math.max(end, time.end), -Infinity);
  const end = plan.times.length === 0 ? 0 : last;
  const disorder = plan.times.find((time, index) => index > 0 && time.start < plan.times[index - 1]!.start);
  return [
    ...(near(plan.end, end) ? [] : [`the plan is said to end at ${plan.end}, and ends at ${end}`]),
    ...(plan.bound <= plan.end ? [] : [`the bound ${plan.bound} is later than the end ${plan.end}`]),
    ...(disorder ? [`${disorder.id} is not in order of start`] : []),
  ];
}

/** The shift a span lies in; of two that touch, the one that holds all of it. */
function shiftOf(
  job: ProjectJob,
  { from, to }: { readonly from: number; readonly to: number },
): Shift | undefined {
  const around = job.shifts.filter((shift) => from >= shift.from - MOMENT && to <= shift.to + MOMENT);
  // A span without length where two shifts touch lies in both: the one with more people is meant.
  return around.toSorted((a, b) => b.people - a.people)[0];
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= MOMENT;
}
