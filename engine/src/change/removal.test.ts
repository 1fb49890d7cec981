/** Taking a record away, over random shows: what goes is found a second way, link by broken link. */
import { assert, nat, property } from "fast-check";
import { describe, expect, it } from "vitest";
import { brokenLinks } from "../document/links.ts";
import { TABLES } from "../document/schema.ts";
import { emptyDocument, TABLE_NAMES, type ShowDocument, type TableName } from "../document/tables.ts";
import { writeShow } from "../document/file.ts";
import { wholeShow } from "../testing/shows.ts";
import { apply, invert } from "./change.ts";
import { removal } from "./removal.ts";

const RUNS = { seed: 61, numRuns: 20 };

type Pick = readonly [TableName, string];

function pickOf(document: ShowDocument, number: number): Pick {
  const all = TABLE_NAMES.filter((table) => table !== "shows").flatMap((table) =>
    Object.keys(document[table]).map((id): Pick => [table, id]),
  );
  return all[number % all.length]!;
}

const taken = (document: ShowDocument, [table, id]: Pick) => {
  const change = { label: "Take away", edits: removal(document, table, id) };
  return { change, after: apply(document, change) };
};

/** Names of records that a record holds, by field, found in the document: any string that is an id of the table it belongs to. */
const HELD: { readonly [field: string]: TableName } = {
  room: "rooms",
  from: "corners",
  to: "corners",
  datum: "corners",
  hinge: "corners",
  piece: "pieces",
  stock: "stocks",
  batten: "stocks",
  seenFrom: "openings",
  on: "placements",
};

/**
 * What is left, worked out the slow way: again and again the first link that leads nowhere is mended, by dropping the
 * field where the schema can do without it and the record where it cannot; what stood on something goes with it.
 */
function mended(document: ShowDocument, [table, id]: Pick): ShowDocument {
  const tables = structuredClone(document) as unknown as Record<
    string,
    Record<string, Record<string, unknown>>
  >;
  delete tables[table]![id];
  for (let again = true; again;) {
    again = false;
    for (const name of TABLE_NAMES)
      for (const record of Object.values(tables[name]!))
        for (const [field, to] of Object.entries(HELD)) {
          const link = record[field];
          if (typeof link !== "string" || tables[to]![link] !== undefined) continue;
          if (!(field in TABLES[name].record.shape)) continue;
          again = true;
          const { [field]: _, ...rest } = record;
          const does = field !== "on" && TABLES[name].record.safeParse(rest).success;
          if (does) tables[name]![record["id"] as string] = rest;
          else delete tables[name]![record["id"] as string];
          break;
        }
  }
  return tables as unknown as ShowDocument;
}

describe("a record taken away from a random show", () => {
  it("takes what cannot be without it, and nothing else", () => {
    assert(
      property(wholeShow, nat(), (document, number) => {
        const pick = pickOf(document, number);
        expect(taken(document, pick).after).toEqual(mended(document, pick));
      }),
      RUNS,
    );
  });

  it("leaves every other record the very same object, but those that lose a name", () => {
    assert(
      property(wholeShow, nat(), (document, number) => {
        const { after } = taken(document, pickOf(document, number));
        for (const table of TABLE_NAMES)
          for (const [id, record] of Object.entries(after[table]))
            if (Object.keys(record).length === Object.keys(document[table][id]!).length)
              expect(record).toBe(document[table][id]);
      }),
      RUNS,
    );
  });

  it("leaves no link broken that was whole", () => {
    assert(
      property(wholeShow, nat(), (document, number) => {
        const pick = pickOf(document, number);
        const { after } = taken(document, pick);
        const was = new Set(brokenLinks(document).map(({ path, reason }) => `${path} ${reason}`));
        const fresh = brokenLinks(after).filter(({ path, reason }) => !was.has(`${path} ${reason}`));
        expect([pick, fresh]).toEqual([pick, []]);
      }),
      RUNS,
    );
  });

  it("is all back when it is undone, to the byte of the show file", () => {
    assert(
      property(wholeShow, nat(), (document, number) => {
        const { change, after } = taken(document, pickOf(document, number));
        const back = apply(after, invert(change));
        expect(back).toEqual(document);
        expect(writeShow(back)).toBe(writeShow(document));
      }),
      RUNS,
    );
  });

  it("is gone: a second time there is nothing to take", () => {
    assert(
      property(wholeShow, nat(), (document, number) => {
        const [table, id] = pickOf(document, number);
        const { after } = taken(document, [table, id]);
        expect(after[table][id]).toBeUndefined();
        expect(removal(after, table, id)).toEqual([]);
      }),
      RUNS,
    );
  });
});

describe("a copy that carries others", () => {
  it("takes a stack as deep as the engine can stand one", () => {
    const record = { piece: "p", room: "r", x: 0, y: 0, turn: 0, up: 0 };
    const count = 10_000;
    const stack = Array.from({ length: count }, (_, k) => ({
      ...record,
      id: `c${k}`,
      number: k + 1,
      ...(k === 0 ? {} : { on: `c${k - 1}` }),
    }));
    const document = {
      ...emptyDocument(),
      placements: Object.fromEntries(stack.map((one) => [one.id, one])),
    };
    expect(Object.keys(taken(document, ["placements", "c1"]).after.placements)).toEqual(["c0"]);
  });

  it("takes a ring of copies on one another", () => {
    const record = { piece: "p", room: "r", x: 0, y: 0, turn: 0, up: 0, number: 1 };
    const document = {
      ...emptyDocument(),
      placements: { a: { ...record, id: "a", on: "b" }, b: { ...record, id: "b", on: "a" } },
    };
    expect(taken(document, ["placements", "a"]).after.placements).toEqual({});
  });
});
