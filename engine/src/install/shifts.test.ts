import { describe, expect, it } from "vitest";
import { installShow, type InstallShowWish } from "../testing/installed.ts";
import { dayWords } from "./clock.ts";
import { accessOf } from "./shifts.ts";

const access = (zone: string, shifts: InstallShowWish["shifts"] = []) =>
  accessOf(installShow({ shifts, show: { zone } }).document);
const lengths = (zone: string, start: string, end: string): readonly number[] =>
  access(zone, [{ start, end }]).shifts.map(({ from, to }) => to - from);

const faultsUntil = (end: string) =>
  access("UTC", [{ start: "2027-03-04T09:00", end }]).faults.map((fault) => [
    fault.kind,
    "minutes" in fault ? fault.minutes : 0,
  ]);

describe("shifts on the venue's clock", () => {
  // IANA Time Zone Database: rules US (second Sunday of March, first of November, 2:00) and EU (last Sundays of March and October, 1:00 UTC).
  it.each([
    ["America/Chicago", "2027-03-13T20:00", "2027-03-14T06:00", 9],
    ["America/Chicago", "2027-03-12T20:00", "2027-03-13T06:00", 10],
    ["America/Chicago", "2027-11-06T20:00", "2027-11-07T06:00", 11],
    ["Europe/Berlin", "2027-03-27T20:00", "2027-03-28T06:00", 9],
    ["Europe/Berlin", "2027-10-30T20:00", "2027-10-31T06:00", 11],
    ["Asia/Kolkata", "2027-03-27T20:00", "2027-03-28T06:00", 10],
    ["UTC", "2027-03-27T20:00", "2027-03-28T06:00", 10],
  ] as const)("in %s run from %s to %s for %i hours", (zone, start, end, hours) => {
    expect(lengths(zone, start, end)).toEqual([hours * 60]);
  });

  it("stand for instants in UTC: Chicago is 6 hours behind in winter, 5 in summer", () => {
    const [shift] = access("America/Chicago", [
      { start: "2027-03-13T20:00", end: "2027-03-14T06:00" },
    ]).shifts;
    expect([shift?.startsAt, shift?.endsAt]).toEqual(["2027-03-14T02:00:00Z", "2027-03-14T11:00:00Z"]);
  });

  it("take a time the clock leaves out as later, and one that comes twice as its first", () => {
    // RFC 5545, 3.3.5: a time in the gap is read with the offset before it; one that comes twice is the first.
    const gap = access("America/Chicago", [{ start: "2027-03-14T02:30", end: "2027-03-14T12:00" }]).shifts[0];
    expect(gap?.startsAt).toBe("2027-03-14T08:30:00Z");
    const twice = access("America/Chicago", [{ start: "2027-11-07T01:30", end: "2027-11-07T12:00" }])
      .shifts[0];
    expect(twice?.startsAt).toBe("2027-11-07T06:30:00Z");
  });

  it.each(["", "Mars/Olympus", "+-/", "America"])(
    "are taken as UTC where the zone %j is not known",
    (zone) => {
      const found = access(zone, [{ start: "2027-03-13T20:00", end: "2027-03-14T06:00" }]);
      expect([found.zone, found.zoneKnown, found.shifts[0]?.startsAt]).toEqual([
        "UTC",
        false,
        "2027-03-13T20:00:00Z",
      ]);
    },
  );

  it("never open where they end no later than they begin, by the minute", () => {
    expect(faultsUntil("2027-03-04T08:59")).toEqual([["never opens", -1]]);
    expect(faultsUntil("2027-03-04T09:00")).toEqual([["never opens", 0]]);
    expect(faultsUntil("2027-03-04T09:01")).toEqual([]);
  });

  it("begin when the one before ends, in order of time and not of saying", () => {
    const found = access("UTC", [
      { start: "2027-03-04T14:00", end: "2027-03-04T18:00" },
      { start: "2027-03-04T09:00", end: "2027-03-04T14:30" },
      { start: "2027-03-04T10:00", end: "2027-03-04T11:00" },
    ]);
    expect(found.shifts.map(({ shift, from, to }) => [shift.id, from, to])).toEqual([
      ["s1", 0, 330],
      ["s0", 330, 540],
    ]);
    expect(
      found.faults.map((fault) => [fault.kind, fault.shift.id, "minutes" in fault ? fault.minutes : 0]),
    ).toEqual([
      ["overlap", "s2", 60],
      ["overlap", "s0", 30],
    ]);
  });

  it("touch without sharing a minute", () => {
    const shifts = [{ start: "2027-03-04T09:00", end: "2027-03-04T14:00" }];
    const with2 = (start: string) =>
      access("UTC", [...shifts, { start, end: "2027-03-04T18:00" }]).faults.length;
    expect([with2("2027-03-04T13:59"), with2("2027-03-04T14:00"), with2("2027-03-04T14:01")]).toEqual([
      1, 0, 0,
    ]);
  });

  it("are left out where nobody comes, and say so", () => {
    const found = access("UTC", [{ start: "2027-03-04T09:00", end: "2027-03-04T14:00", people: 0 }]);
    expect(found.shifts).toEqual([]);
    expect(found.faults.map(({ kind }) => kind)).toEqual(["no crew"]);
  });
});

describe("days in words", () => {
  // 2000-01-01 was a Saturday, 2024-02-29 a Thursday (ISO 8601 calendar, any almanac).
  it.each([
    ["2000-01-01", "Saturday 1 January 2000"],
    ["2024-02-29", "Thursday 29 February 2024"],
    ["2027-03-14", "Sunday 14 March 2027"],
  ])("%s is %s", (date, words) => {
    expect(dayWords(date)).toBe(words);
  });
});
