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
    } else lengthFirst(cursor, clauses, (reader) => once(reader, start));
  }
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
  const shared = cursor.take(SHARED_MARK);
  if (shared !== undefined) return sharedSizes(cursor, shared);
  const sizes = [cursor.length()];
  while (cursor.take(TIMES) !== undefined) sizes.push(cursor.length());
  return sizes;
}

function sharedSizes(cursor: Cursor, shared: RegExpExecArray): readonly number[] {
  const mark = shared[4] ?? "";
  const end = cursor.at;
  const sizes = [shared[1], shared[2], shared[3]].flatMap((figure) => figure ?? []);
  cursor.at = shared.index;
  const read = sizes.map((figure) => cursor.lengthOf(`${figure} ${mark}`));
  cursor.at = end;
  return read;
}
