/**
 * The document while a sheet is being read: records put over it, found again by what they are called, and one
 * Change at the end. Look-ups are by key, so ten thousand lines cost ten thousand look-ups.
 */
import type { Change, FieldEdit } from "../change/change.ts";
import { recordEdits } from "../change/change.ts";
import type { Corner, RecordOf, Room, ShowDocument, TableName, Units } from "../document/tables.ts";
import { showOf } from "../document/tables.ts";

/** Under which keys a record is found again. */
const KEYS: { readonly [T in TableName]?: (record: RecordOf<T>) => readonly string[] } = {
  rooms: (room) => [keyOf("", room.name)],
  readings: (reading) => [readingKey(reading)],
  walls: (wall) => [keyOf(wall.from, wall.to)],
  openings: (opening) => [
    keyOf(opening.room, "name", opening.kind, opening.name),
    keyOf(opening.room, "any", opening.name),
    placeKey(opening),
  ],
  fixtures: (fixture) => [keyOf(fixture.room, "name", fixture.kind, fixture.name), placeKey(fixture)],
  pieces: (piece) => [keyOf("", piece.name)],
  placements: (placement) => [keyOf(placement.piece, String(placement.number))],
  coverings: (covering) => [keyOf(covering.room, covering.name)],
  trims: (trim) => [trimKey(trim)],
  neighbours: (neighbour) => [keyOf(neighbour.room, neighbour.name)],
  notes: (note) => [keyOf("", note.text)],
  jottings: (note) => [keyOf("", note.text)],
};

/** A key of parts that cannot run into each other. */
export function keyOf(...parts: readonly string[]): string {
  return JSON.stringify(parts);
}

/** A reading's kind and ends, whichever way it was taken. */
export function readingKey(reading: {
  readonly room: string;
  readonly kind: string;
  readonly from: string;
  readonly to?: string;
}): string {
  return keyOf(reading.room, reading.kind, ...[reading.from, reading.to ?? ""].toSorted());
}

/** A thing's place on its wall: the same offset from the same corner at the same height, to the millimetre. */
export function placeKey(thing: {
  readonly room: string;
  readonly kind: string;
  readonly from: string;
  readonly datum: string;
  readonly offset: number;
  readonly out?: number;
  readonly up?: number;
}): string {
  const { room, kind, from, datum, offset, out = 0, up = 0 } = thing;
  return keyOf(room, "place", kind, from, datum, ...[offset, out, up].map((mm) => String(Math.round(mm))));
}

/** A room has one base and one crown; rails may run at several heights. */
export function trimKey(trim: { readonly room: string; readonly kind: string; readonly up: number }): string {
  return keyOf(trim.room, trim.kind, trim.kind === "rail" ? String(Math.round(trim.up)) : "");
}

type Index = { readonly exact: Map<string, string>; readonly loose: Map<string, string> };

export class Draft {
  readonly #document: ShowDocument;
  readonly #now = new Map<TableName, Map<string, RecordOf<TableName> | undefined>>();
  readonly #indexes = new Map<TableName, Index>();
  readonly #orders = new Map<string, number>();
  readonly #ordered = new Set<TableName>();
  readonly #suffixes = new Map<string, number>();
  readonly #corners = new Map<string, readonly Corner[]>();
  #solids: Map<string, string[]> | undefined;

  /** The room bare lines belong to. */
  room: Room | undefined;
  /** What bare numbers mean here; undefined while nobody has said. */
  units: Units | undefined;
  /** The piece that solid lines belong to, and whether its old solids still stand. */
  piece: { readonly id: string; fresh: boolean } | undefined;
  /** The line being read, counted from 1. */
  line = 1;
  /** Readings this sheet has said so far, by id. */
  readonly saidHere = new Map<string, { readonly line: number; readonly typed: string }>();
  /** Pieces this sheet has named that have no size yet, and where. */
  readonly sizeless = new Map<string, { readonly line: number; readonly text: string }>();
  /** Id of the record put last. */
  last: string | undefined;

  constructor(document: ShowDocument, units: Units | undefined) {
    this.#document = document;
    this.units = units;
  }

