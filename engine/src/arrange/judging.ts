/** What every rule of the stage judges by, and the small words they share. */
import { showOf, type Place, type ShowDocument, type Units } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { printLength } from "../units/length.ts";
import type { Arrangement } from "./model.ts";

export interface Judging {
  readonly arrangement: Arrangement;
  readonly document: ShowDocument;
  readonly place: Place;
  readonly units: Units;
  /** A length in the show's own style. */
  readonly print: (mm: number) => string;
}

export function judgingOf(arrangement: Arrangement, document: ShowDocument): Judging {
  const { place, units } = showOf(document);
  return { arrangement, document, place, units, print: (mm) => printLength(mm, units) };
}

/** The print grid rounds, and a mend must never fall short: the next whole step up. */
export function printAtLeast({ print, units }: Judging, mm: number): string {
  const step = units === "ft-in" || units === "in" ? 25.4 / 16 : 1;
  return print(Math.ceil(mm / step - 1e-6) * step);
}

/** How far to slide something by hand: the next whole quarter inch or 5 mm up. */
export function printSlide({ print, units }: Judging, mm: number): string {
  const step = units === "ft-in" || units === "in" ? 25.4 / 4 : 5;
  return print(Math.ceil(mm / step - 1e-6) * step);
}

/** First letter large, to open a sentence. */
export function opening(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function middleBetween([a, b]: readonly [Point, Point]): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}
