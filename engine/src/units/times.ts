/** Times in and out: how long something takes in minutes, and days and hours of the venue's own clock. */
import { plainDecimal } from "./length.ts";
import { folded } from "./scan.ts";
import type { Found, Refused } from "./scan.ts";

const SPAN =
  /(\d+(?:[.,]\d+)?) *(days?|hours?|hrs?|h|minutes?|mins?)(?![\p{L}])\.?(?: *(?:and )?(\d+) *(?:minutes?|mins?)(?![\p{L}])\.?)?/iuy;
const CLOCK = /([01]?\d|2[0-4])(?:[:.h]([0-5]\d))?(?: ?([ap])\.?m\.?)?(?![\p{L}\d])/iuy;
const DAY = /(\d{4})-(\d{2})-(\d{2})(?!\d)/y;

/** The longest that anything takes, in minutes: the document's own limit. */
const LONGEST = 1_000_000;

/** How long something takes, in minutes: `90 min`, `12 h`, `1 h 30 min`, `2 days`. More than nothing; never throws. */
export function scanSpan(text: string, start: number): Found | Refused {
  const plain = folded(text);
  const at = begin(plain, start);
  SPAN.lastIndex = at;
  const found = SPAN.exec(plain);
  if (found === null) return { ok: false, reason: "How long is said like 25 min, 12 h or 1 h 30 min.", at };
  const [all, amount = "", unit = "", more = "0"] = found;
  const each = unit.toLowerCase().startsWith("d") ? 1440 : unit.toLowerCase().startsWith("h") ? 60 : 1;
  // A second figure only follows hours or days: "25 min 30 min" leaves its end to be refused.
  const value = Number(amount.replace(",", ".")) * each + (each === 1 ? 0 : Number(more));
  if (value <= 0) return { ok: false, reason: "No time at all? Say how long it takes.", at };
  if (value > LONGEST)
    return { ok: false, reason: "That is longer than a year. Is a digit too many there?", at };
  const end =
    each === 1 && more !== "0"
      ? at + all.length - all.slice(all.search(unit) + unit.length).length
      : at + all.length;
  return { ok: true, value, end };
}

/** Minutes so that they read back as the very same number: `12 h` for whole hours, else `25 min`. */
export function exactSpan(minutes: number): string {
  return minutes % 60 === 0 && minutes > 0 ? `${minutes / 60} h` : `${plainDecimal(minutes)} min`;
}

/** A day, `2027-03-04` (ISO 8601), as it is written; refused where the calendar has no such day. Never throws. */
export function scanDay(
  text: string,
  start: number,
): { readonly ok: true; readonly day: string; readonly end: number } | Refused {
  const plain = folded(text);
  const at = begin(plain, start);
  DAY.lastIndex = at;
  const found = DAY.exec(plain);
  if (found === null) return { ok: false, reason: "A day is written year, month, day: 2027-03-04.", at };
  if (dayAfter(found[0], 0) !== found[0]) {
    return { ok: false, reason: `There is no day ${found[0]} in the calendar.`, at };
  }
  return { ok: true, day: found[0], end: at + found[0].length };
}

/** A time of day as `09:00`: `9:00`, `21:00`, `9 am`, `6`. `24:00` is read as the minute it names, `00:00`. Never throws. */
export function scanClock(
  text: string,
  start: number,
): { readonly ok: true; readonly clock: string; readonly end: number } | Refused {
  const plain = folded(text);
  const at = begin(plain, start);
  CLOCK.lastIndex = at;
  const found = CLOCK.exec(plain);
  const [all = "", hours = "", minutes = "00", half] = found ?? [];
  const said = Number(hours);
  const late = half?.toLowerCase() === "p";
  if (
    found === null ||
    (half !== undefined && (said < 1 || said > 12)) ||
    (said === 24 && minutes !== "00")
  ) {
    return { ok: false, reason: "A time of day is written like 9:00 or 21:30.", at };
  }
  const hour = half === undefined ? said % 24 : (said % 12) + (late ? 12 : 0);
  return { ok: true, clock: `${String(hour).padStart(2, "0")}:${minutes}`, end: at + all.length };
}

/** The day so many days after a day of the Gregorian calendar; both ISO 8601, years 0 to 9999. */
export function dayAfter(day: string, days: number): string {
  const [year = 0, month = 1, date = 1] = day.split("-").map(Number);
  const moved = new Date(0);
  // Years below 100 would be taken for years of the last century.
  moved.setUTCFullYear(year, month - 1, date + days);
  return moved.toISOString().slice(0, 10);
}

function begin(text: string, start: number): number {
  return start + Math.max(text.slice(start).search(/[^ ]/), 0);
}
