/**
 * What the schema cannot see in one record: whether records fit each other. Every record that is named must
 * be there, corners must belong to the room that names them, walls join neighbouring corners, a copy has a
 * number its piece has and is in one place only, and what is cut comes from a stock of its kind.
 */
import type { Problem } from "./problem.ts";
import { listed, SHOW_ID, TABLE_NAMES } from "./tables.ts";
import type { Corner, Piece, ShowDocument, Stock, TableName } from "./tables.ts";

/** Every misfit between records, in table order; none for a sound document. */
export function brokenLinks(document: ShowDocument): readonly Problem[] {
  const check = new LinkCheck(document);
  for (const table of TABLE_NAMES) {
    for (const [id, record] of Object.entries(document[table])) {
      if (record.id !== id) check.say(table, id, "id", `The record says its id is "${record.id}".`);
    }
  }
  shows(document, check);
  corners(document, check);
  onWalls(document, check);
  readings(document, check);
  pieces(document, check);
  copies(document, check);
  carried(document, check);
  standing(document, check);
  stocks(document, check);
  calendar(document, check);
  return check.problems;
}

/** The path of a field the way problems print it. */
export function pathOf(table: string, id: string, field: string): string {
  return `${table}[${JSON.stringify(id)}]${field === "" ? "" : `.${field}`}`;
}

class LinkCheck {
  readonly problems: Problem[] = [];
  readonly #document: ShowDocument;
  readonly #places: ReadonlyMap<string, { readonly place: number; readonly of: number }>;

  constructor(document: ShowDocument) {
    this.#document = document;
    this.#places = cornerPlaces(document);
  }

  say(table: TableName, id: string, field: string, reason: string): void {
    this.problems.push({ path: pathOf(table, id, field), reason });
  }

  /** Whether the room is there; says so where it is not. */
  room(table: TableName, id: string, room: string): void {
    if (this.#document.rooms[room] === undefined) {
      this.say(table, id, "room", `There is no room "${room}".`);
    }
  }

  /** Whether the corner is there and of that room. */
  corner(place: { table: TableName; id: string; field: string }, corner: string, room: string): void {
    const found = this.#document.corners[corner];
    if (found === undefined) this.say(place.table, place.id, place.field, `There is no corner "${corner}".`);
    else if (found.room !== room) {
      this.say(place.table, place.id, place.field, `Corner "${corner}" is of another room.`);
    }
  }

  /** Whether the two corners are neighbours in room order, `from` first. */
  wall(table: TableName, record: { id: string; from: string; to: string }): void {
    const from = this.#places.get(record.from);
    const to = this.#places.get(record.to);
    if (from === undefined || to === undefined) return;
    if ((from.place + 1) % from.of !== to.place) {
      this.say(table, record.id, "to", `No wall runs from "${record.from}" to "${record.to}".`);
    }
  }
}

/** Each corner's place in its room's order. */
function cornerPlaces(document: ShowDocument): ReadonlyMap<string, { place: number; of: number }> {
  const rooms = new Map<string, Corner[]>();
  for (const corner of listed(document.corners)) {
    rooms.set(corner.room, [...(rooms.get(corner.room) ?? []), corner]);
  }
  const places = new Map<string, { place: number; of: number }>();
  for (const around of rooms.values()) {
    for (const [place, corner] of around.entries()) places.set(corner.id, { place, of: around.length });
  }
  return places;
}

function shows(document: ShowDocument, check: LinkCheck): void {
  for (const id of Object.keys(document.shows)) {
    if (id !== SHOW_ID) check.say("shows", id, "", `A file holds one show, called "${SHOW_ID}".`);
  }
}

function corners(document: ShowDocument, check: LinkCheck): void {
  const names = new Set<string>();
  for (const corner of Object.values(document.corners)) {
    check.room("corners", corner.id, corner.room);
    const key = JSON.stringify([corner.room, corner.name]);
    if (names.has(key)) check.say("corners", corner.id, "name", `Two corners are called "${corner.name}".`);
    names.add(key);
  }
}

function onWalls(document: ShowDocument, check: LinkCheck): void {
  for (const table of ["walls", "openings", "fixtures", "mounts", "wallCoverings"] as const) {
    for (const record of Object.values(document[table])) {
      check.room(table, record.id, record.room);
      check.corner({ table, id: record.id, field: "from" }, record.from, record.room);
      check.corner({ table, id: record.id, field: "to" }, record.to, record.room);
      check.wall(table, record);
      for (const field of ["datum", "hinge"] as const) {
        const end = field in record ? (record as { datum?: string; hinge?: string })[field] : undefined;
        if (end !== undefined && end !== record.from && end !== record.to) {
          check.say(table, record.id, field, `"${end}" is no end of this wall.`);
        }
      }
    }
  }
}

function readings(document: ShowDocument, check: LinkCheck): void {
  const said = new Set<string>();
  for (const reading of Object.values(document.readings)) {
    const { id, room, kind, from, to, value } = reading;
    check.room("readings", id, room);
    check.corner({ table: "readings", id, field: "from" }, from, room);
    if (to !== undefined) check.corner({ table: "readings", id, field: "to" }, to, room);
    if (kind === "distance" && to === undefined) {
      check.say("readings", id, "to", "A distance needs the corner it was measured to.");
    }
    if (kind !== "distance" && to !== undefined) {
      check.say("readings", id, "to", "Only a distance has a second corner.");
    }
    if (to === from) check.say("readings", id, "to", "A distance runs between two corners.");
    if (kind === "angle" && value >= 360)
      check.say("readings", id, "value", "An angle stays below 360 degrees.");
    const key = JSON.stringify([room, kind, ...[from, to ?? ""].toSorted()]);
    if (said.has(key)) check.say("readings", id, "", "The same reading stands twice.");
    said.add(key);
  }
}

