/** The plan with everything that stands in the room: coverings, neighbours, pieces with name and front, and snag marks. */
import type { Point } from "../plane/point.ts";
import { planWords, roomPlan, type Drawn, type PlanWish } from "../measure/sheet.ts";
import { onPaper } from "../measure/frame.ts";
import {
  boxOf,
  boxOfPoints,
  boxShape,
  letters,
  moved,
  onPlate,
  ring,
  shape,
  shownBy,
  type Box,
} from "../sheet/drafting.ts";
import type { LabelField, LabelPlace } from "../sheet/labels.ts";
import type { Frame, Ink, Item, KnownLength } from "../sheet/vocabulary.ts";
import type { Level, Snag } from "../snags/snag.ts";
import { besideNames, insideNames, OVER_A_PIECE, type NameWish } from "./names.ts";
import type { Arrangement, LaidCovering, Mounted, Standing, StandingNeighbour } from "./model.ts";

export interface ArrangedPlanWish extends Omit<PlanWish, "room"> {
  readonly arrangement: Arrangement;
  /** Snags to mark at their place, numbered as they are listed. */
  readonly snags?: readonly Snag[];
  /** A small picture leaves out the names of things, which would crowd it; "all" where it is not said. */
  readonly names?: "all" | "none";
}

/** How much lettering dislikes an outline through it, at boxes so far apart and half so large, mm. */
const OVER_AN_EDGE = 1.6;
const EDGE_STEP = 2.4;
const EDGE_HALF = 0.75;
/** Beyond this many pieces a name stands inside its piece or not at all: nobody reads it any more. */
const MANY_PIECES = 600;
/** Beyond this many a piece is its outline alone, one item a ring: no name, no front, no inner outlines. A sheet stays as large as its outlines. */
const OUTLINES_ONLY = 2000;

/** The whole plan as items with its named lengths. */
export function arrangedPlan(wish: ArrangedPlanWish): Drawn {
  const { arrangement, frame } = wish;
  const roomWish: PlanWish = { ...wish, room: arrangement.room };
  const named = wish.names !== "none";
  const room = roomPlan(roomWish);
  const seen = seenFromAbove(wish);
  const marks = (wish.snags ?? []).flatMap((snag, index) => snagMark(wish, snag, index + 1));
  const names = named ? pieceNames(wish, seen) : [];
  const neighbours = arrangement.neighbours.flatMap((one) => neighbourItems(wish, one));
  return {
    items: [
      ...arrangement.coverings.flatMap((laid) => coveringItems(frame, laid)),
      ...room.items,
      ...neighbours,
      ...arrangement.mounted.flatMap((one) => mountItems(frame, one)),
      ...seen.flatMap((one) => pieceItems(one, seen.length > OUTLINES_ONLY)),
      ...names,
      ...room.signs,
      ...(named
        ? [...arrangement.coverings.flatMap((laid) => coveringName(wish, laid)), ...planWords(roomWish)]
        : []),
      ...marks,
    ],
    known: [
      ...room.known,
      ...arrangement.coverings.flatMap(({ covering, outline }) => longestSide(covering.name, frame, outline)),
      ...arrangement.standing.flatMap(({ name, outline }) => longestSide(name, frame, outline[0] ?? [])),
    ],
  };
}

/** A piece as it lies on paper. */
interface Seen {
  readonly standing: Standing;
  readonly rings: readonly (readonly Point[])[];
  readonly box: Box;
  readonly front: Item;
  readonly blocks: readonly (readonly Point[])[];
}

/** Every piece on paper; the field keeps clear of them. */
function seenFromAbove({ arrangement, frame, field }: ArrangedPlanWish): readonly Seen[] {
  const paper = (points: readonly Point[]): readonly Point[] => points.map((point) => onPaper(frame, point));
  const many = arrangement.standing.length > MANY_PIECES;
  // What lies on another is drawn over it, and what hangs over all.
  return lowestFirst(arrangement.standing).map((standing) => {
    const rings = standing.outline.map(paper);
    const outline = rings.flat();
    const middle = onPaper(frame, standing.stand);
    const front = frontArrow(middle, standing.front, outline, standing.placement.id);
    for (const points of rings) field.keepClear(boxOfPoints(points), OVER_A_PIECE);
    if (!many) for (const points of rings) keepEdgesClear(field, points);
    field.keepClear(boxOf(front), 1);
    const blocks = standing.blocks.length > 1 ? standing.blocks.map((block) => paper(block.outline)) : [];
    return { standing, rings, box: boxOfPoints(outline), front, blocks };
  });
}

