/** Night Ferry has one planted stop, and the mend its notes name is a mend. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { derive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import type { ShowDocument } from "../engine/src/document/tables.ts";

function nightFerry(): ShowDocument {
  const read = readShow(readFileSync(new URL("night-ferry.json", import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.document;
}

it("the covering's 35 1/4 in beside D-A is the only stop of Night Ferry", () => {
  const stops = derive(nightFerry()).snags.filter((snag) => snag.level === "stop");
  expect(stops.map((snag) => snag.rule)).toEqual(["narrow-route"]);
  // 3' 0" less the 3/4" base trim; the room's own doubt is under 1/16 in here.
  expect((stops[0]?.measured ?? 0) / 25.4).toBeCloseTo(35.25, 1);
});

it("the covering slid 2 in leaves no stop", () => {
  const document = nightFerry();
  const coverings = Object.fromEntries(
    Object.entries(document.coverings).map(([id, covering]) => [id, { ...covering, x: covering.x + 50.8 }]),
  );
  expect(derive({ ...document, coverings }).snags.filter((snag) => snag.level === "stop")).toEqual([]);
});

it("every piece of furniture stands, and accessories wait in the tray", () => {
  const { pieces, placements } = nightFerry();
  const counts = Object.values(pieces).filter((piece) => piece.layer === "furniture");
  expect(Object.keys(placements)).toHaveLength(counts.reduce((sum, piece) => sum + piece.count, 0));
});
