/**
 * What the cases lay on other pieces really lies there: judged from the show files alone, in the frame of what
 * carries it, by nothing the engine derives.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readShow } from "../engine/src/document/file.ts";
import type { Placement, ShowDocument, Solid } from "../engine/src/document/tables.ts";

function show(name: string): ShowDocument {
  const read = readShow(readFileSync(new URL(`${name}.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  return read.document;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

const HAIR = 0.01;

function solidsOf(document: ShowDocument, { piece }: Placement): readonly Solid[] {
  return Object.values(document.solids).filter((solid) => solid.piece === piece);
}

/** Corners of a load's footprint in the frame of what carries it; of a round one, sixteen points of its rim. */
function rimOf(load: Placement, solid: Solid): readonly Spot[] {
  const angle = (load.turn * Math.PI) / 180;
  const [w, d] = [solid.width / 2, solid.depth / 2];
  const rim = Array.from({ length: 16 }, (_, k) => ({
    x: w * Math.cos((k * Math.PI) / 8),
    y: w * Math.sin((k * Math.PI) / 8),
  }));
  const box = [-1, 1].flatMap((a) => [-1, 1].map((b) => ({ x: a * w, y: b * d })));
  return (solid.shape === "cylinder" ? rim : box).map(({ x, y }) => ({
    x: load.x + x * Math.cos(angle) - y * Math.sin(angle),
    y: load.y + x * Math.sin(angle) + y * Math.cos(angle),
  }));
}

/** Whether a spot is over a solid that stands straight in its piece; `hair` makes the solid so much larger. */
function isOver(solid: Solid, spot: Spot, hair: number): boolean {
  const [x, y] = [spot.x - solid.x, spot.y - solid.y];
  if (solid.shape === "cylinder") return Math.hypot(x, y) <= solid.width / 2 + hair;
  return Math.abs(x) <= solid.width / 2 + hair && Math.abs(y) <= solid.depth / 2 + hair;
}

describe.each([
  ["night-ferry", 16],
  ["three-in-the-morning", 19],
] as const)("%s", (name, count) => {
  const document = show(name);
  const carried = Object.values(document.placements).filter(({ on }) => on !== undefined);

  it("lays its accessories on other pieces", () => expect(carried).toHaveLength(count));

  it.each(carried.map((load) => [load.id, load] as const))("%s lies whole on one top", (_, load) => {
    const below = solidsOf(document, document.placements[load.on ?? ""]!);
    const rim = solidsOf(document, load).flatMap((solid) => rimOf(load, solid));
    // The highest thing under any of it carries it, and has to be under all of it.
    const under = below.filter((solid) => [...rim, load].some((spot) => isOver(solid, spot, -HAIR)));
    const [top] = under.toSorted((a, b) => b.z + b.height - a.z - a.height);
    expect(top).toBeDefined();
    expect(rim.filter((spot) => !isOver(top!, spot, HAIR))).toEqual([]);
  });

  it("leaves what lies together on one piece apart", () => {
    for (const one of carried)
      for (const other of carried) {
        if (one.id >= other.id || one.on !== other.on) continue;
        const [a, b] = [one, other].map((load) => rimOf(load, solidsOf(document, load)[0]!));
        expect(apart(a!, b!) || apart(b!, a!), `${one.id}, ${other.id}`).toBe(true);
      }
  });
});

/** Whether some side of the first convex outline has all of the second outside. Corners of a box come in rows. */
function apart(outline: readonly Spot[], other: readonly Spot[]): boolean {
  const middle = (at: "x" | "y"): number => outline.reduce((sum, spot) => sum + spot[at], 0) / outline.length;
  const around = outline.toSorted(
    (p, q) =>
      Math.atan2(p.y - middle("y"), p.x - middle("x")) - Math.atan2(q.y - middle("y"), q.x - middle("x")),
  );
  return around.some((from, index) => {
    const to = around[(index + 1) % around.length]!;
    return other.every(({ x, y }) => (to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x) <= HAIR);
  });
}
