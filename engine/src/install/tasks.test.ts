import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { INSTALL_WORKS } from "../document/works.ts";
import { judgeProject } from "../solve/project-judge.ts";
import { installShow, type InstallShowWish } from "../testing/installed.ts";
import { PASTE_DRIES } from "../tolerances.ts";
import { createInstall, jobOf } from "./derive.ts";
import type { Installing, Task } from "./model.ts";
import { installTasks } from "./tasks.ts";

function tasksOf(wish: InstallShowWish): readonly Task[] {
  const { document, arrangements, making } = installShow(wish);
  return installTasks(document, arrangements, making);
}

function installOf(wish: InstallShowWish): Installing {
  const { document, arrangements, making } = installShow(wish);
  return createInstall()(document, arrangements, making);
}

/** All tasks a task waits for, near and far. */
function before(tasks: readonly Task[], id: string): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (one: string): void => {
    for (const { task } of tasks.find((other) => other.id === one)?.after ?? [])
      if (!found.has(task)) {
        found.add(task);
        visit(task);
      }
  };
  visit(id);
  return found;
}

const copies = fc.array(
  fc.record(
    {
      on: fc.constantFrom("p0.1", "p0.2", "p1.1", "p2.1", "p2.2", "p9.9"),
      up: fc.constantFrom(0, 2000),
      x: fc.integer({ min: 500, max: 5500 }),
    },
    { requiredKeys: ["x"] },
  ),
  { maxLength: 3 },
);

const piece = fc.record({
  layer: fc.constantFrom("furniture", "accessory", "fitting", "hung"),
  at: copies,
  mounts: fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 3 }),
});

/** Any small show, the weird ones too: things on each other in rings, on themselves, on nothing. */
const anyShow: fc.Arbitrary<InstallShowWish> = fc.record({
  pieces: fc.array(piece, { maxLength: 4 }),
  walls: fc.array(
    fc.record(
      {
        wall: fc.integer({ min: 0, max: 3 }),
        strips: fc.integer({ min: 0, max: 6 }),
        battens: fc.integer({ min: 0, max: 4 }),
        fixing: fc.constantFrom("pasted", "battens", "pins"),
        drying: fc.integer({ min: 1, max: 900 }),
      },
      { requiredKeys: ["wall", "strips"] },
    ),
    { maxLength: 3 },
  ),
  trims: fc.array(
    fc.record({
      kind: fc.constantFrom("base", "rail", "crown"),
      walls: fc.uniqueArray(fc.integer({ min: 0, max: 3 }), { maxLength: 4 }),
    }),
    { maxLength: 2 },
  ),
  floors: fc.array(
    fc.record({ panels: fc.integer({ min: 0, max: 9 }), border: fc.integer({ min: 0, max: 6 }) }),
    { maxLength: 2 },
  ),
  chores: fc.array(
    fc.record({ after: fc.constantFrom(...INSTALL_WORKS), minutes: fc.integer({ min: 1, max: 90 }) }),
    { maxLength: 4 },
  ),
  shifts: fc.constant([
    { start: "2027-03-04T09:00", end: "2027-03-04T21:00", people: 3 },
    { start: "2027-03-05T09:00", end: "2027-03-05T21:00", people: 2 },
  ]),
});

