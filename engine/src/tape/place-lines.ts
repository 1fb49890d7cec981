/** Lines that say where copies of pieces are: on the floor, hung, on another copy, or fixed to a wall. */
import type { Corner, Mount, Piece, Placement } from "../document/tables.ts";
import { readClauses } from "./clauses.ts";
import { cornerAt, roomOf, wallAt } from "./corners.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { placeAt } from "./room-lines.ts";
import { readCountry } from "./show-lines.ts";
import { offsetFrom } from "./wall-lines.ts";

/** More fittings than anyone says in one row. */
const MOST_IN_ROW = 500;

/** Copies one behind another: `Hook 1 to 7`. */
interface Copies {
  readonly piece: Piece;
  readonly first: number;
  readonly last: number;
}

/**
 * `place Bench 2 at 3' along, 2' 6" in, turn 90`; `up 6' 9"` for what hangs; `place Urn on Booth at 6" right, 4" back`;
 * `place Hook 1 to 7 on A-B at 2' from A, every 18", up 5' 6"`. Without any place it is a country: `place US`.
 */
export function readPlace(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const plain = unquoted(cursor);
  const at = plain.lastIndexOf(" at ");
  const head = at < 0 ? plain : plain.slice(0, at);
  const on = head.lastIndexOf(" on ");
  if (at < 0 && on < 0) {
    readCountry(cursor, draft);
    return;
  }
  const until = start + (at < 0 ? plain.length : at);
  const whole = at < 0 ? undefined : copiesIn(cursor, draft, until);
  if (on < 0 || whole !== undefined) {
    placeOnFloor(cursor, draft, whole ?? copiesAt(cursor, draft, until));
    return;
  }
  const copies = copiesAt(cursor, draft, start + on);
  cursor.takeWord("on");
  if (seesWall(cursor, draft)) placeOnWall(cursor, draft, copies);
  else placeOnCopy(cursor, draft, { copies, until });
}

/** What is left, with every quoted name blanked: what stands in quotes joins nothing. Inch marks follow figures and stay. */
function unquoted(cursor: Cursor): string {
  return cursor
    .rest()
    .toLowerCase()
    .replace(
      /(^|[\s-])"(?:[^"]|"")*"/gu,
      (quoted, before: string) => before + "_".repeat(quoted.length - before.length),
    );
}

/** Which copies of which piece are named up to a place in the line: `Bench 2`, `"Bench at sea" 2`, `Hook 1 to 7`. */
function copiesAt(cursor: Cursor, draft: Draft, until: number): Copies {
  const start = cursor.skip();
  const found = copiesIn(cursor, draft, until);
  if (found !== undefined) return found;
  const written = cursor.quoted() ?? cursor.nameUntil(until);
  if (pieceCalled(draft, written) !== undefined) {
    cursor.fail(`"${cursor.raw.slice(cursor.at, until).trim()}" is no number of a copy.`, start);
  }
  return cursor.fail(`There is no piece "${written}" yet. Name it in a line above.`, start);
}

/** How copies are numbered behind a name: one, or a row of them. */
const NUMBERED = [/^(.*\S)\s+(\d{1,6}\s*(?:to|-)\s*\d{1,6})$/iu, /^(.*\S)\s+(\d{1,6})$/u];

/** The same, or undefined with nothing taken where there is no such piece. */
function copiesIn(cursor: Cursor, draft: Draft, until: number): Copies | undefined {
  const start = cursor.skip();
  const quoted = cursor.quoted();
  const rest = cursor.raw.slice(cursor.at, until).trim();
  cursor.at = start;
  const named =
    quoted === undefined ? namedCopies(draft, rest) : { piece: pieceCalled(draft, quoted), said: rest };
  if (named?.piece === undefined) return undefined;
  const { piece, said } = named;
  if (!/^(?:\d{1,6}(?:\s*(?:to|-)\s*\d{1,6})?)?$/iu.test(said)) return undefined;
  const [first = 1, last = first] = said.match(/\d+/g)?.map(Number) ?? [];
  if (Math.min(first, last) < 1 || Math.max(first, last) > piece.count) {
    cursor.fail(`There ${piece.count === 1 ? "is" : "are"} only ${piece.count} of ${piece.name}.`, start);
  }
  if (last < first) cursor.fail(`From ${first} to ${last} runs backwards.`, start);
  cursor.at = until;
  return { piece, first, last };
}

