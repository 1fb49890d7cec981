/** Judges a cutting plan for lengths, whoever made it. Shares nothing with the solver. */
import type { LengthJob, LengthPlan } from "./lengths.ts";

/** Figures apart by less than this for each part of a stick are the same: a thousandth of the unit, and a hair. */
const SAME = 0.0015;

/**
 * Every fault of the plan in words; empty for a plan that can be cut. A part is missing, cut more often than asked,
 * or unknown; a stick is overfull with its kerfs, empty, or says the wrong rest; a part is called too long though
 * it fits, or cut though it cannot be. More sticks than need be is no fault, but fewer than the plan's own bound is.
 */
export function judgeLengths(job: LengthJob, plan: LengthPlan): readonly string[] {
  const lengths = new Map(job.parts.map(({ id, length }) => [id, length]));
  return [
    ...plan.sticks.flatMap((stick, place) => stickFaults(job, lengths, stick, place + 1)),
    ...countFaults(job, plan, lengths),
    ...(plan.sticks.length < plan.bound
      ? [`the plan's bound is ${plan.bound}, yet it does with ${plan.sticks.length} sticks`]
      : []),
  ];
}

function stickFaults(
  { stock, kerf }: LengthJob,
  lengths: ReadonlyMap<string, number>,
  { parts, left }: LengthPlan["sticks"][number],
  number: number,
): string[] {
  const faults = parts
    .filter((id) => !lengths.has(id))
    .map((id) => `stick ${number}: ${id} is not in the job`);
  if (parts.length === 0) return [`stick ${number} has no part`];
  let end = 0;
  for (const [place, id] of parts.entries()) end += (place > 0 ? kerf : 0) + (lengths.get(id) ?? 0);
  const slack = SAME * (parts.length + 1);
  if (end > stock + slack) faults.push(`stick ${number} is overfull: ${end} of ${stock}`);
  const rest = Math.max(0, stock - end - kerf);
  if (!(Math.abs(left - rest) <= slack + SAME * parts.length))
    faults.push(`stick ${number} leaves ${rest}, not ${left}`);
  return faults;
}

function countFaults(
  job: LengthJob,
  { sticks, unplaced }: LengthPlan,
  lengths: ReadonlyMap<string, number>,
): string[] {
  const asked = tally(job.parts.map(({ id }) => id));
  const cut = tally(sticks.flatMap(({ parts }) => parts));
  const left = tally(unplaced);
  const faults: string[] = [];
  for (const [id, times] of asked) {
    const [done, undone] = [cut.get(id) ?? 0, left.get(id) ?? 0];
    const fits = lengths.get(id)! > 0 && lengths.get(id)! <= job.stock + SAME;
    if (done + undone < times) faults.push(`${id} is missing`);
    if (done > times) faults.push(`${id} is cut ${done} times, asked ${times}`);
    else if (done + undone > times) faults.push(`${id} is both cut and called too long`);
    if (undone > 0 && fits) faults.push(`${id} is called too long, but it fits`);
    if (done > 0 && !fits) faults.push(`${id} is cut, but no stick can give it`);
  }
  for (const id of left.keys()) if (!asked.has(id)) faults.push(`${id}, called too long, is not in the job`);
  return faults;
}

function tally(ids: readonly string[]): Map<string, number> {
  const times = new Map<string, number>();
  for (const id of ids) times.set(id, (times.get(id) ?? 0) + 1);
  return times;
}
