/**
 * A place in one line of a tape sheet, and the small things that can be read there. What cannot be read is
 * raised as `Unreadable` with the character; the one fence in `read.ts` turns it into a problem.
 */
import { scanAngle } from "../units/figures.ts";
import { scanMoney } from "../units/money.ts";
import { folded, scanLength } from "../units/scan.ts";
import type { LengthOptions, Refused, UnitStyle } from "../units/scan.ts";
import { scanClock, scanDay, scanSpan } from "../units/times.ts";
import { NAME_LIMIT } from "../document/schema.ts";

/** A line that does not read from `at` (0-based) on. Never leaves the tape folder. */
export class Unreadable extends Error {
  readonly at: number;
  constructor(reason: string, at: number) {
    super(reason);
    this.at = at;
  }
}

/** Reads along one line. Spaces before anything asked for are skipped. */
export class Cursor {
  /** The line as typed. */
  readonly raw: string;
  /** The line folded one character to one, for matching. */
  readonly text: string;
  readonly units: UnitStyle | undefined;
  /** 0-based place in the line. */
  at: number;
  /** The unit style of the first marked length read here. */
  marked: UnitStyle | undefined;
  /** Where reading stops: trailing words taken off the line already lie behind it. */
  #stop: number;

  constructor(raw: string, at: number, units: UnitStyle | undefined) {
    this.raw = raw;
    this.text = folded(raw);
    this.units = units;
    this.at = at;
    this.#stop = this.text.trimEnd().length;
  }

  /** Gives up at the present place, or at `at`. */
  fail(reason: string, at: number = this.skip()): never {
    throw new Unreadable(reason, at);
  }

  /** What a reader gives, or undefined where it gives up; it may have taken something either way. */
  tried<T>(read: () => T): T | undefined {
    try {
      return read();
    } catch (fault) {
      if (fault instanceof Unreadable) return undefined;
      throw fault;
    }
  }

