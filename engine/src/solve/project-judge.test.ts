import { describe, expect, it } from "vitest";
import { judgeProject } from "./project-judge.ts";
import type { ProjectJob, ProjectPlan } from "./project.ts";

/** Two days of two people with an evening of one between; all written by hand. */
const JOB: ProjectJob = {
  tasks: [
    { id: "lay", minutes: 100, people: 2, whole: false },
    { id: "lift", minutes: 30, people: 1, whole: true },
    { id: "dress", minutes: 20, people: 1, whole: false },
    { id: "crane", minutes: 10, people: 5, whole: false },
  ],
  links: [
    { before: "lay", after: "dress", lag: 15 },
    { before: "crane", after: "crane", lag: 0 },
  ],
  shifts: [
    { from: 0, to: 60, people: 2 },
    { from: 70, to: 110, people: 1 },
    { from: 200, to: 300, people: 2 },
  ],
};

const PLAN: ProjectPlan = {
  times: [
    {
      id: "lay",
      start: 0,
      end: 240,
      spans: [
        { from: 0, to: 60 },
        { from: 200, to: 240 },
      ],
    },
    { id: "lift", start: 75, end: 105, spans: [{ from: 75, to: 105 }] },
    { id: "dress", start: 255, end: 275, spans: [{ from: 255, to: 275 }] },
  ],
  end: 275,
  bound: 275,
  unplaced: ["crane"],
};

type Time = ProjectPlan["times"][number];

function withTime(id: string, change: Partial<Time>): ProjectPlan {
  return { ...PLAN, times: PLAN.times.map((time) => (time.id === id ? { ...time, ...change } : time)) };
}

function moved(id: string, ...spans: readonly (readonly [number, number])[]): ProjectPlan {
  const stretches = spans.map(([from, to]) => ({ from, to }));
  return withTime(id, { start: stretches[0]!.from, end: stretches.at(-1)!.to, spans: stretches });
}

/** Ten minutes from a start on. */
function at(id: string, start: number): Time {
  return { id, start, end: start + 10, spans: [{ from: start, to: start + 10 }] };
}

describe("the judge of projects", () => {
  it("has nothing to say of a sound plan", () => {
    expect(judgeProject(JOB, PLAN)).toEqual([]);
  });

  it.each<[string, ProjectPlan, RegExp]>([
    ["a task that is nowhere", { ...PLAN, unplaced: [] }, /crane is neither placed nor unplaced/],
    ["a task named twice", { ...PLAN, unplaced: ["crane", "lift"] }, /lift is named 2 times/],
    ["a task of no job", { ...PLAN, unplaced: ["crane", "nap"] }, /nap is no task/],
    ["a task without spans", withTime("lift", { spans: [] }), /lift is placed but has no span/],
    ["a start that is not its span's", withTime("lift", { start: 74 }), /lift starts at 74/],
    ["an end that is not its span's", withTime("lift", { end: 106 }), /lift ends at 106/],
    ["too little work", moved("lift", [75, 104]), /lift is worked on for 29 of 30/],
    ["too much work", moved("dress", [255, 276]), /dress is worked on for 21 of 20/],
    ["a whole task that rests", moved("lift", [100, 110], [200, 220]), /lift is to be done in one go/],
    [
      "a span that runs backwards",
      moved("dress", [265, 255], [255, 285]),
      /dress has a span from 265 to 255/,
    ],
    ["work outside the shifts", moved("lift", [65, 95]), /lift is worked on outside the shifts from 65/],
    ["a span over a shift's end", moved("lift", [45, 75]), /lift is worked on outside the shifts from 45/],
    ["too small a shift", moved("lay", [0, 60], [70, 110]), /lay needs 2 people from 70, and 1 are there/],
    ["idling inside a shift", moved("dress", [255, 265], [270, 280]), /dress idles from 265 to 270/],
    [
      "rest in a shift with people enough",
      moved("dress", [50, 60], [255, 265]),
      /dress idles from 60 to 255/,
    ],
    ["idling at a shift's opening", moved("lay", [0, 60], [210, 250]), /lay idles from 60 to 210/],
    ["too short a lag", moved("dress", [254, 274]), /dress starts 14 minutes after lay, and 15/],
    ["too many people at once", moved("lift", [30, 60]), /work for 3 people, and 2 are there/],
    ["a wrong end", { ...PLAN, end: 276 }, /said to end at 276/],
    ["a bound above the end", { ...PLAN, bound: 275.5 }, /bound 275.5 is later/],
    ["disorder", { ...PLAN, times: PLAN.times.toReversed() }, /lift is not in order of start/],
  ])("finds %s", (_, plan, fault) => {
    expect(judgeProject(JOB, plan)).toContainEqual(expect.stringMatching(fault));
  });

  it("finds a task placed though what it waits for is not", () => {
    const job = { ...JOB, links: [{ before: "crane", after: "dress", lag: 0 }] };
    expect(judgeProject(job, PLAN)).toEqual(["dress is placed, and crane, which it waits for, is not"]);
  });

  it("lets one task begin the minute another ends, and a crew be used to the last", () => {
    const job: ProjectJob = {
      tasks: ["a", "b", "c"].map((id) => ({ id, minutes: 10, people: 1, whole: true })),
      links: [{ before: "a", after: "c", lag: 0 }],
      shifts: [{ from: 0, to: 20, people: 2 }],
    };
    const plan = { times: [at("a", 0), at("b", 5), at("c", 10)], end: 20, bound: 10, unplaced: [] };
    expect(judgeProject(job, plan)).toEqual([]);
    expect(judgeProject(job, { ...plan, times: [at("a", 0), at("b", 5), at("c", 9)], end: 19 })).toHaveLength(
      2,
    );
  });
});
