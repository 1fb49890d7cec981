import { readFileSync } from "node:fs";
import {
  apply,
  emptyDocument,
  put,
  readShow,
  readTape,
  writeShow,
  type Change,
  type ShowDocument,
} from "@cornerwise/engine";
import { describe, expect, it } from "vitest";
import { createAnswering, type Answering } from "./answering.ts";
import type { Answer, Questions } from "./messages.ts";

const EXAMPLE = readFileSync(new URL("../../../cases/night-ferry.json", import.meta.url), "utf8");

interface Bench {
  readonly mind: Answering;
  /** What was said back so far. */
  readonly said: Answer[];
  /** Lets the worker do what waits. */
  readonly run: () => void;
}

function bench(exampleText = EXAMPLE): Bench {
  const said: Answer[] = [];
  const waiting: (() => void)[] = [];
  const mind = createAnswering({
    post: (answer) => said.push(structuredClone(answer)),
    soon: (work) => waiting.push(work),
    exampleText: () => Promise.resolve(exampleText),
    printing: () => Promise.reject(new Error("no printing here")),
    paging: () => import("./paging.ts"),
  });
  return {
    mind,
    said,
    run: () => {
      for (const work of waiting.splice(0)) work();
    },
  };
}

function example(): ShowDocument {
  const read = readShow(EXAMPLE);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.document;
}

function moved(document: ShowDocument, by: number): Change {
  const [first] = Object.values(document.placements);
  if (first === undefined) throw new Error("the example has no placement");
  return { label: "Move", edits: put(document, "placements", { ...first, x: first.x + by }) };
}

async function asked<K extends keyof Questions>(
  at: Bench,
  kind: K,
  ask: Questions[K]["ask"],
): Promise<Questions[K]["answer"]> {
  at.mind.hear({ kind, number: 1, ask } as Parameters<Answering["hear"]>[0]);
  at.run();
  await new Promise((resolve) => setImmediate(resolve));
  const answer = at.said.findLast((one) => one.kind === "answer" || one.kind === "fault");
  if (answer?.kind !== "answer") throw new Error(JSON.stringify(answer));
  return answer.answer;
}

/** On a slow machine progress may be told of anything: it is no answer. */
const answers = (at: Bench): Answer[] => at.said.filter((answer) => answer.kind !== "progress");
const kinds = (at: Bench): string[] => answers(at).map((answer) => answer.kind);

