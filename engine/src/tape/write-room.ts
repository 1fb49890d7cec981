/** Lines of a room as they are written: the room itself, what was measured, and what is on its walls and its floor. */
import type {
  Corner,
  Covering,
  Fixture,
  Neighbour,
  Opening,
  Reading,
  Room,
  Trim,
  Wall,
  WallCovering,
} from "../document/tables.ts";
import { parseAngle } from "../units/figures.ts";
import { exactLength, parseLength, plainDecimal } from "../units/length.ts";
import { exactSpan } from "../units/times.ts";
import { writtenName, writtenRest } from "./names.ts";
import { cornerWord, inRoom, titled, turned } from "./writing.ts";
import type { Writing } from "./writing.ts";

/** The room's own lines: its name, its corners, which way they run, and whether one walks in. */
export function roomHead(writing: Writing, room: Room): readonly string[] {
  const corners = inRoom(writing.document.corners, room.id);
  return [
    `room ${writtenRest(writing.room(room.id))}`,
    ...(corners.length === 0
      ? []
      : [`corners ${corners.map((corner) => cornerWord(corner.name)).join(" ")}`]),
    ...(room.turn === "clockwise" ? [] : ["counterclockwise"]),
    ...(room.entered ? [] : ["looked into"]),
  ];
}

/** Everything of a room but what stands in it. */
export function roomLines(writing: Writing, room: Room): readonly string[] {
  const { document } = writing;
  return [
    ...roomHead(writing, room),
    ...inRoom(document.corners, room.id).flatMap((corner) => sketchLine(writing, corner)),
    ...Object.values(document.walls)
      .filter((wall) => wall.room === room.id)
      .toSorted((a, b) => (a.id < b.id ? -1 : 1))
      .map((wall) => wallLine(writing, wall)),
    ...inRoom(document.readings, room.id).map((reading) => readingLine(writing, reading)),
    ...inRoom(document.openings, room.id).map((opening) => openingLine(writing, opening)),
    ...inRoom(document.fixtures, room.id).map((fixture) => fixtureLine(writing, fixture)),
    ...inRoom(document.wallCoverings, room.id).map((strips) => stripsLine(writing, strips)),
    ...inRoom(document.trims, room.id).map((trim) => trimLine(writing, trim)),
    ...inRoom(document.coverings, room.id).map((covering) => coveringLine(writing, covering)),
    ...inRoom(document.neighbours, room.id).map((neighbour) => neighbourLine(writing, neighbour)),
  ];
}

/** Where a rough sketch put a corner; nothing where none did. */
export function sketchLine(writing: Writing, corner: Corner): readonly string[] {
  const { sketchX, sketchY } = corner;
  if (sketchX === undefined || sketchY === undefined) return [];
  const room = writing.document.rooms[corner.room];
  return [`sketch ${cornerWord(corner.name)} at ${writing.where(room, { x: sketchX, y: sketchY })}`];
}

export function wallLine(writing: Writing, wall: Wall): string {
  const built = wall.open ? "open" : wall.glass ? "glass" : "wall";
  return `${built} ${writing.wall(wall)}${wall.refused ? ", refused" : ""}`;
}

/** One reading: as typed where what was typed still says its value. */
export function readingLine(writing: Writing, reading: Reading): string {
  const from = writing.corner(reading.from);
  const head =
    reading.kind === "distance" ? `${from} to ${writing.corner(reading.to)}` : `${reading.kind} ${from}`;
  const by = {
    tape: "",
    laser: ", by laser",
    drawing: ", from the drawing",
    guess: ", a guess",
  }[reading.instrument];
  return `${head} ${figure(reading, writing)}${by}`;
}

function figure(reading: Reading, { units }: Writing): string {
  const { kind, typed, value } = reading;
  const again = kind === "angle" ? parseAngle(typed) : parseLength(typed, units);
  if (again.ok && again.value === value) return typed.trim();
  return kind === "angle" ? plainDecimal(value) : exactLength(value, units);
}

/** Things on walls are told apart within their room and kind. */
function onWall(writing: Writing, table: "openings" | "fixtures", record: Opening | Fixture): string {
  return writing.name(`${table} ${record.room} ${record.kind}`, record.id, () =>
    inRoom<Opening | Fixture>(writing.document[table], record.room).filter(
      ({ kind }) => kind === record.kind,
    ),
  );
}

export function openingLine(writing: Writing, opening: Opening): string {
  const { kind, clear, casing, hinge, opens, sill } = opening;
  const name = titled(kind === "door" ? "Door" : "Window", onWall(writing, "openings", opening));
  return [
    `${kind} ${name} on ${writing.wall(opening)} at ${writing.length(opening.offset)} from ${writing.corner(opening.datum)}`,
    kind === "door" ? `leaf ${writing.length(opening.width)}` : `${writing.length(opening.width)} wide`,
    ...(clear === undefined ? [] : [`clear ${writing.length(clear)}`]),
    ...(casing === undefined ? [] : [`casing ${writing.length(casing)}`]),
    `${writing.length(opening.height)} high`,
    ...(kind === "door" && sill === 0 ? [] : [`sill ${writing.length(sill)}`]),
    ...(hinge === undefined ? [] : [`hinge ${writing.corner(hinge)}`]),
    ...(opens === undefined ? [] : [`opens ${opens}`]),
  ].join(", ");
}