/** A name without quotes: a piece called just so, or one with numbers of copies behind it. */
function namedCopies(
  draft: Draft,
  written: string,
): { readonly piece: Piece; readonly said: string } | undefined {
  const exact = pieceCalled(draft, written);
  if (exact !== undefined) return { piece: exact, said: "" };
  for (const pattern of NUMBERED) {
    const [, name = "", said = ""] = pattern.exec(written) ?? [];
    const piece = pieceCalled(draft, name);
    if (piece !== undefined) return { piece, said };
  }
  return undefined;
}

function pieceCalled(draft: Draft, name: string): Piece | undefined {
  return draft.find("pieces", keyOf("", name));
}

/** The one copy named; several have no place on a floor or on another copy. */
function single(cursor: Cursor, copies: Copies): number {
  if (copies.first !== copies.last) {
    cursor.fail(
      "Only what is fixed to a wall is said in a row; give each of the others a line of its own.",
      0,
    );
  }
  return copies.first;
}

function placeOnFloor(cursor: Cursor, draft: Draft, copies: Copies): void {
  const room = roomOf(cursor, draft);
  const number = single(cursor, copies);
  if (!cursor.takeWord("at")) cursor.fail("Where does it stand? Say it like: at 3' along, 2' 6\" in");
  const place = placeAt(cursor, draft);
  const said = { turn: 0, up: 0 };
  readClauses(cursor, { before: standingWords(cursor, said) });
  stand(cursor, draft, { piece: copies.piece.id, room: room.id, number, ...place, ...said });
}

function standingWords(
  cursor: Cursor,
  said: { turn: number; up: number },
): { readonly [word: string]: () => void } {
  return {
    turn: () => {
      said.turn = cursor.angle();
    },
    up: () => {
      said.up = cursor.length({ zero: true });
    },
  };
}

function placeOnCopy(
  cursor: Cursor,
  draft: Draft,
  what: { readonly copies: Copies; readonly until: number },
): void {
  const number = single(cursor, what.copies);
  const start = cursor.skip();
  const carrier = copiesAt(cursor, draft, what.until);
  const carrierNumber = single(cursor, carrier);
  const name = carrier.piece.count === 1 ? carrier.piece.name : `${carrier.piece.name} ${carrierNumber}`;
  const below = draft.find("placements", keyOf(carrier.piece.id, String(carrierNumber)));
  if (below === undefined) cursor.fail(`${name} stands nowhere yet. Place it in a line above.`, start);
  if (!cursor.takeWord("at")) cursor.fail(`Where on ${name}? Say it like: at 6" right, 4" back`);
  const place: { x?: number; y?: number } = {};
  const said = { turn: 0, up: 0 };
  const side = (axis: "x" | "y", sign: 1 | -1) => (mm: number) => {
    if (place[axis] !== undefined) cursor.fail("This is said twice in one line. Which of them holds?", 0);
    place[axis] = sign === 1 ? mm : 0 - mm;
  };
  const after = { right: side("x", 1), left: side("x", -1), back: side("y", 1), forward: side("y", -1) };
  readClauses(cursor, { before: standingWords(cursor, said), after, signed: true });
  const { x, y } = place;
  if (x === undefined && y === undefined) cursor.fail(`Where on ${name}? Say it like: at 6" right, 4" back`);
  const record = {
    piece: what.copies.piece.id,
    room: below.room,
    number,
    x: x ?? 0,
    y: y ?? 0,
    ...said,
    on: below.id,
  };
  carriesNoCircle(cursor, draft, record);
  stand(cursor, draft, record);
}

/** What would stand on itself, by whatever way, stands nowhere. */
function carriesNoCircle(cursor: Cursor, draft: Draft, record: Omit<Placement, "id">): void {
  const own = draft.find("placements", keyOf(record.piece, String(record.number)))?.id;
  for (let at = record.on; at !== undefined; at = draft.get("placements", at)?.on) {
    if (at === own) cursor.fail("What it is to stand on stands on it already.", 0);
  }
}

/** Puts a copy where it is said to stand, wherever it was before; what stands on it comes along. */
function stand(cursor: Cursor, draft: Draft, record: Omit<Placement, "id">): void {
  const key = keyOf(record.piece, String(record.number));
  const known = knownCopy(cursor, draft, { table: "placements", key });
  const mounted = draft.find("mounts", key);
  if (mounted !== undefined) draft.drop("mounts", mounted.id);
  const id = known?.id ?? draft.freshId("placements", `${record.piece}.at.${record.number}`);
  if (known !== undefined && known.room !== record.room) bringAlong(draft, id, record.room);
  draft.put("placements", { ...record, id });
}