  /** Past spaces; the place then. */
  skip(): number {
    while (this.at < this.#stop && this.text[this.at] === " ") this.at++;
    return this.at;
  }

  atEnd(): boolean {
    return this.skip() >= this.#stop;
  }

  /** What is left, folded. */
  rest(): string {
    this.skip();
    return this.text.slice(this.at, this.#stop);
  }

  /** Takes off a pattern at the end of the line; its match, if it was there. */
  takeEnd(pattern: RegExp): RegExpExecArray | undefined {
    const found = pattern.exec(this.text.slice(this.at, this.#stop));
    if (found === null) return undefined;
    this.#stop = this.at + found.index;
    return found;
  }

  /** Takes a sticky pattern here; its match, if it was there. */
  take(pattern: RegExp): RegExpExecArray | undefined {
    pattern.lastIndex = this.skip();
    const found = pattern.exec(this.text);
    if (found === null || pattern.lastIndex > this.#stop) return undefined;
    this.at = pattern.lastIndex;
    return found;
  }

  /** The word here (letters only), lower case, not taken; "" where none stands. */
  word(): string {
    const letters = /\p{L}+/uy;
    letters.lastIndex = this.skip();
    const found = letters.exec(this.text)?.[0] ?? "";
    return this.at >= this.#stop ? "" : found.toLowerCase();
  }

  /** Takes the word if it stands here. */
  takeWord(word: string): boolean {
    if (this.word() !== word) return false;
    this.at += word.length;
    return true;
  }

  /** A length in mm; fails with the scanner's reason. */
  length(options: Omit<LengthOptions, "units"> = {}): number {
    const start = this.skip();
    const found = scanLength(this.text.slice(0, this.#stop), start, { ...options, units: this.units });
    if (!found.ok) throw new Unreadable(found.reason, found.at);
    this.at = found.end;
    this.marked ??= markOf(this.text.slice(start, found.end));
    return found.value;
  }

  /** A length spelled out, as if it stood here. */
  lengthOf(written: string, options: Omit<LengthOptions, "units"> = {}): number {
    const found = scanLength(written, 0, { ...options, units: this.units });
    if (!found.ok) this.fail(found.reason);
    this.marked ??= markOf(written);
    return found.value;
  }

  /** Whether a length can be read here; nothing is taken. */
  seesLength(options: Omit<LengthOptions, "units"> = {}): boolean {
    const until = this.text.slice(0, this.#stop);
    return scanLength(until, this.skip(), { ...options, units: this.units }).ok;
  }

  /** An angle in degrees. */
  angle(): number {
    const found = scanAngle(this.text.slice(0, this.#stop), this.skip());
    if (!found.ok) throw new Unreadable(found.reason, found.at);
    this.at = found.end;
    return found.value;
  }

  /** How long something takes, in minutes. */
  span(): number {
    return this.#scanned(scanSpan(this.text.slice(0, this.#stop), this.skip())).value;
  }

  /** Money in minor units of a currency. */
  money(currency: string): number {
    return this.#scanned(scanMoney(this.text.slice(0, this.#stop), this.skip(), currency)).value;
  }

  /** A day of the calendar, ISO 8601. */
  day(): string {
    return this.#scanned(scanDay(this.text.slice(0, this.#stop), this.skip())).day;
  }

  /** A time of day, `09:00`. */
  clock(): string {
    return this.#scanned(scanClock(this.text.slice(0, this.#stop), this.skip())).clock;
  }

  #scanned<T extends { readonly ok: true; readonly end: number }>(found: T | Refused): T {
    if (!found.ok) throw new Unreadable(found.reason, found.at);
    this.at = found.end;
    return found;
  }

  /** A whole number from 1. */
  count(): number {
    const at = this.skip();
    const digits = this.take(/\d+(?![\d.,]*\d)/y)?.[0] ?? this.fail("A whole number should stand here.");
    const number = Number(digits);
    if (number < 1) this.fail("This number begins at 1.", at);
    if (number > 100_000) this.fail("That is more than a hundred thousand. Is a digit too many there?", at);
    return number;
  }

  /** A name in quotes, inner ones doubled, exactly as typed; undefined where no quote stands. */
  quoted(): string | undefined {
    const start = this.skip();
    const open = this.raw[start];
    if (open !== '"' && open !== "\u201c") return undefined;
    const close = open === '"' ? '"' : "\u201d";
    let text = "";
    for (let at = start + 1; at < this.#stop; at++) {
      if (this.raw[at] !== close) text += this.raw[at];
      else if (this.raw[at + 1] === close) text += this.raw[at++];
      else {
        this.at = at + 1;
        return text;
      }
    }
    return this.fail("The quote is not closed.", start);
  }

  /** A name in quotes, or everything up to `until` (a place in the line). */
  nameUntil(until: number): string {
    const start = this.skip();
    const quoted = this.quoted();
    if (quoted !== undefined) return this.proper(quoted, start);
    const name = this.raw.slice(start, Math.min(until, this.#stop)).trim();
    this.at = Math.min(until, this.#stop);
    return this.proper(name, start);
  }

  /** A name in quotes, or everything up to the next comma or semicolon. */
  nameUntilComma(): string {
    const start = this.skip();
    const comma = this.rest().search(/[,;]/);
    return this.nameUntil(comma < 0 ? this.#stop : start + comma);
  }

  /** The rest of the line as a text, quotes around it taken off. */
  restAsTyped(): string {
    const start = this.skip();
    if (/^["\u201c]/.test(this.raw.slice(start))) {
      const quoted = this.quoted();
      if (quoted !== undefined && this.atEnd()) return quoted;
    }
    this.at = this.#stop;
    return this.raw.slice(start, this.#stop);
  }

  /** The name, if it can pass for one. */
  proper(name: string, at: number): string {
    if (name === "") this.fail("A name should stand here.", at);
    if (name.length > NAME_LIMIT) {
      this.fail(`This name has ${name.length} characters; at most ${NAME_LIMIT} pass.`, at);
    }
    return name;
  }

  /** Commas and semicolons between clauses. */
  separators(): void {
    this.take(/[,; ]+/y);
  }

  /** Nothing may be left. */
  finish(): void {
    if (!this.atEnd()) this.fail(`"${shortened(this.rest(), 40)}" is left over and does not read.`);
  }
}

/** The start of a long text, marked as cut. Never cuts a letter in two. */
export function shortened(text: string, limit: number): string {
  return text.length <= limit
    ? text
    : `${Array.from(text.slice(0, limit))
        .slice(0, limit - 1)
        .join("")}…`;
}

function markOf(written: string): UnitStyle | undefined {
  if (/['"]|[fi]/i.test(written)) return "ft-in";
  if (/mm|mil/i.test(written)) return "mm";
  if (/c/i.test(written)) return "cm";
  return /m/i.test(written) ? "m" : undefined;
}
