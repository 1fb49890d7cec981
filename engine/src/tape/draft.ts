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
  mounts: (mount) => [keyOf(mount.piece, String(mount.number))],
  stocks: (stock) => [keyOf("", stock.name)],
  coverings: (covering) => [keyOf(covering.room, covering.name)],
  wallCoverings: (strips) => [keyOf(strips.room, "name", strips.name), stripsKey(strips)],
  trims: (trim) => [trimKey(trim)],
  neighbours: (neighbour) => [keyOf(neighbour.room, neighbour.name)],
  shifts: (shift) => [keyOf(shift.start)],
  rates: (rate) => [keyOf(rate.work)],
  chores: (chore) => [keyOf(chore.room, chore.name)],
  questions: (question) => [keyOf("", question.text)],
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

/** Strips are found again by their wall and where on it they begin. */
export function stripsKey(strips: {
  readonly room: string;
  readonly from: string;
  readonly low: number;
}): string {
  return keyOf(strips.room, "place", strips.from, String(Math.round(strips.low)));
}

/** One record that a line is to speak of, whatever the line calls it. */
export interface Subject {
  readonly table: TableName;
  readonly id: string;
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
  readonly #made = new Map<"solids" | "parts", Map<string, string[]>>();

  /** The room bare lines belong to. */
  room: Room | undefined;
  /** What bare numbers mean here; undefined while nobody has said. */
  units: Units | undefined;
  /**
   * The piece that lines of solids and parts belong to. `spare`: ids of what it was made of before, once the first
   * line of that kind has cleared it away.
   */
  piece: { readonly id: string; readonly spare: { solids?: string[]; parts?: string[] } } | undefined;
  /** The line being read, counted from 1. */
  line = 1;
  /** Readings this sheet has said so far, by id. */
  readonly saidHere = new Map<string, { readonly line: number; readonly typed: string }>();
  /** Pieces this sheet has named that have no size yet, and where. */
  readonly sizeless = new Map<string, { readonly line: number; readonly text: string }>();
  /** Id of the record put last. */
  last: string | undefined;
  readonly #subject: Subject | undefined;

  constructor(document: ShowDocument, units: Units | undefined, subject?: Subject) {
    this.#document = document;
    this.units = units;
    this.#subject = subject;
  }

  /**
   * The record a line speaks of: the one the sheet was given to speak of, if it is of that table, else the one of
   * that key. `taken` is called where another record has the key already.
   */
  known<T extends TableName>(table: T, key: string, taken: () => never): RecordOf<T> | undefined {
    const found = this.find(table, key);
    const subject = this.speaksOf(table);
    if (subject !== undefined && found !== undefined && found.id !== subject.id) taken();
    return subject ?? found;
  }

  /** The record of this table that the sheet was given to speak of. */
  speaksOf<T extends TableName>(table: T): RecordOf<T> | undefined {
    return this.#subject?.table === table ? this.get(table, this.#subject.id) : undefined;
  }

  /** What a record is called after a line: its own spelling, unless the line was given to rename it. */
  called(
    table: TableName,
    known: { readonly id: string; readonly name: string } | undefined,
    said: string,
  ): string {
    return this.speaksOf(table) !== undefined ? said : (known?.name ?? said);
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
        const key = keyOf(table, table === "solids" || table === "parts" ? piece : room);
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

  /** Ids of what a piece is made of, in order; the list is live. */
  madeOf(table: "solids" | "parts", piece: string): string[] {
    let made = this.#made.get(table);
    if (made === undefined) {
      made = new Map();
      this.#made.set(table, made);
      for (const one of this.all(table).toSorted((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1))) {
        made.set(one.piece, [...(made.get(one.piece) ?? []), one.id]);
      }
    }
    const list = made.get(piece) ?? [];
    made.set(piece, list);
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
