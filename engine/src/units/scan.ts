/**
 * Lengths as people write them. One scanner reads the longest length that begins at a place in a text; the
 * length parser and the tape sheet's grammar both stand on it. The text is first folded one character to one
 * (spaces, dashes, primes), so that a place in the folded text is a place in the text as typed.
 *
 * A length is one quantity with a mark (`147 1/2"`, `3.75 m`), feet with inches after them (`12' 3 1/2"`,
 * `12-3.5`), or bare numbers where a unit style says what they mean. What could mean two things is refused.
 * Spellings: common practice, no source.
 */

/** What bare numbers mean and how lengths are printed. */
export type UnitStyle = "ft-in" | "in" | "mm" | "cm" | "m";

export interface LengthOptions {
  /** What bare numbers mean; absent: nobody has said, and bare numbers are refused. */
  readonly units?: UnitStyle | undefined;
  /** Whether 0 passes. */
  readonly zero?: boolean;
  /** Whether a minus sign passes (positions, never sizes). */
  readonly signed?: boolean;
}

/** A length found at the start place: mm, and the place just behind it. */
export interface Found {
  readonly ok: true;
  readonly value: number;
  readonly end: number;
}

/** Why nothing was read: one kind sentence, and the 0-based character it speaks of. */
export interface Refused {
  readonly ok: false;
  readonly reason: string;
  readonly at: number;
}

/** The longest length that can be said, in mm (10 km): beyond it a slip of the pen is certain. */
const LONGEST = 10_000_000;
const INCH = 25.4;

const DASHES = /[\u2010-\u2015\u2212]/g;
const SPACES = /[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000\t]/g;
const SINGLE = /[\u2018\u2019\u2032\u02b9\u00b4]/g;
const DOUBLE = /[\u201c\u201d\u2033\u02ba]/g;

/** The text with every odd space, dash, prime and slash made plain, one character for one. */
export function folded(text: string): string {
  return text
    .replace(SPACES, " ")
    .replace(DASHES, "-")
    .replace(SINGLE, "'")
    .replace(DOUBLE, '"')
    .replaceAll("\u2044", "/");
}

const VULGAR: { readonly [sign: string]: number } = {
  "\u00bc": 1 / 4,
  "\u00bd": 1 / 2,
  "\u00be": 3 / 4,
  "\u2150": 1 / 7,
  "\u2151": 1 / 9,
  "\u2152": 1 / 10,
  "\u2153": 1 / 3,
  "\u2154": 2 / 3,
  "\u2155": 1 / 5,
  "\u2156": 2 / 5,
  "\u2157": 3 / 5,
  "\u2158": 4 / 5,
  "\u2159": 1 / 6,
  "\u215a": 5 / 6,
  "\u215b": 1 / 8,
  "\u215c": 3 / 8,
  "\u215d": 5 / 8,
  "\u215e": 7 / 8,
};
const VULGAR_SIGN = /[\u00bc-\u00be\u2150-\u215e]/y;
const FRACTION = /(\d{1,4})\/(\d{1,4})(?![\d/])/y;
const DECIMAL = /\d+\.\d+|\.\d+|\d+/y;
const COMMA = /(\d+),(\d+)/y;
const FEET = /'(?!')|(?:ft|foot|feet)(?![\p{L}\p{N}])\.?/iuy;
const INCHES = /"|''|(?:inches|inch|ins|in)(?![\p{L}\p{N}])\.?/iuy;
const METRIC = /(?:millimet(?:re|er)s?|mm|centimet(?:re|er)s?|cm|met(?:re|er)s?|m)(?![\p{L}\p{N}])/iuy;
const GAP = / */y;
const JOIN = / *- *| +/y;

type Form = "whole" | "decimal" | "fraction" | "mixed";

/** A bare amount: its value, how it was written and whether a decimal comma stood in it. */
interface Amount {
  readonly value: number;
  readonly form: Form;
  readonly start: number;
  readonly end: number;
  readonly comma: boolean;
}

/** Raised inside this file only; the doors below turn it into a `Refused`. */
class Unclear extends Error {
  readonly at: number;
  constructor(reason: string, at: number) {
    super(reason);
    this.at = at;
  }
}

/**
 * The longest length that starts at `start` (leading spaces skipped). Never throws; a place where no length
 * stands, and a length that is unclear, negative, zero or beyond 10 km, answer with the reason.
 */
