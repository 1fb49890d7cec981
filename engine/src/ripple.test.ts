/** What a change touched: laws over random shows, and that everything derived with an id of its own is told. */
import { assert, nat, property } from "fast-check";
import { describe, expect, it } from "vitest";
import { apply, invert, type Change } from "./change/change.ts";
import { removal } from "./change/removal.ts";
import { derive, type Derived } from "./derive.ts";
import { emptyDocument, showOf, TABLE_NAMES, type ShowDocument } from "./document/tables.ts";
import { ripple, RIPPLE_KINDS, told, type Touch } from "./ripple.ts";
import { readTape } from "./tape/read.ts";
import { wholeShow } from "./testing/shows.ts";

/** One room with something of every kind that is made, cut, laid, carded and marked. */
const BOOTH = `show Booth
units mm
place GB
currency GBP
wage 10.00 an hour
board 2 mm thick
stock Paper, roll 530 x 10050 mm, price 9.00
stock Lath, stick 38 x 2400 x 20 mm, kerf 3 mm, price 2.00
stock Ply, sheet 1220 x 2440 x 6 mm, kerf 3 mm, price 20.00
room Booth
corners A B C D
A to B 4000
B to C 3000
C to D 4000
D to A 3000
A to C 5000
height A 2400
door on D-A at 1000 from D, leaf 900, clear 850, casing 70, 2000 high, opens out
strips Dry on A-B, from Paper, on battens from Lath, extra 50
strips Pasted on B-C, from Paper, pasted, extra 50
trim base 95 x 15, from Lath
covering Floor, 1500 x 1000 x 6 mm thick, border 80 mm, at 2000 along, 1500 mm in, panels to 700 x 900, from Ply
piece Stand, 600 x 400 x 900
  part 4 x 900 from Lath
piece Jug, 200 across x 300, accessory
piece Hook x2, 60 x 60 x 60, fitting
place Stand at 2000 along, 700 mm in
place Jug on Stand at 0 right
place Hook 1 to 2 on A-B at 500 from A, every 300, up 1500
shift 2027-03-04 9:00 to 21:00, 2 people
chore Dust after fitting, 10 min, 1 person
`;

/** The booth as it is read and derived; throws where a line of it is not understood. */
function booth(): { readonly document: ShowDocument; readonly derived: Derived } {
  const { document, problems } = readTape(BOOTH, emptyDocument());
  if (problems.length > 0) throw new Error(JSON.stringify(problems));
  return { document, derived: derive(document) };
}

/** A whole random show takes seconds to derive; of a small show records are tried by twenties. */
const FEW = { seed: 71, numRuns: 1 };
const RUNS = { seed: 72, numRuns: 20 };

/** A change that takes one record away, drawn from a number; of shows, none. */
function takeAway(document: ShowDocument, pick: number): Change {
  const all = TABLE_NAMES.filter((table) => table !== "shows").flatMap((table) =>
    Object.keys(document[table]).map((id) => [table, id] as const),
  );
  const [table, id] = all[pick % all.length]!;
  return { label: `Take away ${id}`, edits: removal(document, table, id) };
}

const keyOf = ({ kind, id, what }: Touch): string => `${what} ${kind} ${id}`;

/** The touch as it is told the other way round. */
function turned({ kind, id, name, what, before, after }: Touch): string {
  const opposite = { new: "gone", gone: "new", changed: "changed" } as const;
  return JSON.stringify([kind, id, what === "changed" ? "" : name, opposite[what], after, before]);
}

const straight = ({ kind, id, name, what, before, after }: Touch): string =>
  JSON.stringify([kind, id, what === "changed" ? "" : name, what, before, after]);

/** Ids of everything in a derived value that says what made it, found by walking it. */
function idsWithin(value: unknown, found = new Set<string>()): ReadonlySet<string> {
  if (typeof value !== "object" || value === null) return found;
  const { id, because, record } = value as { id?: unknown; because?: unknown; record?: unknown };
  if (typeof id === "string" && (Array.isArray(because) || typeof record === "string")) found.add(id);
  for (const part of Object.values(value)) idsWithin(part, found);
  return found;
}

describe("everything told of a show", () => {
  it("has an id of its own in its kind", () => {
    assert(
      property(wholeShow, (document) => {
        const ids = told(derive(document), showOf(document).units).map(({ kind, id }) => `${kind} ${id}`);
        expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
      }),
      FEW,
    );
  });

  it("names every strip, run, cut part, panel, card, task and mark there is, and nothing twice", () => {
    const { document, derived } = booth();
    const { walls, trims, cuts, sheets, floors, buying } = derived.making;
    const { models, installing } = derived;
    const names = new Set(told(derived, showOf(document).units).map(({ id }) => id));
    // The hours of making are told in the job's hours, not one by one.
    const all = idsWithin([walls, trims, cuts, sheets, floors, buying, models, installing]);
    expect([...all].filter((id) => !names.has(id))).toEqual([]);
    for (const kind of ["strip", "trim", "cut", "panel", "bought", "card", "task", "mark"] as const)
      expect([kind, told(derived, "mm").some((one) => one.kind === kind)]).toEqual([kind, true]);
  });

  it("says what made it", () => {
    const { document, derived } = booth();
    for (const { kind, id, because } of told(derived, showOf(document).units)) {
      if (kind === "snag") continue;
      expect([kind, id, because.length > 0]).toEqual([kind, id, true]);
    }
  });
});

describe("what differs between two shows", () => {
  const { document, derived } = booth();

  it("is nothing between a show and itself, derived twice", () => {
    expect(ripple(derived, derived, "mm")).toEqual([]);
    expect(ripple(derived, derive(document), "mm")).toEqual([]);
  });

  it("is the same read backwards, in the order of the job, and undone is nothing, whatever is taken away", () => {
    assert(
      property(nat(), (pick) => {
        const change = takeAway(document, pick);
        const after = apply(document, change);
        const less = derive(after);
        const there = ripple(derived, less, "mm");
        expect(there.map(turned).toSorted()).toEqual(ripple(less, derived, "mm").map(straight).toSorted());
        expect(new Set(there.map(keyOf)).size).toBe(there.length);
        const order = there.map(({ kind }) => RIPPLE_KINDS.indexOf(kind));
        expect(order).toEqual(order.toSorted((one, other) => one - other));
        expect(ripple(derived, derive(apply(after, invert(change))), "mm")).toEqual([]);
      }),
      RUNS,
    );
  });

  it("is all that is new of a show that was empty", () => {
    const all = ripple(derive(emptyDocument()), derived, "mm");
    expect(all.filter(({ what, kind }) => what !== "new" && kind !== "snag")).toEqual([]);
    const things = told(derived, "mm").filter(({ kind }) => kind !== "snag");
    expect(all.filter(({ kind }) => kind !== "snag").map(({ id }) => id)).toEqual(things.map(({ id }) => id));
  });
});