  get<T extends TableName>(table: T, id: string): RecordOf<T> | undefined {
    const now = this.#now.get(table);
    return (now?.has(id) === true ? now.get(id) : this.#document[table][id]) as RecordOf<T> | undefined;
  }

  /** The show record as it stands. */
  show(): RecordOf<"shows"> {
    const said = showOf(this.#document);
    return this.get("shows", said.id) ?? said;
  }

  /** Every record of a table as it stands now. */
  all<T extends TableName>(table: T): readonly RecordOf<T>[] {
    const ids = new Set([...Object.keys(this.#document[table]), ...(this.#now.get(table)?.keys() ?? [])]);
    return [...ids].flatMap((id) => this.get(table, id) ?? []);
  }

  put<T extends TableName>(table: T, record: RecordOf<T>): void {
    this.#unlink(table, record.id);
    this.#write(table, record.id, record);
    const index = this.#indexes.get(table);
    if (index !== undefined) linked(index, KEYS[table], record);
    if (table === "corners") this.#corners.delete((record as Corner).room);
    this.last = record.id;
  }

  drop(table: TableName, id: string): void {
    this.#unlink(table, id);
    this.#write(table, id, undefined);
  }

  #write(table: TableName, id: string, record: RecordOf<TableName> | undefined): void {
    const now = this.#now.get(table) ?? new Map<string, RecordOf<TableName> | undefined>();
    this.#now.set(table, now);
    now.set(id, record);
  }

  #unlink(table: TableName, id: string): void {
    const old = this.get(table, id);
    const index = this.#indexes.get(table);
    const keys = KEYS[table] as ((record: unknown) => readonly string[]) | undefined;
    if (old === undefined || index === undefined || keys === undefined) return;
    for (const key of keys(old)) {
      if (index.exact.get(key) === id) index.exact.delete(key);
      if (index.loose.get(key.toLowerCase()) === id) index.loose.delete(key.toLowerCase());
    }
  }

  /** The record of that key: exactly so written, or else the one that differs in capitals alone. */
  find<T extends TableName>(table: T, key: string): RecordOf<T> | undefined {
    let index = this.#indexes.get(table);
    if (index === undefined) {
      index = { exact: new Map(), loose: new Map() };
      for (const record of this.all(table)) linked(index, KEYS[table], record);
      this.#indexes.set(table, index);
    }
    const id = index.exact.get(key) ?? index.loose.get(key.toLowerCase());
    return id === undefined ? undefined : this.get(table, id);
  }

  /** The next free order in a table, counted for each room of its own. */
  nextOrder(table: TableName, scope = ""): number {
    if (!this.#ordered.has(table)) {
      this.#ordered.add(table);
      for (const record of this.all(table)) {
        const {
          order = 0,
          room = "",
          piece = "",
        } = record as { order?: number; room?: string; piece?: string };
        const key = keyOf(table, table === "solids" ? piece : room);
        this.#orders.set(key, Math.max(this.#orders.get(key) ?? 0, order + 1));
      }
    }
    const key = keyOf(table, scope);
    const next = this.#orders.get(key) ?? 0;
    this.#orders.set(key, next + 1);
    return next;
  }

  /** The wanted id, or with the next number behind it where it is taken. */
  freshId(table: TableName, wanted: string): string {
    if (!this.#taken(table, wanted)) return wanted;
    const key = keyOf(table, wanted);
    for (let number = this.#suffixes.get(key) ?? 2; ; number++) {
      const id = `${wanted}-${number}`;
      if (this.#taken(table, id)) continue;
      this.#suffixes.set(key, number + 1);
      return id;
    }
  }

  #taken(table: TableName, id: string): boolean {
    return id in {} || this.get(table, id) !== undefined;
  }

  /** Corners of a room in the order they are named. */
  corners(room: string): readonly Corner[] {
    const known = this.#corners.get(room);
    if (known !== undefined) return known;
    const found = this.all("corners")
      .filter((corner) => corner.room === room)
      .toSorted((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
    this.#corners.set(room, found);
    return found;
  }

  /** Ids of a piece's solids in order; the list is live. */
  solidsOf(piece: string): string[] {
    if (this.#solids === undefined) {
      this.#solids = new Map();
      for (const solid of this.all("solids").toSorted(
        (a, b) => a.order - b.order || (a.id < b.id ? -1 : 1),
      )) {
        this.#solids.set(solid.piece, [...(this.#solids.get(solid.piece) ?? []), solid.id]);
      }
    }
    const list = this.#solids.get(piece) ?? [];
    this.#solids.set(piece, list);
    return list;
  }

  /** Everything put and dropped so far as one change. */
  change(label: string): Change {
    const edits: FieldEdit[] = [];
    for (const [table, records] of this.#now) {
      for (const [id, record] of records) {
        edits.push(...recordEdits(table, id, this.#document[table][id], record));
      }
    }
    return { label, edits };
  }
}

function linked<T extends TableName>(
  index: Index,
  keys: ((record: RecordOf<T>) => readonly string[]) | undefined,
  record: RecordOf<T>,
): void {
  for (const key of keys?.(record) ?? []) {
    if (!index.exact.has(key)) index.exact.set(key, record.id);
    const loose = key.toLowerCase();
    if (!index.loose.has(loose)) index.loose.set(loose, record.id);
  }
}
