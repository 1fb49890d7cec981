/** The plan with everything that stands in the room: coverings, neighbours, pieces with name and front, and snag marks. */
import type { Point } from "../plane/point.ts";
import { planWords, roomPlan, type Drawn, type PlanWish } from "../measure/sheet.ts";
import { onPaper } from "../measure/frame.ts";
import {
  boxOf,
  boxOfPoints,
  boxShape,
  CAP_HEIGHT,
  letters,
  line,
  moved,
  ring,
  shape,
  shownBy,
  type Box,
} from "../sheet/drafting.ts";
import type { LabelPlace } from "../sheet/labels.ts";
import { textWidth } from "../sheet/type.ts";
import type { Frame, Ink, Item, KnownLength, Lettering } from "../sheet/vocabulary.ts";
import type { Level, Snag } from "../snags/snag.ts";
import type { Arrangement, LaidCovering, Standing, StandingNeighbour } from "./model.ts";

export interface ArrangedPlanWish extends Omit<PlanWish, "room"> {
  readonly arrangement: Arrangement;
  /** Snags to mark at their place, numbered as they are listed. */
  readonly snags?: readonly Snag[];
  /** A small picture leaves out the names of things, which would crowd it; "all" where it is not said. */
  readonly names?: "all" | "none";
}

/** How much a label dislikes lying over another piece, against over other lettering (1). */
const OVER_A_PIECE = 0.5;
/** Beyond this many pieces a name stands inside its piece or not at all: nobody reads it any more. */
const MANY_PIECES = 600;
const NAME_SIZE = 2.4;

