import {
  EMPTY_SHOW,
  apply,
  difference,
  emptyDocument,
  put,
  readShow,
  remove,
  sameValue,
  writeShow,
  type Change,
  type FieldEdit,
  type Piece,
  type Placement,
  type ShowDocument,
} from "@cornerwise/engine";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LiveShow } from "./live.ts";
import { LIVE_AUDIENCES, Replica } from "./replica.ts";

/** What a person might do, as data; the ids are few, so that commands meet each other. */
type Command =
  | { readonly do: "put piece"; readonly piece: Piece }
  | { readonly do: "put placement"; readonly placement: Placement }
  | { readonly do: "remove"; readonly table: "pieces" | "placements" | "jottings"; readonly id: string }
  | { readonly do: "jot"; readonly id: string; readonly text: string }
  | { readonly do: "name"; readonly name: string };

const id = fc.constantFrom("a", "b", "c", "d", "e");
const words = fc.constantFrom("Bench", "Trunk", "Bollard", "Urn", "Ropes coiled");
const figure = fc.integer({ min: -5000, max: 5000 });
const piece: fc.Arbitrary<Piece> = fc.record(
  {
    id,
    name: words,
    order: fc.nat(9),
    layer: fc.constantFrom("furniture" as const, "accessory" as const),
    count: fc.integer({ min: 1, max: 5 }),
    weight: fc.constantFrom(1, 2.5, 80),
    sits: fc.boolean(),
  },
  { requiredKeys: ["id", "name", "order", "layer", "count", "sits"] },
);
const placement: fc.Arbitrary<Placement> = fc.record({
  id,
  piece: id,
  room: fc.constant("room"),
  number: fc.integer({ min: 1, max: 5 }),
  x: figure,
  y: figure,
  turn: fc.integer({ min: -180, max: 180 }),
  up: fc.constantFrom(0, 10),
});
const command: fc.Arbitrary<Command> = fc.oneof(
  piece.map((made) => ({ do: "put piece" as const, piece: made })),
  placement.map((made) => ({ do: "put placement" as const, placement: made })),
  fc.record({
    do: fc.constant("remove" as const),
    table: fc.constantFrom("pieces" as const, "placements" as const, "jottings" as const),
    id,
  }),
  fc.record({ do: fc.constant("jot" as const), id, text: words }),
  words.map((name) => ({ do: "name" as const, name })),
);

function changeOf(document: ShowDocument, wish: Command): Change {
  return { label: wish.do, edits: editsOf(document, wish) };
}

function editsOf(document: ShowDocument, wish: Command): FieldEdit[] {
  if (wish.do === "put piece") return put(document, "pieces", wish.piece);
  if (wish.do === "put placement") return put(document, "placements", wish.placement);
  if (wish.do === "remove") return remove(document, wish.table, wish.id);
  if (wish.do === "jot") return put(document, "jottings", { id: wish.id, order: 0, text: wish.text });
  return put(document, "shows", { ...EMPTY_SHOW, name: wish.name });
}

function begun(): LiveShow {
  const live = new LiveShow();
  const before = live.replica.document;
  live.replica.write(difference(before, emptyDocument()));
  return new LiveShow(live.replica);
}

/** Everything one replica lacks of another. */
function learn(learner: Replica, from: Replica): void {
  for (const audience of LIVE_AUDIENCES)
    learner.receive(audience, from.missing(audience, learner.seen(audience)));
}

/** As a reload does: the list as the browser copies it into storage, the document through its stored updates, a new replica. */
function reloaded(live: LiveShow): LiveShow {
  const replica = new Replica();
  learn(replica, live.replica);
  return new LiveShow(replica, structuredClone(live.getUndo()));
}

/** Undoes to the end of the list; `undo` acts at once, its promise is only for long changes. */
async function undoAll(live: LiveShow): Promise<FieldEdit[]> {
  const skipped: FieldEdit[] = [];
  for (let step = await live.undo(); step !== undefined; step = await live.undo())
    skipped.push(...step.skipped);
  return skipped;
}

async function redoAll(live: LiveShow): Promise<void> {
  while ((await live.redo()) !== undefined);
}

function deliver(
  mail: { to: number; audience: (typeof LIVE_AUDIENCES)[number]; update: Uint8Array }[],
  pick: number,
  lives: readonly LiveShow[],
): void {
  const [letter] = mail.splice(pick % mail.length, 1);
  if (letter) lives[letter.to]?.replica.receive(letter.audience, letter.update);
}

