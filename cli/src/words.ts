/** Reads the words given to options: dates and what a check bar measured. */
import { parseLength, type Units } from "@cornerwise/engine";
import { Refusal } from "./ending.ts";

/** 2 in, the check bar every sheet carries. mm. */
const BAR = 50.8;
/** A bar off by more than this was measured at the wrong place: no printer is. */
const MOST_OFF = 0.25;

const two = (value: number) => String(value).padStart(2, "0");

/** Today where this machine is, as an ISO date. */
export function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** "2026-11-25" as sheets print it: "25 Nov 2026". Throws a Refusal for what is no day of the calendar. */
export function printDate(iso: string): string {
  const day = new Date(`${iso}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(iso) || Number.isNaN(day.getTime()) || !day.toISOString().startsWith(iso))
    throw new Refusal(`"${iso}" is not a date: write it as 2026-11-25.`);
  const format = { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" } as const;
  return new Intl.DateTimeFormat("en-GB", format).format(day);
}

/** The factor for the next print from what the 2 in bar measured: wanted over measured; 1 where nobody measured. */
export function barFactor(measured: string | undefined, units: Units): number {
  if (measured === undefined) return 1;
  const length = parseLength(measured, units);
  if (!length.ok) throw new Refusal(`"${measured}" is not a length: ${length.reason}`);
  const factor = BAR / length.value;
  if (Math.abs(factor - 1) > MOST_OFF)
    throw new Refusal(`A bar of 2 in cannot measure ${measured}: measure the one marked 2 in, end to end.`);
  return factor;
}
