/**
 * Nothing is there that no case shows: every table, every kind of work and every rule of the engine is exercised by
 * a show of this folder. The whole shows come first; a rule that must not fire in a sound show is exercised by its
 * fixture, a small show of its own that is read and derived like any other.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { derive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { FIXTURE_KINDS } from "../engine/src/document/kinds.ts";
import { TABLE_NAMES, emptyDocument, type ShowDocument } from "../engine/src/document/tables.ts";
import { WORKS } from "../engine/src/document/works.ts";
import { CATALOGUE, type RuleId } from "../engine/src/snags/catalogue.ts";
import { readTape } from "../engine/src/tape/read.ts";
import { RULE_FIXTURES } from "./rules/index.ts";

function show(name: string): ShowDocument {
  const read = readShow(readFileSync(new URL(`${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  return read.document;
}

const SHOWS = [show("night-ferry"), show("three-in-the-morning")];
const DERIVED = SHOWS.map(derive);

describe("what no case exercises", () => {
  it("is no table", () => {
    const idle = TABLE_NAMES.filter((table) => SHOWS.every((one) => Object.keys(one[table]).length === 0));
    expect(idle).toEqual([]);
  });

  it("is no kind of work", () => {
    const done = new Set(
      DERIVED.flatMap(({ making, installing }) => [
        ...making.hours.map((line) => line.work),
        ...installing.tasks.map((task) => task.work),
      ]),
    );
    expect(WORKS.filter((work) => !done.has(work))).toEqual([]);
  });

  it("is no kind of thing to keep clear", () => {
    const kinds = new Set(SHOWS.flatMap((one) => Object.values(one.fixtures).map((fixture) => fixture.kind)));
    expect(FIXTURE_KINDS.filter((kind) => !kinds.has(kind))).toEqual([]);
  });

  it("is no rule", () => {
    const fired = new Set<RuleId>(DERIVED.flatMap(({ snags }) => snags.map((snag) => snag.rule)));
    for (const fixture of Object.values(RULE_FIXTURES))
      for (const snag of derive(readTape(fixture.fires, emptyDocument()).document).snags)
        fired.add(snag.rule);
    expect((Object.keys(CATALOGUE) as RuleId[]).filter((rule) => !fired.has(rule))).toEqual([]);
  });
});
