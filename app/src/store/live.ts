/**
 * The live show: one replica with one's own undo list. Everything a person does goes through `perform`;
 * everything anyone does comes back through `subscribe` as Changes on the readonly document. Small changes
 * are in the document when `perform` returns; large ones are written in slices, and the document moves on
 * once, when the last slice is written.
 */
import type { Change, FieldEdit, ShowDocument } from "@cornerwise/engine";
import { Replica } from "./replica.ts";
import { atOnce, cuts, differences, grouped, SLICE, withBreaths, type Work } from "./slices.ts";
import {
  NOTHING_DONE,
  performSlice,
  redid,
  redoSlice,
  remembered,
  undid,
  undoSlice,
  type Entry,
  type Layer,
  type Meaning,
  type SliceOutcome,
  type UndoState,
} from "./undo.ts";

/** What an undo or redo did: the edits it wrote, and those it left alone because another wrote there since. */
export interface Outcome {
  readonly label: string;
  readonly done: readonly FieldEdit[];
  readonly skipped: readonly FieldEdit[];
}

export interface News {
  readonly document: ShowDocument;
  /** What happened since the last news. */
  readonly change: Change;
  readonly from: "own" | "elsewhere";
  /** A slice of a long change of one's own: more follows, and until then `document` is still the one before. */
  readonly more: boolean;
}

/** How far a long change is, 0 to 1. */
export type Progress = (part: number) => void;

type Step = "undo" | "redo";

export class LiveShow {
  readonly replica: Replica;
  readonly #listeners = new Set<(news: News) => void>();
  #undo: UndoState;
  #document: ShowDocument;
  /** Whether a long change is under way or waits its turn. */
  #busy = false;
  /** Whether the last news promised more. */
  #owing = false;
  #last: Promise<unknown> = Promise.resolve();