/** The standing in their order, but none before what it lies on or hangs over. */
function lowestFirst(standing: readonly Standing[]): readonly Standing[] {
  return standing.some(({ low }) => low > 0) ? standing.toSorted((a, b) => a.low - b.low) : standing;
}

/** What is fixed to a wall, as it stands out from it. Its name stands on the elevation. */
function mountItems(frame: Frame, { mount, outline }: Mounted): readonly Item[] {
  return outline.map((points) =>
    shape(
      points.map((point) => onPaper(frame, point)),
      "cut",
      { ...shownBy(mount.id), fill: { ink: "sheet" } },
    ),
  );
}

/** Small boxes dropped along an outline, near enough for any word to meet one. Plain loops: every piece is walked after each change. */
function keepEdgesClear(field: LabelField, outline: readonly Point[]): void {
  let left = EDGE_STEP;
  let from = outline.at(-1);
  for (const to of outline) {
    if (!from) return;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    for (; left <= length; left += EDGE_STEP) {
      const x = from.x + ((to.x - from.x) * left) / length;
      const y = from.y + ((to.y - from.y) * left) / length;
      field.keepClear(
        { left: x - EDGE_HALF, right: x + EDGE_HALF, top: y - EDGE_HALF, bottom: y + EDGE_HALF },
        OVER_AN_EDGE,
      );
    }
    left -= length;
    from = to;
  }
}

/** Names of pieces, the largest first, because a small one has more places. A name over inner outlines has bare paper under it. */
function pieceNames({ field }: ArrangedPlanWish, seen: readonly Seen[]): readonly Item[] {
  if (seen.length > OUTLINES_ONLY) return [];
  return seen
    .toSorted((a, b) => areaOf(b.box) - areaOf(a.box))
    .flatMap(({ standing, rings, box, blocks }) => {
      const wanted = { name: standing.name, record: standing.placement.id, rings, box };
      // What lies on something bears its name where it has room for it, and nowhere else.
      const insideOnly = seen.length > MANY_PIECES || standing.on !== undefined;
      const items = field.place(namePlaces(wanted, insideOnly));
      return blocks.length > 0 ? onPlate(items) : items;
    });
}

function* namePlaces(wanted: NameWish, insideOnly: boolean): Iterable<LabelPlace> {
  yield* insideNames(wanted);
  if (!insideOnly) yield* besideNames(wanted);
}

function pieceItems({ standing, rings, front, blocks }: Seen, outlinesOnly: boolean): readonly Item[] {
  const { id } = standing.placement;
  if (standing.on === undefined && standing.low > 0) {
    // What hangs is dashed, and what stands under it shows.
    return rings.map((points) => shape(points, "fold", shownBy(id)));
  }
  const pen = standing.piece.layer === "accessory" ? "cut" : "outline";
  const body = rings.map((points) => shape(points, pen, { ...shownBy(id), fill: { ink: "sheet" } }));
  if (outlinesOnly) return body;
  const inner = blocks.map((points) =>
    shape(points, "dimension", { ...shownBy(id, "block"), ink: "graphite-soft" }),
  );
  return [...body, ...inner, front];
}

/** A small dark arrowhead inside the front edge, its tip towards the front; smaller in a small piece. `front` is in room axes. */
export function frontArrow(middle: Point, front: Point, outline: readonly Point[], record: string): Item {
  const ahead = { x: front.x, y: -front.y };
  const reach = outline.reduce(
    (far, point) => Math.max(far, (point.x - middle.x) * ahead.x + (point.y - middle.y) * ahead.y),
    0,
  );
  const size = Math.min(2, reach * 0.45);
  const tip = reach - size * 0.25;
  const at = (forward: number, aside: number): Point =>
    moved(middle, ahead.x * forward - ahead.y * aside, ahead.y * forward + ahead.x * aside);
  return shape([at(tip, 0), at(tip - size, size * 0.55), at(tip - size, -size * 0.55)], "dimension", {
    ...shownBy(record, "front"),
    fill: { ink: "graphite" },
  });
}

