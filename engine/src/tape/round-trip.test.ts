/** Whole shows at random, written as a tape sheet and read again; and every record as a line of its own. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { readShow, writeShow } from "../document/file.ts";
import { emptyDocument, TABLE_NAMES } from "../document/tables.ts";
import type { ShowDocument, TableName } from "../document/tables.ts";
import { wholeShow } from "../testing/shows.ts";
import { readTape } from "./read.ts";
import { writeRecord, writeTape } from "./write.ts";

/** Shrinking a whole show takes longer than reading the one that fails. */
const RUNS = { seed: 23, numRuns: 60, endOnFailure: true };

/** A document with every id replaced by what its record is, so that two documents that say the same are equal. */
function said(document: ShowDocument): unknown {
  const labels = new Map<string, string>();
  for (const table of TABLE_NAMES) {
    for (const record of Object.values(document[table])) labels.set(record.id, label(table, record, labels));
  }
  const plain = (value: unknown, field: string): unknown => {
    if (field === "typed") return "";
    return typeof value === "string" && field !== "name" && field !== "text"
      ? (labels.get(value) ?? value)
      : value;
  };
  return Object.fromEntries(
    TABLE_NAMES.map((table) => [
      table,
      Object.values(document[table])
        .map((record) =>
          Object.fromEntries(Object.entries(record).map(([field, value]) => [field, plain(value, field)])),
        )
        .toSorted((a, b) => (String(a["id"]) < String(b["id"]) ? -1 : 1)),
    ]),
  );
}

/** Records of a table are told apart by where they belong and their order, number, work or place. */
function label(table: TableName, record: object, labels: ReadonlyMap<string, string>): string {
  const {
    room = "",
    piece = "",
    order = "",
    number = "",
    work = "",
    from = "",
    to = "",
  } = record as {
    [field: string]: string | number;
  };
  const owner = (id: string | number): string => labels.get(String(id)) ?? "";
  const wall = table === "walls" ? `${owner(from)}~${owner(to)}` : "";
  return `${table}:${owner(room)}/${table === "placements" || table === "mounts" ? "" : order}/${owner(piece)}/${number}${work}${wall}`;
}

it("a whole show written as a tape sheet reads to the same show", () => {
  fc.assert(
    fc.property(wholeShow, (document) => {
      expect(readShow(writeShow(document))).toMatchObject({ ok: true });
      const again = readTape(writeTape(document), emptyDocument());
      expect(again.problems).toEqual([]);
      expect(said(again.document)).toEqual(said(document));
      expect(readTape(writeTape(document), again.document).change.edits).toEqual([]);
    }),
    RUNS,
  );
});

it("every record written as a line and read as that record changes nothing", () => {
  fc.assert(
    fc.property(wholeShow, (document) => {
      for (const table of TABLE_NAMES) {
        for (const record of Object.values(document[table])) {
          const room = "room" in record ? { room: record.room } : {};
          const options = { ...room, record: { table, id: record.id } };
          const read = readTape(writeRecord(document, table, record.id), document, options);
          expect(read.problems, writeRecord(document, table, record.id)).toEqual([]);
          const edits = read.change.edits.filter(({ field }) => field !== "typed");
          expect(edits, writeRecord(document, table, record.id)).toEqual([]);
        }
      }
    }),
    { ...RUNS, numRuns: 12 },
  );
});
