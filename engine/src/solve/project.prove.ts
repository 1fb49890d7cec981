/** Long runs of the scheduling: many small projects against every order tried, and very large ones of known best end. */
import { expect, test } from "vitest";
import { leastEnd, plantedProject, randomProject } from "../testing/projects.ts";
import { judgeProject } from "./project-judge.ts";
import { boundProject, solveProject } from "./project.ts";

const PROJECTS = 1500;

test("the plan of each of 1500 projects of seven tasks is the best of all orders, and so is its bound", () => {
  let placed = 0;
  for (let seed = 1; seed <= PROJECTS; seed++) {
    const job = randomProject(seed, { tasks: 7, links: seed % 9, shifts: 3 + (seed % 8) });
    const least = leastEnd(job);
    const plan = solveProject(job);
    expect(judgeProject(job, plan)).toEqual([]);
    expect([seed, plan.unplaced.length === 0]).toEqual([seed, least < Infinity]);
    expect(boundProject(job)).toBeLessThanOrEqual(least);
    if (least === Infinity) continue;
    placed++;
    expect([seed, plan.end, plan.bound]).toEqual([seed, least, least]);
  }
  expect(placed).toBeGreaterThan(PROJECTS / 2);
});

test("without the search through all orders, plans of seven tasks are within 1 % of the best on the mean", () => {
  let [over, counted] = [0, 0];
  for (let seed = 1; seed <= 500; seed++) {
    const job = randomProject(seed, { tasks: 7, links: seed % 9, shifts: 10 });
    const least = leastEnd(job);
    const plan = solveProject(job, { nodes: 0 });
    expect(judgeProject(job, plan)).toEqual([]);
    if (plan.unplaced.length > 0) continue;
    expect(plan.end).toBeGreaterThanOrEqual(least);
    expect(plan.bound).toBeLessThanOrEqual(least);
    over += plan.end / least - 1;
    counted++;
  }
  expect(over / counted).toBeLessThan(0.01);
});

test("projects of ten thousand tasks and more are planned within 1 % of their known best end", () => {
  for (const seed of [1, 2, 3]) {
    const { job, end } = plantedProject(seed, 300);
    expect(job.tasks.length).toBeGreaterThan(10_000);
    const shares: number[] = [];
    const plan = solveProject(job, { progress: (share) => shares.push(share) });
    expect(judgeProject(job, plan)).toEqual([]);
    expect(plan.unplaced).toEqual([]);
    expect(plan.bound).toBeLessThanOrEqual(end);
    expect(plan.end).toBeGreaterThanOrEqual(end);
    expect(plan.end).toBeLessThanOrEqual(end * 1.01);
    expect(shares.length).toBeGreaterThan(3);
  }
});
