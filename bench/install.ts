/**
 * The install, timed from the records to every task with its time: tasks made in the trade's order, shifts of the
 * venue's clock, the plan and its bound. Its own instances have a hundred to ten thousand tasks. `value` is the end
 * reached and `bound` what no plan can beat, both in minutes from the first shift's start; `over_bound_percent` is
 * how far the one is above the other. Every plan is held to a judge that shares no code with the solver. With a file
 * or a folder: show files.
 */
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { createDerive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { INSTALL_WORKS } from "../engine/src/document/works.ts";
import { createInstall, jobOf } from "../engine/src/install/derive.ts";
import type { Installing } from "../engine/src/install/model.ts";
import { judgeProject } from "../engine/src/solve/project-judge.ts";
import { installShow, type InstallShow } from "../engine/src/testing/installed.ts";
import { randomStream } from "../engine/src/testing/rooms.ts";
import type { BenchInput, BenchResult } from "./result.ts";

export interface InstallResult extends BenchResult {
  readonly tasks: number;
  readonly over_bound_percent: number;
}

/** Runs the benchmark; a plan the judge finds fault with is an error. */
export function run({ input, plans }: BenchInput): readonly BenchResult[] {
  const shows =
    input === undefined
      ? [100, 1000, 10_000].map((count) => ({ instance: `${count} tasks`, show: busyShow(count) }))
      : filesOf(input).map((path) => ({ instance: path, show: readDerived(path) }));
  return shows.map(({ instance, show }) => timed(instance, show, plans));
}

function timed(
  instance: string,
  { document, arrangements, making }: InstallShow,
  plans: boolean,
): InstallResult {
  const start = performance.now();
  const installing = createInstall()(document, arrangements, making);
  const seconds = (performance.now() - start) / 1000;
  const faults = judged(installing);
  if (faults.length > 0) throw new Error(`${instance}: ${faults.slice(0, 5).join("; ")}`);
  const { tasks, end, bound, unplaced } = installing;
  if (unplaced.length > 0) throw new Error(`${instance}: ${unplaced.length} tasks find no time`);
  return {
    instance,
    value: end,
    bound,
    seconds,
    tasks: tasks.length,
    over_bound_percent: Number((100 * (end / bound - 1)).toFixed(3)),
    ...(plans ? { plan: { times: installing.times } } : {}),
  };
}

/** What an independent judge finds wrong with the plan. */
function judged({ tasks, shifts, times, end, bound, unplaced }: Installing): readonly string[] {
  const listed = times.map(({ task, start, end: done, spans }) => ({ id: task, start, end: done, spans }));
  return judgeProject(jobOf(tasks, shifts), { times: listed, end, bound, unplaced });
}

/** A room with wall, trim, floor and pieces, and so many chores of all lengths after every kind of work; long days. */
function busyShow(count: number): InstallShow {
  const random = randomStream(count);
  const between = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const chores = Array.from({ length: count }, (_, order) => ({
    name: `Chore ${order}`,
    order,
    after: INSTALL_WORKS[between(0, INSTALL_WORKS.indexOf("fitting"))] ?? "fitting",
    minutes: 5 * between(1, 18),
    people: between(1, 3),
  }));
  const first = Date.UTC(2027, 0, 4);
  const shifts = Array.from({ length: Math.ceil(count / 40) + 2 }, (_, day) => {
    const date = new Date(first + day * 86_400_000).toISOString().slice(0, 10);
    return { start: `${date}T09:00`, end: `${date}T21:00`, people: between(3, 8) };
  });
  return installShow({
    chores,
    shifts,
    walls: [{ wall: 0, strips: 9, fixing: "pasted", drying: 480 }],
    trims: [{ kind: "base", walls: [0, 1, 2, 3] }],
    floors: [{ panels: 12, border: 12 }],
    pieces: [{ at: [{ x: 1000, y: -1000 }] }, { layer: "fitting", mounts: [0, 1] }],
    show: { zone: "UTC" },
  });
}

function filesOf(input: string): readonly string[] {
  if (!statSync(input).isDirectory()) return [input];
  return readdirSync(input)
    .filter((name) => name.endsWith(".json"))
    .toSorted()
    .map((name) => join(input, name));
}

function readDerived(path: string): InstallShow {
  const read = readShow(readFileSync(path, "utf8"));
  if (!read.ok) throw new RangeError(`${path} is no show that can be read`);
  const { arrangements, making } = createDerive()(read.document);
  return { document: read.document, arrangements, making };
}
