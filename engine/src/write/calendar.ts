/**
 * Events as a calendar file by RFC 5545: CRLF after every line, lines folded at 75 octets and never inside a
 * character, texts escaped, times in UTC. The name of the calendar is the NAME property of RFC 7986.
 */
import type { CalendarEvent } from "../sheet/lists.ts";

export interface CalendarOptions {
  /** The calendar's name; it also keeps two shows' events apart. */
  readonly name: string;
  /** When the file is made, RFC 3339 in UTC. The caller brings it, the engine has no clock. */
  readonly stamp: string;
}

/** The most octets of a line without its end (RFC 5545, 3.1). */
const LONGEST_LINE = 75;

/**
 * The whole file as text, to be written as UTF-8. The standard knows no calendar without a component: without events
 * the answer is "", and there is no file to write. An event that ends no later than it starts is written without an
 * end, as one at a moment. Throws for a time that is not RFC 3339 in UTC.
 */
export function writeCalendar(events: readonly CalendarEvent[], { name, stamp }: CalendarOptions): string {
  if (events.length === 0) return "";
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Cornerwise//Install//EN",
    "CALSCALE:GREGORIAN",
    `NAME:${escaped(name)}`,
    ...events.flatMap((event) => eventLines(event, { name, stamp })),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}

function eventLines(event: CalendarEvent, { name, stamp }: CalendarOptions): readonly string[] {
  const [start, end] = [utc(event.start), utc(event.end)];
  return [
    "BEGIN:VEVENT",
    `UID:${escaped(`${event.uid}@${slug(name)}`)}`,
    `DTSTAMP:${utc(stamp)}`,
    `DTSTART:${start}`,
    // Both are digits of one length, so they compare as they stand.
    ...(end > start ? [`DTEND:${end}`] : []),
    `SUMMARY:${escaped(event.summary)}`,
    ...(event.description === "" ? [] : [`DESCRIPTION:${escaped(event.description)}`]),
    "END:VEVENT",
  ];
}

/** "20270304T150000Z" for "2027-03-04T15:00:00Z" (RFC 5545, 3.3.5, form 2). */
function utc(instant: string): string {
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(?:\.\d+)?Z$/.test(instant))
    throw new Error(`not an RFC 3339 time in UTC: ${instant}`);
  return `${instant.slice(0, 19).replaceAll(/[-:]/g, "")}Z`;
}

/** Text as a value (RFC 5545, 3.3.11): backslash, semicolon and comma escaped, line ends as \n, other controls dropped. */
function escaped(text: string): string {
  return wellFormed(text)
    .replaceAll(/[\\;,]/g, (sign) => `\\${sign}`)
    .replaceAll(/\r\n|\r|\n/g, "\\n")
    .replaceAll(/(?!\t)\p{Cc}/gu, "");
}

/** The text without halves of characters, which have no place in UTF-8. */
function wellFormed(text: string): string {
  return text.replaceAll(/\p{Cs}/gu, "\uFFFD");
}

/** The name as an unbroken word of plain letters, percent signs for all others (RFC 3986). */
function slug(name: string): string {
  return encodeURIComponent(wellFormed(name).trim().toLowerCase()) || "show";
}

/** The line cut so that no part is longer than the standard allows; each further part begins with a space. */
function folded(line: string): string {
  const parts: string[] = [];
  let [part, octets] = ["", 0];
  for (const sign of line) {
    const size = octetsOf(sign);
    if (octets + size > LONGEST_LINE) {
      parts.push(part);
      [part, octets] = [" ", 1];
    }
    part += sign;
    octets += size;
  }
  return [...parts, part].join("\r\n");
}

/** Octets of one character in UTF-8 (RFC 3629). */
function octetsOf(sign: string): number {
  const point = sign.codePointAt(0) ?? 0;
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}
