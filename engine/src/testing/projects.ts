/**
 * Small projects, and their best plans by trying every order: minute by minute on a grid, with no code of the
 * solver. For tests; times must be whole and few.
 */
import type { ProjectJob, ProjectTask } from "../solve/project.ts";
import { randomStream } from "./rooms.ts";

export interface ProjectWish {
  readonly tasks: number;
  /** How many links are tried for; those that would run backwards are left out. */
  readonly links: number;
  readonly shifts: number;
}

/** A project by chance: tasks of 1 to 6 minutes for 1 to 3 people, shifts of 4 to 9 minutes with 2 to 4, a third of the lags above 0. */
export function randomProject(seed: number, { tasks, links, shifts }: ProjectWish): ProjectJob {
  const random = randomStream(seed);
  const between = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  let opens = 0;
  return {
    tasks: Array.from({ length: tasks }, (_, k) => ({
      id: `t${k}`,
      minutes: between(1, 6),
      people: between(1, 3),
      whole: random() < 0.5,
    })),
    links: Array.from({ length: links }, () => [between(0, tasks - 1), between(0, tasks - 1)] as const)
      .filter(([a, b]) => a < b)
      .map(([a, b]) => ({ before: `t${a}`, after: `t${b}`, lag: random() < 1 / 3 ? between(1, 5) : 0 })),
    shifts: Array.from({ length: shifts }, () => {
      const from = opens + between(0, 3);
      opens = from + between(4, 9);
      return { from, to: opens, people: between(2, 4) };
    }),
  };
}

/** Where one list of all tasks leads, each at its first possible minute; the end is infinite where one finds none. */
export function serialEnd(job: ProjectJob, list: readonly string[]): number {
  const grid = gridOf(job);
  const ends = new Map<string, number>();
  return list.reduce((last, id) => Math.max(last, placeOn(grid, job, id, ends)), 0);
}

/** The least end over every order of the tasks; infinite where no order places all. */
export function leastEnd(job: ProjectJob): number {
  const grid = gridOf(job);
  const ends = new Map<string, number>();
  let best = Infinity;
  const goOn = (last: number): void => {
    if (ends.size === job.tasks.length) best = Math.min(best, last);
    for (const { id } of job.tasks) {
      if (ends.has(id) || job.links.some(({ before, after }) => after === id && !ends.has(before))) continue;
      const used = grid.used.slice();
      const end = placeOn(grid, job, id, ends);
      if (end < Infinity) goOn(Math.max(last, end));
      grid.used.splice(0, used.length, ...used);
      ends.delete(id);
    }
  };
  goOn(0);
  return best;
}

/** The most tasks any order places, each where it first can; those that find no place are passed over. */
export function mostPlaced(job: ProjectJob): number {
  const grid = gridOf(job);
  const ends = new Map<string, number>();
  let most = 0;
  const goOn = (placed: number): void => {
    most = Math.max(most, placed);
    for (const { id } of job.tasks) {
      if (ends.has(id) || job.links.some(({ before, after }) => after === id && !ends.has(before))) continue;
      const used = grid.used.slice();
      goOn(placed + Number(placeOn(grid, job, id, ends) < Infinity));
      grid.used.splice(0, used.length, ...used);
      ends.delete(id);
    }
  };
  goOn(0);
  return most;
}

/** Latest ends by the links alone, from the end of all shifts back; minutes of the clock as if shifts never closed. */
export function latestEnds({ tasks, links, shifts }: ProjectJob): ReadonlyMap<string, number> {
  const minutes = new Map(tasks.map((task) => [task.id, task.minutes]));
  const horizon = shifts.at(-1)?.to ?? 0;
  const latest = (id: string): number =>
    Math.min(
      horizon,
      ...links
        .filter(({ before }) => before === id)
        .map(({ after, lag }) => latest(after) - minutes.get(after)! - lag),
    );
  return new Map(tasks.map(({ id }) => [id, latest(id)]));
}

/** A list by latest end that keeps the links: a task's own end lies before that of any that waits for it. */
export function byLatestEnd(job: ProjectJob): readonly string[] {
  const latest = latestEnds(job);
  return job.tasks.map(({ id }) => id).toSorted((a, b) => latest.get(a)! - latest.get(b)!);
}

