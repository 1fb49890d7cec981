/**
 * The live show: one replica with one's own undo list. Everything a person does goes through `perform`;
 * everything anyone does comes back through `subscribe` as a Change on the readonly document. Small changes
 * are in the document when `perform` returns; large ones are written in slices, and the document moves on
 * once, when the last slice is written.
 */
import { difference, type Change, type FieldEdit, type ShowDocument } from "@cornerwise/engine";
import { Replica } from "./replica.ts";
import { breath, runs, SLICE } from "./slices.ts";
import {
  NOTHING_DONE,
  redid,
  redoStep,
  remember,
  settle,
  statesFound,
  undid,
  undoStep,
  type Step,
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
  /** From the document before to this one. Empty when only the undo list moved. */
  readonly change: Change;
  readonly from: "own" | "elsewhere";
}

/** How far a long change is, 0 to 1. */
export type Progress = (part: number) => void;

export class LiveShow {
  readonly replica: Replica;
  readonly #listeners = new Set<(news: News) => void>();
  #undo: UndoState;
  #document: ShowDocument;
  /** While slices are written: what came from elsewhere meanwhile. */
  #held: FieldEdit[] | undefined;
  #last: Promise<unknown> = Promise.resolve();

  /** `undo` is the list as it was kept, for a show that is opened again. */
  constructor(replica: Replica = new Replica(), undo: UndoState = NOTHING_DONE) {
    this.replica = replica;
    this.#undo = undo;
    this.#document = replica.document;
    replica.onElsewhere((edits) => {
      if (this.#held !== undefined) this.#held.push(...edits);
      else this.#publish({ label: "from elsewhere", edits }, "elsewhere");
    });
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
   * which for up to 2,000 edits is already so on return.
   */
  perform(change: Change, progress?: Progress): Promise<void> {
    return this.#inTurn(() => {
      const settled = settle(this.replica, change);
      if (settled.edits.length === 0) return undefined;
      const found = statesFound(this.replica, this.#undo, settled.edits);
      return this.#write(settled, progress, () => {
        this.#undo = remember(this.replica, this.#undo, settled, found);
      });
    });
  }

  /** Makes the show into this one, as one change of one's own. */
  replace(document: ShowDocument, label: string, progress?: Progress): Promise<void> {
    return this.perform({ label, edits: difference(this.#document, document) }, progress);
  }

  /** Takes one's own newest change back. Undefined where there is none. */
  undo(progress?: Progress): Promise<Outcome | undefined> {
    return this.#step(undoStep, undid, progress);
  }

  /** Does again what was taken back last. Undefined where there is nothing. */
  redo(progress?: Progress): Promise<Outcome | undefined> {
    return this.#step(redoStep, redid, progress);
  }

  close(): void {
    this.#listeners.clear();
    this.replica.close();
  }

  async #step(
    next: (replica: Replica, undo: UndoState) => Step | undefined,
    after: (replica: Replica, undo: UndoState, step: Step) => UndoState,
    progress: Progress | undefined,
  ): Promise<Outcome | undefined> {
    let step: Step | undefined;
    await this.#inTurn(() => {
      step = next(this.replica, this.#undo);
      if (step === undefined) return undefined;
      const taken = step;
      return this.#write({ label: taken.label, edits: taken.done }, progress, () => {
        this.#undo = after(this.replica, this.#undo, taken);
      });
    });
    return step;
  }

  /** At once where nothing long is under way, otherwise when that is done. */
  #inTurn(work: () => Promise<void> | undefined): Promise<void> {
    if (this.#held === undefined) {
      const going = work() ?? Promise.resolve();
      this.#last = going;
      return going;
    }
    const going = this.#last.then(() => work());
    this.#last = going.catch(() => undefined);
    return going;
  }

  #write(change: Change, progress: Progress | undefined, after: () => void): Promise<void> | undefined {
    if (change.edits.length > SLICE) return this.#writeSlices(change, progress, after);
    this.replica.write(change.edits);
    after();
    this.#publish(change, "own");
    return undefined;
  }

  async #writeSlices(change: Change, progress: Progress | undefined, after: () => void): Promise<void> {
    const held: FieldEdit[] = [];
    this.#held = held;
    try {
      const slices = runs(change.edits, SLICE);
      for (const [i, slice] of slices.entries()) {
        this.replica.write(slice);
        progress?.((i + 1) / slices.length);
        await breath();
      }
      after();
    } finally {
      this.#held = undefined;
    }
    this.#publish({ label: change.label, edits: [...change.edits, ...held] }, "own");
  }

  #publish(change: Change, from: News["from"]): void {
    this.#document = this.replica.document;
    const news: News = { document: this.#document, change, from };
    for (const listener of this.#listeners) listener(news);
  }
}
