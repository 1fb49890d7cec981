/** A snag: something in the show that is wrong, risky or not known yet. Plain data. */
import type { RuleId } from "./catalogue.ts";
import type { Level } from "./rule.ts";
import type { Point } from "../plane/point.ts";

export type { Level } from "./rule.ts";

export interface Snag {
  readonly rule: RuleId;
  readonly level: Level;
  /** One short kind sentence, lengths already printed in the show's units. */
  readonly sentence: string;
  /** Ids of the records it speaks of, most to the point first. */
  readonly things: readonly string[];
  readonly room?: string;
  /** Where it stands, in room axes (mm). */
  readonly at?: Point;
  /** mm (or the rule's own unit). */
  readonly measured?: number;
  /** One standard deviation of the measured figure, same unit; 0 where it rests on no reading. */
  readonly doubt?: number;
  readonly wanted?: number;
  /** What to do about it, if there is something plain to do. */
  readonly mend?: string;
}
