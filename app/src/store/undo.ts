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
 * The list is plain JSON through and through, so it can be kept and read back after a reload.
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

export interface UndoState {
  /** Oldest first; the last is undone next. */
  readonly done: readonly Entry[];
  /** The last is redone next. */
  readonly undone: readonly Entry[];
  /** By `table NUL id NUL field`. */
  readonly meanings: { readonly [place: string]: Meaning };
}

export const NOTHING_DONE: UndoState = { done: [], undone: [], meanings: {} };

/** What the list needs of a replica: reading a field and its stamp. */
export interface Fields {
  value(place: Place): FieldEdit["after"];
  stamp(place: Place): Stamp;
  /** Names of the fields a record has now; none where there is no such record. */
  fieldsOf(record: Pick<Place, "table" | "id">): readonly string[];
}

/** The edits to write, and those that are left alone because another has written there since. */
export interface Step {
  readonly label: string;
  readonly done: readonly FieldEdit[];
  readonly skipped: readonly FieldEdit[];
}

/** The name of the state a field is in. */
function stateOf(fields: Fields, meanings: UndoState["meanings"], place: Place): Stamp {
  const stamp = fields.stamp(place);
  const meaning = meanings[placeKey(place)];
  return meaning !== undefined && meaning.stamp === stamp ? meaning.means : stamp;
}

/**
 * The change as it really meets the fields: one edit a field, `before` as it stands there now, and nothing
 * that is so already.
 */
export function settle(fields: Fields, change: Change): Change {
  const last = new Map<string, FieldEdit>();
  for (const edit of change.edits) last.set(placeKey(edit), edit);
  const edits = [...last.values()].flatMap((edit) => {
    const before = fields.value(edit);
    return sameValue(before, edit.after) ? [] : [editOf(edit, before, edit.after)];
  });
  return { label: change.label, edits };
}

/** The states a settled change finds; ask before it is written. */
export function statesFound(fields: Fields, state: UndoState, edits: readonly FieldEdit[]): readonly Stamp[] {
  return edits.map((edit) => stateOf(fields, state.meanings, edit));
}

/** The list after a settled change was written. What was undone before can no longer be redone. */
export function remember(
  fields: Fields,
  state: UndoState,
  change: Change,
  found: readonly Stamp[],
): UndoState {
  const left = change.edits.map((edit) => fields.stamp(edit));
  const done = [...state.done, { ...change, found, left }].slice(-UNDO_LIMIT);
  return { done, undone: [], meanings: stillNeeded(state.meanings, done) };
}

/** What undoing the newest entry would write; undefined where there is nothing to undo. */
export function undoStep(fields: Fields, state: UndoState): Step | undefined {
  const entry = state.done.at(-1);
  if (entry === undefined) return undefined;
  const back = entry.edits.map((edit) => editOf(edit, edit.after, edit.before));
  return split(fields, state, { label: entry.label, edits: back, expected: entry.left });
}

/** What redoing the newest undone entry would write; undefined where there is nothing to redo. */
export function redoStep(fields: Fields, state: UndoState): Step | undefined {
  const entry = state.undone.at(-1);
  if (entry === undefined) return undefined;
  return split(fields, state, { label: entry.label, edits: entry.edits, expected: entry.found });
}

/** The list after an undo step was written. Skipped fields leave the entry for good. */
export function undid(fields: Fields, state: UndoState, step: Step): UndoState {
  const entry = state.done.at(-1);
  if (entry === undefined) throw new Error(`undid "${step.label}" with nothing done`);
  const rest = without(entry, step.skipped);
  return {
    done: state.done.slice(0, -1),
    undone: rest.edits.length > 0 ? [...state.undone, rest] : state.undone,
    meanings: { ...state.meanings, ...meaningsOf(fields, rest.edits, rest.found) },
  };
}

/** The list after a redo step was written. */
export function redid(fields: Fields, state: UndoState, step: Step): UndoState {
  const entry = state.undone.at(-1);
  if (entry === undefined) throw new Error(`redid "${step.label}" with nothing undone`);
  const rest = without(entry, step.skipped);
  return {
    done: rest.edits.length > 0 ? [...state.done, rest] : state.done,
    undone: state.undone.slice(0, -1),
    meanings: { ...state.meanings, ...meaningsOf(fields, rest.edits, rest.left) },
  };
}

interface Wish {
  readonly label: string;
  readonly edits: readonly FieldEdit[];
  /** The state each field must be in. */
  readonly expected: readonly Stamp[];
}

function split(fields: Fields, state: UndoState, { label, edits, expected }: Wish): Step {
  const theirs = new Set<FieldEdit>();
  edits.forEach((edit, i) => {
    const mine = stateOf(fields, state.meanings, edit) === expected[i];
    if (!mine || !sameValue(fields.value(edit), edit.before)) theirs.add(edit);
  });
  const sparedRecords = spared(fields, edits, theirs);
  const skips = (edit: FieldEdit): boolean => theirs.has(edit) || sparedRecords.has(recordKey(edit));
  return { label, done: edits.filter((edit) => !skips(edit)), skipped: edits.filter(skips) };
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

function without(entry: Entry, skipped: readonly FieldEdit[]): Entry {
  if (skipped.length === 0) return entry;
  const gone = new Set(skipped.map(placeKey));
  const stays = entry.edits.map((edit) => !gone.has(placeKey(edit)));
  const kept = <T>(list: readonly T[]): T[] => list.filter((_, i) => stays[i]);
  return { label: entry.label, edits: kept(entry.edits), found: kept(entry.found), left: kept(entry.left) };
}

function meaningsOf(
  fields: Fields,
  edits: readonly FieldEdit[],
  means: readonly Stamp[],
): Record<string, Meaning> {
  return Object.fromEntries(
    edits.map((edit, i) => [placeKey(edit), { stamp: fields.stamp(edit), means: means[i] ?? "" }]),
  );
}

/** Drops the meanings of fields that no entry speaks of any more, once there are many. */
function stillNeeded(meanings: UndoState["meanings"], done: readonly Entry[]): UndoState["meanings"] {
  const keys = Object.keys(meanings);
  if (keys.length < 10_000) return meanings;
  const spoken = new Set(done.flatMap((entry) => entry.edits.map(placeKey)));
  return Object.fromEntries(Object.entries(meanings).filter(([place]) => spoken.has(place)));
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
