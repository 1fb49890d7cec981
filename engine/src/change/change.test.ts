import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { emptyDocument } from "../document/tables.ts";
import type { Note, Placement, ShowDocument, Solid } from "../document/tables.ts";
import { writeShow } from "../document/file.ts";
import { apply, difference, invert, put, remove } from "./change.ts";
import type { Change } from "./change.ts";

const ids = fc.constantFrom("a", "b", "c", "d");
const number = fc.integer({ min: -5, max: 5 });

const note: fc.Arbitrary<Note> = fc.record({ id: ids, order: fc.nat(5), text: fc.string({ maxLength: 3 }) });
const placement: fc.Arbitrary<Placement> = fc.record({
  id: ids,
  piece: ids,
  room: ids,
  number: fc.integer({ min: 1, max: 3 }),
  x: number,
  y: number,
  turn: number,
  up: fc.nat(5),
});
const corners = fc.array(fc.tuple(number, number), { minLength: 3, maxLength: 4 });
const solid: fc.Arbitrary<Solid> = fc
  .record({ id: ids, piece: ids, x: number, y: number, outline: fc.option(corners, { nil: undefined }) })
  .map(({ outline, ...fields }) => ({
    ...fields,
    order: 0,
    z: 0,
    turn: 0,
    width: 1,
    depth: 1,
    height: 1,
    ...(outline === undefined ? { shape: "box" as const } : { shape: "outline" as const, outline }),
  }));

function keyed<R extends { readonly id: string }>(records: readonly R[]): { readonly [id: string]: R } {
  return Object.fromEntries(records.map((record) => [record.id, record]));
}

const documents: fc.Arbitrary<ShowDocument> = fc
  .record({ notes: fc.array(note), placements: fc.array(placement), solids: fc.array(solid) })
  .map((tables) => ({
    ...emptyDocument(),
    notes: keyed(tables.notes),
    placements: keyed(tables.placements),
    solids: keyed(tables.solids),
  }));

const RUNS = { seed: 31, numRuns: 500 };

describe("a change", () => {
  it("made as a difference turns the one document into the other", () => {
    fc.assert(
      fc.property(documents, documents, (before, after) => {
        expect(apply(before, { label: "", edits: difference(before, after) })).toEqual(after);
      }),
      RUNS,
    );
  });

  it("is undone by its inverse, to the byte", () => {
    fc.assert(
      fc.property(documents, documents, (before, after) => {
        const change: Change = { label: "x", edits: difference(before, after) };
        const back = apply(apply(before, change), invert(change));
        expect(back).toEqual(before);
        expect(writeShow(back)).toBe(writeShow(before));
        expect(invert(invert(change))).toEqual(change);
      }),
      RUNS,
    );
  });

  it("goes through JSON and does the same", () => {
    fc.assert(
      fc.property(documents, documents, (before, after) => {
        const change: Change = { label: "x", edits: difference(before, after) };
        const sent = JSON.parse(JSON.stringify(change)) as Change;
        expect(sent).toEqual(change);
        expect(apply(before, sent)).toEqual(after);
      }),
      RUNS,
    );
  });

  it("leaves what it does not touch the very same objects", () => {
    const before = apply(emptyDocument(), {
      label: "",
      edits: [
        ...put(emptyDocument(), "notes", { id: "a", order: 0, text: "one" }),
        ...put(emptyDocument(), "notes", { id: "b", order: 1, text: "two" }),
      ],
    });
    const after = apply(before, {
      label: "",
      edits: put(before, "notes", { id: "b", order: 1, text: "three" }),
    });
    expect(after.rooms).toBe(before.rooms);
    expect(after.notes["a"]).toBe(before.notes["a"]);
    expect(before.notes["b"]?.text).toBe("two");
  });

  it("removes a whole record, and nothing where none stands", () => {
    const one = apply(emptyDocument(), {
      label: "",
      edits: put(emptyDocument(), "notes", { id: "a", order: 0, text: "one" }),
    });
    expect(apply(one, { label: "", edits: remove(one, "notes", "a") })).toEqual(emptyDocument());
    expect(remove(one, "notes", "z")).toEqual([]);
  });

  it("drops a record that somebody else deleted meanwhile", () => {
    const edit = { table: "notes", id: "gone", field: "text", before: "one", after: "two" } as const;
    expect(apply(emptyDocument(), { label: "", edits: [edit] }).notes).toEqual({});
  });
});