describe("tasks of any show", () => {
  it("wait only for tasks listed before them, have ids of their own, and say what made them", () => {
    fc.assert(
      fc.property(anyShow, (wish) => {
        const { document, arrangements, making } = installShow(wish);
        const tasks = installTasks(document, arrangements, making);
        const seen = new Set<string>();
        for (const task of tasks) {
          for (const { task: other, lag } of task.after) {
            expect(seen.has(other), `${task.id} waits for ${other}`).toBe(true);
            expect(lag).toBeGreaterThanOrEqual(0);
          }
          expect(seen.has(task.id)).toBe(false);
          seen.add(task.id);
          expect(task.because.length).toBeGreaterThan(0);
          for (const id of task.because)
            expect(
              Object.values(document).some((table) => Object.hasOwn(table, id)),
              id,
            ).toBe(true);
          expect(task.minutes).toBeGreaterThan(0);
        }
      }),
      { seed: 21, numRuns: 400 },
    );
  });

  it("hold every placed and mounted copy once, and every strip and panel of the making", () => {
    fc.assert(
      fc.property(anyShow, (wish) => {
        const { document, arrangements, making } = installShow(wish);
        const tasks = installTasks(document, arrangements, making);
        const made = tasks.flatMap(({ because }) => because);
        const set = tasks.filter(({ work }) => ["furniture", "hung", "accessory", "fitting"].includes(work));
        const held = set.flatMap(({ because }) => because.slice(1)).toSorted();
        expect(held).toEqual(
          [...Object.keys(document.placements), ...Object.keys(document.mounts)].toSorted(),
        );
        for (const { covering, strips } of making.walls)
          expect(made.includes(covering.id)).toBe(
            strips.length > 0 ||
              making.walls.some((work) => work.covering.id === covering.id && work.battens.length > 0),
          );
        for (const { covering } of making.floors) expect(made).toContain(covering.id);
      }),
      { seed: 22, numRuns: 300 },
    );
  });

  it("lose exactly a piece's own when the piece goes", () => {
    fc.assert(
      fc.property(anyShow, fc.nat(3), (wish, at) => {
        const pieces = wish.pieces ?? [];
        if (pieces.length === 0) return;
        const gone = at % pieces.length;
        // Nothing may stand on what goes, else the copies on it go with it or change hands.
        const plain = {
          ...wish,
          pieces: pieces.map((one) => ({ ...one, at: (one.at ?? []).map(({ on: _on, ...said }) => said) })),
        };
        const without = {
          ...plain,
          pieces: plain.pieces.map((one, index) => (index === gone ? { ...one, at: [], mounts: [] } : one)),
        };
        const [all, left] = [tasksOf(plain), tasksOf(without)];
        const own = all.filter(({ because }) => because[0] === `p${gone}`).map(({ id }) => id);
        const lost = all.filter(({ id }) => !left.some((task) => task.id === id)).map(({ id }) => id);
        const body = left.length > 0;
        if (body) expect(lost.filter((id) => id !== "set out~room")).toEqual(own);
        expect(left.filter(({ id }) => !all.some((task) => task.id === id))).toEqual([]);
        for (const task of left.filter(({ work }) => work !== "set out"))
          expect({ ...task, after: [] }).toEqual({ ...all.find(({ id }) => id === task.id), after: [] });
      }),
      { seed: 23, numRuns: 300 },
    );
  });

  it("find times that two judges accept, one of them of this test", () => {
    fc.assert(
      fc.property(anyShow, (wish) => {
        const { tasks, times, shifts, unplaced, end, bound } = installOf(wish);
        const plan = { times: times.map((time) => ({ ...time, id: time.task })), unplaced, end, bound };
        if (shifts.length > 0 && tasks.length > 0)
          expect(judgeProject(jobOf(tasks, shifts), plan)).toEqual([]);
        expect([...times.map(({ task }) => task), ...unplaced].toSorted()).toEqual(
          tasks.map(({ id }) => id).toSorted(),
        );
        const at = new Map(times.map((time) => [time.task, time]));
        for (const task of tasks) {
          const time = at.get(task.id);
          if (!time) continue;
          const worked = time.spans.reduce((sum, { from, to }) => sum + to - from, 0);
          expect(worked).toBeCloseTo(task.minutes, 6);
          for (const span of time.spans) {
            const open = shifts.find(({ shift }) => shift.id === span.shift)!;
            expect(span.from >= open.from && span.to <= open.to && open.shift.people >= task.people).toBe(
              true,
            );
          }
          for (const wait of task.after)
            expect(time.start).toBeGreaterThanOrEqual((at.get(wait.task)?.end ?? Infinity) + wait.lag - 1e-6);
        }
        for (const { from } of times.flatMap(({ spans }) => spans)) {
          const busy = times
            .filter(({ spans }) => spans.some((span) => span.from <= from && from < span.to))
            .reduce((sum, { task }) => sum + tasks.find(({ id }) => id === task)!.people, 0);
          expect(busy).toBeLessThanOrEqual(
            shifts.find((open) => open.from <= from && from < open.to)!.shift.people,
          );
        }
        expect(bound).toBeLessThanOrEqual(end);
      }),
      { seed: 24, numRuns: 25 },
    );
  });
});

