/** Types of the cutting of lengths; the solver follows. */

/** Parts to be cut from sticks of one length. Any unit, the same throughout. */
export interface LengthJob {
  readonly stock: number;
  /** What each cut eats. Between two parts there is one cut; the last part needs none where it ends at the stick's end. */
  readonly kerf: number;
  readonly parts: readonly { readonly id: string; readonly length: number }[];
}

export interface LengthPlan {
  /** Each stick's parts in the order they are cut, and what is left of it (after the cut that frees it). */
  readonly sticks: readonly { readonly parts: readonly string[]; readonly left: number }[];
  /** No plan can do with fewer sticks. */
  readonly bound: number;
  /** Ids of parts longer than a stick; they are in no stick. */
  readonly unplaced: readonly string[];
}
