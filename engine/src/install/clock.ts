/**
 * Times as a crew reads them: on the venue's own clock, 24 hours, days in plain English words. Nothing here asks
 * what time it is or where the reader sits.
 */
import { Temporal } from "temporal-polyfill";
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { Installing } from "./model.ts";
import { instantText, zoneOf } from "./shifts.ts";

/** A moment on the venue's clock. */
export interface VenueTime {
  /** "2027-03-04" */
  readonly date: string;
  /** "09:00" */
  readonly clock: string;
  /** "Thursday 4 March 2027" */
  readonly day: string;
  /** RFC 3339 in UTC. */
  readonly instant: string;
  /** Minutes of the clock after the last full hour. */
  readonly pastHour: number;
}

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;
const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

/** Answers minutes since the first shift's start with the moment on the venue's clock; undefined where no shift opens. */
export function venueClock(
  installing: Pick<Installing, "shifts">,
  document: ShowDocument,
): ((minutes: number) => VenueTime) | undefined {
  const first = installing.shifts[0];
  if (!first) return undefined;
  const { zone } = zoneOf(showOf(document).zone);
  const start = Temporal.Instant.from(first.startsAt).epochMilliseconds;
  return (minutes) => venueTime(start + minutes * 60_000, zone);
}

function venueTime(milliseconds: number, zone: string): VenueTime {
  const there = Temporal.Instant.fromEpochMilliseconds(Math.round(milliseconds)).toZonedDateTimeISO(zone);
  return {
    date: there.toPlainDate().toString(),
    clock: there.toPlainTime().toString({ smallestUnit: "minute" }),
    day: dayWords(there.toPlainDate().toString()),
    instant: instantText(Math.round(milliseconds)),
    pastHour: there.minute,
  };
}

/** "Thursday 4 March 2027" for "2027-03-04". */
export function dayWords(date: string): string {
  const { dayOfWeek, day, month, year } = Temporal.PlainDate.from(date);
  return `${DAYS[dayOfWeek - 1]} ${day} ${MONTHS[month - 1]} ${year}`;
}

/** "America/Chicago time", or what is taken where the show names no zone that is known. */
export function zoneWords(document: ShowDocument): string {
  const { zone, known } = zoneOf(showOf(document).zone);
  return known ? `${zone} time` : "the venue's clock, its time zone not said";
}