describe("the trade's order", () => {
  const wish: InstallShowWish = {
    walls: [
      { wall: 0, strips: 9, fixing: "pasted" },
      { wall: 2, strips: 4, battens: 2 },
    ],
    trims: [{ kind: "base", walls: [0, 1, 2, 3] }],
    floors: [{ panels: 12, border: 4 }],
    pieces: [
      { name: "Bench", at: [{ x: 1000 }, { x: 2000 }] },
      { name: "Bell", layer: "hung", at: [{ up: 2000 }] },
      { name: "Urn", layer: "accessory", at: [{ on: "p0.1" }] },
      { name: "Lid", layer: "accessory", at: [{ on: "p2.1" }] },
      { name: "Hook", layer: "fitting", mounts: [0, 0, 0, 1] },
    ],
    chores: [
      { name: "Lights", after: "hung" },
      { name: "Labels", after: "chore" },
      { name: "Party", after: "sign off" },
    ],
    rates: [{ work: "strip", minutes: 20, people: 2 }],
  };
  const tasks = tasksOf(wish);
  const named = (name: string): Task => tasks.find((task) => task.name === name)!;
  const waitsFor = (later: string, earlier: string): boolean =>
    before(tasks, named(later).id).has(named(earlier).id);

  it("runs from receiving to signing off", () => {
    expect(tasks.map(({ name }) => name)).toEqual([
      "Receive and check",
      "Protect the floor",
      "Photograph the bare walls",
      "Set out 9 marks",
      "Hang A-B, strips 1 to 9",
      "Fix battens on C-D",
      "Hang C-D, strips 1 to 4",
      "Fix base trim on A-B",
      "Fix base trim on B-C",
      "Fix base trim on C-D",
      "Fix base trim on D-A",
      "Lay Floor 0",
      "Set up Bench 1 and 2",
      "Hang Bell",
      "Put in place Urn",
      "Put in place Lid, layer 2",
      "Fix Hook 1 to 3 on A-B",
      "Fix Hook 4 on B-C",
      "Lights",
      "Labels",
      "Clean",
      "Walk round with the venue and sign off",
      "Party",
    ]);
  });

  it("lets only what is fixed over the paper wait for the paste", () => {
    const strip = named("Hang A-B, strips 1 to 9").id;
    const lags = tasks.flatMap(({ name, after }) =>
      after.filter(({ task, lag }) => task === strip && lag > 0).map(({ lag }) => [name, lag]),
    );
    expect(lags).toEqual([
      ["Fix base trim on A-B", PASTE_DRIES],
      ["Fix Hook 1 to 3 on A-B", PASTE_DRIES],
    ]);
  });

  it("waits as long as somebody said", () => {
    const said = tasksOf({
      walls: [{ wall: 0, strips: 2, fixing: "pasted", drying: 200 }],
      trims: [{ kind: "rail", walls: [0] }],
    });
    expect(said.find(({ work }) => work === "trim")?.after.map(({ lag }) => lag)).toEqual([200]);
  });

  it("puts battens before strips, trim before the floor, the floor before furniture, what carries before what is carried", () => {
    expect(waitsFor("Hang C-D, strips 1 to 4", "Fix battens on C-D")).toBe(true);
    expect(waitsFor("Lay Floor 0", "Fix base trim on D-A")).toBe(true);
    expect(waitsFor("Set up Bench 1 and 2", "Lay Floor 0")).toBe(true);
    expect(waitsFor("Put in place Urn", "Set up Bench 1 and 2")).toBe(true);
    expect(waitsFor("Put in place Lid, layer 2", "Put in place Urn")).toBe(true);
    expect(waitsFor("Fix Hook 4 on B-C", "Set up Bench 1 and 2")).toBe(true);
    expect(waitsFor("Labels", "Lights")).toBe(true);
    expect(waitsFor("Clean", "Labels")).toBe(true);
    expect(waitsFor("Party", "Walk round with the venue and sign off")).toBe(true);
    // Two walls are two fronts.
    expect(waitsFor("Hang C-D, strips 1 to 4", "Hang A-B, strips 1 to 9")).toBe(false);
  });

  it("takes the person's own rate and says so", () => {
    // 9 strips at 20 minutes.
    expect(named("Hang A-B, strips 1 to 9")).toMatchObject({
      minutes: 180,
      people: 2,
      own: true,
      why: "9 strips at 20 min",
    });
    expect(named("Set up Bench 1 and 2").own).toBe(false);
  });

  it("has no task in a room with nothing to put up", () => {
    expect(tasksOf({})).toEqual([]);
  });

  it("plans by the shifts: long work may rest, what hangs may not", () => {
    const { document, arrangements, making } = installShow({
      ...wish,
      shifts: [{ start: "2027-03-04T09:00", end: "2027-03-04T21:00" }],
    });
    const { tasks: all, shifts } = createInstall()(document, arrangements, making);
    const whole = new Map(jobOf(all, shifts).tasks.map((task) => [task.id, task.whole]));
    expect(whole.get(named("Hang A-B, strips 1 to 9").id)).toBe(false);
    expect(whole.get(named("Hang Bell").id)).toBe(true);
  });
});

describe("the memory of the install", () => {
  const shifts = [{ start: "2027-03-04T09:00", end: "2027-03-04T21:00" }];

  it("does not plan again when a piece is only moved", () => {
    const install = createInstall();
    const one = installShow({ shifts, pieces: [{ at: [{ x: 1000 }] }] });
    const two = installShow({ shifts, pieces: [{ at: [{ x: 2000 }] }] });
    const first = install(one.document, one.arrangements, one.making);
    const second = install(two.document, two.arrangements, two.making);
    expect(second.times).toBe(first.times);
    expect(second.setOuts[0]?.marks[0]?.tapes).not.toEqual(first.setOuts[0]?.marks[0]?.tapes);
    expect(install(two.document, two.arrangements, two.making)).toBe(second);
  });

  it("answers as one without a memory would, whatever came before", () => {
    const install = createInstall();
    fc.assert(
      fc.property(anyShow, (wish) => {
        const { document, arrangements, making } = installShow(wish);
        expect(install(document, arrangements, making)).toEqual(
          createInstall()(document, arrangements, making),
        );
      }),
      { seed: 25, numRuns: 10 },
    );
  });
});
