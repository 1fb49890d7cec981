/** Every rule of the catalogue, held to its word by its fixture: it fires, it is clear, and it turns where it says. */
import { describe, expect, it } from "vitest";
import { derive } from "../../engine/src/derive.ts";
import { emptyDocument } from "../../engine/src/document/tables.ts";
import { CATALOGUE, type RuleId } from "../../engine/src/snags/catalogue.ts";
import { readTape } from "../../engine/src/tape/read.ts";
import type { RuleFixture } from "./fixture.ts";
import { RULE_FIXTURES } from "./index.ts";

/** Whether a rule fires in a show written as a tape sheet. A sheet that does not read is a fault of the fixture. */
function fires(rule: RuleId, sheet: string): boolean {
  const { document, problems } = readTape(sheet, emptyDocument());
  if (problems.length > 0) throw new Error(`${rule}: ${JSON.stringify(problems)}\n${sheet}`);
  return derive(document).snags.some((snag) => snag.rule === rule);
}

const FIXTURES = Object.entries(RULE_FIXTURES) as readonly (readonly [RuleId, RuleFixture])[];

describe("every rule", () => {
  it("has a fixture", () => {
    expect(Object.keys(RULE_FIXTURES).toSorted()).toEqual(Object.keys(CATALOGUE).toSorted());
  });

  it.each(FIXTURES)("%s fires where it should", (rule, fixture) => {
    expect(fires(rule, fixture.fires)).toBe(true);
  });

  it.each(FIXTURES)("%s is clear where all is well", (rule, fixture) => {
    expect(fires(rule, fixture.clear)).toBe(false);
  });

  it.each(FIXTURES)("%s turns at its figure, or says why it has none", (rule, { boundary }) => {
    if ("none" in boundary) {
      expect(boundary.none.length).toBeGreaterThan(10);
      return;
    }
    const { at, figure, step } = boundary;
    const [less, more] = [fires(rule, at(figure - step)), fires(rule, at(figure + step))];
    expect({ less, more }).toEqual({ less: boundary.fires === "below", more: boundary.fires === "above" });
  });
});
