/** What one changed reading touches: exactly the strips, sticks, panels, marks and snags it should, and no more. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { apply, put } from "../engine/src/change/change.ts";
import { derive, type Derived } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { showOf, type ShowDocument } from "../engine/src/document/tables.ts";
import { ripple, RIPPLE_KINDS, told, type Touch } from "../engine/src/ripple.ts";

const IN = 25.4;

function show(name: string): ShowDocument {
  const read = readShow(readFileSync(new URL(`${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  return read.document;
}

const FERRY = show("night-ferry");
const BEFORE = derive(FERRY);

function readingOf(kind: string, from: string, to?: string) {
  const corner = (name: string) =>
    Object.values(FERRY.corners).find((one) => one.name === name)?.id ?? `no ${name}`;
  const ends = [from, ...(to === undefined ? [] : [to])].map(corner).toSorted();
  const found = Object.values(FERRY.readings).find(
    (one) =>
      one.kind === kind &&
      [one.from, ...(one.to === undefined ? [] : [one.to])].toSorted().join() === ends.join(),
  );
  if (!found) throw new Error(`no reading ${kind} ${from} ${to ?? ""}`);
  return found;
}

function moreBy(
  reading: ReturnType<typeof readingOf>,
  mm: number,
): { after: Derived; touches: readonly Touch[] } {
  const edits = put(FERRY, "readings", { ...reading, value: reading.value + mm, typed: "changed" });
  const after = derive(apply(FERRY, { label: "Measure again", edits }));
  return { after, touches: ripple(BEFORE, after, showOf(FERRY).units) };
}

function counted(touches: readonly Touch[]): object {
  return Object.fromEntries(
    RIPPLE_KINDS.map((kind) => [kind, touches.filter((touch) => touch.kind === kind).length]),
  );
}

describe("one reading an inch longer", () => {
  it("touches nothing when it is the same reading", () => {
    expect(moreBy(readingOf("height", "A"), 0).touches).toEqual([]);
  });

  it("at the height of one corner touches only the two walls that meet there", () => {
    const { touches } = moreBy(readingOf("height", "A"), IN);
    const meeting = BEFORE.rooms[0]?.walls.filter((wall) => /A/.test(wall.name)).map((wall) => wall.id) ?? [];
    const strips = BEFORE.making.walls.flatMap((work) => work.strips.map((strip) => ({ work, strip })));
    const touchedStrips = touches.filter((touch) => touch.kind === "strip").map((touch) => touch.id);
    // Every strip whose top follows the ceiling of those two walls, told to the sixteenth, and no other.
    const expected = strips
      .filter(({ work }) => meeting.includes(work.wall) && work.covering.high === undefined)
      .map(({ strip }) => strip.id);
    expect(touchedStrips.every((id) => expected.includes(id))).toBe(true);
    expect(touchedStrips.length).toBeGreaterThan(expected.length / 2);
    const cards = touches.filter((touch) => touch.kind === "card").map((touch) => touch.id);
    expect(cards.toSorted()).toEqual(meeting.map((wall) => `card~${wall}`).toSorted());
    expect(touches.filter((touch) => ["wall", "mark", "panel"].includes(touch.kind))).toEqual([]);
  });

  it("along one wall touches what the golden list says", async () => {
    const { touches } = moreBy(readingOf("distance", "A", "B"), IN);
    const lines = touches.map(
      ({ kind, name, what, before, after }) =>
        `${kind} ${what}: ${name}${what === "changed" && kind !== "card" ? ` | ${before} -> ${after}` : ""}`,
    );
    await expect(`${JSON.stringify(counted(touches))}\n${lines.join("\n")}\n`).toMatchFileSnapshot(
      "ripple.golden.txt",
    );
  });

  it("is told once for each thing: ids are one of a kind in every show", () => {
    for (const name of ["night-ferry", "three-in-the-morning"]) {
      const document = show(name);
      const ids = told(derive(document), showOf(document).units).map((one) => `${one.kind} ${one.id}`);
      expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
    }
  });

  it("leaves every touched strip, stick and mark with figures of its own: what is changed reads differently", () => {
    const { touches } = moreBy(readingOf("distance", "A", "C"), IN);
    for (const touch of touches.filter((one) => one.what === "changed"))
      expect(`${touch.name} ${touch.after}`).not.toBe(`${touch.name} ${touch.before}`);
    expect(touches.some((touch) => touch.kind === "snag")).toBe(true);
  });
});
