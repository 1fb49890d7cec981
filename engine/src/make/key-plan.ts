/**
 * The key plan of a floor covering: every panel and border length with its number, which side is the front, and the
 * diagonal it is laid square by.
 */
import { showOf } from "../document/tables.ts";
import {
  boxOf,
  boxShape,
  dimensionLine,
  letteringAlong,
  letters,
  line,
  moved,
  shape,
  type Box,
  type DimensionWish,
} from "../sheet/drafting.ts";
import { boxesAlong, labelField } from "../sheet/labels.ts";
import { gridScales, largestThatFits } from "../sheet/scales.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { wrapped } from "../sheet/type.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { number } from "./buying.ts";
import type { FloorPanel, FloorWork } from "./model.ts";
import { printer, type MakeWish } from "./tables.ts";

/** Paper the drawing needs round the covering for its dimensions and the word at its front, mm. */
const ROUND = { left: 14, right: 6, top: 10, bottom: 16 } as const;

/** One page, at the largest grid scale that fits; none for a covering that is in no panels. */
export function keyPlanLeaves(wish: MakeWish, work: FloorWork): readonly Leaf[] {
  const { width, depth } = work.covering;
  if (work.panels.length === 0) return [];
  const box = leafBox(wish.paper);
  const lead = wrapped(leadOf(wish, work), "sans", 2.9, box.right - box.left);
  const free: Box = { ...box, top: box.top + 12 + lead.length * 4.1 };
  const squares = largestThatFits(
    gridScales(showOf(wish.document)),
    ({ scale }) =>
      width / scale + ROUND.left + ROUND.right <= free.right - free.left &&
      depth / scale + ROUND.top + ROUND.bottom <= free.bottom - free.top,
  );
  const { scale } = squares;
  const middle = {
    x: (free.left + ROUND.left + free.right - ROUND.right) / 2,
    y: (free.top + ROUND.top + free.bottom - ROUND.bottom) / 2,
  };
  const at = (x: number, y: number) => moved(middle, x / scale, -y / scale);
  const title = `${work.name}: key plan`;
  const panels = [...work.border, ...work.panels].flatMap((panel) => panelItems(panel, work, at, scale));
  return [
    {
      id: `make.floor.${work.covering.id}`,
      title,
      paper: wish.paper,
      scale,
      scaleSentence: squares.sentence,
      items: [
        titleOf(title, box),
        ...lead.map((text, row) => letters({ x: box.left, y: box.top + 11 + row * 4.1 }, text, 2.9)),
        ...panels,
        shape(
          [
            at(-width / 2, -depth / 2),
            at(width / 2, -depth / 2),
            at(width / 2, depth / 2),
            at(-width / 2, depth / 2),
          ],
          "outline",
          { record: work.covering.id },
        ),
        ...dimensions(wish, work, at, panels),
      ],
      known: [
        {
          name: `${work.name} width, key plan`,
          from: at(-width / 2, depth / 2),
          to: at(width / 2, depth / 2),
          real: width,
          scale,
        },
        {
          name: `${work.name} depth, key plan`,
          from: at(-width / 2, -depth / 2),
          to: at(-width / 2, depth / 2),
          real: depth,
          scale,
        },
      ],
      frames: [],
    },
  ];
}

function leadOf({ document }: MakeWish, work: FloorWork): string {
  const print = printer(document);
  const { field, columns, rows, panels, border, seams, diagonal, covering } = work;
  const [panel] = panels;
  return [
    `Field ${print(field.width)} × ${print(field.depth)}: ${columns} × ${rows} panels of ${print(panel?.width ?? 0)} × ${print(panel?.depth ?? 0)}.`,
    border.length > 0 ? `Border ${print(covering.border)} in ${number(border.length, "length")}.` : "",
    seams > 0 ? `Seams ${print(seams)}.` : "",
    `Lay it square: both diagonals ${print(diagonal)}. Numbers and arrows go on the backs, the arrow to the back.`,
  ]
    .filter((text) => text !== "")
    .join(" ");
}

type Place = (x: number, y: number) => { readonly x: number; readonly y: number };

function panelItems(panel: FloorPanel, work: FloorWork, at: Place, scale: number): readonly Item[] {
  const { id, x, y, width, depth } = panel;
  const [low, high] = [at(x, y), at(x + width, y + depth)];
  const box = { left: low.x, right: high.x, top: high.y, bottom: low.y };
  const border = id.includes("~b");
  const short = Math.min(width, depth) / scale;
  const size = Math.max(1.6, Math.min(border ? 2.4 : 5, short * 0.6));
  const centre = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
  const record = work.covering.id;
  return [
    boxShape(box, "cut", { record, part: id, fill: { ink: "sheet" } }),
    letters(moved(centre, 0, size * 0.35), border ? `b${panel.number}` : `${panel.number}`, size, {
      face: "sans-bold",
      align: "middle",
      record,
      part: id,
    }),
    ...(border ? [] : backArrow(centre, short)),
  ];
}

/** A small arrow to the back, beside the number. */
function backArrow(centre: { readonly x: number; readonly y: number }, short: number): readonly Item[] {
  const size = Math.min(3, short * 0.2);
  if (size < 0.8) return [];
  const foot = moved(centre, size * 2.2, size);
  const tip = moved(foot, 0, -2 * size);
  return [
    line([foot, tip], "dimension", { part: "back" }),
    line([moved(tip, -size * 0.4, size * 0.6), tip, moved(tip, size * 0.4, size * 0.6)], "dimension", {
      part: "back",
    }),
  ];
}

function dimensions(wish: MakeWish, work: FloorWork, at: Place, panels: readonly Item[]): readonly Item[] {
  const print = printer(wish.document);
  const { width, depth } = work.covering;
  const [left, right, front, back] = [-width / 2, width / 2, -depth / 2, depth / 2];
  const dimension = (one: DimensionWish): readonly Item[] => [
    ...dimensionLine({ ...one, record: work.covering.id }),
    letteringAlong({ ...one, record: work.covering.id }),
  ];
  const [a, b] = [at(left, front), at(right, back)];
  const diagonal = { from: a, to: b, text: print(work.diagonal) };
  return [
    ...dimension({
      from: moved(at(left, back), 0, -5),
      to: moved(at(right, back), 0, -5),
      text: print(width),
      witness: [at(left, back), at(right, back)],
    }),
    ...dimension({
      from: moved(at(left, front), -6, 0),
      to: moved(at(left, back), -6, 0),
      text: print(depth),
      witness: [at(left, front), at(left, back)],
    }),
    line([a, b], "fold", { ink: "graphite-soft", part: "diagonal" }),
    ...diagonalWords(diagonal, panels),
    letters(moved(at(0, front), 0, 6), "front", 3.2, { face: "sans-bold", align: "middle", part: "front" }),
  ];
}

/** The diagonal's length beside it, wherever it covers least of seams and numbers. */
function diagonalWords(diagonal: DimensionWish, panels: readonly Item[]): readonly Item[] {
  const field = labelField();
  for (const item of panels)
    if (item.kind === "stroke")
      for (const box of boxesAlong([...item.points, ...(item.closed ? item.points.slice(0, 1) : [])]))
        field.keepClear(box, 1);
    else field.keepClear(boxOf(item), 2);
  const parts = Array.from({ length: 41 }, (_, step) => 0.5 + (step % 2 === 0 ? 1 : -1) * step * 0.01);
  return field.place(
    parts.map((part) => ({
      lettering: [letteringAlong({ ...diagonal, size: 2.6 }, part, 0.8)],
      cost: Math.abs(part - 0.5),
    })),
  );
}
