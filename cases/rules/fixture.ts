/**
 * What holds each rule to its word: a show in which it fires, one in which it is clear, and both sides of its
 * boundary. A rule without a fixture fails the tests, and so does one that does not keep to its figure.
 */
import type { RuleId } from "../../engine/src/snags/catalogue.ts";

export interface RuleFixture {
  /** Tape sheets, each a small show of its own. */
  readonly fires: string;
  readonly clear: string;
  readonly boundary: Boundary | NoBoundary;
}

/** The rule turns at a figure: a mm more or less (a minute, a hundredth, a degree where it judges such) decides. */
export interface Boundary {
  /** The show with the figure in its place. */
  readonly at: (figure: number) => string;
  /** Where it turns, and how far to each side is tried: 1 for mm. */
  readonly figure: number;
  readonly step: number;
  /** Whether it fires on the side that is less, or on the side that is more. */
  readonly fires: "below" | "above";
}

/** Why the rule turns at no figure: it asks whether something was said at all. */
export interface NoBoundary {
  readonly none: string;
}

export type RuleFixtures = { readonly [R in RuleId]?: RuleFixture };
