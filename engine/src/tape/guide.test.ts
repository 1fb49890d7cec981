/** The samples of the tape sheet's guide read, in order, as one sheet. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { emptyDocument } from "../document/tables.ts";
import { readTape } from "./read.ts";

it("every sample of the guide reads", () => {
  const guide = readFileSync(new URL("../../../docs/guide/tape-sheet.md", import.meta.url), "utf8");
  const samples = [...guide.matchAll(/```tape\n([\s\S]*?)```/g)].map((sample) => sample[1]);
  expect(samples.length).toBeGreaterThan(5);
  const { problems, document } = readTape(samples.join("\n"), emptyDocument());
  expect(problems).toEqual([]);
  for (const table of Object.values(document)) expect(Object.keys(table).length).toBeGreaterThan(0);
});
