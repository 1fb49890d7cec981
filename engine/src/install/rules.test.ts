import { describe, expect, it } from "vitest";
import { ruleOf, type RuleId } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { installShow, type InstallShowWish } from "../testing/installed.ts";
import { createInstall } from "./derive.ts";
import { installSnags } from "./rules.ts";

function snagsOf(wish: InstallShowWish): readonly Snag[] {
  const { document, arrangements, making } = installShow(wish);
  return installSnags(createInstall()(document, arrangements, making), arrangements, document);
}

const fired = (rule: RuleId, wish: InstallShowWish): Snag | undefined =>
  snagsOf(wish).find((snag) => snag.rule === rule);

/** One chore and the six tasks about it that every room has, all by one person: so many minutes in one line. */
const MINUTES = { receive: 10, protect: 10, record: 10, clean: 10, "sign off": 10 } as const;
const inLine = (minutes: number): InstallShowWish => ({
  chores: [{ after: "record", minutes: minutes - 50, people: 1 }],
  rates: Object.entries(MINUTES).map(([work, each]) => ({
    work: work as keyof typeof MINUTES,
    minutes: each,
    people: 1,
  })),
});
const NINE_TO_TWELVE = [{ start: "2027-03-04T09:00", end: "2027-03-04T12:00" }];

const openUntil = (end: string) =>
  fired("shift-never-opens", { shifts: [{ start: "2027-03-04T09:00", end }] });

const crewOf = (people: number) => fired("no-crew", { shifts: [{ ...NINE_TO_TWELVE[0]!, people }] });

const secondFrom = (start: string) =>
  fired("shifts-overlap", { shifts: [...NINE_TO_TWELVE, { start, end: "2027-03-04T18:00" }] });

const taskByThree = (people: number) =>
  fired("crew-too-small", {
    ...inLine(60),
    chores: [{ after: "record", minutes: 10, people: 3 }],
    shifts: [{ ...NINE_TO_TWELVE[0]!, people }],
  });

const jobOf = (minutes: number) =>
  fired("job-longer-than-access", { ...inLine(minutes), shifts: NINE_TO_TWELVE });

const doneWithin = (minutes: number) =>
  fired("opens-before-done", {
    ...inLine(minutes),
    shifts: [{ start: "2027-03-04T22:00", end: "2027-03-05T06:00" }],
    show: { opens: "2027-03-04" },
  });

const doneInSpring = (minutes: number) =>
  fired("opens-before-done", {
    ...inLine(minutes),
    shifts: [{ start: "2027-03-13T23:00", end: "2027-03-15T06:00" }],
    show: { opens: "2027-03-14", zone: "America/Chicago" },
  });

describe("the hours", () => {
  it("are asked for where there is work and no shift", () => {
    expect(fired("no-access", inLine(60))?.level).toBe("mind");
    expect(fired("no-access", { ...inLine(60), shifts: NINE_TO_TWELVE })).toBeUndefined();
    expect(snagsOf({})).toEqual([]);
  });

  it("want a time zone that is known", () => {
    const inZone = (zone: string) =>
      fired("zone-unknown", { ...inLine(60), shifts: NINE_TO_TWELVE, show: { zone } });
    expect(inZone("")?.sentence).toContain("Nobody has said");
    expect(inZone("Mars/Olympus")?.sentence).toContain("Mars/Olympus");
    expect(inZone("America/Chicago")).toBeUndefined();
    expect(fired("zone-unknown", { show: { zone: "" } })).toBeUndefined();
  });

  it("stop where a shift ends no later than it begins, by the minute", () => {
    expect(openUntil("2027-03-04T08:59")).toMatchObject({
      level: "stop",
      measured: -1,
      wanted: 1,
      things: ["s0"],
    });
    expect(openUntil("2027-03-04T09:00")).toMatchObject({ measured: 0 });
    expect(openUntil("2027-03-04T09:01")).toBeUndefined();
  });

  it("stop where nobody comes", () => {
    expect(crewOf(0)).toMatchObject({ level: "stop", measured: 0, wanted: 1 });
    expect(crewOf(1)).toBeUndefined();
  });

  it("stop where two shifts share a minute", () => {
    expect(secondFrom("2027-03-04T11:59")).toMatchObject({
      level: "stop",
      measured: 1,
      wanted: 0,
      things: ["s1", "s0"],
    });
    expect(secondFrom("2027-03-04T12:00")).toBeUndefined();
    expect(secondFrom("2027-03-04T12:01")).toBeUndefined();
  });

  it("stop where a task takes more people than ever come at once", () => {
    expect(taskByThree(2)).toMatchObject({ level: "stop", measured: 2, wanted: 3, things: ["h0"] });
    expect(taskByThree(3)).toBeUndefined();
    expect(taskByThree(4)).toBeUndefined();
  });

  it("stop where the job is longer than they are, by the minute", () => {
    expect(jobOf(179)).toBeUndefined();
    expect(jobOf(180)).toBeUndefined();
    expect(jobOf(181)).toMatchObject({ level: "stop", measured: 181, wanted: 180 });
  });

  it("count a night between two shifts for neither", () => {
    const shifts = [...NINE_TO_TWELVE, { start: "2027-03-05T09:00", end: "2027-03-05T10:00" }];
    // The chore may rest over night, so four hours of work fit into three and one.
    expect(fired("job-longer-than-access", { ...inLine(240), shifts })).toBeUndefined();
    expect(fired("job-longer-than-access", { ...inLine(241), shifts })).toMatchObject({
      measured: 241,
      wanted: 240,
    });
  });

  it("stop where the work is done after the day of opening, by the minute", () => {
    expect(doneWithin(119)).toBeUndefined();
    expect(doneWithin(120)).toBeUndefined();
    expect(doneWithin(121)).toMatchObject({
      level: "stop",
      measured: 121,
      wanted: 120,
      things: ["show", "s0"],
    });
  });

  it("end the day of opening on the venue's clock, also when the clock is changed that day", () => {
    // IANA Time Zone Database: 2027-03-14 has 23 hours in Chicago, so it ends 24 h after 23:00 of the day before.
    expect(doneInSpring(24 * 60)).toBeUndefined();
    expect(doneInSpring(24 * 60 + 1)).toMatchObject({ wanted: 24 * 60 });
  });
});

// A three-cornered room: on its middle line A and B, 6 m apart, are seen at 60 degrees √3 · 3000 mm out (an equilateral
// triangle), and A and C at half of that.
const far = Math.sqrt(3) * 3000;
const markOut = (out: number) =>
  fired("tapes-cross-flat", {
    corners: [
      [0, 0],
      [6000, 0],
      [3000, -8000],
    ],
    pieces: [{ round: true, at: [{ x: 3000, y: -out }] }],
  });

describe("arcs that cross flat", () => {
  it("are minded under 60 degrees for the best two corners, and not over", () => {
    expect(markOut(far - 1)).toBeUndefined();
    expect(markOut(far + 1)).toMatchObject({ level: "mind", wanted: 60, room: "room", things: ["p0.1"] });
    expect(markOut(far + 1)?.measured).toBeCloseTo(60, 1);
    expect(markOut(far + 1)?.measured).toBeLessThan(60);
  });
});

describe("every rule of the install", () => {
  it("says its unit where its figures are no lengths", () => {
    for (const rule of [
      "shift-never-opens",
      "shifts-overlap",
      "job-longer-than-access",
      "opens-before-done",
    ] as const)
      expect(ruleOf(rule).unit).toBe("minutes");
    expect(ruleOf("tapes-cross-flat").unit).toBe("degrees");
    expect(ruleOf("no-crew").unit).toBe("none");
  });
});