function rename(live: LiveShow, name: string): Promise<void> {
  return live.perform(changeOf(live.getDocument(), { do: "name", name }));
}

function shown(live: LiveShow): string {
  return writeShow(live.getDocument());
}

const RUNS = { seed: 20_261_125, numRuns: 25 };

describe("undo", () => {
  it("brings back the byte-identical document after any 200 commands, and redo the other way", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(command, { minLength: 200, maxLength: 200 }), async (commands) => {
        const live = begun();
        const before = shown(live);
        for (const wish of commands) await live.perform(changeOf(live.getDocument(), wish));
        const after = shown(live);
        expect(await undoAll(live)).toEqual([]);
        expect(shown(live)).toBe(before);
        await redoAll(live);
        expect(shown(live)).toBe(after);
        expect(readShow(before).ok).toBe(true);
      }),
      RUNS,
    );
  });

  it("brings it back after reloads at any point on the way out and back", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(command, { minLength: 200, maxLength: 200 }),
        fc.array(fc.nat(240), { maxLength: 6 }),
        async (commands, reloads) => {
          let live = begun();
          const before = shown(live);
          for (const [i, wish] of commands.entries()) {
            if (reloads.includes(i)) live = reloaded(live);
            await live.perform(changeOf(live.getDocument(), wish));
            if (i % 7 === 0) {
              await live.undo();
              await live.redo();
            }
          }
          const after = shown(live);
          live = reloaded(live);
          for (let i = 0; (await live.undo()) !== undefined; i++)
            if (reloads.includes(i)) live = reloaded(live);
          expect(shown(live)).toBe(before);
          live = reloaded(live);
          await redoAll(live);
          expect(shown(live)).toBe(after);
        },
      ),
      RUNS,
    );
  });

  it("never changes what another wrote later, and reports what it left alone", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(command, { minLength: 1, maxLength: 60 }),
        fc.array(command, { minLength: 1, maxLength: 60 }),
        async (mine, others) => {
          const me = begun();
          const other = new LiveShow();
          learn(other.replica, me.replica);
          other.replica.write([]);
          const you = new LiveShow(other.replica);
          for (const wish of mine) await me.perform(changeOf(me.getDocument(), wish));
          learn(you.replica, me.replica);
          const written = new Map<string, FieldEdit>();
          you.subscribe(({ change, from }) => {
            if (from === "own")
              for (const edit of change.edits)
                written.set(JSON.stringify([edit.table, edit.id, edit.field]), edit);
          });
          for (const wish of others) await you.perform(changeOf(you.getDocument(), wish));
          learn(me.replica, you.replica);
          const skipped = await undoAll(me);
          for (const edit of written.values()) {
            const now = (
              me.getDocument()[edit.table][edit.id] as Record<string, FieldEdit["after"]> | undefined
            )?.[edit.field];
            expect(sameValue(now, edit.after), JSON.stringify({ edit, now: now ?? null })).toBe(true);
          }
          // What is skipped is theirs, or belongs to a record that their word keeps standing.
          for (const edit of skipped) {
            const theirs = [...written.values()].some(
              (one) => one.table === edit.table && one.id === edit.id,
            );
            expect(theirs, JSON.stringify(edit)).toBe(true);
          }
        },
      ),
      { ...RUNS, numRuns: 150 },
    );
  });

  it("does not take back a value that another wrote and that only looks like one's own", async () => {
    const me = begun();
    const you = new LiveShow();
    await rename(me, "Ferry");
    learn(you.replica, me.replica);
    await rename(you, "Pier");
    await rename(you, "Ferry");
    learn(me.replica, you.replica);
    const outcome = await me.undo();
    expect(outcome?.done).toEqual([]);
    expect(outcome?.skipped.map((edit) => edit.after)).toEqual(["My show"]);
    expect(me.getDocument().shows["show"]?.name).toBe("Ferry");
  });

  it("keeps a record whole that another has touched since one made it", async () => {
    const me = begun();
    const bench: Piece = { id: "a", name: "Bench", order: 0, layer: "furniture", count: 1, sits: true };
    await me.perform({ label: "Add Bench", edits: put(me.getDocument(), "pieces", bench) });
    const you = new LiveShow();
    learn(you.replica, me.replica);
    await you.perform({ label: "Four", edits: put(you.getDocument(), "pieces", { ...bench, count: 4 }) });
    learn(me.replica, you.replica);
    expect((await me.undo())?.done).toEqual([]);
    expect(me.getDocument().pieces["a"]).toEqual({ ...bench, count: 4 });
  });

  it("restores a removed record with the field another wrote meanwhile", async () => {
    const me = begun();
    const bench: Piece = { id: "a", name: "Bench", order: 0, layer: "furniture", count: 1, sits: true };
    await me.perform({ label: "Add Bench", edits: put(me.getDocument(), "pieces", bench) });
    const you = new LiveShow();
    learn(you.replica, me.replica);
    await me.perform({ label: "Remove Bench", edits: remove(me.getDocument(), "pieces", "a") });
    await you.perform({ label: "Four", edits: put(you.getDocument(), "pieces", { ...bench, count: 4 }) });
    learn(me.replica, you.replica);
    learn(you.replica, me.replica);
    expect(me.getDocument().pieces["a"]).toBeUndefined();
    expect(you.getDocument().pieces["a"]).toBeUndefined();
    const outcome = await me.undo();
    expect(outcome?.skipped.map((edit) => edit.field)).toEqual(["count"]);
    expect(me.getDocument().pieces["a"]).toEqual({ ...bench, count: 4 });
    learn(you.replica, me.replica);
    expect(shown(you)).toBe(shown(me));
  });
});

