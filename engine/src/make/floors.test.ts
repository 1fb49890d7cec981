import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { emptyDocument, type Covering, type Stock } from "../document/tables.ts";
import { judgeSheets } from "../solve/sheets-judge.ts";
import { solveSheets } from "../solve/sheets.ts";
import { printLength } from "../units/length.ts";
import { sheetCuttings } from "./cutting.ts";
import { floorWork } from "./floors.ts";
import type { FloorPanel } from "./model.ts";
import { createPlans } from "./plans.ts";

const IN = 25.4;

const covering = (said: Partial<Covering>): Covering => ({
  id: "floor",
  room: "room",
  name: "Floor",
  order: 0,
  x: 0,
  y: 0,
  turn: 0,
  width: 3000,
  depth: 2000,
  thickness: 5,
  border: 0,
  walkable: false,
  ...said,
});

const sheet = (width: number, length: number, said: Partial<Stock> = {}): Stock => ({
  id: "board",
  name: "Board",
  order: 0,
  form: "sheet",
  width,
  length,
  thickness: 5,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: false,
  ...said,
});

const area = (parts: readonly FloorPanel[]): number =>
  parts.reduce((sum, { width, depth }) => sum + width * depth, 0);

/** How far two parts lie over one another; below 0 where they do not. */
function common(a: FloorPanel, b: FloorPanel): number {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const deep = Math.min(a.y + a.depth, b.y + b.depth) - Math.max(a.y, b.y);
  return Math.min(across, deep);
}

describe("a floor covering in the trade's own example", () => {
  // Trade arithmetic, common practice, no source: 8 x 10 ft with a 4 in border, panels up to 32 x 48 in.
  const work = floorWork(
    covering({ width: 96 * IN, depth: 120 * IN, border: 4 * IN, panelWidth: 32 * IN, panelDepth: 48 * IN }),
  );

  it("has a field of 88 by 112 in, three by three panels", () => {
    expect(work.field.width / IN).toBeCloseTo(88, 9);
    expect(work.field.depth / IN).toBeCloseTo(112, 9);
    expect([work.columns, work.rows, work.panels.length]).toEqual([3, 3, 9]);
    expect(work.panels[0]!.width / IN).toBeCloseTo(29.33, 2);
    expect(work.panels[0]!.depth / IN).toBeCloseTo(37.33, 2);
  });

  it("has 33 ft of seams, and 36 ft of border counted round its outer edge", () => {
    expect(Math.floor(work.seams / (12 * IN))).toBe(33);
    // Counted round the outside the corners are there twice: the lengths cut are four border widths shorter.
    const cut = work.border.reduce((sum, { width, depth }) => sum + Math.max(width, depth), 0);
    expect((cut + 4 * 4 * IN) / (12 * IN)).toBeCloseTo(36, 9);
  });
});

describe("the floor of the ferry's waiting room", () => {
  const board = sheet(40 * IN, 60 * IN);
  const floor = covering({ width: 216 * IN, depth: 114 * IN, border: 6 * IN, stock: "board" });
  const work = floorWork(floor, board);
  const document = { ...emptyDocument(), coverings: { floor }, stocks: { board } };

  it("is a field of 17' 0\" by 8' 6\" in twelve panels of 51 by 34 in", () => {
    expect(printLength(work.field.width, "ft-in")).toBe(`17' 0"`);
    expect(printLength(work.field.depth, "ft-in")).toBe(`8' 6"`);
    expect(work.panels).toHaveLength(12);
    for (const { width, depth } of work.panels) {
      expect(width / IN).toBeCloseTo(51, 9);
      expect(depth / IN).toBeCloseTo(34, 9);
    }
  });

  it("is squared by a diagonal of 20' 4 1/4\"", () => {
    expect(printLength(work.diagonal, "ft-in")).toBe(`20' 4 1/4"`);
  });

  it("comes from exactly twelve sheets, its border from their offcuts of 6 by 60 in", () => {
    const [cutting] = sheetCuttings({ document, floors: [work] }, createPlans());
    expect(cutting?.plan.sheets).toHaveLength(12);
    expect(cutting?.plan.bound).toBe(12);
    expect(cutting?.plan.unplaced).toEqual([]);
    expect(work.border).toHaveLength(12);
    const job = { width: board.width, depth: board.length, kerf: 0, turning: true, parts: cutting!.parts };
    expect(judgeSheets(job, cutting!.plan)).toEqual([]);
  });
});

