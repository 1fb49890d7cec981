/**
 * One's own undo list. It undoes one's own changes only, newest first, and never silently another's later
 * one: a field that somebody else has written since is left alone and reported.
 *
 * A field's state has a name: the stamp of the write it rests on. Every entry of the list remembers for each
 * field the name of the state it found and the name of the state it left. Undoing writes a new state, which
 * is taken to be the one the entry found (`means`), so that the entry before it can be undone in turn. A
 * field is put back only if its state is by name the one that the entry left: a value that merely looks the
 * same, written by another, is another's. Redoing is the same with found and left changed about.
 *
 * A record is always judged whole, so a long change may be taken in slices as long as none cuts a record.
 * The list is plain data through and through, so it can be kept and read back after a reload.
 */
import { sameValue, type Change, type FieldEdit } from "@cornerwise/engine";
import type { Place, Stamp } from "./replica.ts";

/** How many of one's own changes can be taken back. */
export const UNDO_LIMIT = 500;

/** One's own change as it really happened, and the names of the states around it, edit for edit. */
export interface Entry {
  readonly label: string;
  readonly edits: readonly FieldEdit[];
  readonly found: readonly Stamp[];
  readonly left: readonly Stamp[];
}

/** What an undo or redo wrote into a field, and which older state that is taken to be. */
export interface Meaning {
  readonly stamp: Stamp;
  readonly means: Stamp;
}

/** Meanings by place (`table NUL id NUL field`), as one undo or redo made them. */
export type Layer = ReadonlyMap<string, Meaning>;

export interface UndoState {
  /** Oldest first; the last is undone next. */
  readonly done: readonly Entry[];
  /** The last is redone next. */
  readonly undone: readonly Entry[];
  /** Newer layers hide older ones; each is larger than the next, so there are few. */
  readonly meanings: readonly Layer[];
}

export const NOTHING_DONE: UndoState = { done: [], undone: [], meanings: [] };

/** What the list needs of a replica. */
export interface Fields {
  value(place: Place): FieldEdit["after"];
  stamp(place: Place): Stamp;
  /** Names of the fields a record has now; none where there is no such record. */
  fieldsOf(record: Pick<Place, "table" | "id">): readonly string[];
  write(edits: readonly FieldEdit[]): void;
}

/** Edits of whole records, to be checked and written in one go. */
export type Slice = Entry;

/** What became of a slice: what was written, and what was left alone because another has written there since. */
export interface SliceOutcome {
  readonly done: readonly FieldEdit[];
  readonly skipped: readonly FieldEdit[];
  /** The entry less what was skipped. */
  readonly stays: Entry;
  readonly meanings: Layer;
}

/** Writes one's own edits as they really meet the fields, `before` as it stands there now, and says how. */
export function performSlice(fields: Fields, state: UndoState, change: Change): Entry {
  const edits = change.edits.flatMap((edit) => {
    const before = fields.value(edit);
    return sameValue(before, edit.after) ? [] : [editOf(edit, before, edit.after)];
  });
  const found = edits.map((edit) => stateOf(fields, state.meanings, edit));
  fields.write(edits);
  return { label: change.label, edits, found, left: edits.map((edit) => fields.stamp(edit)) };
}

/** Takes back a slice of an entry where its fields are still as it left them. */
export function undoSlice(fields: Fields, state: UndoState, slice: Slice): SliceOutcome {
  const back = slice.edits.map((edit) => editOf(edit, edit.after, edit.before));
  return writeSlice(fields, state, { slice, edits: back, expected: slice.left, becomes: "found" });
}

/** Does a slice of an undone entry again where its fields are still as it found them. */
export function redoSlice(fields: Fields, state: UndoState, slice: Slice): SliceOutcome {
  return writeSlice(fields, state, { slice, edits: slice.edits, expected: slice.found, becomes: "left" });
}

/** The list after one's own change. What was undone before can no longer be redone. */
export function remembered(state: UndoState, entry: Entry): UndoState {
  return { done: [...state.done, entry].slice(-UNDO_LIMIT), undone: [], meanings: state.meanings };
}

