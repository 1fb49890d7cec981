import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  byLatestEnd,
  leastEnd,
  mostPlaced,
  plantedProject,
  randomProject,
  serialEnd,
} from "../testing/projects.ts";
import { randomStream } from "../testing/rooms.ts";
import { judgeProject } from "./project-judge.ts";
import {
  boundProject,
  solveProject,
  type ProjectJob,
  type ProjectPlan,
  type ProjectTask,
} from "./project.ts";

const DAY = 1440;

function task(id: string, minutes: number, people = 1): ProjectTask {
  return { id, minutes, people, whole: false };
}

function link(before: string, after: string, lag = 0): ProjectJob["links"][number] {
  return { before, after, lag };
}

/** Days from nine to nine. */
function days(...people: readonly number[]): ProjectJob["shifts"] {
  return people.map((hands, day) => ({ from: day * DAY + 540, to: day * DAY + 1260, people: hands }));
}

function timeOf(plan: ProjectPlan, id: string): ProjectPlan["times"][number] {
  return plan.times.find((time) => time.id === id)!;
}

/** Solved, judged, and given back. */
function sound(job: ProjectJob): ProjectPlan {
  const plan = solveProject(job);
  expect(judgeProject(job, plan)).toEqual([]);
  return plan;
}

describe("a project", () => {
  it("without shifts places nothing, and without tasks ends at 0", () => {
    expect(sound({ tasks: [task("a", 5)], links: [], shifts: [] })).toEqual({
      times: [],
      end: 0,
      bound: 0,
      unplaced: ["a"],
    });
    expect(sound({ tasks: [], links: [], shifts: days(2) })).toEqual({
      times: [],
      end: 0,
      bound: 0,
      unplaced: [],
    });
    expect(boundProject({ tasks: [], links: [], shifts: days(2) })).toBe(0);
  });

  it("lets a task rest overnight, passing over a shift with too few people", () => {
    const plan = sound({ tasks: [task("hang", 1000, 2)], links: [], shifts: days(2, 1, 3) });
    expect(timeOf(plan, "hang").spans).toEqual([
      { from: 540, to: 1260 },
      { from: 2 * DAY + 540, to: 2 * DAY + 540 + 280 },
    ]);
    expect(plan.bound).toBe(plan.end);
  });

  it("keeps a whole task in one shift, even where two touch", () => {
    const shifts = [
      { from: 0, to: 60, people: 2 },
      { from: 60, to: 240, people: 2 },
    ];
    const whole = { ...task("lift", 90, 2), whole: true };
    expect(timeOf(sound({ tasks: [whole], links: [], shifts }), "lift").start).toBe(60);
    const rests = sound({ tasks: [task("lift", 90, 2)], links: [], shifts });
    expect(timeOf(rests, "lift").spans).toEqual([
      { from: 0, to: 60 },
      { from: 60, to: 90 },
    ]);
  });

  it("counts drying by the clock, also while nobody is there", () => {
    const job = {
      tasks: [task("paste", 60), task("trim", 60)],
      links: [link("paste", "trim", 24 * 60)],
      shifts: days(1, 1),
    };
    expect(timeOf(sound(job), "trim").start).toBe(DAY + 600);
    const short = { ...job, links: [link("paste", "trim", 120)] };
    expect(timeOf(sound(short), "trim").start).toBe(720);
  });

  it("leaves out what needs more people than come, what is too long, and all that waits for it", () => {
    const job: ProjectJob = {
      tasks: [
        task("crowd", 10, 4),
        task("after crowd", 10),
        task("after that", 0),
        { ...task("long", 721), whole: true },
        task("longer", 2000),
        task("fits", 720, 3),
      ],
      links: [link("crowd", "after crowd"), link("after crowd", "after that"), link("fits", "long")],
      shifts: days(3, 1),
    };
    const plan = sound(job);
    expect(plan.unplaced).toEqual(["crowd", "after crowd", "after that", "long", "longer"]);
    expect(plan.end).toBe(1260);
  });

  it("leaves out tasks on a circle of links and behind one, and keeps those before it", () => {
    const job = {
      tasks: ["before", "one", "two", "behind", "itself"].map((id) => task(id, 10)),
      links: [
        link("before", "one"),
        link("one", "two"),
        link("two", "one"),
        link("two", "behind"),
        link("itself", "itself"),
      ],
      shifts: days(2),
    };
    const plan = sound(job);
    expect(plan.unplaced).toEqual(["one", "two", "behind", "itself"]);
    expect(plan.end).toBe(550);
  });

  it("places a crew of none only where nobody is needed", () => {
    const plan = sound({ tasks: [task("hands", 10), task("dry", 10, 0)], links: [], shifts: days(0) });
    expect(plan.unplaced).toEqual(["hands"]);
    expect(plan.end).toBe(550);
  });

  it("places a mark in time at the end of what it waits for, and what waits for it in the next shift", () => {
    const job = {
      tasks: [task("build", 720, 2), task("handed over", 0, 1), task("clean", 30)],
      links: [link("build", "handed over"), link("handed over", "clean")],
      shifts: days(2, 2),
    };
    const plan = sound(job);
    expect(timeOf(plan, "handed over")).toEqual({
      id: "handed over",
      start: 1260,
      end: 1260,
      spans: [{ from: 1260, to: 1260 }],
    });
    expect(timeOf(plan, "clean").start).toBe(DAY + 540);
  });

  it("places as many as it can where the hours are too short for all", () => {
    const job = {
      tasks: [task("big", 60, 2), task("a", 30), task("b", 30), task("c", 30), task("d", 30)],
      links: [],
      shifts: [{ from: 0, to: 60, people: 2 }],
    };
    const plan = sound(job);
    expect(plan.unplaced).toEqual(["big"]);
    expect(plan.bound).toBe(60);
    expect(boundProject(job)).toBe(Infinity);
  });

  it("keeps minutes that are not whole", () => {
    const job = {
      tasks: [task("a", 12.375), task("b", 100 / 3)],
      links: [link("a", "b", 0.1)],
      shifts: days(1),
    };
    const plan = sound(job);
    expect(plan.end).toBeCloseTo(540 + 12.375 + 0.1 + 100 / 3, 2);
    expect(plan.bound).toBe(plan.end);
  });

  it("that is none is refused, with the words that are wrong", () => {
    const shifts = days(2);
    expect(() => solveProject({ tasks: [task("a", 1), task("a", 2)], links: [], shifts })).toThrow(
      /two tasks.*"a"/,
    );
    expect(() => solveProject({ tasks: [task("a", -1)], links: [], shifts })).toThrow(/"minutes":-1/);
    expect(() => solveProject({ tasks: [task("a", 1, NaN)], links: [], shifts })).toThrow(/"people":null/);
    expect(() => solveProject({ tasks: [task("a", 1)], links: [link("a", "b")], shifts })).toThrow(
      /"after":"b"/,
    );
    expect(() => boundProject({ tasks: [task("a", 1)], links: [link("a", "a", -1)], shifts })).toThrow(
      /"lag":-1/,
    );
    expect(() => solveProject({ tasks: [], links: [], shifts: [...shifts, ...shifts] })).toThrow(
      /after minute 1260/,
    );
  });
});

