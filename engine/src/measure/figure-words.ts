/** How a figure of the room is lettered on a sheet: what rests on a guess or an assumption says so. */
import type { Units } from "../document/tables.ts";
import { ROUGH, SURE } from "../tolerances.ts";
import { printLength } from "../units/length.ts";

/** "12' 3\"", or "about 12' 3\"" where its doubt (one standard deviation, mm) makes it no measurement. */
export function figureWords(length: number, sd: number, units: Units): string {
  const words = printLength(length, units);
  return sd * SURE > ROUGH ? `about ${words}` : words;
}