describe("the engine's worker", () => {
  it("derives once for all changes that wait, and names the last revision", () => {
    const at = bench();
    let document = example();
    at.mind.hear({ kind: "open", revision: 1, document });
    for (let revision = 2; revision < 9; revision++) {
      const change = moved(document, 1);
      document = apply(document, change);
      at.mind.hear({ kind: "change", revision, change, more: false });
    }
    at.run();
    expect(answers(at)).toMatchObject([{ kind: "derived", revision: 8 }]);
    const [answer] = answers(at);
    const rooms = Object.keys(document.rooms).length;
    expect(answer?.kind === "derived" && answer.derived.sheets.length).toBe(rooms);
  });

  it("derives nothing in the midst of a long change", () => {
    const at = bench();
    const document = example();
    at.mind.hear({ kind: "open", revision: 1, document });
    at.run();
    at.mind.hear({ kind: "change", revision: 2, change: moved(document, 1), more: true });
    at.run();
    expect(kinds(at)).toEqual(["derived"]);
    at.mind.hear({ kind: "change", revision: 2, change: { label: "", edits: [] }, more: false });
    at.run();
    // What the change touched is told after it, and it touched nothing that is made.
    expect(kinds(at)).toEqual(["derived", "derived", "rippled"]);
  });

  it("answers only the latest of the previews that wait, and leaves the document alone", async () => {
    const at = bench();
    const document = example();
    const [first] = Object.values(document.placements);
    if (first === undefined) throw new Error("the example has no placement");
    at.mind.hear({ kind: "open", revision: 1, document });
    at.run();
    for (const x of [first.x + 10, first.x + 20, first.x + 30]) {
      at.mind.hear({ kind: "preview", placement: { id: first.id, x, y: first.y, turn: first.turn } });
    }
    at.run();
    const previews = at.said.flatMap((answer) => (answer.kind === "preview" ? [answer.preview] : []));
    expect(previews.map((preview) => preview.placement.x)).toEqual([first.x + 30]);
    expect(previews[0]?.outline.length).toBeGreaterThan(0);
    const file = await asked(at, "write-file", {});
    expect(new TextDecoder().decode(file.bytes)).toBe(writeShow(document));
  });

  it("reads a show file whole or not at all, with the reasons", async () => {
    const at = bench();
    const good = await asked(at, "read-file", {
      bytes: new TextEncoder().encode(EXAMPLE),
      name: "ferry.json",
    });
    expect(good.problems).toEqual([]);
    expect(good.document && writeShow(good.document)).toBe(writeShow(example()));
    const cut = await asked(at, "read-file", {
      bytes: new TextEncoder().encode(EXAMPLE.slice(0, 900)),
      name: "ferry.json",
    });
    expect(cut.document).toBeUndefined();
    expect(cut.problems.length).toBeGreaterThan(0);
    const bytes = await asked(at, "read-file", { bytes: new Uint8Array([0xff, 0xfe, 0x41]), name: "x.txt" });
    expect(bytes.document).toBeUndefined();
    expect(bytes.problems).toHaveLength(1);
  });

  it("reads a tape sheet leniently onto the open show", async () => {
    const at = bench();
    at.mind.hear({ kind: "open", revision: 1, document: emptyDocument() });
    const text = "room Net Loft\ncorners A B C D\nA to B 24' 0\"\nthis is no line\n";
    const read = await asked(at, "read-file", { bytes: new TextEncoder().encode(text), name: "notes.txt" });
    expect(read.problems.map((problem) => problem.line)).toEqual([4]);
    expect(Object.values(read.document?.rooms ?? {}).map((room) => room.name)).toEqual(["Net Loft"]);
  });

  it("gives a tape sheet that reads back to the same show", async () => {
    const at = bench();
    at.mind.hear({ kind: "open", revision: 1, document: example() });
    const file = await asked(at, "write-tape", {});
    const again = bench();
    again.mind.hear({ kind: "open", revision: 1, document: emptyDocument() });
    const read = await asked(again, "read-file", { bytes: file.bytes, name: file.name });
    expect(read.problems).toEqual([]);
    expect(Object.keys(read.document?.pieces ?? {}).length).toBe(Object.keys(example().pieces).length);
  });

  it("loses one answer to a bug and goes on", async () => {
    const at = bench();
    const document = example();
    at.mind.hear({ kind: "open", revision: 1, document });
    const broken = { label: "Break", edits: [{ table: "no such table", id: "a", field: "id", after: "a" }] };
    at.mind.hear({ kind: "change", revision: 2, change: broken as unknown as Change, more: false });
    at.mind.hear({ kind: "print", number: 7, ask: {} as Questions["print"]["ask"] });
    at.run();
    await new Promise((resolve) => setImmediate(resolve));
    expect(at.said.filter((answer) => answer.kind === "fault").map((answer) => answer.number)).toContain(7);
    const file = await asked(at, "write-file", {});
    expect(new TextDecoder().decode(file.bytes)).toBe(writeShow(document));
  });
});

describe("a list of ten thousand lengths", () => {
  it("is answered, and tells how far it is on the way", () => {
    const at = bench();
    // Lengths of a hundred sizes that share no common measure: no quick answer closes the gap.
    const parts = Array.from(
      { length: 100 },
      (_, step) => `  part 100 x ${601 + ((step * 89) % 1300)} mm from Lath`,
    );
    const lines = [
      "units mm",
      "stock Lath, stick 38 x 4800 mm x 18 mm thick, kerf 3 mm",
      "piece Reed bed, 1000 x 1000 x 1000 mm",
      ...parts,
    ];
    at.mind.hear({
      kind: "open",
      revision: 1,
      document: readTape(lines.join("\n"), emptyDocument()).document,
    });
    at.run();
    const derived = at.said.find((answer) => answer.kind === "derived");
    expect(derived?.kind === "derived" && derived.derived.figures.lengths).toBe(10_000);
    const shares = at.said.flatMap((answer) => (answer.kind === "progress" ? [answer.share] : []));
    for (const share of shares) expect(share >= 0 && share <= 1).toBe(true);
    expect(shares.length).toBeGreaterThan(0);
  });
});
