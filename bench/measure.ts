/**
 * Adjusting rooms: the two networks that stand for a room and a hall, or the rooms of a show file, a tape sheet
 * or a folder of either. `value` is the sum of squared misfits (sigma units) reached; `bound` what
 * ml-levenberg-marquardt reaches from the same start on the same network in the same run (null where it is not
 * run), `ratio` our time over its time, both medians, for the plain adjustment; `seconds` is the median of the
 * whole measuring of the document, shape, tests and doubt included.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { readShow } from "../engine/src/document/file.ts";
import { printProblem } from "../engine/src/document/problem.ts";
import {
  emptyDocument,
  listed,
  type Corner,
  type Room,
  type ShowDocument,
} from "../engine/src/document/tables.ts";
import { measureRooms } from "../engine/src/measure/derive.ts";
import {
  adjust,
  networkOf,
  problemOf,
  tieOf,
  toDatum,
  type Network,
  type Shape,
} from "../engine/src/measure/network.ts";
import { readTape } from "../engine/src/tape/read.ts";
import { measuredNetwork } from "../engine/src/testing/networks.ts";
import type { BenchInput, BenchResult } from "./result.ts";

/** Repeats a median is taken over. */
const REPEATS = 25;
const REPEATS_SLOW = 3;
/** It stops only when the misfit itself is near 0, which noise forbids; 12 steps agree to a hundredth of a millimetre. */
const LIBRARY_ITERATIONS = 12;

export interface MeasureResult extends BenchResult {
  /** The plain adjustment from a rough start, median. */
  readonly adjust_ms?: number;
  readonly library_ms?: number;
  /** Largest distance between our corner and the library's. */
  readonly agreement_mm?: number;
}

/** Runs the benchmark; a folder is read in the order of its names, and files that are no show are named in an error. */
export function run({ input, plans }: BenchInput): readonly MeasureResult[] {
  if (input !== undefined) return filesOf(input).map((path) => measured(path, readDocument(path), plans));
  return [measuredNetwork(8, 20), measuredNetwork(60, 250)].map(({ name, document, truth }) => ({
    ...measured(name, document, plans),
    ...compared(document, truth),
  }));
}

function measured(instance: string, document: ShowDocument, plans: boolean): MeasureResult {
  const seconds = median(() => measureRooms(document), REPEATS);
  const rooms = measureRooms(document);
  const value = rooms.reduce((sum, { test }) => sum + test.sum, 0);
  const corners = rooms.map((room) =>
    room.corners.map(({ name, x, y, sdX, sdY }) => ({ name, x_mm: x, y_mm: y, sd_x_mm: sdX, sd_y_mm: sdY })),
  );
  return { instance, value, bound: null, seconds, ...(plans ? { plan: corners } : {}) };
}

/** Ours and the library's from the same start: the true corners, each 100 mm off. */
function compared(document: ShowDocument, truth: Shape): Partial<MeasureResult> {
  const network = onlyNetwork(document);
  const start = toDatum(
    truth.map(({ x, y }, k) => ({ x: x + 100 * Math.cos(k * k), y: y + 100 * Math.sin(k * k) })),
  );
  const ours = adjust(network, network.ties, start);
  const seconds = median(() => adjust(network, network.ties, start), REPEATS);
  const theirs = byLibrary(network, start);
  const library = median(() => byLibrary(network, start), REPEATS_SLOW);
  return {
    bound: theirs.sum,
    ratio: seconds / library,
    adjust_ms: seconds * 1000,
    library_ms: library * 1000,
    agreement_mm: Math.max(
      ...ours.solution.parameters.map((value, k) => Math.abs(value - theirs.parameters[k]!)),
    ),
  };
}

function onlyNetwork(document: ShowDocument): Network {
  const room = listed<Room>(document.rooms)[0]!;
  const corners = listed<Corner>(document.corners);
  const indexOf = new Map(corners.map(({ id }, index) => [id, index]));
  return networkOf(
    room,
    corners,
    listed(document.readings).flatMap((reading) => tieOf(reading, indexOf) ?? []),
  );
}

/** With its analytical Jacobian, everything divided by its sigma, and enough iterations: as good a run as the library can give. */
function byLibrary(network: Network, start: Shape): { parameters: readonly number[]; sum: number } {
  const initial = start.flatMap(({ x, y }, corner) => (corner === 0 ? [] : corner === 1 ? [x] : [x, y]));
  const problem = problemOf(network, network.ties, initial);
  const { sigmas } = problem;
  const { parameterValues, parameterError } = levenbergMarquardt(
    { x: sigmas.map((_, row) => row), y: problem.observed.map((value, row) => value / sigmas[row]!) },
    (parameters) => {
      const rows = problem.predict(parameters);
      return (row) => rows[row]!.value / sigmas[row]!;
    },
    {
      initialValues: initial,
      damping: 1e-3,
      maxIterations: LIBRARY_ITERATIONS,
      jacobianFunction: (parameters) => {
        const rows = problem.predict(parameters);
        return (row) => {
          const dense = parameters.map(() => 0);
          rows[row]!.at.forEach((k, i) => (dense[k] = rows[row]!.slopes[i]! / sigmas[row]!));
          return dense;
        };
      },
    },
  );
  return { parameters: parameterValues, sum: parameterError };
}

function filesOf(input: string): readonly string[] {
  if (!statSync(input).isDirectory()) return [input];
  const names = readdirSync(input).toSorted();
  return names.map((name) => join(input, name)).filter((path) => statSync(path).isFile());
}

/** A show file where the text begins with a brace, a tape sheet otherwise. Throws with every reason for what does not read. */
function readDocument(path: string): ShowDocument {
  const text = readFileSync(path, "utf8");
  if (!text.trimStart().startsWith("{")) {
    const { document, problems } = readTape(text, emptyDocument());
    if (problems.length > 0)
      throw new Error(problems.map((problem) => `${path}: ${printProblem(problem)}`).join("\n"));
    return document;
  }
  const show = readShow(text);
  if (!show.ok)
    throw new Error(show.problems.map((problem) => `${path}: ${printProblem(problem)}`).join("\n"));
  return show.document;
}

/** Median seconds of a call, after warming up. */
function median(call: () => unknown, repeats: number): number {
  for (let k = 0; k < Math.min(repeats, 5); k++) call();
  const times = Array.from({ length: repeats }, () => {
    const begun = performance.now();
    call();
    return (performance.now() - begun) / 1000;
  });
  return times.toSorted((a, b) => a - b)[repeats >> 1]!;
}
