/**
 * The tape sheet: a plain-text way to write a room down, line by line, as one would on a phone. Every line is
 * read by itself; a line that does not read is reported with its number, character and reason, and the rest is
 * still read. The sheet gives a Change on the document: what is said again replaces what was said of the same
 * thing, what is new is added, and nothing is ever taken away. The grammar is in docs/guide/tape-sheet.md.
 */
import { apply } from "../change/change.ts";
import type { Change } from "../change/change.ts";
import type { Problem } from "../document/problem.ts";
import { EMPTY_SHOW, listed, showOf } from "../document/tables.ts";
import type { ShowDocument, Units } from "../document/tables.ts";
import { Cursor, shortened, Unreadable } from "./cursor.ts";
import { Draft } from "./draft.ts";
import type { Subject } from "./draft.ts";
import { readCovering, readNeighbour, readTrim } from "./floor-lines.ts";
import * as day from "./day-lines.ts";
import { readPart, readPiece, readSolid } from "./piece-lines.ts";
import { readPlace } from "./place-lines.ts";
import * as room from "./room-lines.ts";
import * as show from "./show-lines.ts";
import { readStock, readStrips } from "./stock-lines.ts";
import { FIXTURE_WORDS, readFixture, readOpening } from "./wall-lines.ts";

/** One line of the sheet and whether it read; blank lines and remarks read too. */
export interface TapeLine {
  /** Counted from 1. */
  readonly number: number;
  /** As typed, shortened where it is long. */
  readonly text: string;
  readonly ok: boolean;
  /** Id of the record it speaks of, where it made or changed one. */
  readonly record?: string;
}

export interface TapeResult {
  readonly change: Change;
  /** The document with the change applied. */
  readonly document: ShowDocument;
  /** Every line that does not read, in order. */
  readonly problems: readonly Problem[];
  readonly lines: readonly TapeLine[];
}

export interface TapeOptions {
  /** Id of the room that lines belong to before any `room` line; the last room where it is not said. */
  readonly room?: string;
  /** What the undo list calls the change. */
  readonly label?: string;
  /**
   * The one record the sheet speaks of, whatever it calls it: its line, as `writeRecord` writes it, can be changed in
   * every word, its name too. Another record that has that name already is a reason.
   */
  readonly record?: Subject;
}

/** Longer lines are refused unread; only outlines may be as long as the second. */
const LINE_LIMIT = 2500;
const OUTLINE_LIMIT = 20_000;
const SHOWN = 100;

/** Letters nobody sees, which could make a line say one thing and mean another. A tab passes as a space. */
const HIDDEN = /[^\P{Cc}\t]|[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/u;

/**
 * Reads a whole sheet, or one line of it, onto a document. Never throws for what people write; the document given
 * is untouched. Bare numbers mean what the sheet's `units` line or a document with something in it says, and are
 * refused before that.
 */
export function readTape(text: string, document: ShowDocument, options: TapeOptions = {}): TapeResult {
  const draft = new Draft(document, unitsSaid(document), options.record);
  draft.room = options.room === undefined ? listed(document.rooms).at(-1) : document.rooms[options.room];
  const problems: Problem[] = [];
  const lines: TapeLine[] = [];
  let marked: Units | undefined;
  for (const [index, raw] of text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\r|\n/)
    .entries()) {
    draft.line = index + 1;
    draft.last = undefined;
    const read = readLine(raw, draft);
    marked ??= read.marked;
    const ok = read.problem === undefined;
    if (read.problem !== undefined) problems.push(read.problem);
    lines.push({
      number: draft.line,
      text: shown(raw),
      ok,
      ...(ok && draft.last !== undefined ? { record: draft.last } : {}),
    });
  }
  problems.push(...sizeless(draft));
  if (draft.units === undefined && marked !== undefined) {
    draft.put("shows", { ...draft.show(), units: marked });
  }
  const change = draft.change(options.label ?? "Read the tape sheet");
  const sorted = problems.toSorted((a, b) => (a.line ?? 0) - (b.line ?? 0));
  return { change, document: apply(document, change), problems: sorted, lines };
}

/** The document's units, unless it is one about which nothing has been said. */
function unitsSaid(document: ShowDocument): Units | undefined {
  const { units } = showOf(document);
  const untouched = Object.keys(document.rooms).length + Object.keys(document.pieces).length === 0;
  return untouched && units === EMPTY_SHOW.units ? undefined : units;
}

/** Pieces this sheet names and leaves without a size: kept, and asked about. */
function sizeless(draft: Draft): readonly Problem[] {
  return [...draft.sizeless.values()].map(({ line, text }) => ({
    line,
    at: text.trimEnd().length,
    reason:
      "How big is this piece? Say it like: 6' x 1' 10\" x 2' 10\" (or: no size yet). It is kept in the list without one.",
    text: shown(text),
  }));
}

/** A line as it can be shown: cut where it is long, hidden letters made visible. */
function shown(raw: string): string {
  return shortened(raw, SHOWN).replace(new RegExp(HIDDEN, "gu"), "\uFFFD");
}