/** The whole plan as items with its named lengths. */
export function arrangedPlan(wish: ArrangedPlanWish): Drawn {
  const { arrangement, frame, field } = wish;
  const roomWish: PlanWish = { ...wish, room: arrangement.room };
  const named = wish.names !== "none";
  const room = roomPlan(roomWish);
  const seen = arrangement.standing.map((standing) => ({ standing, rings: ringsOnPaper(frame, standing) }));
  for (const { rings } of seen)
    for (const points of rings) field.keepClear(boxOfPoints(points), OVER_A_PIECE);
  for (const { standing, rings } of seen)
    field.keepClear(
      boxOf(frontArrow(onPaper(frame, standing.placement), standing.front, rings.flat(), "")),
      1,
    );
  const marks = (wish.snags ?? []).flatMap((snag, index) => snagMark(wish, snag, index + 1));
  const largestFirst = seen
    .map(({ standing, rings }) => ({ standing, box: boxOfPoints(rings.flat()) }))
    .toSorted((a, b) => areaOf(b.box) - areaOf(a.box));
  const names = largestFirst.flatMap(({ standing, box }) =>
    field.place(namePlaces(standing, box, seen.length > MANY_PIECES)),
  );
  const neighbours = arrangement.neighbours.map((one) => neighbourItems(wish, one));
  return {
    items: [
      ...arrangement.coverings.flatMap((laid) => coveringItems(frame, laid)),
      ...room.items,
      ...neighbours.flatMap((drawn) =>
        named ? drawn.items : drawn.items.filter(({ kind }) => kind !== "lettering"),
      ),
      ...seen.flatMap(({ standing, rings }) => pieceItems(frame, standing, rings)),
      ...(named ? names : []),
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

function ringsOnPaper(frame: Frame, standing: Standing): readonly (readonly Point[])[] {
  return standing.outline.map((points) => points.map((point) => onPaper(frame, point)));
}

function pieceItems(frame: Frame, standing: Standing, rings: readonly (readonly Point[])[]): readonly Item[] {
  const { id } = standing.placement;
  const pen = standing.piece.layer === "accessory" ? "cut" : "outline";
  const body = rings.map((points) => shape(points, pen, { ...shownBy(id), fill: { ink: "sheet" } }));
  const inner =
    standing.blocks.length > 1
      ? standing.blocks.map(({ outline }) =>
          shape(
            outline.map((point) => onPaper(frame, point)),
            "dimension",
            { ...shownBy(id, "block"), ink: "graphite-soft" },
          ),
        )
      : [];
  return [
    ...body,
    ...inner,
    frontArrow(onPaper(frame, standing.placement), standing.front, rings.flat(), id),
  ];
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

/** Where a piece's name can stand: in it, in two rows in it, upright in it, then beside it with a leader. */
function* namePlaces(standing: Standing, box: Box, insideOnly: boolean): Iterable<LabelPlace> {
  const centre = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
  const rest = shownBy(standing.placement.id, "label");
  const inside = insideNames(standing.name, centre, rest).filter(({ lettering }) => {
    const words = lettering.map((item) => ({ long: textWidth(item.text, item.face, item.size), item }));
    const long = Math.max(...words.map((word) => word.long)) + 0.8;
    const tall = NAME_SIZE * 1.1 * words.length;
    const upright = words[0]?.item.turn === 90;
    return (upright ? tall : long) <= box.right - box.left && (upright ? long : tall) <= box.bottom - box.top;
  });
  yield* inside;
  if (!insideOnly) yield* besideNames(standing.name, box, rest);
}

function insideNames(name: string, at: Point, rest: Partial<Lettering>): readonly LabelPlace[] {
  const row = (text: string, rise: number, turn: 0 | 90): Lettering => {
    const drop = rise + (NAME_SIZE * CAP_HEIGHT) / 2;
    return letters(turn === 0 ? moved(at, 0, drop) : moved(at, drop, 0), text, NAME_SIZE, {
      ...rest,
      align: "middle",
      turn,
    });
  };
  const cut = splitNear(name);
  return ([0, 90] as const).flatMap((turn, index) => [
    {
      lettering: [row(name, 0, turn)],
      cost: index - OVER_A_PIECE * textWidth(name, "sans", NAME_SIZE) * NAME_SIZE,
    },
    ...(cut
      ? [
          {
            lettering: [row(cut[0], -1.4, turn), row(cut[1], 1.4, turn)],
            cost: index + 0.5 - OVER_A_PIECE * textWidth(name, "sans", NAME_SIZE) * NAME_SIZE,
          },
        ]
      : []),
  ]);
}

/** A name of several words in two rows, as even as can be. */
function splitNear(name: string): readonly [string, string] | undefined {
  const middle = name.length / 2;
  let best: number | undefined;
  for (let at = name.indexOf(" "); at > 0; at = name.indexOf(" ", at + 1))
    if (best === undefined || Math.abs(at - middle) < Math.abs(best - middle)) best = at;
  return best === undefined ? undefined : [name.slice(0, best), name.slice(best + 1)];
}

function* besideNames(name: string, box: Box, rest: Partial<Lettering>): Iterable<LabelPlace> {
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const size = 2.1;
  const rise = size * CAP_HEIGHT;
  for (const [index, off] of [0.9, 4, 8, 13].entries()) {
    const sides: readonly [Point, Point, Lettering["align"], number][] = [
      [{ x, y: box.top }, { x, y: box.top - off }, "middle", 0],
      [{ x, y: box.bottom }, { x, y: box.bottom + off }, "middle", rise],
      [{ x: box.right, y }, { x: box.right + off, y }, "start", rise / 2],
      [{ x: box.left, y }, { x: box.left - off, y }, "end", rise / 2],
      [{ x: box.right, y: box.top }, { x: box.right + off * 0.7, y: box.top - off * 0.7 }, "start", 0],
      [{ x: box.left, y: box.bottom }, { x: box.left - off * 0.7, y: box.bottom + off * 0.7 }, "end", rise],
      [
        { x: box.right, y: box.bottom },
        { x: box.right + off * 0.7, y: box.bottom + off * 0.7 },
        "start",
        rise,
      ],
      [{ x: box.left, y: box.top }, { x: box.left - off * 0.7, y: box.top - off * 0.7 }, "end", 0],
    ];
    yield* sides.map(([edge, at, align = "middle", drop], side): LabelPlace => ({
      lettering: [letters(moved(at, 0, drop), name, size, { ...rest, align })],
      ...(index > 0
        ? {
            leader: line([edge, at], "dimension", {
              ...shownBy(rest.record, "leader"),
              ink: "graphite-soft",
            }),
          }
        : {}),
      cost: index * 1.5 + side * 0.1,
    }));
  }
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

function neighbourItems(wish: ArrangedPlanWish, { neighbour, outline }: StandingNeighbour): Drawn {
  const points = outline.map((point) => onPaper(wish.frame, point));
  if (points.length < 3) return { items: [], known: [] };
  const box = boxOfPoints(points);
  wish.field.keepClear(box, OVER_A_PIECE);
  const places = besideNames(neighbour.name, box, shownBy(neighbour.id, "label"));
  const body = shape(points, "outline", {
    ...shownBy(neighbour.id),
    fill: { ink: "graphite-soft", hatch: { turn: -45, apart: 1.8 } },
  });
  return { items: [body, ...wish.field.place(places)], known: [] };
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
