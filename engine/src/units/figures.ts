/** Angles, areas, weights and doubt: read and printed in plain words. Degrees, mm², kg, mm. */
import type { Parsed } from "./length.ts";
import { folded } from "./scan.ts";
import type { Found, Refused, UnitStyle } from "./scan.ts";

/** International foot and avoirdupois pound (exact by the 1959 agreement). */
const FOOT = 304.8;
const POUND = 0.45359237;

const ANGLE =
  /([-+]?) *(\d+(?:[.,]\d+)?|\.\d+)(?: *(?:°|º|(?:degrees?|degs?|d)(?![\p{L}])\.?)(?: *(\d+(?:\.\d+)?) *(?:'(?!')|min(?:utes?)?(?![\p{L}])\.?)(?: *(\d+(?:\.\d+)?) *(?:"|''|sec(?:onds?)?(?![\p{L}])\.?))?)?)?/iuy;

/**
 * Reads one angle and nothing else, in degrees: `90.2`, `90°`, `90.2 deg`, `89° 45'`, `89° 45' 30"`. From -360
 * to 360; minutes and seconds below 60. Never throws.
 */
export function parseAngle(text: string): Parsed {
  const found = text.length > 60 ? noAngle(0) : scanAngle(text, 0);
  if (!found.ok) return found;
  const rest = text.slice(found.end).search(/\S/);
  if (rest < 0) return { ok: true, value: found.value };
  const at = found.end + rest;
  return { ok: false, at, reason: `"${text.slice(at)}" is left over after the angle.` };
}

/** The angle that starts at `start` (leading spaces skipped), in degrees, and the place behind it. Never throws. */
export function scanAngle(text: string, start: number): Found | Refused {
  const plain = folded(text);
  const spaces = plain.slice(start).search(/[^ ]/);
  const at = start + Math.max(spaces, 0);
  ANGLE.lastIndex = at;
  const written = ANGLE.exec(plain);
  if (written === null) return noAngle(at);
  const [all, sign, whole = "", minutes = "0", seconds = "0"] = written;
  if (Number(minutes) >= 60 || Number(seconds) >= 60) {
    return { ok: false, reason: "Minutes and seconds of an angle stay below 60.", at };
  }
  const size = Number(whole.replace(",", ".")) + Number(minutes) / 60 + Number(seconds) / 3600;
  if (size > 360) return { ok: false, reason: "An angle stays within 360 degrees.", at };
  return { ok: true, value: sign === "-" && size !== 0 ? -size : size, end: at + all.length };
}

function noAngle(at: number): Refused {
  return { ok: false, reason: "An angle should stand here, like 90.2 or 89° 45'.", at };
}

/** An angle to a tenth of a degree: `90.2°`, `90°`. */
export function printAngle(degrees: number): string {
  const tenths = Math.round(degrees * 10);
  return `${tenths === 0 ? 0 : tenths / 10}°`;
}

/** An area: whole square feet (tenths below 10) or tenths of a square metre: `396 sq ft`, `36.8 m²`. */
export function printArea(mm2: number, units: UnitStyle): string {
  if (units === "ft-in" || units === "in") {
    const feet = mm2 / (FOOT * FOOT);
    return `${Math.abs(feet) < 10 ? tenth(feet) : Math.round(feet)} sq ft`;
  }
  return `${tenth(mm2 / 1e6)} m²`;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

const INCH_DOUBTS: readonly (readonly [number, string])[] = [
  [1 / 16, "1/16"],
  [1 / 8, "1/8"],
  [1 / 4, "1/4"],
  [1 / 2, "1/2"],
  [1, "1"],
];
const METRIC_DOUBTS = [1, 2, 5, 10, 20, 50, 100];

/**
 * How far a figure (mm, half-width) may be off, in plain words, rounded up to the next of 1/16, 1/8, 1/4, 1/2 and
 * whole inches, or 1, 2, 5, 10, 20, 50 mm and whole centimetres: `good to 1/4 in`, `good to 5 mm`. Zero gives the
 * finest step.
 */
export function printDoubt(mm: number, units: UnitStyle): string {
  // A hair of slack: a doubt of exactly 1/4 in must not be called 1/2 for a rounding in the last digit.
  const size = Math.abs(mm) - 1e-9;
  if (units === "ft-in" || units === "in") {
    const inch = size / 25.4;
    const named = INCH_DOUBTS.find(([limit]) => inch <= limit)?.[1];
    return `good to ${named ?? Math.ceil(inch)} in`;
  }
  const named = METRIC_DOUBTS.find((limit) => size <= limit);
  return `good to ${named ?? Math.ceil(size / 10) * 10} mm`;
}

const WEIGHT = /^ *(\d+(?:[.,]\d+)?) *(kg|kilos?|kilograms?|g|grams?|lbs?|pounds?|oz|ounces?)\.? *$/iu;

/** Reads one weight and nothing else, in kg: `40 lb`, `18 kg`, `500 g`, `8 oz`. More than nothing; never throws. */
export function parseWeight(text: string): Parsed {
  const written = text.length > 60 ? null : WEIGHT.exec(folded(text));
  if (written === null)
    return { ok: false, reason: "A weight should stand here, like 40 lb or 18 kg.", at: 0 };
  const [, amount = "", unit = ""] = written;
  const value = Number(amount.replace(",", ".")) * kilograms(unit.toLowerCase());
  const kept = Math.round(value * 1e6) / 1e6;
  if (kept <= 0) return { ok: false, reason: "A weight is more than nothing.", at: 0 };
  return { ok: true, value: unit.toLowerCase().startsWith("k") ? Number(amount.replace(",", ".")) : kept };
}

function kilograms(unit: string): number {
  if (unit.startsWith("k")) return 1;
  if (unit.startsWith("g")) return 0.001;
  return unit.startsWith("o") ? POUND / 16 : POUND;
}

/** A weight in pounds for feet and inches, kilograms for metric, to a tenth below 10: `40 lb`, `18 kg`. */
export function printWeight(kg: number, units: UnitStyle): string {
  const imperial = units === "ft-in" || units === "in";
  const amount = imperial ? kg / POUND : kg;
  return `${Math.abs(amount) < 10 ? tenth(amount) : Math.round(amount)} ${imperial ? "lb" : "kg"}`;
}
