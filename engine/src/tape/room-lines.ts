/** Lines about the room itself: its name, corners, open sides, and everything measured between corners. */
import type { Corner, Reading, Room } from "../document/tables.ts";
import { cornerAt, endsAt, roomOf, wallAt } from "./corners.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf, readingKey } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { keptCase, slug } from "./names.ts";

/** More corners than any room has that a person measured. */
const MOST_CORNERS = 500;
const TURN = /(?:,| )\s*(counter-?clockwise|anti-?clockwise|clockwise)\s*\.?$/iu;

/** `room NAME`: the lines below belong to it. */
export function readRoom(cursor: Cursor, draft: Draft): void {
  const at = cursor.skip();
  const name = cursor.proper(cursor.restAsTyped(), at);
  const subject = draft.speaksOf("rooms");
  if (subject !== undefined) {
    const other = draft.find("rooms", keyOf("", name));
    if (other !== undefined && other.id !== subject.id) cursor.fail(`There is a room ${name} already.`, at);
    draft.put("rooms", { ...subject, name });
    draft.room = draft.get("rooms", subject.id);
    return;
  }
  const known = draft.find("rooms", keyOf("", name));
  if (known === undefined) {
    const id = draft.freshId("rooms", slug(name, 28, "room"));
    draft.put("rooms", { id, name, order: draft.nextOrder("rooms"), turn: "clockwise", entered: true });
    draft.room = draft.get("rooms", id);
  } else {
    draft.room = known;
    draft.last = known.id;
  }
}

/** `clockwise` or `counterclockwise`: which way the corners are named as one stands inside. */
export function readTurn(cursor: Cursor, draft: Draft, turn: Room["turn"]): void {
  cursor.finish();
  const room = roomOf(cursor, draft);
  draft.room = { ...room, turn };
  draft.put("rooms", draft.room);
}

/** `walked in`: visitors go into the room. `looked into`: they look in from outside. */
export function readEntered(cursor: Cursor, draft: Draft, entered: Room["entered"]): void {
  cursor.finish();
  draft.room = { ...roomOf(cursor, draft), entered };
  draft.put("rooms", draft.room);
}

/** `corners A B C D`, with `counterclockwise` behind them if they are named that way round. */
export function readCorners(cursor: Cursor, draft: Draft): void {
  const room = roomOf(cursor, draft);
  const start = cursor.skip();
  const turn = cursor.takeEnd(TURN)?.[1]?.toLowerCase();
  const names = cornerNames(cursor);
  if (names.length === 0) cursor.fail("Name the corners, like: corners A B C D");
  if (names.length > MOST_CORNERS) cursor.fail(`At most ${MOST_CORNERS} corners pass.`, start);
  keepsAll(cursor, draft, names, start);
  if (turn !== undefined) {
    draft.room = { ...room, turn: turn === "clockwise" ? "clockwise" : "counterclockwise" };
    draft.put("rooms", draft.room);
  }
  const known = new Map(draft.corners(room.id).map((corner) => [corner.name, corner]));
  for (const [order, name] of names.entries()) {
    const id = known.get(name)?.id ?? draft.freshId("corners", `${room.id}.${keptCase(name, 12, "corner")}`);
    draft.put("corners", { ...known.get(name), id, room: room.id, name, order });
  }
  draft.last = room.id;
}