interface Grid {
  /** The shift of each minute, -1 for none. */
  readonly shift: readonly number[];
  /** People at work in each minute. */
  readonly used: number[];
}

function gridOf({ shifts }: ProjectJob): Grid {
  const horizon = shifts.at(-1)?.to ?? 0;
  const shift = Array.from({ length: horizon }, (_, minute) =>
    shifts.findIndex(({ from, to }) => from <= minute && minute < to),
  );
  return { shift, used: shift.map(() => 0) };
}

function placeOn(grid: Grid, job: ProjectJob, id: string, ends: Map<string, number>): number {
  const task = job.tasks.find((one) => one.id === id)!;
  const ready = Math.max(
    0,
    ...job.links.filter(({ after }) => after === id).map(({ before, lag }) => ends.get(before)! + lag),
  );
  for (let start = ready; start < grid.shift.length; start++) {
    const minutes = minutesFrom(grid, job, task, start);
    if (!minutes) continue;
    for (const minute of minutes) grid.used[minute]! += task.people;
    const end = minutes.at(-1)! + 1;
    ends.set(id, end);
    return end;
  }
  ends.set(id, Infinity);
  return Infinity;
}

/** The minutes a task takes from a start on, or nothing where it cannot begin there. */
function minutesFrom(
  grid: Grid,
  job: ProjectJob,
  task: ProjectTask,
  start: number,
): readonly number[] | undefined {
  const minutes: number[] = [];
  for (let minute = start; minutes.length < task.minutes; minute++) {
    if (minute >= grid.shift.length) return undefined;
    const people = job.shifts[grid.shift[minute]!]?.people ?? -1;
    const other = grid.shift[minute] !== grid.shift[start];
    if (people < task.people || (task.whole && other)) {
      if (minute === start || task.whole) return undefined;
      continue;
    }
    if (grid.used[minute]! + task.people > people) return undefined;
    minutes.push(minute);
  }
  return minutes;
}

/**
 * A project whose best end is known: a crew of six fully used for so many days of twelve hours, cut up into whole
 * tasks, every third of them waiting for one that ended before it began. The best end is the end of the last day.
 */
export function plantedProject(
  seed: number,
  days: number,
): { readonly job: ProjectJob; readonly end: number } {
  const random = randomStream(seed);
  const shifts = Array.from({ length: days }, (_, day) => ({
    from: day * 1440,
    to: day * 1440 + 720,
    people: 6,
  }));
  const pieces = shifts.flatMap(({ from, to, people }) => cutUp(random, from, to, people));
  const tasks = pieces.map(({ from, to, people }, k) => ({
    id: `t${k}`,
    minutes: to - from,
    people,
    whole: true,
  }));
  const links = pieces.flatMap(({ from }, k) => {
    const first = Math.floor(random() * pieces.length);
    const [wanted, lag] = [k % 3 === 0, from - pieces[first]!.to];
    return wanted && lag >= 0 ? [{ before: `t${first}`, after: `t${k}`, lag: Math.min(lag, 60) }] : [];
  });
  // Twice the days, so that a plan that is not the best finds room.
  const spare = shifts.map((shift) => ({
    ...shift,
    from: shift.from + days * 1440,
    to: shift.to + days * 1440,
  }));
  return { job: { tasks, links, shifts: [...shifts, ...spare] }, end: shifts.at(-1)!.to };
}

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly people: number;
}

/** One shift as rows of one to three people, each row cut in time into pieces of 10 to 120 minutes or what is left. */
function cutUp(random: () => number, from: number, to: number, people: number): readonly Piece[] {
  const pieces: Piece[] = [];
  for (let left = people; left > 0;) {
    const row = Math.min(left, 1 + Math.floor(random() * 3));
    left -= row;
    for (let at = from; at < to;) {
      const end = Math.min(to, at + 5 * (2 + Math.floor(random() * 23)));
      pieces.push({ from: at, to: end, people: row });
      at = end;
    }
  }
  return pieces;
}
