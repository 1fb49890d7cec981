/**
 * Plan and cut-outs on one page: the plan at the largest scale of the person's own grid at which it and one flat
 * cut-out for every copy that stands on the floor, hangs or waits to share the page. What lies on others and what is
 * fixed to walls moves little on a floor plan: it has its cut-outs below these while there is paper left. Where not
 * even the smallest usual scale holds them all, those without room are left out and named, on the page and in the
 * answer.
 */
import { showOf, type Piece, type ShowDocument } from "../document/tables.ts";
import { PLAN_SURROUND } from "../measure/sheet.ts";
import type { Point } from "../plane/point.ts";
import { boxOfPoints, CAP_HEIGHT, letters, moved, shape, shownBy, type Box } from "../sheet/drafting.ts";
import { corrected } from "../sheet/correction.ts";
import { gridPaper } from "../sheet/grid.ts";
import { labelField } from "../sheet/labels.ts";
import { PAPER_MARGIN, PAPERS, sideways, type Paper } from "../sheet/papers.ts";
import { setInRows } from "../sheet/rows.ts";
import { gridScales, scaleWords, type GridScale } from "../sheet/scales.ts";
import { bound, checkBar, leafBox, TWO_INCHES, type Leaf } from "../sheet/stamp.ts";
import { shortenedTo, textWidth, wrapped } from "../sheet/type.ts";
import type { Frame, Item, KnownLength, PrintCorrection, Sheet, Stamp } from "../sheet/vocabulary.ts";
import { footprints } from "./footprint.ts";
import type { Arrangement } from "./model.ts";
import { arrangedPlan, frontArrow } from "./plan.ts";
import { copyName } from "./standing.ts";

export interface CutOutOptions {
  readonly paper: "letter" | "a4";
  readonly stamp: Stamp;
  /** Wanted over measured, across and down the page as it is printed. */
  readonly correction: PrintCorrection;
}

export interface PlanAndCutOuts {
  readonly sheet: Sheet;
  /** n of 1:n. */
  readonly scale: number;
  /** What one square of the grid stands for, mm. */
  readonly square: number;
  /** "1:48, one 1/4 in square is 12 in". */
  readonly sentence: string;
  /** Copies without a cut-out on this page, many of one piece as "Hook × 14", with the reason for those too small to cut. */
  readonly leftOut: readonly string[];
}

/** Space between cut-outs for the scissors, mm. */
const GAP = 3;
/** A cut-out less wide than this cannot be cut or held. Common practice, no source. mm. */
const SMALLEST_CUT = 3;
/** The most cut-outs that are tried for one page. */
const MANY = 400;
/** Room for the head of the page and for the upright check bar at its left edge, mm. */
const HEAD = 6;
const LEFT_BAR = 9;
/** Room kept for two rows of words about what is left out. */
const NOTE_ROOM = 8;

interface Copy {
  readonly name: string;
  readonly piece: Piece;
  readonly rings: readonly (readonly Point[])[];
  /** Whether it lies on another or belongs on a wall: its cut-out is set last, and never makes the plan smaller. */
  readonly last: boolean;
}

interface Layout {
  readonly paper: Paper;
  readonly squares: GridScale;
  readonly plan: Box;
  readonly body: Box;
  readonly cuts: readonly CutOut[];
  readonly leftOut: readonly Copy[];
}

interface CutOut {
  readonly copy: Copy;
  readonly rings: readonly (readonly Point[])[];
  readonly box: Box;
  /** The name stands under the cut-out where it does not fit inside. */
  readonly under: boolean;
}

/** One page for scissors. A room without a shape gives the cut-outs alone. The frame is left out where the printer needs correcting. */
export function planAndCutOuts(
  arrangement: Arrangement,
  document: ShowDocument,
  options: CutOutOptions,
): PlanAndCutOuts {
  const copies = copiesOf(arrangement, document);
  const layout = bestLayout(arrangement, document, copies, options);
  const { squares } = layout;
  const small = layout.leftOut.filter((copy) => tooSmall(copy, squares.scale));
  const crowded = layout.leftOut.filter((copy) => !tooSmall(copy, squares.scale));
  const leftOut = [...namesOf(crowded), ...namesOf(small).map((name) => `${name} (too small to cut)`)];
  const leaf = drawLeaf(arrangement, document, layout, leftOutWords(crowded, small, squares.scale));
  const [sheet] = bound([leaf], options.stamp);
  if (!sheet) throw new Error(`a page was bound to no sheet: ${leaf.id}`);
  return {
    sheet: corrected(sheet, options.correction),
    scale: squares.scale,
    square: squares.square,
    sentence: squares.sentence,
    leftOut,
  };
}

