/**
 * The document back as lines of a tape sheet: reading them onto an empty document gives the same document again
 * (ids and the text kept as typed aside, and two things of one name told apart by a number). Every length is
 * marked and exact: in the show's style where it lies on the print grid, in millimetres with all decimals else.
 */
import { listed, showOf } from "../document/tables.ts";
import type {
  Corner,
  Fixture,
  Neighbour,
  Opening,
  Piece,
  Reading,
  Room,
  ShowDocument,
  Solid,
  Units,
} from "../document/tables.ts";
import { parseAngle } from "../units/figures.ts";
import { exactLength, parseLength, plainDecimal } from "../units/length.ts";
import { LINE_WORDS } from "./read.ts";
import { writtenName, writtenRest } from "./names.ts";

const UNIT_LINE: { readonly [U in Units]: string } = {
  "ft-in": "feet and inches",
  in: "inches",
  mm: "mm",
  cm: "cm",
  m: "m",
};
const POUND = 0.45359237;

/** The whole document as a tape sheet, a newline at its end. */
export function writeTape(document: ShowDocument): string {
  const units = showOf(document).units;
  const blocks = [
    showLines(document),
    ...listed(document.rooms).map((room) => roomLines(document, room, units)),
    pieceLines(document, units),
    ...listed(document.rooms).map((room) => placementLines(document, room, units)),
    listed(document.notes).map((note) => `note ${writtenRest(note.text)}`),
    listed(document.jottings).map((note) => `private ${writtenRest(note.text)}`),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join("\n"))
    .join("\n\n")}\n`;
}

/** One reading as its line: `A to C 29' 2"`, as typed where what was typed still says its value. */
export function writeReading(reading: Reading, document: ShowDocument): string {
  const units = showOf(document).units;
  const from = cornerName(document, reading.from);
  const head =
    reading.kind === "distance"
      ? `${from} to ${cornerName(document, reading.to)}`
      : `${reading.kind} ${from}`;
  const by = {
    tape: "",
    laser: ", by laser",
    drawing: ", from the drawing",
    guess: ", a guess",
  }[reading.instrument];
  return `${head} ${figure(reading, units)}${by}`;
}

function figure(reading: Reading, units: Units): string {
  const { kind, typed, value } = reading;
  const again = kind === "angle" ? parseAngle(typed) : parseLength(typed, units);
  if (again.ok && again.value === value) return typed.trim();
  return kind === "angle" ? plainDecimal(value) : exactLength(value, units);
}

function showLines(document: ShowDocument): readonly string[] {
  const show = showOf(document);
  return [
    `show ${writtenRest(show.name)}`,
    `units ${UNIT_LINE[show.units]}`,
    ...(show.place === "" ? [] : [`place ${show.place}`]),
    `state ${writtenRest(show.state)}`,
    `grid ${exactLength(show.gridPitch, show.units)} is ${exactLength(show.gridSquare, show.units)}`,
  ];
}

/** A corner as a line holds it: plain where it is letters and digits and no word that begins a line. */
function cornerWord(name: string): string {
  const plain =
    /^[\p{L}\p{N}]+$/u.test(name) && !LINE_WORDS.has(name.toLowerCase()) && !/^(to|is|by)$/iu.test(name);
  return plain ? name : `"${name.replaceAll('"', '""')}"`;
}

function cornerName(document: ShowDocument, id: string | undefined): string {
  return cornerWord((id === undefined ? undefined : document.corners[id]?.name) ?? "?");
}

function inRoom<R extends { readonly id: string; readonly order: number; readonly room: string }>(
  table: { readonly [id: string]: R },
  room: Room,
): readonly R[] {
  return listed(table).filter((record) => record.room === room.id);
}