const SMALL = { tasks: 6, links: 4, shifts: 8 };

describe("a plan, against every order tried", () => {
  it("is right in 50 projects where the listed and the latest-end order are both wrong", () => {
    let wrong = 0;
    for (let seed = 1; wrong < 50; seed++) {
      const job = randomProject(seed, SMALL);
      const least = leastEnd(job);
      const listed = serialEnd(
        job,
        job.tasks.map(({ id }) => id),
      );
      if (least === Infinity || listed === least || serialEnd(job, byLatestEnd(job)) === least) continue;
      wrong++;
      const plan = sound(job);
      expect([seed, plan.end, plan.bound, plan.unplaced]).toEqual([seed, least, least, []]);
    }
    expect(wrong).toBe(50);
  });

  it("is right in 300 projects as they come, and its first bound is never above the truth", () => {
    for (let seed = 1001; seed <= 1300; seed++) {
      const job = randomProject(seed, { tasks: 5, links: 3, shifts: seed % 2 === 0 ? 6 : 2 });
      const least = leastEnd(job);
      const plan = sound(job);
      expect([seed, plan.unplaced.length === 0]).toEqual([seed, least < Infinity]);
      expect(boundProject(job)).toBeLessThanOrEqual(least);
      if (least < Infinity) expect([seed, plan.end, plan.bound]).toEqual([seed, least, least]);
    }
  });

  it("places as many tasks as any order does in 100 projects whose shifts are too short for all", () => {
    let short = 0;
    for (let seed = 1; short < 100; seed++) {
      const job = randomProject(seed, { tasks: 6, links: 2, shifts: 2 });
      if (leastEnd(job) < Infinity) continue;
      short++;
      const plan = sound(job);
      expect([seed, plan.times.length]).toEqual([seed, mostPlaced(job)]);
    }
  });

  it("made by rules and chance alone is never better than the truth, nor its bound above it", () => {
    for (let seed = 1; seed <= 100; seed++) {
      const job = randomProject(seed, SMALL);
      const least = leastEnd(job);
      const plan = solveProject(job, { nodes: 0, rounds: 5 });
      expect(judgeProject(job, plan)).toEqual([]);
      if (plan.unplaced.length > 0) continue;
      expect(plan.end).toBeGreaterThanOrEqual(least);
      expect(plan.bound).toBeLessThanOrEqual(least);
    }
  });
});

