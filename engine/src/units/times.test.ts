import * as fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { dayAfter, exactSpan, scanClock, scanDay, scanSpan } from "./times.ts";

const span = (text: string) => {
  const found = scanSpan(text, 0);
  return found.ok && found.end === text.length ? found.value : undefined;
};
const clock = (text: string) => {
  const found = scanClock(text, 0);
  return found.ok && found.end === text.length ? found.clock : undefined;
};

describe("times as people write them", () => {
  it("read as minutes, and read back as they are written", () => {
    const said = ["25 min", "12 h", "1 h 30 min", "2 days", "1.5 hours", "0,5 h", "90 minutes", "3 hrs"];
    expect(said.map(span)).toEqual([25, 720, 90, 2880, 90, 30, 90, 180]);
    expect(["25", "0 min", "25 min 30 min", "min", "1 h 30"].map(span)).toEqual(Array(5).fill(undefined));
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (minutes) => {
        expect(span(exactSpan(minutes))).toBe(minutes);
      }),
      { seed: 24, numRuns: 500 },
    );
  });

  it("read as a time of day on both kinds of clock", () => {
    const said = ["9:00", "21:30", "6", "12 am", "12 pm", "9 pm", "24:00", "7.15"];
    expect(said.map(clock)).toEqual(["09:00", "21:30", "06:00", "00:00", "12:00", "21:00", "00:00", "07:15"]);
    expect(["25:00", "24:30", "13 pm", "9:60", "noon"].map(clock)).toEqual(Array(5).fill(undefined));
  });

  it("know the Gregorian calendar as a date library not ours does", () => {
    const first = Temporal.PlainDate.from("1899-12-31");
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 90_000 }), fc.integer({ min: -800, max: 800 }), (from, days) => {
        const day = first.add({ days: from });
        expect(dayAfter(day.toString(), days)).toBe(day.add({ days }).toString());
        expect(scanDay(day.toString(), 0)).toMatchObject({ ok: true, day: day.toString() });
      }),
      { seed: 25, numRuns: 500 },
    );
    for (const none of ["2027-02-29", "2100-02-29", "2027-04-31", "2027-13-01", "2027-00-10", "27-03-04"]) {
      expect(scanDay(none, 0).ok, none).toBe(false);
    }
  });
});