/** Names by record id; the second of one name gets " (2)" so that the two stay two. */
function distinct(
  records: readonly { readonly id: string; readonly name: string }[],
): ReadonlyMap<string, string> {
  const taken = new Set(records.map((record) => record.name.toLowerCase()));
  const used = new Set<string>();
  return new Map(
    records.map(({ id, name }) => {
      let said = name;
      for (let number = 2; used.has(said.toLowerCase()); number++) {
        const next = `${name.slice(0, 190)} (${number})`;
        if (!taken.has(next.toLowerCase()) || used.has(next.toLowerCase())) said = next;
      }
      used.add(said.toLowerCase());
      return [id, said];
    }),
  );
}

function roomLines(document: ShowDocument, room: Room, units: Units): readonly string[] {
  const corners = inRoom(document.corners, room);
  const openings = inRoom(document.openings, room);
  const names = new Map([
    ...distinct(openings.filter((opening) => opening.kind === "door")),
    ...distinct(openings.filter((opening) => opening.kind === "window")),
  ]);
  const fixtures = inRoom(document.fixtures, room);
  const kinds = [...new Set(fixtures.map((fixture) => fixture.kind))];
  const fixtureNames = new Map(
    kinds.flatMap((kind) => [...distinct(fixtures.filter((one) => one.kind === kind))]),
  );
  const length = (mm: number): string => exactLength(mm, units);
  return [
    `room ${writtenRest(distinct(listed(document.rooms)).get(room.id) ?? room.name)}`,
    ...(corners.length === 0
      ? []
      : [`corners ${corners.map((corner) => cornerWord(corner.name)).join(" ")}`]),
    ...(room.turn === "clockwise" ? [] : ["counterclockwise"]),
    ...corners.flatMap((corner) => sketchLine(corner, room, units)),
    ...Object.values(document.walls)
      .filter((wall) => wall.room === room.id)
      .toSorted((a, b) => (a.id < b.id ? -1 : 1))
      .map((wall) => `${wall.open ? "open" : "wall"} ${wallWord(document, wall)}`),
    ...inRoom(document.readings, room).map((reading) => writeReading(reading, document)),
    ...openings.map((opening) => openingLine(document, opening, { name: names.get(opening.id), length })),
    ...fixtures.map((fixture) =>
      fixtureLine(document, fixture, { name: fixtureNames.get(fixture.id), length }),
    ),
    ...inRoom(document.trims, room).map(
      (trim) =>
        `trim ${trim.kind} ${length(trim.height)} x ${length(trim.depth)}${trim.kind === "crown" ? "" : `, up ${length(trim.up)}`}`,
    ),
    ...floorLines(document, room, units, names),
  ];
}

function sketchLine(corner: Corner, room: Room, units: Units): readonly string[] {
  const { sketchX, sketchY } = corner;
  if (sketchX === undefined || sketchY === undefined) return [];
  return [`sketch ${cornerWord(corner.name)} at ${where(room, { x: sketchX, y: sketchY }, units)}`];
}

function where(room: Room, at: { readonly x: number; readonly y: number }, units: Units): string {
  const inward = room.turn === "clockwise" ? 0 - at.y : at.y;
  return `${exactLength(at.x, units)} along, ${exactLength(inward, units)} in`;
}

function turned(turn: number): string {
  return turn === 0 ? "" : `, turn ${plainDecimal(turn)}`;
}

function wallWord(document: ShowDocument, on: { readonly from: string; readonly to: string }): string {
  return `${cornerName(document, on.from)}-${cornerName(document, on.to)}`;
}

interface Written {
  readonly name: string | undefined;
  readonly length: (mm: number) => string;
}