export function fixtureLine(writing: Writing, fixture: Fixture): string {
  const { kind, out, up, width, depth, height } = fixture;
  const title = kind.charAt(0).toUpperCase() + kind.slice(1);
  const inTheRoom = kind === "sprinkler" || kind === "column";
  const name = titled(title, onWall(writing, "fixtures", fixture));
  return [
    `${kind} ${name} on ${writing.wall(fixture)} at ${writing.length(fixture.offset)} from ${writing.corner(fixture.datum)}`,
    ...(out === 0 ? [] : [`${inTheRoom ? "in" : "off"} ${writing.length(out)}`]),
    `up ${writing.length(up)}`,
    ...(width === 0 ? [] : [`${writing.length(width)} wide`]),
    ...(depth === 0 ? [] : [inTheRoom ? `${writing.length(depth)} deep` : `out ${writing.length(depth)}`]),
    ...(height === 0 ? [] : [`${writing.length(height)} high`]),
  ].join(", ");
}

const HELD: { readonly [F in WallCovering["fixing"]]: string } = {
  pasted: "pasted",
  battens: "on battens",
  magnets: "on magnets",
  pins: "on pins",
  panels: "on panels",
};

export function stripsLine(writing: Writing, strips: WallCovering): string {
  const { fixing, lap, turn, extra, low, high, batten, drying } = strips;
  const scope = `strips ${strips.room}`;
  const name = writing.name(scope, strips.id, () => inRoom(writing.document.wallCoverings, strips.room));
  const sticks = batten === undefined ? "" : ` from ${writing.stock(batten)}`;
  return [
    `strips ${titled("Strips", name)} on ${writing.wall(strips)}, from ${writing.stock(strips.stock)}`,
    fixing === "battens" ? `on battens${sticks}` : HELD[fixing],
    ...(fixing === "battens" || batten === undefined ? [] : [`battens${sticks}`]),
    ...(lap === 0 ? [] : [`lap ${writing.length(lap)}`]),
    ...(turn === 0 ? [] : [`turn ${writing.length(turn)}`]),
    ...(extra === 0 ? [] : [`extra ${writing.length(extra)}`]),
    ...(low === 0 ? [] : [`up ${writing.length(low)}`]),
    ...(high === undefined ? [] : [`to ${writing.length(high)}`]),
    ...(drying === undefined ? [] : [`dries ${exactSpan(drying)}`]),
  ].join(", ");
}

export function trimLine(writing: Writing, trim: Trim): string {
  return [
    `trim ${trim.kind} ${writing.length(trim.height)} x ${writing.length(trim.depth)}`,
    ...(trim.kind === "crown" ? [] : [`up ${writing.length(trim.up)}`]),
    ...(trim.spring === undefined ? [] : [`spring ${plainDecimal(trim.spring)}`]),
    ...(trim.stock === undefined ? [] : [`from ${writing.stock(trim.stock)}`]),
  ].join(", ");
}

export function coveringLine(writing: Writing, covering: Covering): string {
  const { width, depth, thickness, border, panelWidth, panelDepth, stock, walkable } = covering;
  const scope = `coverings ${covering.room}`;
  const name = writing.name(scope, covering.id, () => inRoom(writing.document.coverings, covering.room));
  const room = writing.document.rooms[covering.room];
  const panels = [
    ...(panelWidth === undefined
      ? []
      : [`${writing.length(panelWidth)}${panelDepth === undefined ? " wide" : ""}`]),
    ...(panelDepth === undefined
      ? []
      : [`${writing.length(panelDepth)}${panelWidth === undefined ? " deep" : ""}`]),
  ];
  return [
    `covering ${writtenName(name)}`,
    `${writing.length(width)} x ${writing.length(depth)} x ${writing.length(thickness)} thick`,
    ...(border === 0 ? [] : [`border ${writing.length(border)}`]),
    `at ${writing.where(room, covering)}${turned(covering.turn)}`,
    ...(walkable ? ["walkable"] : []),
    ...(panels.length === 0 ? [] : [`panels to ${panels.join(" x ")}`]),
    ...(stock === undefined ? [] : [`from ${writing.stock(stock)}`]),
  ].join(", ");
}

export function neighbourLine(writing: Writing, neighbour: Neighbour): string {
  const { width, depth, height, round, low } = neighbour;
  const scope = `neighbours ${neighbour.room}`;
  const name = writing.name(scope, neighbour.id, () => inRoom(writing.document.neighbours, neighbour.room));
  const room = writing.document.rooms[neighbour.room];
  const size = round
    ? `${writing.length(width)} across x ${writing.length(height)}`
    : `${writing.length(width)} x ${writing.length(depth)} x ${writing.length(height)}`;
  return (
    `neighbour ${writtenName(name)}, ${size}${low === 0 ? "" : `, plinth ${writing.length(low)} high`}` +
    `, at ${writing.where(room, neighbour)}${turned(neighbour.turn)}${seenFrom(writing, neighbour)}`
  );
}

function seenFrom(writing: Writing, neighbour: Neighbour): string {
  const opening =
    neighbour.seenFrom === undefined ? undefined : writing.document.openings[neighbour.seenFrom];
  if (opening === undefined) return "";
  const name = onWall(writing, "openings", opening);
  return `, seen from ${/[,;"]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name}`;
}