/** Every copy that is in the room or waits in the tray, with its footprint. Pieces without a size have none to cut. */
function copiesOf({ standing, mounted, tray }: Arrangement, document: ShowDocument): readonly Copy[] {
  const rings = footprints(document);
  const of = (piece: Piece, name: string, last: boolean): Copy => ({
    piece,
    name,
    rings: rings.get(piece.id) ?? [],
    last,
  });
  const placed = standing.map(({ piece, name, on }) => of(piece, name, on !== undefined));
  const fixed = mounted.map(({ piece, name }) => of(piece, name, true));
  const waiting = tray.flatMap(({ piece, numbers, count }) => {
    const last = LAST_LAYERS.has(piece.layer);
    // Past the listed numbers there are more copies than any page holds: they are counted, not named.
    const unlisted = Array.from({ length: count - numbers.length }, () => of(piece, piece.name, last));
    return [...numbers.map((number) => of(piece, copyName(piece, number), last)), ...unlisted];
  });
  return [...placed, ...fixed, ...waiting]
    .filter(({ rings: own }) => own.length > 0)
    .toSorted((a, b) => Number(a.last) - Number(b.last) || a.piece.order - b.piece.order);
}

/** What waits to be laid on others or fixed to walls. */
const LAST_LAYERS: ReadonlySet<Piece["layer"]> = new Set(["accessory", "fitting"]);

/** Copies by name; more than a few of one piece are counted. */
function namesOf(copies: readonly Copy[]): readonly string[] {
  const byPiece = new Map<string, Copy[]>();
  for (const copy of copies) {
    const list = byPiece.get(copy.piece.id);
    if (list) list.push(copy);
    else byPiece.set(copy.piece.id, [copy]);
  }
  return [...byPiece.values()].flatMap((list) =>
    list.length > NAMED_EACH ? [`${list[0]!.piece.name} × ${list.length}`] : list.map(({ name }) => name),
  );
}

/** This many copies of a piece are named one by one. */
const NAMED_EACH = 3;

function bestLayout(
  arrangement: Arrangement,
  document: ShowDocument,
  copies: readonly Copy[],
  options: CutOutOptions,
): Layout {
  const upright = PAPERS[options.paper];
  const papers = [upright, sideways(upright)];
  let best: Layout | undefined;
  for (const squares of usefulScales(document)) {
    const layouts = papers.flatMap(
      (paper) => layOut({ arrangement, copies, squares, paper, correction: options.correction }) ?? [],
    );
    const here = layouts.toSorted((a, b) => missing(a).length - missing(b).length)[0];
    if (!here) continue;
    if (!best || missing(here).length < missing(best).length) best = here;
    // Once nothing wants for room, or the squares are past the usual, a still smaller scale only hides more.
    if (squares.square > 1000 || missing(here).every((copy) => tooSmall(copy, squares.scale))) break;
  }
  if (!best) throw new Error(`no scale holds a room of ${arrangement.room.corners.length} corners`);
  return best;
}

/** What is left out of a page, but for what may be. */
function missing({ leftOut }: Layout): readonly Copy[] {
  return leftOut.filter(({ last }) => !last);
}

const usefulScales = (document: ShowDocument): readonly GridScale[] => gridScales(showOf(document));

interface LayoutWish {
  readonly arrangement: Arrangement;
  readonly copies: readonly Copy[];
  readonly squares: GridScale;
  readonly paper: Paper;
  readonly correction: PrintCorrection;
}

