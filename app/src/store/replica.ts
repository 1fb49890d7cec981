/**
 * One replica of a show: a live document (Yjs) per audience and, beside them, the same show as the readonly
 * tables everything else works on. It knows nothing of storage, tabs or screens, so it runs anywhere.
 *
 * Inside a live document every table is one map from `id NUL field` to the value, so that two people who
 * touch two fields of one record both keep their word, and of two who touch one field the later write wins.
 * A record is there exactly when its `id` field is. Fields of a record that somebody else removed meanwhile
 * stay behind in the live document; they are kept apart here as strays and rejoin the record if it returns.
 */
import {
  AUDIENCE,
  apply,
  emptyDocument,
  sameValue,
  TABLE_NAMES,
  type FieldEdit,
  type FieldValue,
  type ShowDocument,
  type TableName,
} from "@cornerwise/engine";
import * as Y from "yjs";

/** The audiences that are kept live, each a document of its own: one document cannot be partly hidden. */
export const LIVE_AUDIENCES = ["show", "private"] as const satisfies readonly (typeof AUDIENCE)[TableName][];
export type LiveAudience = (typeof LIVE_AUDIENCES)[number];

/** Names the last write to a field, the same on every replica; "" where it was never written. */
export type Stamp = string;

export interface Place {
  readonly table: TableName;
  readonly id: string;
  readonly field: string;
}

/** A live document's news, to be stored and sent on. */
export type UpdateListener = (audience: LiveAudience, update: Uint8Array<ArrayBuffer>, own: boolean) => void;

type Fields = { readonly [field: string]: FieldValue };
type Origin = "own" | "elsewhere";

const BREAK = "\u0000";

export class Replica {
  readonly #docs = new Map<LiveAudience, Y.Doc>();
  readonly #maps = new Map<TableName, Y.Map<FieldValue>>();
  readonly #strays = new Map<string, Fields>();
  readonly #elsewhere = new Set<(edits: readonly FieldEdit[]) => void>();
  readonly #updates = new Set<UpdateListener>();
  #document: ShowDocument;

  constructor() {
    this.#document = { ...emptyDocument(), shows: {} };
    for (const audience of LIVE_AUDIENCES) this.#docs.set(audience, new Y.Doc());
    for (const table of TABLE_NAMES) this.#hold(table);
    for (const [audience, doc] of this.#docs) {
      doc.on("update", (update, origin: Origin) => {
        const bytes = update as Uint8Array<ArrayBuffer>;
        for (const listener of this.#updates) listener(audience, bytes, origin === "own");
      });
    }
  }

  #hold(table: TableName): void {
    const map = this.#doc(liveAudience(table)).getMap<FieldValue>(table);
    this.#maps.set(table, map);
    map.observe((event, transaction) => {
      if (transaction.origin !== "own") this.#take(table, event.keysChanged);
    });
  }

  /** The show as it stands. */
  get document(): ShowDocument {
    return this.#document;
  }

  /** Called with the edits that came from elsewhere, after they were taken up. Returns how to stop. */
  onElsewhere(listener: (edits: readonly FieldEdit[]) => void): () => void {
    this.#elsewhere.add(listener);
    return () => this.#elsewhere.delete(listener);
  }

  /** Called with every new update of a live document. Returns how to stop. */
  onUpdate(listener: UpdateListener): () => void {
    this.#updates.add(listener);
    return () => this.#updates.delete(listener);
  }

  /** The field as the live document holds it, also where the record itself is gone. */
  value({ table, id, field }: Place): FieldValue | undefined {
    return this.#map(table).get(key(id, field));
  }