function knownCopy<T extends "placements" | "mounts">(
  cursor: Cursor,
  draft: Draft,
  of: { readonly table: T; readonly key: string },
) {
  return draft.known(of.table, of.key, () =>
    cursor.fail("That copy has a place already; change that one.", 0),
  );
}

function bringAlong(draft: Draft, carrier: string, room: string): void {
  for (const load of draft.all("placements").filter(({ on }) => on === carrier)) {
    draft.put("placements", { ...load, room });
    bringAlong(draft, load.id, room);
  }
}

/** Whether two corners joined as a wall stand here; nothing is taken. */
function seesWall(cursor: Cursor, draft: Draft): boolean {
  const { room } = draft;
  if (room === undefined || draft.corners(room.id).length === 0) return false;
  const back = cursor.at;
  const joined = cursor.tried(() => {
    cornerAt(cursor, draft);
    return cursor.take(/-+>?|\u2192|to(?![\p{L}\p{N}])/iuy) !== undefined;
  });
  cursor.at = back;
  return joined === true;
}

function placeOnWall(cursor: Cursor, draft: Draft, copies: Copies): void {
  const wall = wallAt(cursor, draft);
  const said: { datum?: string; offset?: number; up?: number; every?: number } = {};
  readClauses(cursor, {
    before: {
      at: () => offsetFrom(cursor, draft, wall, said),
      every: () => {
        said.every = cursor.length();
      },
      up: () => {
        said.up = cursor.length({ zero: true });
      },
    },
  });
  const { datum, offset, up, every } = said;
  if (datum === undefined || offset === undefined) {
    cursor.fail(`Where on the wall is its middle? Say it like: at 2' from ${wall[0].name}`);
  }
  if (up === undefined) cursor.fail("How high above the floor is its underside? Say it like: up 5' 6\"");
  const count = copies.last - copies.first + 1;
  if (count > MOST_IN_ROW) cursor.fail(`At most ${MOST_IN_ROW} make a row.`, 0);
  if (count > 1 && every === undefined)
    cursor.fail('How far is it from one to the next? Say it like: every 18"');
  if (count === 1 && every !== undefined) cursor.fail("One alone has no row. Say it like: Hook 1 to 7", 0);
  for (let number = copies.first; number <= copies.last; number++) {
    carriesNothing(cursor, draft, keyOf(copies.piece.id, String(number)));
  }
  for (let place = 0; place < count; place++) {
    // Sums of inches in millimetres are kept to the nanometre, so that each reads back as it is written.
    const along = place === 0 ? offset : Math.round((offset + place * (every ?? 0)) * 1e6) / 1e6;
    fix(cursor, draft, {
      wall,
      copy: { piece: copies.piece.id, number: copies.first + place },
      datum,
      along,
      up,
    });
  }
}

interface Fixed {
  readonly wall: readonly [Corner, Corner];
  readonly copy: Pick<Mount, "piece" | "number">;
  readonly datum: string;
  readonly along: number;
  readonly up: number;
}

/** What carries another copy cannot go on a wall and leave it behind. */
function carriesNothing(cursor: Cursor, draft: Draft, key: string): void {
  const standing = draft.find("placements", key);
  if (standing === undefined || draft.all("placements").every(({ on }) => on !== standing.id)) return;
  cursor.fail("Something stands on it. Take that off before it goes on a wall.", 0);
}

/** Fixes one copy to a wall, wherever it was before. */
function fix(cursor: Cursor, draft: Draft, { wall, copy, datum, along, up }: Fixed): void {
  const key = keyOf(copy.piece, String(copy.number));
  const known = knownCopy(cursor, draft, { table: "mounts", key });
  const standing = draft.find("placements", key);
  if (standing !== undefined) draft.drop("placements", standing.id);
  const id = known?.id ?? draft.freshId("mounts", `${copy.piece}.on.${copy.number}`);
  draft.put("mounts", {
    id,
    ...copy,
    room: wall[0].room,
    from: wall[0].id,
    to: wall[1].id,
    datum,
    offset: along,
    up,
  });
}
