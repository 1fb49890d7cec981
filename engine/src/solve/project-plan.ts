/**
 * The way from a core to its best plan: rules, a little chance, the search through all lists where the project is
 * small, more chance. Whatever reaches the bound ends it. What is spent is counted in plans and points, never in
 * time, so the answer is the same on every machine.
 */
import { boundOf } from "./project-bound.ts";
import type { Core } from "./project-core.ts";
import { EXACT_TASKS, searchThrough } from "./project-exact.ts";
import { endOf, missingIn, Planner, type Draft } from "./project-serial.ts";
import { Pool } from "./project-search.ts";

export interface PlanOptions {
  /** Plans tried beyond those of the rules; by the number of tasks where it is not said. */
  readonly rounds?: number;
  /** Points gone into at most when a small project is searched through; by the number of tasks where it is not said. */
  readonly nodes?: number;
  /** Told how much of the work is done at most, 0 to 1, rising; 1 at the end. */
  readonly progress?: (share: number) => void;
}

export interface Planned {
  readonly draft: Draft;
  /** Steps before which no plan of all tasks ends; infinite where it is known that not all find a place. */
  readonly bound: number;
}

/** Plans for a project of sixty tasks; fewer for larger ones, as each takes longer. */
const ROUNDS = 200;
const ROUNDS_AT = 60;
/** Points for a project of sixteen tasks; fewer for larger ones, where they seldom are enough and each takes longer. */
const NODES = 1500;
const NODES_AT = 16;
/** Plans by chance before the search through all lists: they make it shorter. */
const FIRST_ROUNDS = 30;
/** Plans the rules make, about: what progress is counted by. */
const RULE_PLANS = 7;

/** The best plan found. The core needs one shift and one task at least. */
export function planned(core: Core, options: PlanOptions): Planned {
  const rounds = options.rounds ?? Math.floor(ROUNDS * Math.min(1, ROUNDS_AT / core.count));
  const nodes = options.nodes ?? Math.floor(NODES * Math.min(1, NODES_AT / core.count));
  const report = reporter(rounds + RULE_PLANS, options.progress);
  const { planner, first } = started(core);
  let bound = boundOf(planner.core, missingIn(first) > 0 ? Infinity : endOf(first));
  // Where not all fit there is no end to stop at: the fewest without a place are looked for to the last round.
  const pool = new Pool(planner, { bound: bound === Infinity ? 0 : bound, onPlan: report });
  pool.add(first);
  pool.goOn(Math.min(rounds, FIRST_ROUNDS));
  if (pool.best.cost > bound && core.count <= EXACT_TASKS) {
    const { best, proven } = searchThrough(planner, {
      best: pool.best,
      bound,
      nodes,
    });
    pool.add(best);
    if (proven) bound = missingIn(best) > 0 ? Infinity : endOf(best);
  }
  if (bound === Infinity || pool.best.cost > bound) pool.goOn(rounds - FIRST_ROUNDS);
  options.progress?.(1);
  return { draft: pool.best, bound };
}

/** A first plan, and the planner of the project without the shifts it shows nobody to need. */
function started(core: Core): { readonly planner: Planner; readonly first: Draft } {
  const all = new Planner(core);
  const first = all.plan(core.order);
  if (missingIn(first) > 0) return { planner: all, first };
  const shifts = core.shifts.filter(({ from }) => from <= endOf(first));
  return { planner: new Planner({ ...core, shifts }), first };
}

function reporter(plans: number, progress: ((share: number) => void) | undefined): () => void {
  let made = 0;
  return () => {
    made++;
    progress?.(Math.min(1, made / plans));
  };
}
