/** What a rule of the catalogue says of itself. */
/** stop: cannot be built or is unsafe. mind: a decision or an answer is owed. know: worth knowing. */
export type Level = "stop" | "mind" | "know";

/** A figure of a rule, mm unless the rule says otherwise, by place; `any` where places do not differ. */
export interface Figure {
  readonly any?: number;
  readonly US?: number;
  readonly GB?: number;
  readonly DE?: number;
}

export interface Rule {
  /** The stage that judges it. */
  readonly stage: "document" | "measure" | "arrange" | "make" | "model" | "install" | "sheet";
  /** The gravest level it can reach. */
  readonly level: Level;
  /** What is asked, as a plain sentence. */
  readonly asks: string;
  readonly figures: { readonly [name: string]: Figure };
  /** "none": its snags' figures are plain numbers. Where it is not said: mm, or degrees where it speaks of a measured angle. */
  readonly unit?: "none" | "minutes" | "degrees";
  /** Published source by place or for all; "common practice, no source" where there is none. */
  readonly source: string;
  /** ISO date the figures were last read in the source (or a page that quotes it). */
  readonly readOn: string;
}

/** A stage's rules by their ids. */
export type Rules = { readonly [id: string]: Rule };

/** An inch in mm, for figures that codes give in inches. */
export const IN = 25.4;
/** The day the sources were last read. */
export const READ = "2026-11-25";
/** The source of what everybody does and nobody wrote down. */
export const PRACTICE = "common practice, no source";
