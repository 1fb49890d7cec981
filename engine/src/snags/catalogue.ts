/**
 * The one catalogue of every rule: what it asks, its figure by place, its source and when that was last
 * read. Codes are quoted as commonly published; the authority in the place decides. The rules stand in a file a stage.
 */
import type { Place } from "../document/tables.ts";
import { ARRANGE_RULES } from "./arrange-rules.ts";
import { INSTALL_RULES } from "./install-rules.ts";
import { MAKE_RULES } from "./make-rules.ts";
import { MEASURE_RULES } from "./measure-rules.ts";
import type { Rule, Rules } from "./rule.ts";

export type { Figure, Rule } from "./rule.ts";

export const CATALOGUE = {
  ...MEASURE_RULES,
  ...ARRANGE_RULES,
  ...MAKE_RULES,
  ...INSTALL_RULES,
} as const satisfies Rules;

export type RuleId = keyof typeof CATALOGUE;

/** A rule by its id, widened to the general type. */
export function ruleOf(id: RuleId): Rule {
  return CATALOGUE[id];
}

/** The figure of a rule in a place; a place nobody has said is judged by the US figures. Throws for a name the rule does not have. */
export function figureOf(id: RuleId, name: string, place: Place): number {
  const figure = ruleOf(id).figures[name];
  const value = figure?.any ?? figure?.[place === "" ? "US" : place];
  if (value === undefined) throw new Error(`rule ${id} has no figure "${name}" for "${place}"`);
  return value;
}