describe("replicas", () => {
  it("converge whatever the order in which updates arrive, also twice", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(2), command, fc.boolean()), { minLength: 1, maxLength: 80 }),
        fc.array(fc.nat(1000), { minLength: 200, maxLength: 200 }),
        async (acts, shuffle) => {
          const lives = [begun(), new LiveShow(), new LiveShow()] as const;
          const mail: { to: number; audience: (typeof LIVE_AUDIENCES)[number]; update: Uint8Array }[] = [];
          lives.forEach((live, from) => {
            if (from > 0) learn(live.replica, lives[0].replica);
            live.replica.onUpdate((audience, update, own) => {
              if (own)
                for (const to of [0, 1, 2])
                  if (to !== from) mail.push({ to, audience, update }, { to, audience, update });
            });
          });
          for (const [i, [who, wish, takesBack]] of acts.entries()) {
            const live = lives[who] ?? lives[0];
            await live.perform(changeOf(live.getDocument(), wish));
            if (takesBack) await live.undo();
            if (mail.length > 0 && i % 3 === 0) deliver(mail, shuffle[i] ?? 0, lives);
          }
          for (let i = 0; mail.length > 0; i++) deliver(mail, shuffle[i % shuffle.length] ?? 0, lives);
          expect(shown(lives[1])).toBe(shown(lives[0]));
          expect(shown(lives[2])).toBe(shown(lives[0]));
        },
      ),
      { ...RUNS, numRuns: 60 },
    );
  });

  it("tell exactly the edits that turn the document before into the document after", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.boolean(), command), { maxLength: 80 }), async (acts) => {
        const me = begun();
        const you = new LiveShow();
        learn(you.replica, me.replica);
        // A follower that hears only the news, as the engine's worker does.
        let followed = me.getDocument();
        me.subscribe(({ change }) => (followed = apply(followed, change)));
        for (const [mine, wish] of acts) {
          const live = mine ? me : you;
          await live.perform(changeOf(live.getDocument(), wish));
          if (!mine) learn(me.replica, you.replica);
        }
        expect(writeShow(followed)).toBe(shown(me));
      }),
      { ...RUNS, numRuns: 60 },
    );
  });

  it("write a change of many thousand fields in slices, and show it once", async () => {
    const live = begun();
    const edits = Array.from({ length: 2500 }, (_, i) =>
      put(live.getDocument(), "pieces", {
        id: `p${i}`,
        name: `Plate ${i}`,
        order: i,
        layer: "accessory",
        count: 1,
        sits: false,
      }),
    ).flat();
    const seen: number[] = [];
    const parts: number[] = [];
    live.subscribe(({ document, more }) => {
      if (!more) seen.push(Object.keys(document.pieces).length);
    });
    const writing = live.perform({ label: "Add plates", edits }, (part) => parts.push(part));
    expect(Object.keys(live.getDocument().pieces)).toHaveLength(0);
    const after = live.perform({
      label: "Name",
      edits: put(live.getDocument(), "shows", { ...EMPTY_SHOW, name: "Pier" }),
    });
    await writing;
    await after;
    expect(seen).toEqual([2500, 2500]);
    expect(parts.at(-1)).toBe(1);
    await live.undo();
    await live.undo();
    expect(shown(live)).toBe(writeShow(emptyDocument()));
  });
});
