/** Strips on paper: their seams and numbers, on an elevation or wherever a wall is laid. */
import type { TrueRoom } from "../measure/model.ts";
import { onPaper } from "../measure/frame.ts";
import type { Point } from "../plane/point.ts";
import { CAP_HEIGHT, letters, line, shape } from "../sheet/drafting.ts";
import type { Frame, Item } from "../sheet/vocabulary.ts";
import type { Strip, WallWork } from "./model.ts";

/** The strips of the wall a frame shows; nothing where it shows none of this room's walls. */
export function stripItems(works: readonly WallWork[], frame: Frame, room: TrueRoom): readonly Item[] {
  return works
    .filter((work) => work.wall === frame.wall && work.room === room.room.id)
    .flatMap((work) =>
      stripsOnWall(work, {
        at: (x, y) => onPaper(frame, { x, y }),
        scale: frame.scale,
        length: room.walls.find((wall) => wall.id === work.wall)?.length ?? 0,
      }),
    );
}

export interface OnWall {
  /** Paper point of a place on the wall. */
  readonly at: (x: number, y: number) => Point;
  readonly scale: number;
  /** Of the wall, mm. */
  readonly length: number;
}

/** Seams as thin lines, a light hatch over what is covered, and the number of each strip where there is room for it. */
export function stripsOnWall(work: WallWork, on: OnWall): readonly Item[] {
  return work.strips.flatMap((strip) => oneStrip(work, strip, on));
}

/** Hatches by how a covering is held, so that what is pasted and what hangs loose differ in black alone. */
const HATCH = {
  pasted: { turn: 90, apart: 1.6 },
  battens: { turn: 0, apart: 2.2 },
  magnets: { turn: 45, apart: 2.2 },
  pins: { turn: 135, apart: 2.2 },
  panels: { turn: 60, apart: 2.2 },
} as const;

const TYPE = 2.4;

function oneStrip({ covering }: WallWork, strip: Strip, { at, scale, length }: OnWall): readonly Item[] {
  const [left, right] = [Math.max(0, strip.left), Math.min(length, strip.right)];
  if (right <= left) return [];
  const shown = { record: covering.id, part: strip.id };
  const ring = [
    at(left, strip.low),
    at(right, strip.low),
    at(right, strip.highRight),
    at(left, strip.highLeft),
  ];
  const face = shape(ring, "dimension", {
    ...shown,
    ink: "card-edge",
    fill: { ink: "card", hatch: HATCH[covering.fixing] },
  });
  const lapped =
    covering.lap > 0 && left > 0 && covering.lap / scale > 0.2
      ? [
          line([at(left + covering.lap, strip.low), at(left + covering.lap, strip.highLeft)], "fold", {
            ...shown,
            ink: "card-edge",
          }),
        ]
      : [];
  const text = `${strip.number}`;
  const wide = (right - left) / scale;
  if (wide < text.length * TYPE * 0.62 + 0.6) return [face, ...lapped];
  const middle = at((left + right) / 2, strip.low + Math.min(600, (strip.highLeft - strip.low) / 2));
  const number = letters({ x: middle.x, y: middle.y + (TYPE * CAP_HEIGHT) / 2 }, text, TYPE, {
    ...shown,
    align: "middle",
  });
  return [face, ...lapped, ...plate(middle, text), number];
}

/** A bit of bare paper under a number, so that hatch does not run through it. */
function plate({ x, y }: Point, text: string): readonly Item[] {
  const half = { x: text.length * TYPE * 0.34 + 0.4, y: TYPE * 0.55 };
  const ring = [
    { x: x - half.x, y: y - half.y },
    { x: x + half.x, y: y - half.y },
    { x: x + half.x, y: y + half.y },
    { x: x - half.x, y: y + half.y },
  ];
  return [shape(ring, "grid", { ink: "sheet", fill: { ink: "sheet" } })];
}
