/** Lengths in and out: what people write to millimetres, and millimetres to the show's own style. */
import { PRINT_STEP_INCH, PRINT_STEP_METRIC } from "../tolerances.ts";
import { scanLength } from "./scan.ts";
import type { LengthOptions, UnitStyle } from "./scan.ts";

/** A figure read (mm, degrees or kg as the parser says), or why not and at which 0-based character. */
export type Parsed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly reason: string; readonly at: number };

/** Longer than anybody writes a length. */
const LONGEST_TEXT = 100;

/**
 * Reads one length and nothing else, in mm: `12' 3 1/2"`, `12-3.5`, `12 ft 3½ in`, `3.75m`, `3,75 m`, and bare
 * numbers where `units` says what they mean. Unclear, negative, zero (unless allowed) and mixed lengths are
 * refused with a reason and the character. Never throws.
 */
export function parseLength(
  text: string,
  units?: UnitStyle,
  options: Omit<LengthOptions, "units"> = {},
): Parsed {
  if (text.length > LONGEST_TEXT) {
    return { ok: false, reason: "That is too long to be a length.", at: LONGEST_TEXT };
  }
  const found = scanLength(text, 0, { ...options, units });
  if (!found.ok) return { ok: false, reason: found.reason, at: found.at };
  const rest = text.slice(found.end).search(/\S/);
  if (rest < 0) return { ok: true, value: found.value };
  const at = found.end + rest;
  return { ok: false, at, reason: leftOver(text.slice(at)) };
}

function leftOver(rest: string): string {
  return /^[\d\u00bc-\u00be\u2150-\u215e.]/.test(rest)
    ? `"${rest}" is left over: two lengths, or two kinds of units in one?`
    : `"${rest}" is left over after the length.`;
}

/**
 * A length in the show's own style, to 1/16 in or 1 mm, marked so that it always reads back: `12' 3 1/2"`, `6"`,
 * `147 1/2"`, `3750 mm`, `375.4 cm`, `3.750 m`. Never decimal feet. Halves round away from zero.
 */
export function printLength(mm: number, units: UnitStyle): string {
  const size = Math.abs(mm);
  const step = units === "ft-in" || units === "in" ? PRINT_STEP_INCH : PRINT_STEP_METRIC;
  const steps = Math.round(size / step);
  const sign = mm < 0 && steps > 0 ? "-" : "";
  return sign + printedSteps(steps, units);
}

function printedSteps(steps: number, units: UnitStyle): string {
  switch (units) {
    case "ft-in":
      return steps < 12 * 16
        ? `${short(inches(steps))}"`
        : `${Math.floor(steps / (12 * 16))}' ${inches(steps % (12 * 16))}"`;
    case "in":
      return `${short(inches(steps))}"`;
    case "mm":
      return `${steps} mm`;
    case "cm":
      return steps % 10 === 0 ? `${steps / 10} cm` : `${Math.floor(steps / 10)}.${steps % 10} cm`;
    default:
      return `${Math.floor(steps / 1000)}.${String(steps % 1000).padStart(3, "0")} m`;
  }
}

/** Inches that follow no feet need no 0 before their fraction. */
function short(inch: string): string {
  return inch.startsWith("0 ") ? inch.slice(2) : inch;
}

/** Sixteenths as a whole number and a reduced fraction: 56 is `3 1/2`, 8 is `0 1/2`. */
function inches(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16);
  let above = sixteenths % 16;
  if (above === 0) return String(whole);
  let below = 16;
  while (above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  return `${whole} ${above}/${below}`;
}

/**
 * A length that reads back as the very same number: in the show's style where it lies on the print grid, else in
 * millimetres with all its decimals. What files of lines are written with.
 */
export function exactLength(mm: number, units: UnitStyle): string {
  const printed = printLength(mm, units);
  const read = parseLength(printed, units, { zero: true, signed: true });
  return read.ok && read.value === mm ? printed : `${plainDecimal(mm)} mm`;
}

/** A number without an exponent, all its digits kept: 1e-7 is `0.0000001`. */
export function plainDecimal(value: number): string {
  const written = String(value);
  const [digits = "", exponent] = written.replace(/^-/, "").split("e");
  if (exponent === undefined || Number(exponent) > 0) return written;
  const zeros = "0".repeat(-Number(exponent) - 1);
  return `${value < 0 ? "-" : ""}0.${zeros}${digits.replace(".", "")}`;
}
