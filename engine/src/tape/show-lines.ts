/** Lines about the show as a whole: its name, units, place, state, grid and notes. */
import type { Place, Show, Units } from "../document/tables.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf } from "./draft.ts";
import type { Draft } from "./draft.ts";

/** Longest text of a note or state. */
const TEXT_LIMIT = 2000;
const PITCH_LIMIT = 100;

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
export function readPlace(cursor: Cursor, draft: Draft): void {
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
  if (draft.find(table, keyOf("", text))?.text === text) return;
  const order = draft.nextOrder(table);
  const id = draft.freshId(table, `${table === "notes" ? "note" : "private"}.${order + 1}`);
  draft.put(table, { id, order, text });
}

function properText(cursor: Cursor, text: string, start: number): string {
  if (text.length > TEXT_LIMIT) {
    cursor.fail(`This text has ${text.length} characters; at most ${TEXT_LIMIT} pass.`, start);
  }
  return text;
}

function put(draft: Draft, said: Partial<Show>): void {
  draft.put("shows", { ...draft.show(), ...said });
}
