/**
 * Edits as values. A Change is a list of field-level edits on flat records: before and after, plain JSON.
 * It applies to a document, inverts, and is what replicas, workers and the undo list exchange.
 *
 * A record exists exactly when its `id` field does. Creating a record is an edit of every field from
 * undefined; deleting is an edit of every field to undefined.
 */
import type { RecordOf, ShowDocument, TableName } from "../document/tables.ts";

export type FieldValue = string | number | boolean | readonly (readonly [number, number])[];

export interface FieldEdit {
  readonly table: TableName;
  readonly id: string;
  readonly field: string;
  /** Undefined where the field was not there. */
  readonly before?: FieldValue;
  /** Undefined where the field goes. */
  readonly after?: FieldValue;
}

export interface Change {
  /** What it does, in a few words for the undo list: "Move Bench 2". */
  readonly label: string;
  readonly edits: readonly FieldEdit[];
}

type Fields = { readonly [field: string]: FieldValue };

/** The change that undoes this one. `invert(invert(c))` equals `c`. */
export function invert(change: Change): Change {
  return { label: change.label, edits: change.edits.toReversed().map(inverted) };
}

function inverted(edit: FieldEdit): FieldEdit {
  const { before, after, ...place } = edit;
  return {
    ...place,
    ...(after === undefined ? {} : { before: after }),
    ...(before === undefined ? {} : { after: before }),
  };
}

/**
 * The document after the change. Untouched tables and records keep their identity. Records left without
 * an id (half of them deleted elsewhere) are dropped.
 */
export function apply(document: ShowDocument, change: Change): ShowDocument {
  const touched = new Map<TableName, Map<string, Record<string, FieldValue>>>();
  for (const edit of change.edits) {
    const records = touched.get(edit.table) ?? new Map<string, Record<string, FieldValue>>();
    touched.set(edit.table, records);
    const record = records.get(edit.id) ?? { ...(document[edit.table][edit.id] as Fields | undefined) };
    records.set(edit.id, record);
    if (edit.after === undefined) delete record[edit.field];
    else record[edit.field] = edit.after;
  }
  const next: Record<string, unknown> = { ...document };
  for (const [table, records] of touched) {
    const copy: Record<string, unknown> = { ...document[table] };
    for (const [id, record] of records) {
      if (record["id"] === undefined) delete copy[id];
      else copy[id] = record;
    }
    next[table] = copy;
  }
  return next as ShowDocument;
}

/** Whether two field values say the same. */
export function sameValue(a: FieldValue | undefined, b: FieldValue | undefined): boolean {
  return (
    a === b || (typeof a === "object" && typeof b === "object" && JSON.stringify(a) === JSON.stringify(b))
  );
}

/** The edits that turn `before` into `after`; either may be undefined (record made or removed). */
export function recordEdits<T extends TableName>(
  table: T,
  id: string,
  before: RecordOf<T> | undefined,
  after: RecordOf<T> | undefined,
): FieldEdit[] {
  const old: Fields = (before as Fields | undefined) ?? {};
  const now: Fields = (after as Fields | undefined) ?? {};
  const fields = [...new Set([...Object.keys(old), ...Object.keys(now)])].toSorted();
  return fields
    .filter((field) => !sameValue(old[field], now[field]))
    .map((field) => ({ table, id, field, ...held("before", old[field]), ...held("after", now[field]) }));
}

function held(
  key: "before" | "after",
  value: FieldValue | undefined,
): { before?: FieldValue; after?: FieldValue } {
  return value === undefined ? {} : { [key]: value };
}

/** Puts a whole record in place of whatever stands under its id. */
export function put<T extends TableName>(document: ShowDocument, table: T, record: RecordOf<T>): FieldEdit[] {
  return recordEdits(table, record.id, document[table][record.id], record);
}

/** Removes a record; nothing where it is not there. */
export function remove(document: ShowDocument, table: TableName, id: string): FieldEdit[] {
  return recordEdits(table, id, document[table][id], undefined);
}

/** The edits that turn one document into another. */
export function difference(before: ShowDocument, after: ShowDocument): FieldEdit[] {
  const tables = Object.keys(after) as TableName[];
  return tables.flatMap((table) => {
    const old = before[table];
    const now = after[table];
    if (old === now) return [];
    return [...new Set([...Object.keys(old), ...Object.keys(now)])]
      .filter((id) => old[id] !== now[id])
      .flatMap((id) => recordEdits(table, id, old[id], now[id]));
  });
}
