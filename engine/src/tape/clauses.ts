/**
 * What follows the head of a line: clauses in any order, with commas or without. A clause is a word and its
 * figure (`sill 30"`), a figure and its word (`5' wide`) or a word alone (`sits`). Each may be said once.
 */
import type { Cursor } from "./cursor.ts";
import { shortened } from "./cursor.ts";

/** Called when the word of a clause has been taken (and its length, for `after`). */
export interface Clauses {
  /** Word first: the reader takes what follows. Two words are written with one space. */
  readonly before: { readonly [word: string]: () => void };
  /** Length first: the reader gets the mm. */
  readonly after?: { readonly [word: string]: (mm: number) => void };
  /** A length first that may be 0 or less. */
  readonly signed?: boolean;
  /** Sizes joined by x, as said: two or three figures. */
  readonly sizes?: (mm: readonly number[]) => void;
  /** The same where the reader takes the sizes itself. */
  readonly sizesHere?: () => void;
  /** Figures that are no lengths (`2 people`, `25 min each`): a sticky pattern; the reader stands at its start. */
  readonly others?: readonly { readonly is: RegExp; readonly read: () => void }[];
}

/** Reads clauses to the end of the line; fails at the first that no word explains. */
export function readClauses(cursor: Cursor, clauses: Clauses): void {
  const said = new Set<() => void>();
  const once = (reader: () => void, start: number): void => {
    if (said.has(reader)) cursor.fail("This is said twice in one line. Which of them holds?", start);
    said.add(reader);
  };
  for (cursor.separators(); !cursor.atEnd(); cursor.separators()) {
    const start = cursor.skip();
    const word = wordOf(cursor, clauses.before);
    if (word !== undefined) {
      const reader = clauses.before[word] as () => void;
      once(reader, start);
      cursor.at = start + word.length;
      reader();
      continue;
    }
    const other = clauses.others?.find(({ is }) => sees(cursor, is));
    if (other === undefined) lengthFirst(cursor, clauses, (reader) => once(reader, start));
    else {
      once(other.read, start);
      other.read();
    }
  }
}

function sees(cursor: Cursor, pattern: RegExp): boolean {
  const back = cursor.at;
  const there = cursor.take(pattern) !== undefined;
  cursor.at = back;
  return there;
}

/** Longer than any word or words of a clause. */
const LONGEST_CLAUSE = 24;

/** The known word or pair of words here, longest first. */
function wordOf(cursor: Cursor, words: { readonly [word: string]: unknown }): string | undefined {
  const first = cursor.word();
  if (first === "") return undefined;
  const rest = cursor.rest().slice(0, LONGEST_CLAUSE).toLowerCase();
  let found: string | undefined;
  for (const word in words) {
    if (!word.startsWith(first) || !rest.startsWith(word) || word.length <= (found?.length ?? 0)) continue;
    if (!/^[\p{L}\p{N}]/u.test(rest.slice(word.length))) found = word;
  }
  return found;
}

function lengthFirst(cursor: Cursor, clauses: Clauses, once: (reader: () => void) => void): void {
  const start = cursor.skip();
  if (!/[\d.\u00bc-\u00be\u2150-\u215e-]/.test(cursor.text[start] ?? "")) unknown(cursor, clauses);
  if (clauses.sizesHere !== undefined && seesSizes(cursor)) {
    once(clauses.sizesHere);
    clauses.sizesHere();
    return;
  }
  if (clauses.sizes !== undefined && seesSizes(cursor)) {
    once(clauses.sizes as unknown as () => void);
    clauses.sizes(sizesAt(cursor));
    return;
  }
  const signed = clauses.signed === true;
  const mm = cursor.length({ signed, zero: true });
  const word = wordOf(cursor, clauses.after ?? {});
  if (word === undefined) {
    const written = cursor.raw.slice(start, cursor.at).trim();
    const words = Object.keys(clauses.after ?? {}).join(", ");
    cursor.fail(`${written}: what is it? Say one of these words behind it: ${words}.`, start);
  }
  const reader = clauses.after?.[word] as (mm: number) => void;
  once(reader as unknown as () => void);
  cursor.take(new RegExp(word, "iuy"));
  if (mm <= 0 && !signed) cursor.fail("A length of nothing cannot be measured. Is a number missing?", start);
  reader(mm);
}

