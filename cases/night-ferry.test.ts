/** Night Ferry has its planted stops and no other, and the mend its notes name is a mend. */
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

const stopsOf = (document: ShowDocument) => derive(document).snags.filter((snag) => snag.level === "stop");

/** What is planted on the wall where visitors pass. */
const TUBES = ["piece.speaking-tube.on.1", "piece.speaking-tube.on.2"];

it("the covering's 35 1/4 in beside D-A and the two speaking tubes are the only stops of Night Ferry", () => {
  const stops = stopsOf(nightFerry());
  const [narrow, ...others] = stops.toSorted((a, b) =>
    a.rule === "narrow-route" ? -1 : b.rule === "narrow-route" ? 1 : 0,
  );
  expect(narrow?.rule).toBe("narrow-route");
  // 3' 0" less the 3/4" base trim; the room's own doubt is under 1/16 in here.
  expect((narrow?.measured ?? 0) / 25.4).toBeCloseTo(35.25, 1);
  expect(others.map(({ things }) => things[0])).toEqual(TUBES);
  for (const { measured } of others) expect((measured ?? 0) / 25.4).toBeCloseTo(6, 1);
});

it("the covering slid 2 in leaves the tubes as the only stops, and without them there is none", () => {
  const document = nightFerry();
  const coverings = Object.fromEntries(
    Object.entries(document.coverings).map(([id, covering]) => [id, { ...covering, x: covering.x + 50.8 }]),
  );
  const slid = { ...document, coverings };
  expect(stopsOf(slid).map(({ things }) => things[0])).toEqual(TUBES);
  const mounts = Object.fromEntries(Object.entries(document.mounts).filter(([id]) => !TUBES.includes(id)));
  expect(stopsOf({ ...slid, mounts })).toEqual([]);
});

it("every copy of every piece has its one place", () => {
  const { pieces, placements, mounts } = nightFerry();
  const placed = [...Object.values(placements), ...Object.values(mounts)].map(
    (at) => `${at.piece} ${at.number}`,
  );
  const copies = Object.values(pieces).flatMap(({ id, count }) =>
    Array.from({ length: count }, (_, index) => `${id} ${index + 1}`),
  );
  expect(placed.toSorted()).toEqual(copies.toSorted());
});
