/**
 * Money in and out. Inside, money is whole minor units (cents) of one ISO 4217 currency; how many of them make one
 * is the currency's own affair: a hundred for most, one for some, a thousand for a few.
 */
import { folded } from "./scan.ts";
import type { Found, Refused } from "./scan.ts";

/** Currencies with no smaller coin, and with thousandths: ISO 4217 list one, minor units 0 and 3, from memory. */
const WHOLE = new Set("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF".split(" "));
const THOUSANDTHS = new Set("BHD IQD JOD KWD LYD OMR TND".split(" "));

/** More than any show costs, in minor units: the document's own limit. */
const MOST = 1_000_000_000;

/** Digits behind the point of a currency: 0, 2 or 3; 2 while nobody has said which it is. */
export function currencyDigits(currency: string): 0 | 2 | 3 {
  if (WHOLE.has(currency)) return 0;
  return THOUSANDTHS.has(currency) ? 3 : 2;
}

/**
 * The amount that starts at `start` (leading spaces skipped) in minor units, with a decimal point or comma: `48`,
 * `48.00`, `11,20`. An amount that could mean thousands or decimals is refused, and one finer than the smallest
 * coin. Never throws.
 */
export function scanMoney(text: string, start: number, currency: string): Found | Refused {
  const plain = folded(text);
  const at = start + Math.max(plain.slice(start).search(/[^ ]/), 0);
  const amount = /(\d+)(?:([.,])(\d+))?(?![.,]?\d)/y;
  amount.lastIndex = at;
  const found = amount.exec(plain);
  if (found === null) return refused("A price is a plain number, like 48.00, with no sign before it.", at);
  const [all, whole = "", , decimals = ""] = found;
  const digits = currencyDigits(currency);
  if (decimals.length === 3 && digits !== 3) {
    return refused(
      `${all}: thousands or decimals? Write it without the mark, or with two digits behind it.`,
      at,
    );
  }
  if (decimals.length > digits) {
    return refused(
      digits === 0
        ? `${currency} has no smaller coin: write a whole number.`
        : `${all} is finer than the smallest coin.`,
      at,
    );
  }
  const value = Number(whole + decimals.padEnd(digits, "0"));
  if (value > MOST) return refused("That is more than any show costs. Is a digit too many there?", at);
  return { ok: true, value, end: at + all.length };
}

function refused(reason: string, at: number): Refused {
  return { ok: false, reason, at };
}

/**
 * An amount of minor units as a plain number with all its decimals: `48.00`, `1200` for a currency without coins.
 * Throws for a part of a minor unit.
 */
export function plainMoney(minor: number, currency: string): string {
  if (!Number.isSafeInteger(minor)) throw new Error(`money is whole minor units, not ${minor}`);
  const digits = currencyDigits(currency);
  const written = String(Math.abs(minor)).padStart(digits + 1, "0");
  const sign = minor < 0 ? "-" : "";
  return digits === 0 ? sign + written : `${sign}${written.slice(0, -digits)}.${written.slice(-digits)}`;
}

/** An amount with its currency behind it, where one is said: `48.00 USD`. */
export function printMoney(minor: number, currency: string): string {
  return `${plainMoney(minor, currency)}${currency === "" ? "" : ` ${currency}`}`;
}
