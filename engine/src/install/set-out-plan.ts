/** The plan to set out by: the room with what stands in it, every mark numbered, and for the first few the two arcs that cross there. */
import { arrangedPlan } from "../arrange/plan.ts";
import type { Arrangement } from "../arrange/model.ts";
import { showOf } from "../document/tables.ts";
import { onPaper } from "../measure/frame.ts";
import { PLAN_SURROUND } from "../measure/sheet.ts";
import type { Point } from "../plane/point.ts";
import { boxOfPoints, letters, line, moved, onPlate, ring, type Box } from "../sheet/drafting.ts";
import { labelField, placesAround, type LabelField } from "../sheet/labels.ts";
import { gridScales, largestThatFits } from "../sheet/scales.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import type { Frame, Item, KnownLength } from "../sheet/vocabulary.ts";
import { printLength } from "../units/length.ts";
import type { Mark, SetOut } from "./model.ts";
import type { InstallWish } from "./sheet.ts";

/** Marks shown with their arcs: enough to see how it is done, few enough to see anything. */
const WITH_ARCS = 3;
/** How far an arc runs to each side of its mark, mm on paper, and half the size of a mark's cross. */
const ARC_REACH = 7;
const CROSS = 1.3;

/** The plan as a page, at the largest grid scale that fits. */
export function setOutPlan(wish: InstallWish, arrangement: Arrangement, setOut: SetOut): Leaf {
  const { document, paper } = wish;
  const box = leafBox(paper);
  const title = `${arrangement.room.room.name}: set out`;
  const { frame, sentence } = frameOf(wish, arrangement, { ...box, top: box.top + 15 });
  const field = labelField();
  const drawn = arrangedPlan({ arrangement, document, frame, field, names: "none" });
  const held = heldCorners(arrangement, setOut).map((corner) => onPaper(frame, corner));
  const units = showOf(document).units;
  const shown = setOut.marks.slice(0, WITH_ARCS);
  const marks = setOut.marks.map((mark) => ({ mark, at: onPaper(frame, mark.at) }));
  for (const { at } of marks) field.keepClear(around(at, CROSS), 1);
  return {
    id: `set-out.${setOut.room}`,
    title,
    paper,
    scale: frame.scale,
    scaleSentence: sentence,
    items: [
      ...drawn.items,
      ...baseItems(held),
      ...shown.flatMap((mark) => arcItems(mark, frame, held)),
      ...marks.flatMap(({ mark, at }) => crossItems(mark, at)),
      ...marks.flatMap(({ mark, at }) => onPlate(numberItems(mark, at, field))),
      ...held.flatMap((at) => [
        ring(at, 2.2, "outline", { part: "held" }),
        ring(at, 0.7, "bar", { part: "held", fill: { ink: "graphite" } }),
      ]),
      titleOf(title, box),
      letters(
        { x: box.left, y: box.top + 10.5 },
        `Tapes are held at ${setOut.names[0]} and ${setOut.names[1]} (ringed). Mark 1 is ${printLength(setOut.marks[0]?.tapes[0] ?? 0, units)} from ${setOut.names[0]} and ${printLength(setOut.marks[0]?.tapes[1] ?? 0, units)} from ${setOut.names[1]}.`,
        2.9,
      ),
    ],
    known: [...drawn.known, ...shown.flatMap((mark) => knownTapes(mark, frame, { held, setOut }))],
    frames: [frame],
  };
}

function frameOf(
  wish: InstallWish,
  { room }: Arrangement,
  box: Box,
): { readonly frame: Frame; readonly sentence: string } {
  const bounds = boxOfPoints(room.corners);
  const squares = largestThatFits(
    gridScales(showOf(wish.document)),
    ({ scale }) =>
      (bounds.right - bounds.left) / scale + 2 * PLAN_SURROUND <= box.right - box.left &&
      (bounds.bottom - bounds.top) / scale + 2 * PLAN_SURROUND <= box.bottom - box.top,
  );
  const { scale, sentence } = squares;
  const origin = {
    x: (box.left + box.right) / 2 - (bounds.left + bounds.right) / 2 / scale,
    y: (box.top + box.bottom) / 2 + (bounds.top + bounds.bottom) / 2 / scale,
  };
  return { frame: { room: room.room.id, scale, origin }, sentence };
}

/** The two corners in the order of the tapes. */
function heldCorners({ room }: Arrangement, { from }: SetOut): readonly Point[] {
  return from.flatMap((id) => room.corners.find((corner) => corner.id === id) ?? []);
}

function around({ x, y }: Point, half: number): Box {
  return { left: x - half, right: x + half, top: y - half, bottom: y + half };
}

function baseItems(held: readonly Point[]): readonly Item[] {
  return held.length < 2 ? [] : [line(held, "fold", { part: "base", ink: "graphite-soft" })];
}

/** Both tapes lie thin from corner to mark; each arc runs a little to both sides of it. */
function arcItems(mark: Mark, frame: Frame, held: readonly Point[]): readonly Item[] {
  const at = onPaper(frame, mark.at);
  return held.flatMap((centre): readonly Item[] => {
    const radius = Math.hypot(at.x - centre.x, at.y - centre.y);
    if (radius < 1) return [];
    const angle = (Math.atan2(centre.y - at.y, at.x - centre.x) * 180) / Math.PI;
    const reach = Math.min(25, (ARC_REACH / radius) * (180 / Math.PI));
    const shown = { record: mark.record, part: "arc" } as const;
    return [
      line([centre, at], "dimension", { ...shown, part: "tape", ink: "graphite-soft" }),
      { kind: "arc", centre, radius, from: angle - reach, to: angle + reach, pen: "outline", ...shown },
    ];
  });
}

function crossItems({ record }: Mark, at: Point): readonly Item[] {
  const shown = { record, part: "mark" };
  return [
    line([moved(at, -CROSS, 0), moved(at, CROSS, 0)], "bar", shown),
    line([moved(at, 0, -CROSS), moved(at, 0, CROSS)], "bar", shown),
  ];
}

function numberItems({ number, record }: Mark, at: Point, field: LabelField): readonly Item[] {
  return field.place(
    placesAround({
      at,
      text: `${number}`,
      size: 2.8,
      off: CROSS + 0.5,
      rest: { face: "sans-bold", record, part: "number" },
    }),
  );
}

interface Held {
  readonly held: readonly Point[];
  readonly setOut: SetOut;
}

function knownTapes(
  { number, at, tapes }: Mark,
  frame: Frame,
  { held, setOut }: Held,
): readonly KnownLength[] {
  return held.map((from, index) => ({
    name: `mark ${number} from ${setOut.names[index] ?? ""}`,
    from,
    to: onPaper(frame, at),
    real: tapes[index] ?? 0,
    scale: frame.scale,
  }));
}