describe("floor coverings", () => {
  it("are one panel where nobody said sheets or what can be carried", () => {
    const work = floorWork(covering({}));
    expect(work.panels).toHaveLength(1);
    expect(work.panels[0]).toMatchObject({
      id: "floor~1",
      name: "Floor 1",
      x: -1500,
      y: -1000,
      width: 3000,
      depth: 2000,
    });
    expect(work.border).toEqual([]);
    expect(work.seams).toBe(0);
  });

  it("in metric: 3.0 by 1.2 m, panels up to 600 by 900 mm, 80 mm of border make ten panels of 568 by 520 mm", () => {
    const work = floorWork(
      covering({ width: 3000, depth: 1200, border: 80, panelWidth: 600, panelDepth: 900 }),
    );
    expect([work.columns, work.rows]).toEqual([5, 2]);
    expect([work.panels[0]?.width, work.panels[0]?.depth]).toEqual([568, 520]);
  });

  it("take one panel more for one millimetre more", () => {
    const board = sheet(1000, 1000);
    expect(floorWork(covering({ width: 3000, depth: 1000 }), board).panels).toHaveLength(3);
    expect(floorWork(covering({ width: 3001, depth: 1000 }), board).panels).toHaveLength(4);
    expect(floorWork(covering({ width: 2999, depth: 1000 }), board).panels).toHaveLength(3);
  });

  it("have no panels where the borders leave no field", () => {
    const work = floorWork(covering({ width: 3000, depth: 2000, border: 1000 }));
    expect(work.panels).toEqual([]);
    expect(work.border).toEqual([]);
    expect(work.field.depth).toBe(0);
  });

  it("of endless parts are told by their count alone", () => {
    const work = floorWork(covering({ width: 9_000_000, depth: 9_000_000, panelWidth: 1, panelDepth: 1 }));
    expect(work.panels).toEqual([]);
    expect(work.columns).toBe(9_000_000);
  });

  it("cover the whole and nothing twice, each part within the sheet and within what can be carried", () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 500, max: 9000 }),
          depth: fc.integer({ min: 500, max: 9000 }),
          border: fc.integer({ min: 0, max: 240 }),
          panelWidth: fc.integer({ min: 300, max: 2000 }),
          panelDepth: fc.integer({ min: 300, max: 2000 }),
          short: fc.integer({ min: 250, max: 1200 }),
          more: fc.integer({ min: 0, max: 1200 }),
          grained: fc.boolean(),
        }),
        ({ width, depth, border, panelWidth, panelDepth, short, more, grained }) => {
          const board = sheet(short, short + more, { grained });
          const work = floorWork(covering({ width, depth, border, panelWidth, panelDepth }), board);
          const parts = [...work.panels, ...work.border];
          expect(area(parts)).toBeCloseTo(width * depth, 2);
          // Panels of a field are all of one size.
          expect(new Set(work.panels.map((one) => `${one.width} ${one.depth}`)).size).toBe(1);
          expect(new Set(parts.map(({ id }) => id)).size).toBe(parts.length);
          for (const part of work.panels.slice(0, 1)) {
            const lies = part.width <= board.width + 1e-3 && part.depth <= board.length + 1e-3;
            const turned = part.depth <= board.width + 1e-3 && part.width <= board.length + 1e-3;
            expect(lies || (!grained && turned)).toBe(true);
            expect(part.width).toBeLessThanOrEqual(panelWidth + 1e-3);
            expect(part.depth).toBeLessThanOrEqual(panelDepth + 1e-3);
          }
          const some = parts.slice(0, 40);
          const shared = some.flatMap((one, index) =>
            some.slice(index + 1).map((other) => common(one, other)),
          );
          expect(Math.max(0, ...shared)).toBeLessThan(1e-6);
        },
      ),
      { seed: 31, numRuns: 150 },
    );
  });

  it("are cut as the judge of sheets accepts", () => {
    const plans = createPlans();
    fc.assert(
      fc.property(
        fc.integer({ min: 900, max: 4000 }),
        fc.integer({ min: 900, max: 3000 }),
        fc.integer({ min: 0, max: 150 }),
        fc.boolean(),
        (width, depth, border, grained) => {
          const board = sheet(900, 1400, { grained, kerf: 3 });
          const floor = covering({ width, depth, border, stock: "board" });
          const document = { ...emptyDocument(), coverings: { floor }, stocks: { board } };
          const [cutting] = sheetCuttings({ document, floors: [floorWork(floor, board)] }, plans);
          const job = { width: 900, depth: 1400, kerf: 3, turning: !grained, parts: cutting!.parts };
          expect(judgeSheets(job, cutting!.plan)).toEqual([]);
          expect(cutting?.plan.unplaced).toEqual([]);
        },
      ),
      { seed: 32, numRuns: 25 },
    );
  });

  it("keep the very plan while their parts stay the same", () => {
    const plans = createPlans();
    const job = {
      width: 1000,
      depth: 2000,
      kerf: 0,
      turning: true,
      parts: [{ id: "a", width: 10, depth: 10 }],
    };
    expect(plans.sheets({ ...job })).toBe(plans.sheets({ ...job }));
    expect(plans.sheets({ ...job, kerf: 1 })).not.toBe(plans.sheets(job));
    expect(plans.sheets(job)).toEqual(solveSheets(job));
  });
});
