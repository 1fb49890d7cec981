/** Lines about the show as a whole: its name, units, place, state, grid and notes. */
import type { Place, Show, Units } from "../document/tables.ts";
import { currencyDigits } from "../units/money.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf } from "./draft.ts";
import type { Draft } from "./draft.ts";

/** Longest text of a note or state. */
const TEXT_LIMIT = 2000;
const PITCH_LIMIT = 100;
/** Thickest board of a card model, mm; the schema's own limit. */
const BOARD_LIMIT = 50;

const UNIT_WORDS: { readonly [word: string]: Units } = {
  "feet and inches": "ft-in",
  "feet & inches": "ft-in",
  "feet inches": "ft-in",
  "ft and in": "ft-in",
  "ft-in": "ft-in",
  "ft in": "ft-in",
  feet: "ft-in",
  inches: "in",
  inch: "in",
  in: "in",
  millimetres: "mm",
  millimeters: "mm",
  mm: "mm",
  centimetres: "cm",
  centimeters: "cm",
  cm: "cm",
  metres: "m",
  meters: "m",
  m: "m",
};

const PLACE_WORDS: { readonly [word: string]: Place } = {
  us: "US",
  usa: "US",
  "u.s.": "US",
  "united states": "US",
  "united states of america": "US",
  america: "US",
  gb: "GB",
  uk: "GB",
  "u.k.": "GB",
  "united kingdom": "GB",
  "great britain": "GB",
  britain: "GB",
  england: "GB",
  scotland: "GB",
  wales: "GB",
  "northern ireland": "GB",
  de: "DE",
  germany: "DE",
  deutschland: "DE",
};

/** `show NAME` */
export function readShowName(cursor: Cursor, draft: Draft): void {
  const at = cursor.skip();
  put(draft, { name: cursor.proper(cursor.restAsTyped(), at) });
}

/** `units feet and inches` and the like; bare numbers mean this from here on. */
export function readUnits(cursor: Cursor, draft: Draft): void {
  const units = UNIT_WORDS[cursor.rest().toLowerCase().replace(/\.$/, "")];
  if (units === undefined) cursor.fail("Units are feet and inches, inches, mm, cm or m.");
  draft.units = units;
  put(draft, { units });
}

/** `place US`: whose house rules judge. */
export function readCountry(cursor: Cursor, draft: Draft): void {
  const place = PLACE_WORDS[cursor.rest().toLowerCase()];
  if (place === undefined) {
    cursor.fail(
      "This reads as a country, and the house rules of US, GB and DE are known. To stand a piece somewhere, write: place Bench 1 at 3' along, 2' in",
    );
  }
  put(draft, { place });
}

/** `state TEXT` */
export function readState(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  put(draft, { state: properText(cursor, cursor.restAsTyped(), start) });
}

/** `grid 1/4" is 12"`: one square of the paper, and what it stands for. */
export function readGrid(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const gridPitch = cursor.length();
  if (gridPitch > PITCH_LIMIT) cursor.fail("One square of the paper is at most 100 mm.", start);
  if (cursor.take(/is(?!\p{L})|=|for(?!\p{L})/iuy) === undefined) {
    cursor.fail(`What does one square stand for? Write it like: grid 1/4" is 12"`);
  }
  const gridSquare = cursor.length();
  cursor.finish();
  put(draft, { gridPitch, gridSquare });
}

/** `zone America/Chicago`: whose clock the hours of the calendar are on (IANA). */
export function readZone(cursor: Cursor, draft: Draft): void {
  const zone = cursor.take(/[A-Za-z][A-Za-z0-9_+\-/]{1,63}/y)?.[0];
  if (zone === undefined) cursor.fail("A time zone is written like America/Chicago.");
  cursor.finish();
  put(draft, { zone });
}

/** `currency USD`: what every price of the show is in (ISO 4217). */
export function readCurrency(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const currency = cursor.take(/[a-z]{3}(?![\p{L}\p{N}])/iuy)?.[0].toUpperCase();
  if (currency === undefined) cursor.fail("A currency is its three letters, like USD, GBP or EUR.");
  cursor.finish();
  const before = draft.show();
  const priced = before.wage > 0 || draft.all("stocks").some(({ price }) => price !== undefined);
  if (priced && currencyDigits(currency) !== currencyDigits(before.currency)) {
    cursor.fail(
      `The prices said so far count other coins than ${currency} has. Say the currency before them.`,
      start,
    );
  }
  put(draft, { currency });
}

/** `wage 25 an hour`: what an hour of work costs, in the show's currency. */
export function readWage(cursor: Cursor, draft: Draft): void {
  const wage = cursor.money(draft.show().currency);
  cursor.take(/(?:an|a|per) (?:hour|h)(?!\p{L})|\/ ?h(?:our)?(?!\p{L})/iuy);
  cursor.finish();
  put(draft, { wage });
}

/** `board 1/16" thick`: the board the card model is cut from. */
export function readBoard(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const cardThickness = cursor.length({ zero: true });
  if (cardThickness > BOARD_LIMIT) cursor.fail("The board of a card model is at most 50 mm thick.", start);
  cursor.takeWord("thick");
  cursor.finish();
  put(draft, { cardThickness });
}

/** `opens 2027-03-06`: the day the doors open. */
export function readOpens(cursor: Cursor, draft: Draft): void {
  const opens = cursor.day();
  cursor.finish();
  put(draft, { opens });
}

/** `note TEXT`; the same text again changes nothing. */
export function readNote(cursor: Cursor, draft: Draft): void {
  noted(cursor, draft, "notes");
}

/** `private TEXT`: for the artist's own eyes, printed nowhere. */
export function readJotting(cursor: Cursor, draft: Draft): void {
  noted(cursor, draft, "jottings");
}

function noted(cursor: Cursor, draft: Draft, table: "notes" | "jottings"): void {
  const start = cursor.skip();
  const text = properText(cursor, cursor.restAsTyped(), start);
  if (text === "") cursor.fail("There is nothing in this note.");
  const taken = (): never => cursor.fail("This is noted already.", start);
  const known = draft.known(table, keyOf("", text), taken);
  if (known?.text === text) return;
  // A text is its own name: two that differ in capitals alone are two, unless the line is given to one of them.
  const kept = draft.speaksOf(table) === undefined ? undefined : known;
  const order = kept?.order ?? draft.nextOrder(table);
  const id = kept?.id ?? draft.freshId(table, `${table === "notes" ? "note" : "private"}.${order + 1}`);
  draft.put(table, { id, order, text });
}

/** A text of the document's, if it is not too long for one. */
export function properText(cursor: Cursor, text: string, start: number): string {
  if (text.length > TEXT_LIMIT) {
    cursor.fail(`This text has ${text.length} characters; at most ${TEXT_LIMIT} pass.`, start);
  }
  return text;
}

function put(draft: Draft, said: Partial<Show>): void {
  draft.put("shows", { ...draft.show(), ...said });
}