/** The page at one scale and one way up; undefined where the plan alone is too large. */
function layOut({ arrangement, copies, squares, paper, correction }: LayoutWish): Layout | undefined {
  const body = bodyOf(paper, correction);
  const { corners } = arrangement.room;
  const room = corners.length > 0 ? boxOfPoints(corners) : { left: 0, right: 0, top: 0, bottom: 0 };
  const around = corners.length > 0 ? PLAN_SURROUND : 0;
  const width = (room.right - room.left) / squares.scale + 2 * around;
  const height = (room.bottom - room.top) / squares.scale + 2 * around;
  if (width > body.right - body.left || height > body.bottom - body.top) return undefined;
  const plan = { left: body.left, top: body.top, right: body.left + width, bottom: body.top + height };
  const cuttable = copies.filter((copy) => !tooSmall(copy, squares.scale));
  const tried = [false, true].map((last) => cuttable.filter((copy) => copy.last === last).slice(0, MANY));
  const beside = { left: plan.right + GAP, top: plan.top, right: body.right, bottom: plan.bottom };
  const below = { left: body.left, top: plan.bottom + GAP, right: body.right, bottom: body.bottom };
  const cutsOf = (some: readonly Copy[]): readonly CutOut[] =>
    some.map((copy) => cutOutOf(copy, squares.scale));
  const first = setCuts(cutsOf(tried[0]!), [beside, below]);
  const second = setCuts(cutsOf(tried[1]!), [leftBelow(beside, first), leftBelow(below, first)]);
  const cuts = [...first, ...second];
  const set = new Set(cuts.map(({ copy }) => copy));
  return { paper, squares, plan, body, cuts, leftOut: copies.filter((copy) => !set.has(copy)) };
}

/** The cut-outs that found room, where they found it. */
function setCuts(cuts: readonly CutOut[], free: readonly Box[]): readonly CutOut[] {
  const places = setInRows(cuts.map(sizeOf), free, GAP);
  return cuts.flatMap((cut, index) => {
    const place = places[index];
    return place ? [movedCut(cut, place.x - cut.box.left, place.y - cut.box.top)] : [];
  });
}

/** What is left of a free box below the cut-outs that were set in it. */
function leftBelow(free: Box, cuts: readonly CutOut[]): Box {
  const bottoms = cuts
    .filter(({ box }) => box.left >= free.left - 1 && box.top >= free.top - 1 && box.top <= free.bottom)
    .map((cut) => cut.box.top + sizeOf(cut).height + GAP);
  return { ...free, top: Math.max(free.top, ...bottoms) };
}

/** What is free for drawing, shrunk so that a corrected page still keeps its white margin. */
function bodyOf(paper: Paper, { across, down }: PrintCorrection): Box {
  const leaf = leafBox(paper, PAPER_MARGIN);
  const inX = (paper.width / 2) * (1 - 1 / Math.max(1, across));
  const inY = (paper.height / 2) * (1 - 1 / Math.max(1, down));
  return {
    left: leaf.left + LEFT_BAR + inX,
    top: leaf.top + HEAD + inY,
    right: leaf.right - inX,
    bottom: leaf.bottom - NOTE_ROOM - inY,
  };
}

function tooSmall(copy: Copy, scale: number): boolean {
  const box = boxOfPoints(copy.rings.flat());
  return Math.min(box.right - box.left, box.bottom - box.top) / scale < SMALLEST_CUT;
}

/** Laid with its long side across; in the piece's frame y is up, on paper down. */
function cutOutOf(copy: Copy, scale: number): CutOut {
  const flat = copy.rings.map((points) => points.map(({ x, y }) => ({ x: x / scale, y: -y / scale })));
  const box = boxOfPoints(flat.flat());
  const inside = textWidth(copy.name, "sans", 2.3) + 1 <= box.right - box.left && box.bottom - box.top >= 7.5;
  return { copy, rings: flat, box, under: !inside };
}

const NAME_UNDER = 3.4;

function sizeOf({ box, under, copy }: CutOut): { readonly width: number; readonly height: number } {
  const width = box.right - box.left;
  return {
    width: under ? Math.max(width, Math.min(textWidth(copy.name, "sans", 2.1), width + 12)) : width,
    height: box.bottom - box.top + (under ? NAME_UNDER : 0),
  };
}

function movedCut(cut: CutOut, x: number, y: number): CutOut {
  const aside = (sizeOf(cut).width - (cut.box.right - cut.box.left)) / 2;
  const rings = cut.rings.map((points) => points.map((point) => moved(point, x + aside, y)));
  return { ...cut, rings, box: boxOfPoints(rings.flat()) };
}

