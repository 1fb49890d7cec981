/**
 * Scheduling, timed. Without input: projects of known best end from sixty tasks to more than ten thousand; value is
 * the end reached and bound what no plan can beat, in minutes. With a file or a folder: published instances in the
 * `.sm` form of the project scheduling library (Kolisch and Sprecher, 1996), each one shift without end and four
 * kinds of hands; where a list `makespans.csv` stands in the folder or in the one above, bound is the best lower
 * bound it knows, and two last lines give the mean distance from its best known ends, in per cent, and how many
 * plans are shorter than a proven bound (there must be none).
 */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { coreOf, type Core } from "../engine/src/solve/project-core.ts";
import { planned } from "../engine/src/solve/project-plan.ts";
import { endOf } from "../engine/src/solve/project-serial.ts";
import { solveProject } from "../engine/src/solve/project.ts";
import { plantedProject } from "../engine/src/testing/projects.ts";
import type { BenchInput, BenchResult } from "./result.ts";

/** Days of the benchmark's own projects: about 50, 1,000 and 15,000 tasks. */
const DAYS = [1, 30, 400];

/** Runs the benchmark. */
export function run({ input, plans }: BenchInput): readonly BenchResult[] {
  if (input === undefined) return DAYS.map((days) => own(days, plans));
  const files = statSync(input).isDirectory()
    ? readdirSync(input)
        .filter((name) => name.endsWith(".sm"))
        .toSorted()
        .map((name) => join(input, name))
    : [input];
  const known = knownEnds(files[0] ?? input);
  const results = files.map((file) => published(file, known, plans));
  return [...results, ...summary(results, known)];
}

function own(days: number, plans: boolean): BenchResult {
  const { job, end } = plantedProject(1, days);
  const start = performance.now();
  const plan = solveProject(job);
  return {
    instance: `${job.tasks.length} tasks in ${days} days, best end ${end}`,
    value: plan.end,
    bound: plan.bound,
    seconds: (performance.now() - start) / 1000,
    ...(plans ? { plan: { job, plan } } : {}),
  };
}

interface Known {
  readonly lower: number;
  readonly upper: number;
}

/** Ends the list beside the instances knows, by instance. */
function knownEnds(file: string): ReadonlyMap<string, Known> {
  const list = [dirname(file), dirname(dirname(file))]
    .map((folder) => join(folder, "makespans.csv"))
    .find((path) => existsSync(path));
  if (list === undefined) return new Map();
  const [head = "", ...rows] = readFileSync(list, "utf8").trim().split(/\r?\n/);
  const columns = head.split(",");
  return new Map(
    rows.map((row) => {
      const cells = row.split(",");
      const cell = (name: string): string => cells[columns.indexOf(name)] ?? "";
      // Where no better bound is listed, the critical path is one.
      const lower = Number(cell("best_known_lb") || cell("cpm_makespan"));
      return [cell("instance"), { lower, upper: Number(cell("best_known_ub")) }];
    }),
  );
}

function published(file: string, known: ReadonlyMap<string, Known>, plans: boolean): BenchResult {
  const instance = basename(file, ".sm");
  const core = readInstance(readFileSync(file, "utf8"));
  const start = performance.now();
  const { draft, bound } = planned(core, {});
  return {
    instance,
    value: endOf(draft),
    bound: known.get(instance)?.lower ?? bound,
    seconds: (performance.now() - start) / 1000,
    ...(plans ? { plan: { starts: [...draft.starts], bound } } : {}),
  };
}

/** The core of one instance: tables of links and of tasks, and the hands there are. */
function readInstance(text: string): Core {
  const links = rowsAfter(text, "PRECEDENCE RELATIONS");
  const tasks = rowsAfter(text, "REQUESTS/DURATIONS").map(([, , minutes = 0, ...needs]) => ({
    minutes,
    needs,
    whole: true,
  }));
  const [has = []] = rowsAfter(text, "RESOURCEAVAILABILITIES");
  const horizon = tasks.reduce((sum, { minutes }) => sum + minutes, 0);
  return coreOf({
    tasks,
    links: links.flatMap(([task = 0, , , ...next]) =>
      next.map((after) => ({ before: task - 1, after: after - 1, lag: 0 })),
    ),
    shifts: [{ from: 0, to: Math.max(1, horizon), has }],
  });
}

/** The rows of numbers under a heading, until the next line of asterisks. */
function rowsAfter(text: string, heading: string): readonly (readonly number[])[] {
  const from = text.indexOf(heading);
  if (from < 0) throw new RangeError(`no ${heading} in an instance that begins ${text.slice(0, 80)}`);
  const until = text.indexOf("****", from);
  return text
    .slice(from, until < 0 ? undefined : until)
    .split(/\r?\n/)
    .filter((line) => /^[\d\s]*\d[\d\s]*$/.test(line))
    .map((line) => line.trim().split(/\s+/).map(Number));
}

function summary(results: readonly BenchResult[], known: ReadonlyMap<string, Known>): readonly BenchResult[] {
  const listed = results.filter(({ instance }) => known.has(instance));
  if (listed.length === 0) return [];
  const seconds = listed.reduce((sum, result) => sum + result.seconds, 0);
  const from = listed.map(({ instance, value }) => value / known.get(instance)!.upper - 1);
  return [
    {
      instance: "mean distance from best known end, %",
      value: (100 * from.reduce((sum, part) => sum + part, 0)) / listed.length,
      bound: null,
      seconds: seconds / listed.length,
    },
    {
      instance: "plans shorter than a proven bound",
      value: listed.filter(({ value, bound }) => bound !== null && value < bound).length,
      bound: 0,
      seconds,
    },
  ];
}
