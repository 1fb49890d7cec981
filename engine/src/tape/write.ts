/**
 * The document back as lines of a tape sheet: reading them onto an empty document gives the same document again
 * (ids and the text kept as typed aside, and two things of one name told apart by a number). Every length is
 * marked and exact: in the show's style where it lies on the print grid, in millimetres with all decimals else.
 */
import { listed } from "../document/tables.ts";
import type { Reading, RecordOf, ShowDocument, TableName } from "../document/tables.ts";
import { writtenRest } from "./names.ts";
import { choreLine, questionLine, rateLine, shiftLine, showLines, stockLine } from "./write-days.ts";
import { mountLine, onePiece, pieceLines, placeLines, placementLine } from "./write-pieces.ts";
import * as room from "./write-room.ts";
import { inRoom, Writing } from "./writing.ts";

/** The whole document as a tape sheet, a newline at its end. */
export function writeTape(document: ShowDocument): string {
  const writing = new Writing(document);
  const rooms = listed(document.rooms);
  const blocks = [
    showLines(writing),
    listed(document.stocks).map((stock) => stockLine(writing, stock)),
    ...rooms.map((one) => room.roomLines(writing, one)),
    pieceLines(writing),
    ...rooms.map(({ id }) => inTheRoom(writing, id)),
    listed(document.shifts).map(shiftLine),
    Object.values(document.rates)
      .toSorted((a, b) => (a.id < b.id ? -1 : 1))
      .map(rateLine),
    listed(document.questions).map(questionLine),
    listed(document.notes).map((note) => `note ${writtenRest(note.text)}`),
    listed(document.jottings).map((note) => `private ${writtenRest(note.text)}`),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join("\n"))
    .join("\n\n")}\n`;
}

/** What is in a room once pieces are named: where their copies are, and its chores. */
function inTheRoom(writing: Writing, id: string): readonly string[] {
  const lines = [
    ...placeLines(writing, id),
    ...inRoom(writing.document.chores, id).map((chore) => choreLine(writing, chore)),
  ];
  return lines.length === 0 ? [] : [`room ${writtenRest(writing.room(id))}`, ...lines];
}

/** One reading as its line: `A to C 29' 2"`, as typed where what was typed still says its value. */
export function writeReading(reading: Reading, document: ShowDocument): string {
  return room.readingLine(new Writing(document), reading);
}

/** How a record of each table is written. */
const LINES: { readonly [T in TableName]: (writing: Writing, record: RecordOf<T>) => readonly string[] } = {
  shows: showLines,
  rooms: room.roomHead,
  corners: (writing, corner) => {
    const around = inRoom(writing.document.corners, corner.room).map(({ id }) => writing.corner(id));
    return [`corners ${around.join(" ")}`, ...room.sketchLine(writing, corner)];
  },
  walls: (writing, wall) => [room.wallLine(writing, wall)],
  readings: (writing, reading) => [room.readingLine(writing, reading)],
  openings: (writing, opening) => [room.openingLine(writing, opening)],
  fixtures: (writing, fixture) => [room.fixtureLine(writing, fixture)],
  pieces: onePiece,
  solids: (writing, { piece }) => pieceOf(writing, piece),
  parts: (writing, { piece }) => pieceOf(writing, piece),
  placements: (writing, placement) => [placementLine(writing, placement)],
  mounts: (writing, mount) => [mountLine(writing, mount)],
  stocks: (writing, stock) => [stockLine(writing, stock)],
  coverings: (writing, covering) => [room.coveringLine(writing, covering)],
  wallCoverings: (writing, strips) => [room.stripsLine(writing, strips)],
  trims: (writing, trim) => [room.trimLine(writing, trim)],
  neighbours: (writing, neighbour) => [room.neighbourLine(writing, neighbour)],
  shifts: (_, shift) => [shiftLine(shift)],
  rates: (_, rate) => [rateLine(rate)],
  chores: (writing, chore) => [choreLine(writing, chore)],
  questions: (_, question) => [questionLine(question)],
  notes: (_, note) => [`note ${writtenRest(note.text)}`],
  jottings: (_, note) => [`private ${writtenRest(note.text)}`],
};

function pieceOf(writing: Writing, id: string): readonly string[] {
  const piece = writing.document.pieces[id];
  return piece === undefined ? [] : onePiece(writing, piece);
}

/**
 * The line of the tape sheet that says a record (of a room or a piece: its lines), without a newline at the end.
 * A solid or a part of a piece is written with its whole piece. Read back with `readTape` and the record's room and
 * id in the options it says the same record, changed where the line was. Throws for an id the table does not have.
 */
export function writeRecord(document: ShowDocument, table: TableName, id: string): string {
  const record = document[table][id];
  if (record === undefined) throw new Error(`there is no record ${JSON.stringify(id)} in ${table}`);
  const lines = LINES[table] as (writing: Writing, of: typeof record) => readonly string[];
  return lines(new Writing(document), record).join("\n");
}