function unknown(cursor: Cursor, clauses: Clauses): never {
  const words = [...Object.keys(clauses.before), ...Object.keys(clauses.after ?? {})];
  return cursor.fail(
    `"${shortened(cursor.rest(), 40)}" does not read here. These words do: ${[...new Set(words)].join(", ")}.`,
  );
}

const TIMES = /(?:x|×|by)(?![\p{L}])/iuy;
/** Two or three bare numbers and one mark at the end, as people write parcels: `12 x 8 x 6"`. */
const SHARED_MARK =
  /([\d.]+(?: \d+\/\d+)?)\s*[x×]\s*([\d.]+(?: \d+\/\d+)?)(?:\s*[x×]\s*([\d.]+(?: \d+\/\d+)?))?\s*(mm|cm|m|"|''|in(?:ches)?)(?![\p{L}\d])(?!\s*[x×])/iuy;

/** Whether two figures joined by x stand here (or one with `across` between): nothing is taken. */
export function seesSizes(cursor: Cursor): boolean {
  const at = cursor.at;
  SHARED_MARK.lastIndex = cursor.skip();
  const shared = SHARED_MARK.test(cursor.text);
  const first = shared || cursor.seesLength();
  if (!shared && first) cursor.length();
  const joined = shared || (first && cursor.take(TIMES) !== undefined);
  cursor.at = at;
  return joined;
}

/** Figures joined by x, in mm, all more than nothing. Bare ones may share the mark of the last. */
export function sizesAt(cursor: Cursor): readonly number[] {
  return joinedSizes(cursor, {});
}

/** The same, but every figure after the first may be 0: a board of which nobody knows how thick it is. */
export function sizesOrNothingAt(cursor: Cursor): readonly number[] {
  return joinedSizes(cursor, { zero: true });
}

function joinedSizes(cursor: Cursor, options: { readonly zero?: boolean }): readonly number[] {
  const shared = cursor.take(SHARED_MARK);
  if (shared !== undefined) return sharedSizes(cursor, shared, options);
  const sizes = [cursor.length()];
  while (cursor.take(TIMES) !== undefined) sizes.push(cursor.length(options));
  return sizes;
}

function sharedSizes(
  cursor: Cursor,
  shared: RegExpExecArray,
  options: { readonly zero?: boolean },
): readonly number[] {
  const mark = shared[4] ?? "";
  const end = cursor.at;
  const sizes = [shared[1], shared[2], shared[3]].flatMap((figure) => figure ?? []);
  cursor.at = shared.index;
  const read = sizes.map((figure, index) => cursor.lengthOf(`${figure} ${mark}`, index === 0 ? {} : options));
  cursor.at = end;
  return read;
}

const COUNT = /[x×] ?\d+(?![\d.]|\s*\p{L}|\s*['"/])/iuy;

/** A name up to a comma, a count (`x4`), a size or the end of the line; or in quotes. */
export function nameBeforeSize(cursor: Cursor): string {
  const start = cursor.skip();
  const quoted = cursor.quoted();
  if (quoted !== undefined) return cursor.proper(quoted, start);
  const text = cursor.text;
  const end = start + cursor.rest().length;
  let until = start;
  for (; until < end && text[until] !== "," && text[until] !== ";"; until++) {
    if (until === start || text[until - 1] !== " ") continue;
    if (/[x×]/i.test(text[until] ?? "")) {
      COUNT.lastIndex = until;
      if (COUNT.test(text)) break;
    }
    if (/[\d.\u00bc-\u00be\u2150-\u215e]/.test(text[until] ?? "") && sizeStands(cursor, until)) break;
  }
  cursor.at = start;
  return cursor.nameUntil(until);
}

function sizeStands(cursor: Cursor, at: number): boolean {
  // A number in a name is common, a size without its comma rare: look for its joint before reading it in earnest.
  if (!/^[^,;]{0,60}(?:[x×]|by|across)/iu.test(cursor.text.slice(at, at + 80))) return false;
  const back = cursor.at;
  cursor.at = at;
  const stands = seesSizes(cursor) || acrossStands(cursor);
  cursor.at = back;
  return stands;
}

function acrossStands(cursor: Cursor): boolean {
  if (!cursor.seesLength()) return false;
  cursor.length();
  return cursor.word() === "across";
}