function openingLine(document: ShowDocument, opening: Opening, written: Written): string {
  const { length } = written;
  const { kind, clear, casing, hinge, opens } = opening;
  return [
    `${kind} ${titled(kind === "door" ? "Door" : "Window", written.name ?? opening.name)} on ${wallWord(document, opening)} at ${length(opening.offset)} from ${cornerName(document, opening.datum)}`,
    kind === "door" ? `leaf ${length(opening.width)}` : `${length(opening.width)} wide`,
    ...(clear === undefined ? [] : [`clear ${length(clear)}`]),
    ...(casing === undefined ? [] : [`casing ${length(casing)}`]),
    `${length(opening.height)} high`,
    ...(kind === "door" && opening.sill === 0 ? [] : [`sill ${length(opening.sill)}`]),
    ...(hinge === undefined ? [] : [`hinge ${cornerName(document, hinge)}`]),
    ...(opens === undefined ? [] : [`opens ${opens}`]),
  ].join(", ");
}

/** `2` for "Door 2", the name in its own spelling otherwise. */
function titled(title: string, name: string): string {
  const number = new RegExp(`^${title} ([1-9]\\d{0,3})$`, "u").exec(name)?.[1];
  return number ?? writtenName(name);
}

function fixtureLine(document: ShowDocument, fixture: Fixture, written: Written): string {
  const { length } = written;
  const { kind, out, up, width, depth, height } = fixture;
  const title = kind.charAt(0).toUpperCase() + kind.slice(1);
  const inTheRoom = kind === "sprinkler" || kind === "column";
  return [
    `${kind} ${titled(title, written.name ?? fixture.name)} on ${wallWord(document, fixture)} at ${length(fixture.offset)} from ${cornerName(document, fixture.datum)}`,
    ...(out === 0 ? [] : [`${inTheRoom ? "in" : "off"} ${length(out)}`]),
    `up ${length(up)}`,
    ...(width === 0 ? [] : [`${length(width)} wide`]),
    ...(depth === 0 ? [] : [inTheRoom ? `${length(depth)} deep` : `out ${length(depth)}`]),
    ...(height === 0 ? [] : [`${length(height)} high`]),
  ].join(", ");
}

function floorLines(
  document: ShowDocument,
  room: Room,
  units: Units,
  openings: ReadonlyMap<string, string>,
): readonly string[] {
  const length = (mm: number): string => exactLength(mm, units);
  const coverings = inRoom(document.coverings, room);
  const neighbours = inRoom(document.neighbours, room);
  const coveringNames = distinct(coverings);
  const neighbourNames = distinct(neighbours);
  return [
    ...coverings.map(
      (covering) =>
        `covering ${writtenName(coveringNames.get(covering.id) ?? "")}, ${length(covering.width)} x ${length(covering.depth)} x ${length(covering.thickness)} thick` +
        `${covering.border === 0 ? "" : `, border ${length(covering.border)}`}, at ${where(room, covering, units)}${turned(covering.turn)}${covering.walkable ? ", walkable" : ""}`,
    ),
    ...neighbours.map(
      (neighbour) =>
        `neighbour ${writtenName(neighbourNames.get(neighbour.id) ?? "")}, ${neighbourSize(neighbour, length)}` +
        `${neighbour.low === 0 ? "" : `, plinth ${length(neighbour.low)} high`}, at ${where(room, neighbour, units)}${turned(neighbour.turn)}${seenFrom(document, neighbour, openings)}`,
    ),
  ];
}

function neighbourSize(neighbour: Neighbour, length: Written["length"]): string {
  return neighbour.round
    ? `${length(neighbour.width)} across x ${length(neighbour.height)}`
    : `${length(neighbour.width)} x ${length(neighbour.depth)} x ${length(neighbour.height)}`;
}

function seenFrom(document: ShowDocument, neighbour: Neighbour, names: ReadonlyMap<string, string>): string {
  const id = neighbour.seenFrom;
  if (id === undefined) return "";
  const name = names.get(id) ?? document.openings[id]?.name ?? "";
  return `, seen from ${/[,;"]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name}`;
}