function cornerNames(cursor: Cursor): readonly string[] {
  const names: string[] = [];
  for (cursor.separators(); !cursor.atEnd(); cursor.separators()) {
    const start = cursor.skip();
    const name =
      cursor.quoted() ??
      cursor.take(/[\p{L}\p{N}](?:[\p{L}\p{N}\p{M}']*)/uy)?.[0] ??
      cursor.fail("A corner's name is letters and digits; put anything else in quotes.");
    if (names.includes(name)) cursor.fail(`The corner ${name} is named twice.`, start);
    names.push(cursor.proper(name, start));
    if (names.length > MOST_CORNERS) break;
  }
  return names;
}

/** Nothing that stands in the room may be lost by naming its corners anew. */
function keepsAll(cursor: Cursor, draft: Draft, names: readonly string[], start: number): void {
  const room = roomOf(cursor, draft);
  const corners = draft.corners(room.id);
  const left = corners.find((corner) => !names.includes(corner.name));
  if (left !== undefined) {
    cursor.fail(`${room.name} has a corner ${left.name} that this line leaves out. Name it too.`, start);
  }
  if (corners.length === 0) return;
  const nameOf = new Map(corners.map((corner) => [corner.id, corner.name]));
  for (const table of ["openings", "fixtures", "walls", "mounts", "wallCoverings"] as const) {
    for (const record of draft.all(table)) {
      if (record.room !== room.id) continue;
      const from = names.indexOf(nameOf.get(record.from) ?? "");
      const to = names.indexOf(nameOf.get(record.to) ?? "");
      if ((from + 1) % names.length === to) continue;
      const what = spokenOf(draft, record);
      cursor.fail(
        `${what} is on the wall ${names[from] ?? "?"}-${names[to] ?? "?"}, which these corners would take away.`,
        start,
      );
    }
  }
}

function spokenOf(draft: Draft, record: object): string {
  if ("name" in record) return String(record.name);
  if ("piece" in record) return draft.get("pieces", String(record.piece))?.name ?? "A piece";
  return "What was said of a side";
}

/** What a side of the room can be said to be. */
export type SideWord = "open" | "glass" | "wall" | "refused" | "allowed";

/**
 * `open C-D`: no wall stands on that side; `glass C-D`: it is of glass; `wall C-D`: a plain wall. Behind a comma or
 * as a word of its own, `refused` says that the venue lets nothing be put on it, `allowed` that it does.
 */
export function readSide(cursor: Cursor, draft: Draft, word: SideWord): void {
  const [from, to] = wallAt(cursor, draft);
  cursor.separators();
  const start = cursor.skip();
  const more = cursor.take(/(refused|allowed)(?![\p{L}\p{N}])/iuy)?.[0].toLowerCase();
  if (more !== undefined && (word === "refused" || word === "allowed")) {
    cursor.fail("Refused or allowed is said once.", start);
  }
  cursor.finish();
  const known = draft.find("walls", keyOf(from.id, to.id));
  const wanted = `${from.id}~${to.id}`;
  const id = known?.id ?? draft.freshId("walls", wanted.length <= 90 ? wanted : `${from.room}.wall`);
  const built = word === "open" || word === "glass" || word === "wall";
  const said = more ?? (built ? "" : word);
  draft.put("walls", {
    id,
    room: from.room,
    from: from.id,
    to: to.id,
    open: built ? word === "open" : (known?.open ?? false),
    glass: built ? word === "glass" : (known?.glass ?? false),
    refused: said === "" ? (known?.refused ?? false) : said === "refused",
  });
}

/** `sketch A at 3' along, 4' in`: where a rough sketch put a corner. Never a measurement. */
export function readSketch(cursor: Cursor, draft: Draft): void {
  const corner = cornerAt(cursor, draft);
  cursor.takeWord("at");
  const place = placeAt(cursor, draft);
  cursor.finish();
  draft.put("corners", { ...corner, sketchX: place.x, sketchY: place.y });
}

/** `X along, Y in`: along the first wall from the first corner, and square to it into the room. */
export function placeAt(cursor: Cursor, draft: Draft): { readonly x: number; readonly y: number } {
  const room = roomOf(cursor, draft);
  const x = cursor.length({ zero: true, signed: true });
  if (!cursor.takeWord("along")) cursor.fail("Along the first wall: say the word along behind it.");
  cursor.separators();
  const inward = cursor.length({ zero: true, signed: true });
  if (!cursor.takeWord("in")) {
    cursor.fail("Into the room: mark the figure and say the word in behind it, like 800 mm in.");
  }
  return { x, y: room.turn === "clockwise" ? 0 - inward : inward };
}

/** By what a reading was taken, at the end of its line. */
const INSTRUMENT =
  /[, ]+(?:(?:by|with) (?:the |a )?(laser|tape)|(?:from|off) (?:the |a )?(drawing)|(?:a |just a |my )?(guess)(?:ed)?)\s*$/iu;

function instrumentOf(cursor: Cursor): Reading["instrument"] {
  const found = cursor.takeEnd(INSTRUMENT);
  return (found?.[1] ?? found?.[2] ?? found?.[3] ?? "tape").toLowerCase() as Reading["instrument"];
}

/** `A to B 24' 0"` */
export function readDistance(cursor: Cursor, draft: Draft): void {
  const [from, to] = endsAt(cursor, draft);
  const instrument = instrumentOf(cursor);
  cursor.take(/[:=]|is(?!\p{L})/iuy);
  const start = cursor.skip();
  const value = cursor.length();
  finished(cursor, start);
  put(cursor, draft, { kind: "distance", from, to, value, start, instrument });
}

/** `angle B 90.2`: the angle inside the room, degrees. */
export function readAngle(cursor: Cursor, draft: Draft): void {
  const from = cornerAt(cursor, draft);
  const instrument = instrumentOf(cursor);
  cursor.take(/[:=]|is(?!\p{L})/iuy);
  const start = cursor.skip();
  const value = cursor.angle();
  cursor.finish();
  if (value <= 0 || value >= 360)
    cursor.fail("An angle inside a room is more than 0 and less than 360.", start);
  put(cursor, draft, { kind: "angle", from, value, start, instrument });
}

/** `height A 10' 2"` */
export function readHeight(cursor: Cursor, draft: Draft): void {
  const from = cornerAt(cursor, draft);
  const instrument = instrumentOf(cursor);
  cursor.take(/[:=]|is(?!\p{L})/iuy);
  const start = cursor.skip();
  const value = cursor.length();
  finished(cursor, start);
  put(cursor, draft, { kind: "height", from, value, start, instrument });
}

/** Nothing may follow the figure; a second figure behind it gets a reason of its own. */
function finished(cursor: Cursor, start: number): void {
  if (cursor.atEnd() || !/^[\d\u00bc-\u00be\u2150-\u215e]/.test(cursor.rest())) {
    cursor.finish();
    return;
  }
  const written = cursor.raw.slice(start).trim();
  cursor.fail(`"${written}" holds two lengths or two kinds of units. Which is it?`, start);
}

interface Measured {
  readonly kind: Reading["kind"];
  readonly from: Corner;
  readonly to?: Corner;
  readonly value: number;
  /** Where the figure begins in the line. */
  readonly start: number;
  readonly instrument: Reading["instrument"];
}

function put(cursor: Cursor, draft: Draft, measured: Measured): void {
  const { kind, from, to, value, start, instrument } = measured;
  const room = from.room;
  const ends = { from: from.id, ...(to === undefined ? {} : { to: to.id }) };
  const taken = (): never => cursor.fail("There is such a reading already; change that one.", 0);
  const known = draft.known("readings", readingKey({ room, kind, ...ends }), taken);
  if (known !== undefined) saidOnce(cursor, draft, known, { value, start });
  const at =
    to === undefined
      ? keptCase(from.name, 12, "corner")
      : `${keptCase(from.name, 12, "corner")}~${keptCase(to.name, 12, "corner")}`;
  const id = known?.id ?? draft.freshId("readings", `${room}.${kind}.${at}`);
  const order = known?.order ?? draft.nextOrder("readings", room);
  const typed = cursor.raw.slice(start, cursor.at).replaceAll("\t", " ").trim();
  draft.put("readings", { id, room, order, kind, ...ends, value, typed, instrument });
  draft.saidHere.set(id, { line: draft.line, typed });
}

/** One sheet may not say two things of the same reading: nobody could tell which was kept. */
function saidOnce(
  cursor: Cursor,
  draft: Draft,
  known: Reading,
  now: { readonly value: number; readonly start: number },
): void {
  const said = draft.saidHere.get(known.id);
  if (said === undefined || known.value === now.value) return;
  cursor.fail(`Line ${said.line} says ${said.typed} for the same reading. Which is right?`, now.start);
}