export function scanLength(text: string, start: number, options: LengthOptions = {}): Found | Refused {
  try {
    return scanned(folded(text), start, options);
  } catch (fault) {
    if (fault instanceof Unclear) return { ok: false, reason: fault.message, at: fault.at };
    throw fault;
  }
}

function scanned(text: string, start: number, options: LengthOptions): Found {
  const from = behind(GAP, text, start);
  const sign = /[-+]/y;
  sign.lastIndex = from;
  const mark = sign.exec(text)?.[0];
  const at = mark === undefined ? from : behind(GAP, text, from + 1);
  const found = unsigned(text, at, options.units);
  const value = mark === "-" && found.value !== 0 ? -found.value : found.value;
  if (value < 0 && options.signed !== true) throw new Unclear("A length cannot be less than nothing.", from);
  if (value === 0 && options.zero !== true)
    throw new Unclear("A length of nothing cannot be measured. Is a number missing?", from);
  if (Math.abs(value) > LONGEST)
    throw new Unclear("That is longer than 10 km. Is a digit too many there?", from);
  return { ok: true, value, end: found.end };
}

function unsigned(text: string, at: number, units: UnitStyle | undefined): { value: number; end: number } {
  const first = amountAt(text, at);
  if (first === undefined) throw new Unclear(`A length should stand here, like ${sample(units)}.`, at);
  const unit = behind(GAP, text, first.end);
  const feet = behind(FEET, text, unit);
  if (feet > unit) return afterFeet(text, first, feet);
  const inches = behind(INCHES, text, unit);
  if (inches > unit) return { value: millimetres(noComma(text, first), INCH), end: inches };
  METRIC.lastIndex = unit;
  const metric = METRIC.exec(text)?.[0];
  if (metric !== undefined) {
    return { value: inMetric(text, first, perUnit(metric)), end: unit + metric.length };
  }
  return bare(text, first, units);
}

/** Feet are read; inches may follow, with or without their mark. */
function afterFeet(text: string, feet: Amount, end: number): { value: number; end: number } {
  const written = text.slice(feet.start, end);
  if (feet.form === "decimal" || feet.comma) {
    const [whole = "0", rest = "0"] = text.slice(feet.start, feet.end).split(/[.,]/);
    const tenths = Number(rest) < 12 ? `${whole || "0"} feet ${Number(rest)} inches` : "feet and inches";
    throw new Unclear(
      `${written} could be ${tenths} or a decimal part of a foot. Write it with inches, like 10' 4".`,
      feet.start,
    );
  }
  const joined = behind(/ *-? */y, text, end);
  const inches = amountAt(text, joined);
  if (inches === undefined || feet.form !== "whole")
    return { value: millimetres(feet.value, 12 * INCH), end };
  const unit = behind(GAP, text, inches.end);
  const marked = behind(INCHES, text, unit);
  if (marked === unit && (behind(FEET, text, unit) > unit || behind(METRIC, text, unit) > unit)) {
    throw new Unclear("Feet are followed by something else than inches.", inches.start);
  }
  if (noComma(text, inches) >= 12) {
    const said = text.slice(inches.start, inches.end);
    throw new Unclear(`${said} inches after the feet are a foot or more. Which is it?`, inches.start);
  }
  return {
    value: millimetres(feet.value * 12 + inches.value, INCH),
    end: marked > unit ? marked : inches.end,
  };
}

/** No mark stands behind the first amount. */
function bare(text: string, first: Amount, units: UnitStyle | undefined): { value: number; end: number } {
  const pair = pairAt(text, first, units);
  if (pair !== undefined) return pair;
  const said = text.slice(first.start, first.end);
  switch (units) {
    case undefined:
      throw new Unclear(
        `${said}: of what? Write ${said}" or ${said} mm, or say once what bare numbers are, like: units inches`,
        first.start,
      );
    case "ft-in":
      throw new Unclear(`${said}: feet or inches? Write ${said}' or ${said}"`, first.start);
    case "in":
      return { value: millimetres(noComma(text, first), INCH), end: first.end };
    default:
      return { value: inMetric(text, first, perUnit(units)), end: first.end };
  }
}

