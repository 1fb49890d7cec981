/**
 * Cutting of lengths, timed: values are sticks, bounds what the solver proves. Its own instances are twenty
 * to ten thousand random parts from 12 ft sticks at a kerf of 1/8 in. A file or a
 * folder given instead holds jobs as JSON: `{"stock": 2440, "kerf": 3, "parts": [{"id": "a", "length": 600}]}`.
 */
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { solveLengths, type LengthJob } from "../engine/src/solve/lengths.ts";
import { judgeLengths } from "../engine/src/solve/lengths-judge.ts";
import { randomStream } from "../engine/src/testing/rooms.ts";
import type { BenchInput, BenchResult } from "./result.ts";

/** 12 ft and 1/8 in, mm. */
const STICK = 3657.6;
const KERF = 3.175;

/** Runs the benchmark; a plan the judge finds fault with is an error. */
export function run({ input, plans }: BenchInput): readonly BenchResult[] {
  if (input !== undefined) return filesOf(input).map((path) => timed(path, readJob(path), plans));
  return [20, 200, 2000, 10_000].map((count) => timed(`${count} random parts`, randomJob(count), plans));
}

function timed(instance: string, job: LengthJob, plans: boolean): BenchResult {
  const start = performance.now();
  const plan = solveLengths(job);
  const seconds = (performance.now() - start) / 1000;
  const faults = judgeLengths(job, plan);
  if (faults.length > 0) throw new Error(`${instance}: ${faults.join("; ")}`);
  return { instance, value: plan.sticks.length, bound: plan.bound, seconds, ...(plans ? { plan } : {}) };
}

function randomJob(count: number): LengthJob {
  const random = randomStream(count);
  const parts = Array.from({ length: count }, (_, k) => ({
    id: `part ${k + 1}`,
    length: (4 + Math.floor(random() * 1600) / 16) * 25.4,
  }));
  return { stock: STICK, kerf: KERF, parts };
}

function filesOf(input: string): readonly string[] {
  if (!statSync(input).isDirectory()) return [input];
  return readdirSync(input)
    .filter((name) => name.endsWith(".json"))
    .toSorted()
    .map((name) => join(input, name));
}

function readJob(path: string): LengthJob {
  const job = JSON.parse(readFileSync(path, "utf8")) as Partial<LengthJob>;
  if (typeof job.stock !== "number" || typeof job.kerf !== "number" || !Array.isArray(job.parts))
    throw new RangeError(`${path} is no job of lengths: it needs stock, kerf and parts`);
  return { stock: job.stock, kerf: job.kerf, parts: job.parts };
}