/** The one fence: what a line raises becomes its problem, and what it had put so far was put whole or not at all. */
function readLine(raw: string, draft: Draft): { readonly problem?: Problem; readonly marked?: Units } {
  const refused = (reason: string, at: number): { readonly problem: Problem } => ({
    problem: { line: draft.line, at, reason, text: shown(raw) },
  });
  const limit = /^\s{0,20}[-*•]?\s{0,20}outline\s/i.test(raw.slice(0, 60)) ? OUTLINE_LIMIT : LINE_LIMIT;
  if (raw.length > limit) {
    return refused(`This line has ${raw.length} characters; at most ${limit} pass.`, limit);
  }
  const hidden = HIDDEN.exec(raw);
  if (hidden !== null) {
    return refused(
      "There is a hidden character here that could make the line say something else.",
      hidden.index,
    );
  }
  const begin = /^\s*(?:[-*\u2022\u2013\u2014\u00b7]\s+)?/u.exec(raw)?.[0].length ?? 0;
  if (begin >= raw.length || raw[begin] === "#") return {};
  const cursor = new Cursor(raw, begin, draft.units);
  try {
    dispatch(cursor, draft, begin);
    return cursor.marked === undefined ? {} : { marked: cursor.marked };
  } catch (fault) {
    if (fault instanceof Unreadable) return refused(fault.message, Math.min(fault.at, raw.length));
    throw fault;
  }
}

type LineReader = (cursor: Cursor, draft: Draft, begin: number) => void;

const LINES: { readonly [head: string]: LineReader } = {
  show: show.readShowName,
  units: show.readUnits,
  state: show.readState,
  grid: show.readGrid,
  zone: show.readZone,
  currency: show.readCurrency,
  wage: show.readWage,
  board: show.readBoard,
  opens: show.readOpens,
  note: show.readNote,
  private: show.readJotting,
  room: room.readRoom,
  corners: room.readCorners,
  clockwise: (cursor, draft) => room.readTurn(cursor, draft, "clockwise"),
  counterclockwise: (cursor, draft) => room.readTurn(cursor, draft, "counterclockwise"),
  anticlockwise: (cursor, draft) => room.readTurn(cursor, draft, "counterclockwise"),
  "walked in": (cursor, draft) => room.readEntered(cursor, draft, true),
  "looked into": (cursor, draft) => room.readEntered(cursor, draft, false),
  open: (cursor, draft) => room.readSide(cursor, draft, "open"),
  glass: (cursor, draft) => room.readSide(cursor, draft, "glass"),
  wall: (cursor, draft) => room.readSide(cursor, draft, "wall"),
  refused: (cursor, draft) => room.readSide(cursor, draft, "refused"),
  allowed: (cursor, draft) => room.readSide(cursor, draft, "allowed"),
  sketch: room.readSketch,
  angle: room.readAngle,
  height: room.readHeight,
  door: (cursor, draft, begin) => readOpening(cursor, draft, "door", begin),
  window: (cursor, draft, begin) => readOpening(cursor, draft, "window", begin),
  ...Object.fromEntries(
    Object.keys(FIXTURE_WORDS).map((word): [string, LineReader] => [
      word,
      (cursor, draft, begin) => readFixture(cursor, draft, word, begin),
    ]),
  ),
  piece: readPiece,
  box: (cursor, draft) => readSolid(cursor, draft, "box"),
  cylinder: (cursor, draft) => readSolid(cursor, draft, "cylinder"),
  outline: (cursor, draft) => readSolid(cursor, draft, "outline"),
  part: readPart,
  place: readPlace,
  stock: readStock,
  strips: readStrips,
  covering: readCovering,
  trim: readTrim,
  neighbour: readNeighbour,
  neighbor: readNeighbour,
  shift: day.readShift,
  rate: day.readRate,
  chore: day.readChore,
  ask: day.readQuestion,
};

/** Words that begin a line; a corner called like one of them is written in quotes. */
export const LINE_WORDS: ReadonlySet<string> = new Set(Object.keys(LINES).flatMap((head) => head.split(" ")));

function dispatch(cursor: Cursor, draft: Draft, begin: number): void {
  const two = /^(\p{L}+) +(\p{L}+)(?![\p{L}\p{N}])/u.exec(cursor.rest());
  const pair = two === null ? "" : `${two[1]} ${two[2]}`.toLowerCase();
  const head = Object.hasOwn(LINES, pair) ? pair : cursor.word();
  if (!Object.hasOwn(LINES, head)) {
    distance(cursor, draft);
    return;
  }
  cursor.at = begin + (head === pair ? (two?.[0].length ?? 0) : head.length);
  cursor.take(/:/y);
  LINES[head]?.(cursor, draft, begin);
}

/** Anything that begins with a corner or could mean one is a distance. */
function distance(cursor: Cursor, draft: Draft): void {
  const looksIt = /^(?:["\u201c].*|[\p{L}\p{N}]+ *(?:-+>?|\u2192) *\S|[\p{L}\p{N}]+ +to )/iu.test(
    cursor.rest(),
  );
  if (!looksIt) {
    cursor.fail(
      `No line begins like this. Lines begin with: room, corners, A to B, angle, height, door, window, outlet, stock, strips, trim, covering, piece, place, shift, ask, note ...`,
    );
  }
  room.readDistance(cursor, draft);
}
