import { expect, test } from "vitest";
import { emptyDocument } from "../document/tables.ts";
import { readTape } from "./read.ts";
import { writeTape } from "./write.ts";

const SHEET = [
  "units inches",
  "room Hall",
  "corners A B C D",
  "radiator on A-B at 24 from A, 36 wide, 24 high, up 4, out 5",
  "extinguisher on B-C at 10 from B, up 42, out 2",
  "column on C-D at 60 from C, in 30, 12 wide, 12 deep",
  "vent on D-A at 20 from D, up 80, off 3",
].join("\n");

const inches = (mm: number) => Math.round((mm / 25.4) * 1000) / 1000;

test("out is how far a thing stands out from its wall, and off and in how far away it is", () => {
  const { document, problems } = readTape(SHEET, emptyDocument());
  expect(problems).toEqual([]);
  const sizes = Object.values(document.fixtures).map(({ kind, out, depth }) => [
    kind,
    inches(out),
    inches(depth),
  ]);
  expect(sizes).toEqual([
    ["radiator", 0, 5],
    ["extinguisher", 0, 2],
    ["column", 30, 12],
    ["vent", 3, 0],
  ]);
});

test("what stands out, hangs off or stands in the room is written back as it is", () => {
  const { document } = readTape(SHEET, emptyDocument());
  const again = readTape(writeTape(document), emptyDocument());
  expect(again.problems).toEqual([]);
  const plain = (fixtures: typeof document.fixtures) =>
    Object.values(fixtures).map((fixture) => ({ ...fixture, typed: "" }));
  expect(plain(again.document.fixtures)).toEqual(plain(document.fixtures));
});
