/**
 * The hours the venue gives, as instants. A shift is said on the venue's own clock; its zone says what that clock
 * shows at an instant, so that a night in which the clock is set forward is an hour shorter. A time that a change
 * of clock leaves out is taken as later by what it leaves out; one that comes twice is its first (RFC 5545, 3.3.5).
 * Source of the zones: IANA Time Zone Database, as the platform has it.
 */
import { Temporal } from "temporal-polyfill";
import { listed, showOf, type Shift, type ShowDocument } from "../document/tables.ts";
import type { OpenShift } from "./model.ts";

/** The shifts that open, in order of time, and what is wrong with the others. */
export interface Access {
  /** The zone times are taken in: the show's, or UTC where it has none that is known. */
  readonly zone: string;
  readonly zoneKnown: boolean;
  readonly shifts: readonly OpenShift[];
  readonly faults: readonly ShiftFault[];
}

/** A shift that cannot be worked as it was said. `minutes`: how long it would be, or how long two share. */
export type ShiftFault =
  | { readonly kind: "never opens"; readonly shift: Shift; readonly minutes: number }
  | { readonly kind: "no crew"; readonly shift: Shift }
  | { readonly kind: "overlap"; readonly shift: Shift; readonly with: Shift; readonly minutes: number };

const MINUTE = 60_000;

/**
 * Access of a document. Left out are shifts that end no later than they begin, those nobody comes to, and what of a
 * shift overlaps an earlier one. Never throws for data.
 */
export function accessOf(document: ShowDocument): Access {
  const { zone, known } = zoneOf(showOf(document).zone);
  const timed = listed(document.shifts).map((shift) => timedOf(shift, zone));
  const never = timed
    .filter(({ from, to }) => to <= from)
    .map(({ shift, from, to }): ShiftFault => ({
      kind: "never opens",
      shift,
      minutes: (to - from) / MINUTE,
    }));
  const real = timed.filter(({ from, to }) => to > from);
  const empty = real
    .filter(({ shift }) => shift.people === 0)
    .map(({ shift }): ShiftFault => ({ kind: "no crew", shift }));
  const { kept, faults } = oneAfterAnother(real.filter(({ shift }) => shift.people > 0));
  const start = kept[0]?.from ?? 0;
  return {
    zone,
    zoneKnown: known,
    shifts: kept.map((one) => openShift(one, start)),
    faults: [...never, ...empty, ...faults],
  };
}

/** The zone if the platform knows it, else UTC. */
export function zoneOf(said: string): { readonly zone: string; readonly known: boolean } {
  if (said === "") return { zone: "UTC", known: false };
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(said);
    return { zone: said, known: true };
  } catch {
    return { zone: "UTC", known: false };
  }
}

/** The instant of a time on the clock of a zone, milliseconds since 1970. */
export function instantOf(local: string, zone: string): number {
  return Temporal.PlainDateTime.from(local).toZonedDateTime(zone, { disambiguation: "compatible" })
    .epochMilliseconds;
}

/** The end of a day, that is the start of the next, in milliseconds since 1970. */
export function endOfDay(date: string, zone: string): number {
  return Temporal.PlainDate.from(date).add({ days: 1 }).toZonedDateTime(zone).epochMilliseconds;
}

interface Timed {
  readonly shift: Shift;
  /** Milliseconds since 1970. */
  readonly from: number;
  readonly to: number;
}

function timedOf(shift: Shift, zone: string): Timed {
  return { shift, from: instantOf(shift.start, zone), to: instantOf(shift.end, zone) };
}

/** The shifts by their start, each cut to begin when all before it have ended. */
function oneAfterAnother(timed: readonly Timed[]): {
  readonly kept: readonly Timed[];
  readonly faults: readonly ShiftFault[];
} {
  const kept: Timed[] = [];
  const faults: ShiftFault[] = [];
  for (const one of timed.toSorted((a, b) => a.from - b.from || a.to - b.to)) {
    const before = kept.at(-1);
    const shared = before ? Math.min(before.to, one.to) - one.from : 0;
    if (before && shared > 0)
      faults.push({ kind: "overlap", shift: one.shift, with: before.shift, minutes: shared / MINUTE });
    const from = Math.max(one.from, before?.to ?? one.from);
    if (one.to > from) kept.push({ ...one, from });
  }
  return { kept, faults };
}

function openShift({ shift, from, to }: Timed, start: number): OpenShift {
  return {
    shift,
    from: (from - start) / MINUTE,
    to: (to - start) / MINUTE,
    startsAt: instantText(from),
    endsAt: instantText(to),
  };
}

/** Milliseconds since 1970 of an RFC 3339 instant. */
export function momentOf(instant: string): number {
  return Temporal.Instant.from(instant).epochMilliseconds;
}

/** RFC 3339 in UTC, whole seconds. */
export function instantText(milliseconds: number): string {
  return Temporal.Instant.fromEpochMilliseconds(milliseconds).toString({ smallestUnit: "second" });
}