/** The list after its newest entry was undone; `stays` is the entry less what was skipped. */
export function undid(state: UndoState, stays: Entry, meanings: Layer): UndoState {
  return {
    done: state.done.slice(0, -1),
    undone: stays.edits.length > 0 ? [...state.undone, stays] : state.undone,
    meanings: layered(state.meanings, meanings),
  };
}

/** The list after the newest undone entry was done again. */
export function redid(state: UndoState, stays: Entry, meanings: Layer): UndoState {
  return {
    done: stays.edits.length > 0 ? [...state.done, stays] : state.done,
    undone: state.undone.slice(0, -1),
    meanings: layered(state.meanings, meanings),
  };
}

/** The name of the state a field is in. */
function stateOf(fields: Fields, meanings: UndoState["meanings"], place: Place): Stamp {
  const stamp = fields.stamp(place);
  if (meanings.length === 0) return stamp;
  const key = placeKey(place);
  const meaning = meanings.findLast((layer) => layer.has(key))?.get(key);
  return meaning?.stamp === stamp ? meaning.means : stamp;
}

/** A layer on top; smaller ones beneath it are taken into it. */
function layered(layers: readonly Layer[], top: Layer): readonly Layer[] {
  if (top.size === 0) return layers;
  const under = layers.at(-1);
  if (under === undefined || under.size > top.size) return [...layers, top];
  return layered(layers.slice(0, -1), new Map([...under, ...top]));
}

interface Wish {
  readonly slice: Slice;
  readonly edits: readonly FieldEdit[];
  /** The state each field must be in. */
  readonly expected: readonly Stamp[];
  /** Which state of the entry the written fields are taken to be in. */
  readonly becomes: "found" | "left";
}

function writeSlice(
  fields: Fields,
  state: UndoState,
  { slice, edits, expected, becomes }: Wish,
): SliceOutcome {
  const theirs = new Set<FieldEdit>();
  edits.forEach((edit, i) => {
    const mine = stateOf(fields, state.meanings, edit) === expected[i];
    if (!mine || !sameValue(fields.value(edit), edit.before)) theirs.add(edit);
  });
  const sparedRecords = spared(fields, edits, theirs);
  const goes = edits.map((edit) => !theirs.has(edit) && !sparedRecords.has(recordKey(edit)));
  const kept = <T>(list: readonly T[]): T[] => list.filter((_, i) => goes[i]);
  const done = kept(edits);
  const stays = {
    label: slice.label,
    edits: kept(slice.edits),
    found: kept(slice.found),
    left: kept(slice.left),
  };
  fields.write(done);
  const meanings = new Map(
    done.map((edit, i) => [placeKey(edit), { stamp: fields.stamp(edit), means: stays[becomes][i] ?? "" }]),
  );
  return { done, skipped: edits.filter((_, i) => !goes[i]), stays, meanings };
}

/**
 * Records that would be removed although another has written in them: taking the record away would take
 * the other's word with it, so all of it stays.
 */
function spared(
  fields: Fields,
  edits: readonly FieldEdit[],
  theirs: ReadonlySet<FieldEdit>,
): ReadonlySet<string> {
  const leaving = edits.filter((edit) => edit.field === "id" && edit.after === undefined);
  if (leaving.length === 0) return new Set();
  const removable = new Set(edits.filter((edit) => !theirs.has(edit)).map(placeKey));
  const kept = leaving.filter(({ table, id }) =>
    fields.fieldsOf({ table, id }).some((field) => !removable.has(placeKey({ table, id, field }))),
  );
  return new Set(kept.map(recordKey));
}

function editOf(
  { table, id, field }: Place,
  before: FieldEdit["before"],
  after: FieldEdit["after"],
): FieldEdit {
  return {
    table,
    id,
    field,
    ...(before === undefined ? {} : { before }),
    ...(after === undefined ? {} : { after }),
  };
}

function recordKey({ table, id }: Pick<Place, "table" | "id">): string {
  return `${table}\u0000${id}`;
}

function placeKey({ table, id, field }: Place): string {
  return `${table}\u0000${id}\u0000${field}`;
}