  /** Names of the fields a record has in the document; none where there is no such record. */
  fieldsOf({ table, id }: Pick<Place, "table" | "id">): readonly string[] {
    return Object.keys(this.#document[table][id] ?? {});
  }

  /**
   * Which write the field now rests on. Yjs names every write by its author's number and the author's count;
   * a removal keeps the name of what it removed, so it is marked. Neighbouring writes may be joined in
   * storage, and only the last count of the joined run is steady.
   */
  stamp({ table, id, field }: Place): Stamp {
    // Yjs gives no public way to ask who wrote an entry; its own undo manager reads the same field.
    const { _map: entries } = this.#map(table);
    const item = entries.get(key(id, field));
    if (item === undefined) return "";
    return `${item.lastId.client}.${item.lastId.clock}${item.deleted ? "x" : ""}`;
  }

  /** Writes one's own edits, one transaction an audience, and takes them up in the document. */
  write(edits: readonly FieldEdit[]): void {
    for (const audience of LIVE_AUDIENCES) {
      const mine = edits.filter((edit) => AUDIENCE[edit.table] === audience);
      if (mine.length > 0) this.#doc(audience).transact(() => this.#set(mine), "own" satisfies Origin);
    }
    this.#apply(edits);
  }

  /** Takes up an update from storage or from another replica. Order and repetition do not matter. */
  receive(audience: LiveAudience, update: Uint8Array): void {
    Y.applyUpdate(this.#doc(audience), update, "elsewhere" satisfies Origin);
  }

  /** What this replica has seen, for another to answer with what is missing. */
  seen(audience: LiveAudience): Uint8Array<ArrayBuffer> {
    return Y.encodeStateVector(this.#doc(audience)) as Uint8Array<ArrayBuffer>;
  }

  /** What someone who has seen `seen` lacks; everything where nothing is said. */
  missing(audience: LiveAudience, seen?: Uint8Array): Uint8Array<ArrayBuffer> {
    return Y.encodeStateAsUpdate(this.#doc(audience), seen) as Uint8Array<ArrayBuffer>;
  }

  /** Lets go of the live documents; the last `document` stays readable. */
  close(): void {
    for (const doc of this.#docs.values()) doc.destroy();
    this.#elsewhere.clear();
    this.#updates.clear();
  }

  #doc(audience: LiveAudience): Y.Doc {
    const doc = this.#docs.get(audience);
    if (doc === undefined) throw new Error(`no live document for audience ${audience}`);
    return doc;
  }

  #map(table: TableName): Y.Map<FieldValue> {
    const map = this.#maps.get(table);
    if (map === undefined) throw new Error(`no live map for table ${table}`);
    return map;
  }

  #set(edits: readonly FieldEdit[]): void {
    for (const { table, id, field, after } of edits) {
      const map = this.#map(table);
      if (after === undefined) map.delete(key(id, field));
      else map.set(key(id, field), after);
    }
  }

  #take(table: TableName, keys: ReadonlySet<string | null>): void {
    const edits: FieldEdit[] = [];
    for (const changed of keys) {
      if (changed === null) continue;
      const at = changed.indexOf(BREAK);
      const place = { table, id: changed.slice(0, at), field: changed.slice(at + 1) };
      const before = this.#shown(place);
      const after = this.value(place);
      if (sameValue(before, after)) continue;
      edits.push({
        ...place,
        ...(before === undefined ? {} : { before }),
        ...(after === undefined ? {} : { after }),
      });
    }
    if (edits.length === 0) return;
    this.#apply(edits);
    for (const listener of this.#elsewhere) listener(edits);
  }

  #shown({ table, id, field }: Place): FieldValue | undefined {
    const record = (this.#document[table][id] as Fields | undefined) ?? this.#strays.get(key(table, id));
    return record?.[field];
  }

  #apply(edits: readonly FieldEdit[]): void {
    const label = "taken up";
    const returning = this.#returning(edits);
    const next = apply(this.#document, { label, edits: [...returning, ...edits] });
    this.#keepStrays(edits, next);
    this.#document = next;
  }

  /** The strays of records that these edits touch, as edits that put them back. */
  #returning(edits: readonly FieldEdit[]): FieldEdit[] {
    if (this.#strays.size === 0) return [];
    const back: FieldEdit[] = [];
    const seen = new Set<string>();
    for (const { table, id } of edits) {
      const record = key(table, id);
      const strays = this.#strays.get(record);
      if (strays === undefined || seen.has(record)) continue;
      seen.add(record);
      for (const [field, after] of Object.entries(strays)) back.push({ table, id, field, after });
    }
    return back;
  }

  /** After edits, a record without an id leaves its other fields among the strays. */
  #keepStrays(edits: readonly FieldEdit[], next: ShowDocument): void {
    const touched = new Map<string, { table: TableName; id: string; fields: Record<string, FieldValue> }>();
    for (const { table, id, field, after } of edits) {
      const record = key(table, id);
      if (next[table][id] !== undefined) {
        this.#strays.delete(record);
        continue;
      }
      const before = (this.#document[table][id] as Fields | undefined) ?? this.#strays.get(record);
      const entry = touched.get(record) ?? { table, id, fields: { ...before } };
      touched.set(record, entry);
      if (after === undefined) delete entry.fields[field];
      else entry.fields[field] = after;
    }
    for (const [record, { fields }] of touched) {
      if (Object.keys(fields).length > 0) this.#strays.set(record, fields);
      else this.#strays.delete(record);
    }
  }
}

function liveAudience(table: TableName): LiveAudience {
  const audience = AUDIENCE[table];
  if (audience === "site") throw new Error(`table ${table}: the site's log is not kept live yet`);
  return audience;
}

function key(first: string, second: string): string {
  return first + BREAK + second;
}