function pieceLines(document: ShowDocument, units: Units): readonly string[] {
  const pieces = listed(document.pieces);
  const names = distinct(pieces);
  const solids = new Map<string, Solid[]>();
  for (const solid of listed(document.solids)) {
    const list = solids.get(solid.piece) ?? [];
    solids.set(solid.piece, list);
    list.push(solid);
  }
  return pieces.flatMap((piece) =>
    onePiece(piece, names.get(piece.id) ?? piece.name, solids.get(piece.id) ?? [], units),
  );
}

function onePiece(piece: Piece, name: string, solids: readonly Solid[], units: Units): readonly string[] {
  const [first] = solids;
  const plain =
    first !== undefined &&
    solids.length === 1 &&
    first.shape !== "outline" &&
    besideMiddle(first, units) === "";
  const head = [
    `piece ${writtenName(name)}${piece.count === 1 ? "" : ` x${piece.count}`}`,
    ...(plain ? [solidSize(first, units)] : []),
    ...(solids.length === 0 ? ["no size yet"] : []),
    ...(piece.sits ? ["sits"] : []),
    ...(piece.weight === undefined ? [] : [`weighs ${weight(piece.weight, units)}`]),
    ...(piece.layer === "accessory" ? ["accessory"] : []),
  ].join(", ");
  return [head, ...(plain ? [] : solids.map((solid) => solidLine(solid, units)))];
}

function weight(kg: number, units: Units): string {
  const pounds = Math.round((kg / POUND) * 1e4) / 1e4;
  const exact = Math.round(pounds * POUND * 1e6) / 1e6 === kg;
  return exact && (units === "ft-in" || units === "in")
    ? `${plainDecimal(pounds)} lb`
    : `${plainDecimal(kg)} kg`;
}

function solidSize(solid: Solid, units: Units): string {
  const length = (mm: number): string => exactLength(mm, units);
  return solid.shape === "cylinder"
    ? `${length(solid.width)} across x ${length(solid.height)}`
    : `${length(solid.width)} x ${length(solid.depth)} x ${length(solid.height)}`;
}

/** Where a solid is in its piece, with the comma before it; nothing where it stands in the middle. */
function besideMiddle(solid: Solid, units: Units): string {
  const length = (mm: number): string => exactLength(mm, units);
  const sides = [
    ...(solid.x === 0 ? [] : [solid.x > 0 ? `${length(solid.x)} right` : `${length(-solid.x)} left`]),
    ...(solid.y === 0 ? [] : [solid.y > 0 ? `${length(solid.y)} back` : `${length(-solid.y)} forward`]),
  ];
  const up = solid.z === 0 ? "" : `, up ${length(solid.z)}`;
  return `${sides.length === 0 ? "" : `, at ${sides.join(", ")}`}${up}${turned(solid.turn)}`;
}

function solidLine(solid: Solid, units: Units): string {
  const length = (mm: number | undefined): string => exactLength(mm ?? 0, units);
  const corners = (solid.outline ?? []).map(([x, y]) => `(${length(x)}, ${length(y)})`);
  const outline = corners.length === 0 ? "" : `, corners ${corners.join(" ")}`;
  return `  ${solid.shape} ${solidSize(solid, units)}${besideMiddle(solid, units)}${outline}`;
}

function placementLines(document: ShowDocument, room: Room, units: Units): readonly string[] {
  const names = distinct(listed(document.pieces));
  const standing = Object.values(document.placements)
    .filter((placement) => placement.room === room.id)
    .toSorted((a, b) => (a.piece === b.piece ? a.number - b.number : a.piece < b.piece ? -1 : 1));
  if (standing.length === 0) return [];
  const roomName = distinct(listed(document.rooms)).get(room.id) ?? room.name;
  return [
    `room ${writtenRest(roomName)}`,
    ...standing.map((placement) => {
      const piece = document.pieces[placement.piece];
      const number = piece === undefined || piece.count === 1 ? "" : ` ${placement.number}`;
      const name = writtenName(names.get(placement.piece) ?? "");
      return `place ${name}${number} at ${where(room, placement, units)}${turned(placement.turn)}`;
    }),
  ];
}
