/** Types of the cutting of sheets; the solver follows. */

/** Rectangles to be cut from equal sheets by straight cuts from edge to edge. Any unit, the same throughout. */
export interface SheetJob {
  readonly width: number;
  readonly depth: number;
  /** What each cut eats. */
  readonly kerf: number;
  /** Whether a part may be turned by a quarter. */
  readonly turning: boolean;
  readonly parts: readonly { readonly id: string; readonly width: number; readonly depth: number }[];
}

export interface CutOut {
  readonly id: string;
  /** Left bottom corner on the sheet, and its size as it lies. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly depth: number;
}

export interface SheetPlan {
  readonly sheets: readonly { readonly parts: readonly CutOut[] }[];
  /** No plan can do with fewer sheets. */
  readonly bound: number;
  /** Ids of parts larger than a sheet; they are on no sheet. */
  readonly unplaced: readonly string[];
}
