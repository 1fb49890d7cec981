/**
 * Cutting plans remembered by what they are for: while the parts and the stock stay the same, the very same plan is
 * given back and nothing is solved again. A plan depends on its job alone, so the memory changes no answer.
 */
import { solveLengths, type LengthJob, type LengthPlan } from "../solve/lengths.ts";
import { solveSheets, type SheetJob, type SheetPlan } from "../solve/sheets.ts";

export interface Plans {
  readonly lengths: (job: LengthJob) => LengthPlan;
  readonly sheets: (job: SheetJob) => SheetPlan;
}

/** More stocks than a show has; the one asked for longest ago goes first. */
const KEPT = 64;

/** Told what share of one plan is done, 0 to 1, while a solver is at work on it. */
export type Progress = (share: number) => void;

/** Plans with a memory of their own. */
export function createPlans(progress?: Progress): Plans {
  const telling = progress === undefined ? {} : { progress };
  return {
    lengths: remembered((job: LengthJob) => solveLengths(job, telling)),
    sheets: remembered((job: SheetJob) => solveSheets(job, telling)),
  };
}

/** The function again, answering from memory for a job of equal content. */
export function remembered<Job, Plan>(solve: (job: Job) => Plan): (job: Job) => Plan {
  const kept = new Map<string, Plan>();
  return (job) => {
    const key = JSON.stringify(job);
    const plan = kept.get(key) ?? solve(job);
    // Set anew it is the last of the map: the first is the one not asked for longest.
    kept.delete(key);
    kept.set(key, plan);
    for (const [oldest] of kept) if (kept.size > KEPT) kept.delete(oldest);
    return plan;
  };
}