function drawLeaf(arrangement: Arrangement, document: ShowDocument, layout: Layout, words: string): Leaf {
  const { paper, plan, squares, body } = layout;
  const { room } = arrangement.room;
  const corners = arrangement.room.corners;
  const bounds = corners.length > 0 ? boxOfPoints(corners) : { left: 0, right: 0, top: 0, bottom: 0 };
  const frame: Frame = {
    room: room.id,
    origin: {
      x: plan.left + PLAN_SURROUND - bounds.left / squares.scale,
      y: plan.top + PLAN_SURROUND + bounds.bottom / squares.scale,
    },
    scale: squares.scale,
  };
  const inner = { left: plan.left + 3, top: plan.top + 3, right: plan.right - 3, bottom: plan.bottom - 3 };
  const drawn =
    corners.length > 0
      ? arrangedPlan({ arrangement, document, frame, field: labelField() })
      : { items: [], known: [] };
  const bar = checkBar({
    from: { x: PAPER_MARGIN + 2, y: paper.height - 2 * PAPER_MARGIN - TWO_INCHES - 12 },
    length: TWO_INCHES,
    caption: "2 in",
    name: "check bar 2 in, down",
    down: true,
  });
  const cuts = layout.cuts.map((cut) => drawCut(cut, squares.scale));
  return {
    id: `plan-and-cut-outs.${room.id}`,
    title: `${room.name}: plan and cut-outs`,
    paper,
    scale: squares.scale,
    scaleSentence: squares.sentence,
    items: [
      ...(corners.length > 0 ? gridPaper({ box: inner, pitch: squares.pitch, through: frame.origin }) : []),
      letters(
        { x: body.left, y: body.top - 2 },
        `${room.name}: cut out the pieces below and slide them about on the plan`,
        3.2,
        { face: "sans-bold", part: "title" },
      ),
      ...drawn.items,
      ...cuts.flatMap(({ items }) => items),
      ...bar.items,
      ...wrapped(words, "sans", 2.5, body.right - body.left)
        .slice(0, 2)
        .map((row, index) =>
          letters({ x: body.left, y: body.bottom + 4 + index * 3.4 }, row, 2.5, { part: "left out" }),
        ),
    ],
    known: [...bar.known, ...drawn.known, ...cuts.flatMap(({ known }) => known)],
    frames: corners.length > 0 ? [frame] : [],
  };
}

function drawCut(
  { copy, rings, box, under }: CutOut,
  scale: number,
): { readonly items: readonly Item[]; readonly known: readonly KnownLength[] } {
  const { id } = copy.piece;
  const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
  const rest = { align: "middle", ...shownBy(id, "cut-out name") } as const;
  const name = under
    ? letters(
        { x: middle.x, y: box.bottom + 2.6 },
        shortenedTo(copy.name, "sans", 2.1, box.right - box.left + 13),
        2.1,
        rest,
      )
    : letters({ x: middle.x, y: middle.y + (2.3 * CAP_HEIGHT) / 2 - 0.6 }, copy.name, 2.3, rest);
  const [first, second] = rings[0] ?? [];
  const real = first && second ? Math.hypot(second.x - first.x, second.y - first.y) * scale : 0;
  return {
    items: [
      ...rings.map((points) => shape(points, "cut", shownBy(id, "cut-out"))),
      frontArrow(middle, { x: 0, y: -1 }, rings.flat(), id),
      name,
    ],
    known:
      first && second && (rings[0]?.length ?? 0) <= 8
        ? [{ name: `cut-out ${copy.name}, first side`, from: first, to: second, real, scale }]
        : [],
  };
}

function leftOutWords(crowded: readonly Copy[], small: readonly Copy[], scale: number): string {
  const names = (copies: readonly Copy[]): string => {
    const all = namesOf(copies);
    const shown = all.slice(0, 12);
    return all.length > shown.length
      ? `${shown.join(", ")} and ${all.length - shown.length} more`
      : shown.join(", ");
  };
  return [
    ...(crowded.length > 0 ? [`No room on this page for: ${names(crowded)}.`] : []),
    ...(small.length > 0 ? [`Too small to cut at ${scaleWords(scale)}: ${names(small)}.`] : []),
  ].join(" ");
}