function pieces(document: ShowDocument, check: LinkCheck): void {
  for (const part of Object.values(document.parts)) piece("parts", part, document, check);
  for (const solid of Object.values(document.solids)) {
    piece("solids", solid, document, check);
    if (solid.shape === "outline" && solid.outline === undefined) {
      check.say("solids", solid.id, "outline", "An outline needs its corners.");
    }
    if (solid.shape !== "outline" && solid.outline !== undefined) {
      check.say("solids", solid.id, "outline", "Only an outline has corners of its own.");
    }
  }
}

/** A copy is in one place only, whether it stands, hangs or is fixed to a wall. */
function copies(document: ShowDocument, check: LinkCheck): void {
  const placed = new Set<string>();
  for (const table of ["placements", "mounts"] as const) {
    for (const record of Object.values(document[table])) {
      if (table === "placements") check.room(table, record.id, record.room);
      const of = piece(table, record, document, check);
      if (of !== undefined && record.number > of.count) {
        check.say(table, record.id, "number", `There are only ${of.count} of "${of.name}".`);
      }
      const key = JSON.stringify([record.piece, record.number]);
      if (placed.has(key)) check.say(table, record.id, "number", "The same copy stands twice.");
      placed.add(key);
    }
  }
}

function piece(
  table: TableName,
  record: { id: string; piece: string },
  document: ShowDocument,
  check: LinkCheck,
): Piece | undefined {
  const found = document.pieces[record.piece];
  if (found === undefined) check.say(table, record.id, "piece", `There is no piece "${record.piece}".`);
  return found;
}

/** What stands on another copy stands in the same room, and following it down ends on a floor. */
function carried(document: ShowDocument, check: LinkCheck): void {
  for (const { id, on, room } of Object.values(document.placements)) {
    if (on === undefined) continue;
    const below = document.placements[on];
    if (below === undefined) check.say("placements", id, "on", `Nothing stands as "${on}".`);
    else if (below.room !== room) check.say("placements", id, "on", `"${on}" stands in another room.`);
    if (on === id) check.say("placements", id, "on", "Nothing stands on itself.");
    else if (standsOnItself(document, id)) {
      check.say("placements", id, "on", "What it stands on stands on it again.");
    }
  }
}

/** Whether following what a copy stands on comes back to that copy. */
function standsOnItself(document: ShowDocument, id: string): boolean {
  const seen = new Set<string>();
  let at = document.placements[id]?.on;
  while (at !== undefined && !seen.has(at)) {
    if (at === id) return true;
    seen.add(at);
    at = document.placements[at]?.on;
  }
  return false;
}

function standing(document: ShowDocument, check: LinkCheck): void {
  for (const table of ["coverings", "trims", "neighbours", "chores"] as const) {
    for (const record of Object.values(document[table])) check.room(table, record.id, record.room);
  }
  for (const neighbour of Object.values(document.neighbours)) {
    if (neighbour.seenFrom !== undefined && document.openings[neighbour.seenFrom] === undefined) {
      check.say(
        "neighbours",
        neighbour.id,
        "seenFrom",
        `There is no door or window "${neighbour.seenFrom}".`,
      );
    }
  }
  for (const wall of Object.values(document.walls)) {
    if (wall.open && wall.glass)
      check.say("walls", wall.id, "glass", "A side is open or of glass, not both.");
  }
}

/** What each thing may be cut from: strips from rolls, lengths from sticks, panels from sheets. */
function stocks(document: ShowDocument, check: LinkCheck): void {
  const wanted: readonly {
    table: TableName;
    field: string;
    form: Stock["form"];
    of: (record: { stock?: string; batten?: string }) => string | undefined;
  }[] = [
    { table: "parts", field: "stock", form: "stick", of: ({ stock }) => stock },
    { table: "coverings", field: "stock", form: "sheet", of: ({ stock }) => stock },
    { table: "wallCoverings", field: "stock", form: "roll", of: ({ stock }) => stock },
    { table: "wallCoverings", field: "batten", form: "stick", of: ({ batten }) => batten },
    { table: "trims", field: "stock", form: "stick", of: ({ stock }) => stock },
  ];
  for (const { table, field, form, of } of wanted) {
    for (const record of Object.values(document[table])) {
      const id = of(record as { stock?: string; batten?: string });
      if (id === undefined) continue;
      const found = document.stocks[id];
      if (found === undefined) check.say(table, record.id, field, `There is no stock "${id}".`);
      else if (found.form !== form) {
        check.say(
          table,
          record.id,
          field,
          `"${found.name}" comes as a ${found.form}; a ${form} is wanted here.`,
        );
      }
    }
  }
}

function calendar(document: ShowDocument, check: LinkCheck): void {
  for (const { id, start, end } of Object.values(document.shifts)) {
    for (const [field, time] of [
      ["start", start],
      ["end", end],
    ] as const) {
      if (time.endsWith("Z")) {
        check.say("shifts", id, field, "A shift is on the venue's own clock: leave out the Z.");
      }
    }
  }
  const works = new Set<string>();
  for (const { id, work } of Object.values(document.rates)) {
    if (works.has(work)) check.say("rates", id, "work", `There are two rates of "${work}".`);
    works.add(work);
  }
}
