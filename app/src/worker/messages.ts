/**
 * Everything that is said between the screen and the engine worker, in one place. All of it survives the
 * structured clone. The screen speaks in Asks, the worker in Answers. Only a `change` or an `open` moves the
 * worker's replica; nothing the worker says changes the document.
 */
import type {
  Change,
  Derived,
  Gap,
  Placement,
  PrintCorrection,
  Problem,
  Sheet,
  ShowDocument,
  Snag,
  Standing,
  TapeLine,
} from "@cornerwise/engine";

/** What the engine makes of the document: everything a screen shows. */
export interface Shown extends Derived {
  /** The drawn sheet of each room (plan and elevations), in the order of `rooms`. */
  readonly sheets: readonly Sheet[];
}

/** Where a piece is while it is dragged; session state, never the document. */
export type DraggedPlacement = Pick<Placement, "id" | "x" | "y" | "turn">;

/** What a drag needs and no more, so that little is copied between threads. */
export interface Preview {
  readonly placement: DraggedPlacement;
  /** The nearest things on each side. */
  readonly gaps: readonly Gap[];
  /** The snags of its room as they would be. */
  readonly snags: readonly Snag[];
  /** The moved piece's outline in room axes. */
  readonly outline: Standing["outline"];
}

export interface PrintAsk {
  /** "book": cover, plan, elevations, readings, snags. "one page": plan and cut-outs. */
  readonly what: "book" | "one page";
  readonly as: "pdf" | "svg";
  readonly paper: "letter" | "a4";
  /** Already printed for the reader: "25 Nov 2026". */
  readonly date: string;
  /** The same moment as ISO 8601, for the file itself. */
  readonly created: string;
  readonly correction: PrintCorrection;
  /** The room; the first one where nothing is said. */
  readonly room?: string;
}

/** A file ready to be kept by the person. */
export interface MadeFile {
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/**
 * A show file or tape sheet as it was read. `document` is the show to take on: of a show file all or nothing, of
 * a tape sheet the open show with every line that read. Absent where nothing could be read.
 */
export interface ReadFile {
  readonly document?: ShowDocument;
  readonly problems: readonly Problem[];
}

/** A line or more of the tape grammar as it was read; `change` may be empty. */
export interface ReadLine {
  readonly change: Change;
  readonly problems: readonly Problem[];
  /** Each line, whether it read, and the id of the record it made or changed. */
  readonly lines: readonly TapeLine[];
}

export interface Printed {
  readonly files: readonly MadeFile[];
  /** n of 1:n where the page is to scale. */
  readonly scale?: number;
  /** "1:48, one 1/4 in square is 12 in", for the one page. */
  readonly sentence?: string;
  /** Names of copies without a cut-out on the one page. */
  readonly leftOut?: readonly string[];
}

/** Asks that are answered, by kind: what goes, what comes back. */
export interface Questions {
  "read-example": { readonly ask: object; readonly answer: ReadFile };
  "read-file": {
    readonly ask: { readonly bytes: Uint8Array<ArrayBuffer>; readonly name: string };
    readonly answer: ReadFile;
  };
  /** `text` may hold several lines. */
  "read-line": { readonly ask: { readonly text: string; readonly room?: string }; readonly answer: ReadLine };
  "write-file": { readonly ask: object; readonly answer: MadeFile };
  "write-tape": { readonly ask: object; readonly answer: MadeFile };
  print: { readonly ask: PrintAsk; readonly answer: Printed };
}

export type QuestionKind = keyof Questions;

/** An ask that wants its own answer; `number` ties the two together. */
export type Question = {
  [K in QuestionKind]: { readonly kind: K; readonly number: number; readonly ask: Questions[K]["ask"] };
}[QuestionKind];

export type Ask =
  | { readonly kind: "open"; readonly revision: number; readonly document: ShowDocument }
  /** With `more`, a slice of a long change: nothing is derived before the last one. */
  | { readonly kind: "change"; readonly revision: number; readonly change: Change; readonly more: boolean }
  /** Only the latest counts; older ones that still wait are dropped. */
  | { readonly kind: "preview"; readonly placement: DraggedPlacement }
  | Question;

export type Answer =
  /** The worker has loaded and listens. */
  | { readonly kind: "ready" }
  | { readonly kind: "derived"; readonly revision: number; readonly derived: Shown }
  | { readonly kind: "preview"; readonly preview: Preview }
  | { readonly kind: "answer"; readonly number: number; readonly answer: Questions[QuestionKind]["answer"] }
  /** A bug cost this one answer. `number` says which question, where it was one; the document is untouched. */
  | { readonly kind: "fault"; readonly number?: number; readonly message: string };