/** Two bare numbers, feet and inches: `12-3.5` wherever nobody works in metres, `24 0` only in feet and inches. */
function pairAt(
  text: string,
  first: Amount,
  units: UnitStyle | undefined,
): { value: number; end: number } | undefined {
  if (first.form !== "whole" || first.comma) return undefined;
  const joined = behind(JOIN, text, first.end);
  const dashed = text.slice(first.end, joined).includes("-");
  const second = joined > first.end ? amountAt(text, joined) : undefined;
  const understood = units === "ft-in" || (dashed && (units === undefined || units === "in"));
  if (second === undefined || !understood) return undefined;
  const inches = noComma(text, second);
  if (inches >= 12) {
    throw new Unclear(
      `${text.slice(second.start, second.end)} inches after the feet are a foot or more. Which is it?`,
      second.start,
    );
  }
  const unit = behind(GAP, text, second.end);
  const marked = behind(INCHES, text, unit);
  if (behind(FEET, text, unit) > unit || behind(METRIC, text, unit) > unit) {
    throw new Unclear("Two numbers and one mark: which of them does it belong to?", first.start);
  }
  return { value: millimetres(first.value * 12 + inches, INCH), end: marked > unit ? marked : second.end };
}

/** A whole number, a decimal, a fraction or a whole number with a fraction. */
function amountAt(text: string, at: number): Amount | undefined {
  const alone = fractionAt(text, at);
  if (alone !== undefined) return { ...alone, form: "fraction", start: at, comma: false };
  COMMA.lastIndex = at;
  const comma = COMMA.exec(text);
  if (comma !== null) {
    const value = Number(`${comma[1]}.${comma[2]}`);
    return { value, form: "decimal", start: at, end: at + comma[0].length, comma: true };
  }
  DECIMAL.lastIndex = at;
  const digits = DECIMAL.exec(text)?.[0];
  if (digits === undefined) return undefined;
  const end = at + digits.length;
  if (digits.includes(".")) return { value: Number(digits), form: "decimal", start: at, end, comma: false };
  const part = fractionAt(text, behind(/ *-? */y, text, end));
  if (part === undefined) return { value: Number(digits), form: "whole", start: at, end, comma: false };
  if (part.value >= 1) throw new Unclear("The fraction is one or more. Which is it?", end);
  return { value: Number(digits) + part.value, form: "mixed", start: at, end: part.end, comma: false };
}

function fractionAt(text: string, at: number): { value: number; end: number } | undefined {
  VULGAR_SIGN.lastIndex = at;
  const sign = VULGAR_SIGN.exec(text)?.[0];
  const value = sign === undefined ? undefined : VULGAR[sign];
  if (value !== undefined) return { value, end: at + 1 };
  FRACTION.lastIndex = at;
  const written = FRACTION.exec(text);
  if (written === null) return undefined;
  if (Number(written[2]) === 0) throw new Unclear("A fraction over nothing.", at);
  return { value: Number(written[1]) / Number(written[2]), end: at + written[0].length };
}

/** The amount where a comma has no business: feet and inches. */
function noComma(text: string, amount: Amount): number {
  if (!amount.comma) return amount.value;
  const said = text.slice(amount.start, amount.end);
  throw new Unclear(`${said}: what does the comma mean? Write fractions or a decimal point.`, amount.start);
}

/** A metric amount; a comma is a decimal comma unless it could part thousands. */
function inMetric(text: string, amount: Amount, millimetre: number): number {
  const said = text.slice(amount.start, amount.end);
  if (amount.form === "fraction" || amount.form === "mixed") {
    throw new Unclear(`${said}: fractions go with inches. Write it with a decimal point.`, amount.start);
  }
  if (amount.comma && /^[1-9]\d{0,2},\d{3}$/.test(said)) {
    throw new Unclear(`${said}: does the comma part thousands or decimals? Write it without.`, amount.start);
  }
  return millimetre === 1 ? amount.value : millimetres(amount.value, millimetre);
}

/** mm to the nanometre, so that a value on the print grid is always the same number. */
function millimetres(amount: number, each: number): number {
  return Math.round(amount * each * 1e6) / 1e6;
}

function perUnit(unit: string): number {
  const word = unit.toLowerCase();
  if (word === "mm" || word.startsWith("milli")) return 1;
  return word === "cm" || word.startsWith("centi") ? 10 : 1000;
}

function sample(units: UnitStyle | undefined): string {
  return units === "mm" ? "3750 mm" : units === "cm" ? "375 cm" : units === "m" ? "3.75 m" : `12' 3 1/2"`;
}

/** Where a sticky pattern ends that begins at the place; the place itself where it does not match. */
function behind(pattern: RegExp, text: string, at: number): number {
  pattern.lastIndex = at;
  return pattern.exec(text) === null ? at : pattern.lastIndex;
}