/** Projects of a few days, up to thirty tasks, lengths that are not whole among them. */
function projects(): fc.Arbitrary<ProjectJob> {
  const hands = fc.nat(3);
  const tasks = fc.array(
    fc.record({
      minutes: fc.oneof(fc.nat(300), fc.double({ min: 0, max: 200, noNaN: true })),
      people: hands,
      whole: fc.boolean(),
    }),
    { maxLength: 30 },
  );
  const links = fc.array(fc.tuple(fc.nat(29), fc.nat(29), fc.oneof(fc.constant(0), fc.nat(1500))), {
    maxLength: 25,
  });
  const shifts = fc.array(fc.tuple(fc.nat(600), fc.integer({ min: 1, max: 700 }), fc.nat(4)), {
    maxLength: 8,
  });
  return fc.record({ tasks, links, shifts }).map((made) => {
    let opens = -300;
    return {
      tasks: made.tasks.map((one, k) => ({ id: `t${k}`, ...one })),
      links: made.links
        .filter(([a, b]) => a < made.tasks.length && b < made.tasks.length && (a < b || (a + b) % 7 === 0))
        .map(([a, b, lag]) => link(`t${a}`, `t${b}`, lag)),
      shifts: made.shifts.map(([gap, length, people]) => {
        const from = opens + gap;
        opens = from + length;
        return { from, to: opens, people };
      }),
    };
  });
}

describe("any plan", () => {
  const hasty = { rounds: 10, nodes: 50 };

  it("is accepted by the judge, and ends no sooner than its bound", () => {
    fc.assert(
      fc.property(projects(), (job) => {
        const plan = solveProject(job, hasty);
        expect(judgeProject(job, plan)).toEqual([]);
        expect(plan.bound).toBeLessThanOrEqual(plan.end);
        if (plan.unplaced.length === 0) expect(boundProject(job)).toBeLessThanOrEqual(plan.end);
      }),
      { seed: 31, numRuns: 150 },
    );
  });

  it("is the same in whatever order tasks and links are listed", () => {
    fc.assert(
      fc.property(projects(), fc.nat(), (job, seed) => {
        const shuffled = {
          tasks: shuffle(job.tasks, seed),
          links: shuffle(job.links, seed + 1),
          shifts: job.shifts,
        };
        const [one, other] = [solveProject(job, hasty), solveProject(shuffled, hasty)];
        expect({ ...other, unplaced: other.unplaced.toSorted() }).toEqual({
          ...one,
          unplaced: one.unplaced.toSorted(),
        });
      }),
      { seed: 32, numRuns: 60 },
    );
  });

  it("stays as it is when the venue gives another shift after all others", () => {
    fc.assert(
      fc.property(projects(), (job) => {
        const plan = solveProject(job, hasty);
        fc.pre(plan.unplaced.length === 0 && plan.times.length > 0);
        const last = job.shifts.at(-1)!.to;
        const more = { ...job, shifts: [...job.shifts, { from: last + 100, to: last + 700, people: 9 }] };
        const other = solveProject(more, hasty);
        expect(other.unplaced).toEqual([]);
        if (plan.end === plan.bound && other.end === other.bound) expect(other.end).toBe(plan.end);
        expect(other.bound).toBeLessThanOrEqual(plan.end);
      }),
      { seed: 33, numRuns: 150 },
    );
  });

  it("with more people ends no later, where every shift had people for every task and both are proven", () => {
    let compared = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const base = randomProject(seed, { tasks: 7, links: 4, shifts: 9 });
      const job = { ...base, shifts: base.shifts.map((shift) => ({ ...shift, people: shift.people + 1 })) };
      const more = { ...job, shifts: job.shifts.map((shift) => ({ ...shift, people: shift.people + 1 })) };
      const [few, many] = [solveProject(job), solveProject(more)];
      if (few.unplaced.length > 0 || few.end !== few.bound || many.end !== many.bound) continue;
      compared++;
      expect(many.unplaced).toEqual([]);
      expect([seed, many.end <= few.end]).toEqual([seed, true]);
    }
    expect(compared).toBeGreaterThan(100);
  });
});

function shuffle<Item>(items: readonly Item[], seed: number): readonly Item[] {
  const random = randomStream(seed);
  return items
    .map((item) => ({ item, key: random() }))
    .toSorted((a, b) => a.key - b.key)
    .map(({ item }) => item);
}

describe("a large project", () => {
  const { job, end } = plantedProject(1, 30);

  it("of known best end is planned whole, within a twentieth of it and never before it", () => {
    expect(job.tasks.length).toBeGreaterThan(700);
    const plan = sound(job);
    expect(plan.unplaced).toEqual([]);
    expect(plan.bound).toBeLessThanOrEqual(end);
    expect(plan.bound).toBeGreaterThan(end * 0.98);
    expect(plan.end).toBeGreaterThanOrEqual(end);
    expect(plan.end).toBeLessThanOrEqual(end * 1.05);
  });

  it("tells its progress, rising to 1", () => {
    const shares: number[] = [];
    solveProject(job, { progress: (share) => shares.push(share) });
    expect(shares.length).toBeGreaterThan(3);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
  });
});