  /** `undo` is the list as it was kept, for a show that is opened again. */
  constructor(replica: Replica = new Replica(), undo: UndoState = NOTHING_DONE) {
    this.replica = replica;
    this.#undo = undo;
    this.#document = replica.document;
    replica.onElsewhere((edits) => this.#publish({ label: "from elsewhere", edits }, "elsewhere"));
  }

  /** The show as it stands; while a long change is written, as it stood before it. */
  getDocument(): ShowDocument {
    return this.#document;
  }

  getUndo(): UndoState {
    return this.#undo;
  }

  /** Returns how to stop. */
  subscribe(listener: (news: News) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /**
   * Writes one's own change. A change of nothing leaves no trace. Resolves when it stands in the document,
   * which for up to 1,000 edits is already so on return.
   */
  perform(change: Change, progress?: Progress): Promise<void> {
    return this.#inTurn(change.edits.length, () => this.#performing(change, progress));
  }

  /** Makes the show into this one, as one change of one's own. */
  replace(document: ShowDocument, label: string, progress?: Progress): Promise<void> {
    return this.#inTurn(Infinity, () => this.#replacing(document, label, progress));
  }

  /** Takes one's own newest change back. Undefined where there is none. */
  undo(progress?: Progress): Promise<Outcome | undefined> {
    return this.#inTurn(this.#undo.done.at(-1)?.edits.length ?? 0, () => this.#stepping("undo", progress));
  }

  /** Does again what was taken back last. Undefined where there is nothing. */
  redo(progress?: Progress): Promise<Outcome | undefined> {
    return this.#inTurn(this.#undo.undone.at(-1)?.edits.length ?? 0, () => this.#stepping("redo", progress));
  }

  close(): void {
    this.#listeners.clear();
    this.replica.close();
  }

  *#replacing(document: ShowDocument, label: string, progress: Progress | undefined): Work<void> {
    const edits = yield* differences(this.#document, document);
    yield* this.#performing({ label, edits }, progress);
  }

  *#performing(change: Change, progress: Progress | undefined): Work<void> {
    const { label } = change;
    const edits = yield* grouped(change.edits);
    const parts: Entry[] = [];
    for (const [from, to] of cuts(edits)) {
      const part = performSlice(this.replica, this.#undo, { label, edits: edits.slice(from, to) });
      parts.push(part);
      yield* this.#told(part, { progress, part: to / edits.length });
    }
    const entry = joined(label, parts);
    if (entry.edits.length === 0) return;
    this.#undo = remembered(this.#undo, entry);
    this.#publish({ label, edits: this.#untold(parts) }, "own", false);
  }

  *#stepping(step: Step, progress: Progress | undefined): Work<Outcome | undefined> {
    const entry = (step === "undo" ? this.#undo.done : this.#undo.undone).at(-1);
    if (entry === undefined) return undefined;
    const { label } = entry;
    const outcomes: SliceOutcome[] = [];
    for (const [from, to] of cuts(entry.edits)) {
      const slice = slicedEntry(entry, from, to);
      const outcome = (step === "undo" ? undoSlice : redoSlice)(this.replica, this.#undo, slice);
      outcomes.push(outcome);
      yield* this.#told({ label, edits: outcome.done }, { progress, part: to / entry.edits.length });
    }
    const skipped = outcomes.flatMap((outcome) => outcome.skipped);
    const rest = joined(
      label,
      outcomes.map(({ stays }) => stays),
    );
    // An entry of which nothing was skipped stays the very same, so that it need not be kept anew.
    const stays = skipped.length === 0 ? entry : rest;
    const meanings = merged(outcomes.map((outcome) => outcome.meanings));
    this.#undo = (step === "undo" ? undid : redid)(this.#undo, stays, meanings);
    this.#publish(
      { label, edits: this.#untold(outcomes.map(({ done }) => ({ edits: done }))) },
      "own",
      false,
    );
    return { label, done: outcomes.flatMap(({ done }) => done), skipped };
  }

  /** While others wait, a slice is told at once, before the breath in which something else may happen. */
  *#told(
    change: Change,
    { progress, part }: { readonly progress: Progress | undefined; readonly part: number },
  ): Work<void> {
    if (!this.#busy) return;
    if (change.edits.length > 0) this.#publish({ label: change.label, edits: change.edits }, "own", true);
    progress?.(part);
    yield;
  }

  /** What has not been told yet when the last slice is written. */
  #untold(parts: readonly Pick<Change, "edits">[]): readonly FieldEdit[] {
    return this.#busy ? [] : parts.flatMap(({ edits }) => edits);
  }

  /** At once where it is short and nothing long is under way, otherwise with breaths and in its turn. */
  #inTurn<T>(edits: number, work: () => Work<T>): Promise<T> {
    if (!this.#busy && edits <= SLICE) {
      try {
        return Promise.resolve(atOnce(work()));
      } catch (bug) {
        return Promise.reject(bug instanceof Error ? bug : new Error(String(bug)));
      }
    }
    const turn = this.#last.then(async () => {
      this.#busy = true;
      try {
        return await withBreaths(work());
      } finally {
        this.#busy = false;
        if (this.#owing) this.#publish({ label: "from elsewhere", edits: [] }, "elsewhere");
      }
    });
    this.#busy = true;
    this.#last = turn.catch(() => undefined);
    return turn;
  }

  #publish(change: Change, from: News["from"], more = this.#busy): void {
    this.#owing = more;
    if (!more) this.#document = this.replica.document;
    const news: News = { document: this.#document, change, from, more };
    for (const listener of this.#listeners) listener(news);
  }
}

function slicedEntry(entry: Entry, from: number, to: number): Entry {
  const { label, edits, found, left } = entry;
  return { label, edits: edits.slice(from, to), found: found.slice(from, to), left: left.slice(from, to) };
}

function joined(label: string, parts: readonly Entry[]): Entry {
  return {
    label,
    edits: parts.flatMap((part) => part.edits),
    found: parts.flatMap((part) => part.found),
    left: parts.flatMap((part) => part.left),
  };
}

function merged(layers: readonly Layer[]): Layer {
  const [first, ...rest] = layers;
  if (first === undefined || rest.length === 0) return first ?? new Map();
  const all = new Map<string, Meaning>();
  for (const layer of layers) for (const [place, meaning] of layer) all.set(place, meaning);
  return all;
}