function coveringItems(frame: Frame, { covering, outline, field }: LaidCovering): readonly Item[] {
  const paper = (points: readonly Point[]): readonly Point[] => points.map((point) => onPaper(frame, point));
  const hatch = { ink: "grid-heavy", hatch: { turn: covering.turn, apart: 2.2 } } as const;
  if (outline.length < 3) return [];
  if (field.length < 3) return [shape(paper(outline), "outline", { ...shownBy(covering.id), fill: hatch })];
  return [
    shape(paper(outline), "outline", { ...shownBy(covering.id), fill: { ink: "sheet" } }),
    shape(paper(field), "dimension", { ...shownBy(covering.id, "field"), fill: hatch }),
  ];
}

/** A covering's name lies along its edges, where pieces seldom stand. */
function coveringName(wish: ArrangedPlanWish, { covering, outline }: LaidCovering): readonly Item[] {
  if (outline.length < 3) return [];
  const box = boxOfPoints(outline.map((point) => onPaper(wish.frame, point)));
  const centre = (box.left + box.right) / 2;
  const rows = [box.bottom - 3.4, box.top + 5, (box.top + box.bottom) / 2 + 0.8, box.bottom + 2.6];
  return wish.field.place(
    rows.flatMap((y, index) =>
      [centre, box.left + 18, box.right - 18].map((x, place) => ({
        lettering: [
          letters({ x, y }, covering.name, 2.3, { align: "middle", ...shownBy(covering.id, "label") }),
        ],
        cost: index * 0.5 + place * 0.2,
      })),
    ),
  );
}

function neighbourItems(wish: ArrangedPlanWish, { neighbour, outline }: StandingNeighbour): readonly Item[] {
  const points = outline.map((point) => onPaper(wish.frame, point));
  if (points.length < 3) return [];
  const box = boxOfPoints(points);
  wish.field.keepClear(box, OVER_A_PIECE);
  const body = shape(points, "outline", {
    ...shownBy(neighbour.id),
    fill: { ink: "graphite-soft", hatch: { turn: -45, apart: 1.8 } },
  });
  if (wish.names === "none") return [body];
  return [body, ...wish.field.place(besideNames({ name: neighbour.name, record: neighbour.id, box }))];
}

function longestSide(name: string, frame: Frame, outline: readonly Point[]): readonly KnownLength[] {
  if (outline.length < 3 || outline.length > 8) return [];
  let best: { readonly from: Point; readonly to: Point; readonly real: number } | undefined;
  outline.forEach((from, index) => {
    const to = outline[(index + 1) % outline.length];
    const real = to ? Math.hypot(to.x - from.x, to.y - from.y) : 0;
    if (to && real > (best?.real ?? 0)) best = { from, to, real };
  });
  if (!best) return [];
  const { from, to, real } = best;
  return [
    {
      name: `${name}, longest side`,
      from: onPaper(frame, from),
      to: onPaper(frame, to),
      real,
      scale: frame.scale,
    },
  ];
}

const areaOf = (box: Box): number => (box.right - box.left) * (box.bottom - box.top);

const MARK_INKS: { readonly [L in Level]: Ink } = { stop: "red", mind: "ochre", know: "moss" };

/** A numbered mark at a snag's place: a square for a stop, a ring for a mind, a triangle for a know. */
function snagMark(wish: ArrangedPlanWish, snag: Snag, number: number): readonly Item[] {
  if (!snag.at || snag.room !== wish.arrangement.room.room.id) return [];
  const at = onPaper(wish.frame, snag.at);
  const things = snag.things[0];
  const rest = {
    ...shownBy(things, `snag ${number}`),
    ink: MARK_INKS[snag.level],
    fill: { ink: "sheet" },
  } as const;
  const r = 1.9;
  const edge =
    snag.level === "stop"
      ? boxShape({ left: at.x - r, top: at.y - r, right: at.x + r, bottom: at.y + r }, "bar", rest)
      : snag.level === "mind"
        ? ring(at, r, "outline", rest)
        : shape([moved(at, 0, -r * 1.3), moved(at, r * 1.3, r), moved(at, -r * 1.3, r)], "outline", rest);
  wish.field.keepClear({ left: at.x - r, top: at.y - r, right: at.x + r, bottom: at.y + r }, 1);
  const word = letters(moved(at, 0, 0.85), `${number}`, number > 99 ? 1.7 : 2.3, {
    face: "sans-bold",
    align: "middle",
    ...shownBy(things, `snag ${number}`),
    ink: MARK_INKS[snag.level],
  });
  return [edge, word];
}
