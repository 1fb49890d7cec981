/** Where the name of something that stands on the floor may be lettered, best place first. Thought of one by one: most stand well at their first. */
import { contains } from "../measure/outline.ts";
import type { Point } from "../plane/point.ts";
import { boxOf, CAP_HEIGHT, letters, line, moved, shownBy, type Box } from "../sheet/drafting.ts";
import type { LabelPlace } from "../sheet/labels.ts";
import { textWidth } from "../sheet/type.ts";
import type { Lettering } from "../sheet/vocabulary.ts";

/** How much a label dislikes lying over another piece, against over other lettering (1). */
export const OVER_A_PIECE = 0.5;
const NAME_SIZE = 2.4;

export interface NameWish {
  readonly name: string;
  /** Record the name belongs to. */
  readonly record: string;
  /** Outlines on paper. */
  readonly rings: readonly (readonly Point[])[];
  /** The upright box round them. */
  readonly box: Box;
}

/** Inside an outline: in one row, in two, upright. Only where all of the lettering lies in it. */
export function* insideNames(wish: NameWish): Iterable<LabelPlace> {
  const { name, rings, box } = wish;
  const at = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
  const rest = { ...shownBy(wish.record, "label"), align: "middle" } as const;
  // Its own piece is kept clear for others; a name in its own piece has that back.
  const own = OVER_A_PIECE * textWidth(name, "sans", NAME_SIZE) * NAME_SIZE;
  const cut = splitNear(name);
  for (const turn of [0, 90] as const) {
    const room = turn === 0 ? box.right - box.left : box.bottom - box.top;
    const row = (text: string, rise: number): Lettering => {
      const drop = rise + (NAME_SIZE * CAP_HEIGHT) / 2;
      const base = turn === 0 ? moved(at, 0, drop) : moved(at, drop, 0);
      return letters(base, text, NAME_SIZE, { ...rest, turn });
    };
    if (textWidth(name, "sans", NAME_SIZE) + 0.8 <= room) {
      const lettering = [row(name, 0)];
      if (liesWithin(lettering, rings)) yield { lettering, cost: turn / 90 - own };
    }
    if (cut && Math.max(...cut.map((text) => textWidth(text, "sans", NAME_SIZE))) + 0.8 <= room) {
      const lettering = [row(cut[0], -1.4), row(cut[1], 1.4)];
      if (liesWithin(lettering, rings)) yield { lettering, cost: turn / 90 + 0.5 - own };
    }
  }
}

/** Whether every corner of the lettering's boxes lies inside one of the outlines. */
function liesWithin(lettering: readonly Lettering[], rings: readonly (readonly Point[])[]): boolean {
  return lettering.every((item) => {
    const { left, right, top, bottom } = boxOf(item);
    return [left, right].every((x) =>
      [top, bottom].every((y) => rings.some((ring) => contains(ring, { x, y }))),
    );
  });
}

/** A name of several words in two rows, as even as can be. */
function splitNear(name: string): readonly [string, string] | undefined {
  const middle = name.length / 2;
  let best: number | undefined;
  for (let at = name.indexOf(" "); at > 0; at = name.indexOf(" ", at + 1))
    if (best === undefined || Math.abs(at - middle) < Math.abs(best - middle)) best = at;
  return best === undefined ? undefined : [name.slice(0, best), name.slice(best + 1)];
}

/** Beside an upright box: close by on its eight sides, then further off with a leader. */
export function* besideNames({ name, box, record }: Omit<NameWish, "rings">): Iterable<LabelPlace> {
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const rest = shownBy(record, "label");
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
    for (const [side, [edge, at, align = "middle", drop]] of sides.entries())
      yield {
        lettering: [letters(moved(at, 0, drop), name, size, { ...rest, align })],
        ...(index > 0
          ? {
              leader: line([edge, at], "dimension", {
                ...shownBy(record, "leader"),
                ink: "graphite-soft",
              }),
            }
          : {}),
        cost: index * 1.5 + side * 0.1,
      };
  }
}
