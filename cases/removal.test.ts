/** Taking things away from whole shows: everything that needs them goes, nothing else does, and undo brings all back. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { apply, invert } from "../engine/src/change/change.ts";
import { NEEDS, removal } from "../engine/src/change/removal.ts";
import { derive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { brokenLinks } from "../engine/src/document/links.ts";
import { TABLES } from "../engine/src/document/schema.ts";
import { showOf, TABLE_NAMES, type ShowDocument } from "../engine/src/document/tables.ts";
import { told } from "../engine/src/ripple.ts";

const SHOWS = ["night-ferry", "three-in-the-morning"] as const;

function show(name: string): ShowDocument {
  const read = readShow(readFileSync(new URL(`${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  return read.document;
}

/** Fields that hold an id of another record, found in the schema by what they are called, not in the list under test. */
const ID_FIELDS = new Set([
  "room",
  "from",
  "to",
  "datum",
  "hinge",
  "piece",
  "stock",
  "batten",
  "seenFrom",
  "on",
]);

describe("a record that is taken away", () => {
  it("is listed with every field that names another record", () => {
    for (const table of TABLE_NAMES) {
      const fields = Object.keys(TABLES[table].record.shape).filter((field) => ID_FIELDS.has(field));
      expect([table, Object.keys(NEEDS[table] ?? {}).toSorted()]).toEqual([table, fields.toSorted()]);
    }
  });

  it.each(SHOWS)("leaves no broken link in %s, whichever it is, and undo brings it back", (name) => {
    const document = show(name);
    for (const table of TABLE_NAMES) {
      for (const id of Object.keys(document[table])) {
        if (table === "shows") continue;
        const change = { label: "Take away", edits: removal(document, table, id) };
        const after = apply(document, change);
        expect(after[table][id]).toBeUndefined();
        expect([table, id, brokenLinks(after)]).toEqual([table, id, []]);
        expect(apply(after, invert(change))).toEqual(document);
      }
    }
  });

  it.each(SHOWS)("takes exactly its own tasks, cuts, panels and cards with it, each piece of %s", (name) => {
    const document = show(name);
    const { units } = showOf(document);
    const own = ["strip", "trim", "cut", "panel", "card", "task", "mark"];
    const before = told(derive(document), units).filter((one) => own.includes(one.kind));
    for (const id of Object.keys(document.pieces)) {
      const edits = removal(document, "pieces", id);
      const taken = new Set(edits.map((edit) => edit.id));
      const after = told(derive(apply(document, { label: "Take away", edits })), units);
      const left = new Set(after.map((one) => `${one.kind} ${one.id}`));
      const gone = before.filter((one) => !left.has(`${one.kind} ${one.id}`));
      // Its own is what the piece itself calls for, and what no copy that still has a place calls for any more:
      // what stood on it waits in the tray.
      const itsOwn = before.filter(({ because }) => {
        const copies = because.filter((of) => document.placements[of] ?? document.mounts[of]);
        return taken.has(because[0] ?? "") || (copies.length > 0 && copies.every((of) => taken.has(of)));
      });
      const label = document.pieces[id]?.name ?? id;
      expect([label, gone.map((one) => one.id).toSorted()]).toEqual([
        label,
        itsOwn.map((one) => one.id).toSorted(),
      ]);
      const was = new Set(before.map((one) => `${one.kind} ${one.id}`));
      const fresh = after.filter((one) => own.includes(one.kind) && !was.has(`${one.kind} ${one.id}`));
      expect([label, fresh]).toEqual([label, []]);
    }
  });
});
