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
  SpaceFace,
  Standing,
  TableName,
  TapeLine,
  Touch,
  ViewFrom,
} from "@cornerwise/engine";

/** What the engine makes of the document: what a screen shows at all times. The later stages are asked for by page. */
export interface Shown extends Pick<Derived, "rooms" | "arrangements" | "snags"> {
  /** The drawn sheet of each room (plan and elevations), in the order of `rooms`. */
  readonly sheets: readonly Sheet[];
  readonly figures: StageFigures;
}

/** What the later stages say of themselves. */
export interface StageFigures {
  readonly strips: number;
  readonly lengths: number;
  /** Person-minutes of making, and of install. */
  readonly makingMinutes: number;
  readonly installMinutes: number;
  /** Minor units, and how many lines have no price yet. */
  readonly price: number;
  readonly unpriced: number;
  /** n of 1:n of the card model, and how many parts it has. */
  readonly modelScale?: number;
  readonly cards: number;
  readonly tasks: number;
  readonly shifts: number;
  readonly unplaced: number;
  /** When the last task ends, on the venue's clock: "Fri 17:40"; absent where nothing is planned. */
  readonly done?: string;
}

/** The stages that are shown as pages. */
export type PagedStage = "make" | "model" | "install";

/** What a change touched: so many of each kind, and the first of them one by one. */
export interface Rippled {
  readonly revision: number;
  readonly count: number;
  readonly touches: readonly Touch[];
}

/** A room in three dimensions. */
export interface Space {
  readonly faces: readonly SpaceFace[];
  readonly views: readonly ViewFrom[];
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
  /** "book": all there is to say. "fire officer": the page for the fire officer alone. "one page": plan and cut-outs. "lists" and "calendar": other files. */
  readonly what: "book" | "fire officer" | "one page" | "drawings" | "lists" | "calendar";
  readonly as: "pdf" | "svg" | "dxf" | "csv" | "ics";
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
  /** `text` may hold several lines; with `record` it says that very record anew, whatever it was called before. */
  "read-line": {
    readonly ask: {
      readonly text: string;
      readonly room?: string;
      readonly record?: { readonly table: TableName; readonly id: string };
    };
    readonly answer: ReadLine;
  };
  "write-file": { readonly ask: object; readonly answer: MadeFile };
  "write-tape": { readonly ask: object; readonly answer: MadeFile };
  /** The pages of a later stage for one room. */
  pages: {
    readonly ask: { readonly stage: PagedStage; readonly room: string };
    readonly answer: { readonly sheets: readonly Sheet[] };
  };
  space: { readonly ask: { readonly room: string }; readonly answer: Space };
  /** A record as the lines of the tape sheet that say it; empty where it is gone. */
  "record-lines": {
    readonly ask: { readonly table: TableName; readonly id: string };
    readonly answer: { readonly text: string };
  };
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
  /** A plan that takes long is so far done, 0 to 1. */
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "rippled"; readonly rippled: Rippled }
  | { readonly kind: "answer"; readonly number: number; readonly answer: Questions[QuestionKind]["answer"] }
  /** A bug cost this one answer. `number` says which question, where it was one; the document is untouched. */
  | { readonly kind: "fault"; readonly number?: number; readonly message: string };
