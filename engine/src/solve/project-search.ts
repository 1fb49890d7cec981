/**
 * Good plans of any project: the lists of some rules first (who must end first, who has most behind them, who takes
 * most hands), then lists by the latest end with a little chance in them, and then lists bred from the best so far:
 * a stretch of one in the order of another, a few neighbours changed about. Each list's plan is pushed late and
 * early. The chance is a stream of numbers with a fixed seed, so the same project has the same plan for ever.
 *
 * Sources: Kolisch, Serial and parallel resource-constrained project scheduling methods revisited (1996), for the
 * rules; Hartmann, A competitive genetic algorithm for resource-constrained project scheduling (1998), for the
 * breeding; Valls, Ballestín and Quintanilla, Justification and RCPSP (2005), for pushing every plan.
 */
import { latestTimes } from "./project-bound.ts";
import type { Core } from "./project-core.ts";
import { listBy, unhinderedTimes, type Draft, type Planner } from "./project-serial.ts";

/** Lists that are bred from. */
const POOL = 30;
/** Lists by chance before breeding begins. */
const SAMPLES = 40;
/** How far chance may shift a latest end, in parts of the project's length. */
const SHAKE = 0.6;
/** Chance that two neighbours of a bred list change about. */
const SWAP = 0.05;
/** Projects above this have few rules tried and no chance left to: each plan takes long. */
const LARGE = 2000;
const RULES_LARGE = 3;
const SEED = 2_718_281;

interface Member {
  readonly list: Int32Array;
  readonly draft: Draft;
}

export interface SearchOptions {
  /** A cost that cannot be bettered: reached, the search is over. */
  readonly bound: number;
  /** Told after each plan how many there have been. */
  readonly onPlan: () => void;
}

/** Lists and plans of one project, the better the longer it is asked. */
export class Pool {
  readonly #planner: Planner;
  readonly #options: SearchOptions;
  readonly #members: Member[] = [];
  readonly #random = chance(SEED);
  readonly #latest: Float64Array;
  readonly #span: number;
  #sampled = 0;

  constructor(planner: Planner, options: SearchOptions) {
    this.#planner = planner;
    this.#options = options;
    const { core } = planner;
    this.#span = unhinderedTimes(core, -Infinity).ends.reduce((last, end) => Math.max(last, end), 0);
    this.#latest = latestTimes(planner.mirror, this.#span).ends;
    for (const keys of ruleKeys(core, this.#latest)) {
      if (this.#done()) break;
      this.add(planner.plan(listBy(core, keys)));
    }
  }

  /** The least cost so far. */
  get best(): Draft {
    return this.#members[0]!.draft;
  }

  /** Goes on for so many plans, or until the bound is reached. */
  goOn(rounds: number): void {
    for (let round = 0; round < rounds && !this.#done(); round++)
      this.add(this.#planner.plan(this.#sampled++ < SAMPLES ? this.#sample() : this.#breed()));
  }

  #done(): boolean {
    return this.#members.length > 0 && this.best.cost <= this.#options.bound;
  }

  /** Takes a plan in, pushed, where it is good and new. */
  add(raw: Draft): void {
    const draft = raw.cost <= this.#options.bound ? raw : this.#planner.pushed(raw);
    this.#options.onPlan();
    const at = this.#members.findIndex((other) => draft.cost <= other.draft.cost);
    const member = { list: listBy(this.#planner.core, draft.starts), draft };
    if (at >= 0 && sameTimes(this.#members[at]!.draft, draft)) return;
    this.#members.splice(at < 0 ? this.#members.length : at, 0, member);
    if (this.#members.length > POOL) this.#members.pop();
  }

  #sample(): Int32Array {
    const reach = this.#random() * SHAKE * this.#span;
    return listBy(
      this.#planner.core,
      this.#latest.map((end) => end + reach * this.#random()),
    );
  }

  /** A stretch of the father's order inside the mother's; both lists keep the links, so the child does. */
  #breed(): Int32Array {
    const [mother, father] = [this.#pick(), this.#pick()];
    const ends = [this.#below(mother.length + 1), this.#below(mother.length + 1)].toSorted((a, b) => a - b);
    const child = new Int32Array(mother.length);
    const taken = new Uint8Array(mother.length);
    let filled = 0;
    const take = (list: Int32Array, until: number): void => {
      for (const task of list) {
        if (filled >= until) return;
        if (taken[task]) continue;
        taken[task] = 1;
        child[filled++] = task;
      }
    };
    take(mother, ends[0]!);
    take(father, ends[1]!);
    take(mother, mother.length);
    this.#shake(child);
    return child;
  }

  #shake(list: Int32Array): void {
    const { before } = this.#planner.core;
    for (let place = 1; place < list.length; place++) {
      if (this.#random() >= SWAP) continue;
      const [first, next] = [list[place - 1]!, list[place]!];
      if (before[next]!.some(({ task }) => task === first)) continue;
      list[place - 1] = next;
      list[place] = first;
    }
  }

  /** The better of two members by chance. */
  #pick(): Int32Array {
    const size = this.#members.length;
    return this.#members[Math.min(this.#below(size), this.#below(size))]!.list;
  }

  #below(count: number): number {
    return Math.floor(this.#random() * count);
  }
}

function sameTimes(one: Draft, other: Draft): boolean {
  return one.cost === other.cost && one.starts.every((start, task) => start === other.starts[task]);
}

/** Keys of the rules, smaller first; the rules that do best come first. */
function ruleKeys(core: Core, latest: Float64Array): readonly Float64Array[] {
  const work = core.minutes.map((minutes, task) => minutes * handsOf(core, task));
  const behind = workBehind(core, work);
  const rules = [
    latest,
    latest.map((end, task) => end - core.minutes[task]!),
    behind.map((sum) => -sum),
    work.map((sum) => -sum),
    core.minutes.map((_minutes, task) => -handsOf(core, task)),
    unhinderedTimes(core, -Infinity).starts,
    core.minutes.map((minutes) => -minutes),
  ];
  return core.count > LARGE ? rules.slice(0, RULES_LARGE) : rules;
}

function handsOf({ kinds, needs }: Core, task: number): number {
  return needs.subarray(task * kinds, (task + 1) * kinds).reduce((sum, need) => sum + need, 0);
}

/** Work of each task and, along the longest way, of those behind it. */
function workBehind(core: Core, work: Float64Array): Float64Array {
  const behind = Float64Array.from(work);
  for (const task of core.order.toReversed())
    for (const { task: next } of core.after[task]!)
      behind[task] = Math.max(behind[task]!, work[task]! + behind[next]!);
  return behind;
}

/** A stream of numbers from 0 to 1 that depends on the seed alone (mulberry32, public domain). */
function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let word = Math.imul(state ^ (state >>> 15), state | 1);
    word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
    return ((word ^ (word >>> 14)) >>> 0) / 4294967296;
  };
}
