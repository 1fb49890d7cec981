/** A reading as the tape sheet writes it, lengths in the show's units. */
import type { Reading, Units } from "../document/tables.ts";
import { printAngle } from "../units/figures.ts";
import { printLength } from "../units/length.ts";

/** Corner names by id. */
export type CornerNames = ReadonlyMap<string, string>;

/** `A to C 29' 2"`, `angle B 90.2`, `height A 10' 2"`. A corner that is not there goes by its id. */
export function readingText(reading: Reading, names: CornerNames, units: Units): string {
  const from = names.get(reading.from) ?? reading.from;
  if (reading.kind === "angle") return `angle ${from} ${printAngle(reading.value)}`;
  if (reading.kind === "height") return `height ${from} ${printLength(reading.value, units)}`;
  const to = reading.to === undefined ? "?" : (names.get(reading.to) ?? reading.to);
  return `${from} to ${to} ${printLength(reading.value, units)}`;
}
