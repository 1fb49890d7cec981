import * as fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import type { CalendarEvent } from "../sheet/lists.ts";
import { writeCalendar } from "./calendar.ts";

const OPTIONS = { name: "Night Ferry", stamp: "2026-11-25T12:00:00Z" };
const EVENT: CalendarEvent = {
  uid: "strip~w0",
  start: "2027-03-04T15:00:00Z",
  end: "2027-03-04T18:45:00Z",
  summary: "Hang A-B, strips 1 to 9",
  description: "Waiting room\n2 people",
};

/** Physical lines, which must all end in CRLF. */
function linesOf(text: string): readonly string[] {
  expect(text.endsWith("\r\n")).toBe(true);
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  return text.slice(0, -2).split("\r\n");
}

const events = (text: string) =>
  new ICAL.Component(ICAL.parse(text) as unknown[])
    .getAllSubcomponents("vevent")
    .map((component) => new ICAL.Event(component));

const printed = (said: string) => said.replaceAll(/\r\n|\r/g, "\n").replaceAll(/(?![\t\n])\p{Cc}/gu, "");

describe("a calendar file", () => {
  it("reads back with a library that did not write it", () => {
    const text = writeCalendar([EVENT], OPTIONS);
    const [event] = events(text);
    expect(event?.uid).toBe("strip~w0@night%20ferry");
    expect(event?.summary).toBe(EVENT.summary);
    expect(event?.description).toBe(EVENT.description);
    expect(event?.startDate.toJSDate().toISOString()).toBe("2027-03-04T15:00:00.000Z");
    expect(event?.endDate.toJSDate().toISOString()).toBe("2027-03-04T18:45:00.000Z");
    expect(event?.startDate.zone.tzid).toBe("UTC");
  });

  it("has the properties the standard requires, once each, where they belong", () => {
    // RFC 5545, 3.6 and 3.6.1: VERSION and PRODID; UID and DTSTAMP in every event.
    const lines = linesOf(writeCalendar([EVENT], OPTIONS));
    expect(lines[0]).toBe("BEGIN:VCALENDAR");
    expect(lines.at(-1)).toBe("END:VCALENDAR");
    for (const start of [
      "VERSION:2.0",
      "PRODID:",
      "UID:",
      "DTSTAMP:20261125T120000Z",
      "DTSTART:20270304T150000Z",
    ])
      expect(
        lines.filter((line) => line.startsWith(start)),
        start,
      ).toHaveLength(1);
  });

  it("escapes text as the standard does", () => {
    // RFC 5545, 3.3.11: backslash, semicolon, comma and line end are escaped; a colon and a quote are not.
    const text = writeCalendar([{ ...EVENT, summary: 'Room A; wall, north\\south\nline 2: "x"' }], OPTIONS);
    expect(linesOf(text)).toContain('SUMMARY:Room A\\; wall\\, north\\\\south\\nline 2: "x"');
  });

  it("folds lines at 75 octets, and unfolding gives the line back", () => {
    // RFC 5545, 3.1.
    const description = "This is a long description that exists on a long line. ".repeat(9).trim();
    const lines = linesOf(writeCalendar([{ ...EVENT, description }], OPTIONS));
    for (const line of lines) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(lines.some((line) => new TextEncoder().encode(line).length === 75)).toBe(true);
    expect(lines.join("\r\n").replaceAll(/\r\n[ \t]/g, "")).toContain(`DESCRIPTION:${description}`);
  });

  it("never splits a character: any text reads back, each line is UTF-8 by itself and short enough", () => {
    const sign = fc.oneof(
      fc.constantFrom("é", "ß", "船", "🚢", "👩‍🔧", "\u0301", ",", ";", "\\", "\n", '"', ":", " ", "\\n"),
      fc.string({ unit: "grapheme", minLength: 1, maxLength: 1 }),
    );
    const words = fc.array(sign, { maxLength: 90 }).map((signs) => signs.join(""));
    fc.assert(
      fc.property(words, words, (summary, description) => {
        const text = writeCalendar([{ ...EVENT, summary, description }], OPTIONS);
        for (const line of linesOf(text)) {
          const bytes = new TextEncoder().encode(line);
          expect(bytes.length).toBeLessThanOrEqual(75);
          expect(new TextDecoder("utf-8", { fatal: true }).decode(bytes)).toBe(line);
        }
        const [event] = events(text);
        expect(event?.summary ?? "").toBe(printed(summary));
        expect(event?.description ?? "").toBe(printed(description));
      }),
      { seed: 12, numRuns: 300 },
    );
  });

  it("lets no name break out of its line", () => {
    const text = writeCalendar([{ ...EVENT, summary: "a\r\nEND:VEVENT\r\nBEGIN:VALARM\u0007" }], {
      ...OPTIONS,
      name: "x\r\nMETHOD:CANCEL",
    });
    expect(linesOf(text).filter((line) => /^(?:METHOD|BEGIN:VALARM)/.test(line))).toEqual([]);
    expect(events(text)[0]?.summary).toBe("a\nEND:VEVENT\nBEGIN:VALARM");
  });

  it("is none without events, for the standard knows no empty calendar", () => {
    expect(writeCalendar([], OPTIONS)).toBe("");
  });

  it("gives no end to what ends when it starts", () => {
    expect(writeCalendar([{ ...EVENT, end: EVENT.start }], OPTIONS)).not.toContain("DTEND");
  });

  it("refuses a time that is not in UTC", () => {
    expect(() => writeCalendar([{ ...EVENT, start: "2027-03-04T15:00:00+01:00" }], OPTIONS)).toThrow(
      "+01:00",
    );
  });
});
