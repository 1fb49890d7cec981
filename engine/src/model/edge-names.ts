/**
 * Numbers and names on edges that meet. Corners are numbered 1, 2, … in the room's order, then the feet of the walls;
 * both parts at an edge wear the same text: "A-B | B-C  2". An edge that meets no board has none.
 */
import type { Point } from "../plane/point.ts";
import { boundsOf } from "../plane/outline.ts";
import type { CardModel, CardPart } from "./model.ts";

/** A name along an edge of a part, in the part's axes. The part lies to the left of the line from `from` to `to`. */
export interface EdgeName {
  readonly number: number;
  readonly text: string;
  readonly from: Point;
  readonly to: Point;
  readonly record: string;
}

/** The names on the edges of every part, by the part's id. */
export function edgeNames(model: CardModel): ReadonlyMap<string, readonly EdgeName[]> {
  const sides = sidesOf(model);
  const walls = new Map(model.walls.map((part) => [part.id, part]));
  const names = new Map<string, readonly EdgeName[]>();
  const floor: EdgeName[] = [];
  sides.forEach((side, index) => {
    const part = walls.get(`card~${side.wall}`);
    if (!part) return;
    const foot = { number: sides.length + index + 1, text: `floor | ${side.name}`, record: side.wall };
    // Inside the room lies to the right of a wall seen from its left end.
    floor.push({ ...foot, from: side.right, to: side.left });
    const [before, after] = neighboursOf(sides, index);
    const corner = (number: number, a: Side, b: Side): Pick<EdgeName, "number" | "text" | "record"> => ({
      number,
      text: `${a.name} | ${b.name}`,
      record: part.id.slice("card~".length),
    });
    const own = edgesOf(part);
    names.set(part.id, [
      { ...foot, ...own.foot },
      ...(walls.has(`card~${before.side.wall}`)
        ? [{ ...corner(before.number, before.side, side), ...own.left }]
        : []),
      ...(walls.has(`card~${after.side.wall}`)
        ? [{ ...corner(after.number, side, after.side), ...own.right }]
        : []),
    ]);
  });
  return names.set(model.floor.id, floor);
}

interface Side {
  readonly wall: string;
  /** Empty for a side without a board, which no edge speaks of. */
  readonly name: string;
  readonly left: Point;
  readonly right: Point;
}

/** The sides of the floor in the room's order, as its part has them first among what is drawn on it. */
function sidesOf({ floor, walls }: CardModel): readonly Side[] {
  const names = new Map(walls.map(({ id, name }) => [id, name.slice("Wall ".length)]));
  return floor.drawn.slice(0, floor.outline.length).flatMap(({ record, points }) => {
    const [left, right] = points;
    return left && right ? [{ wall: record, name: names.get(`card~${record}`) ?? "", left, right }] : [];
  });
}

/** The sides at a side's left and right end, each with the number of the corner between; a corner's number is that of the side it begins. */
function neighboursOf(
  sides: readonly Side[],
  index: number,
): readonly [
  { readonly side: Side; readonly number: number },
  { readonly side: Side; readonly number: number },
] {
  const here = sides[index]!;
  const [last, next] = [sides.at(index - 1)!, sides[(index + 1) % sides.length]!];
  const start = { side: last, number: index + 1 };
  const end = { side: next, number: ((index + 1) % sides.length) + 1 };
  return next.left.x === here.right.x && next.left.y === here.right.y ? [start, end] : [end, start];
}

function edgesOf({ outline }: CardPart): {
  readonly [E in "foot" | "left" | "right"]: Pick<EdgeName, "from" | "to">;
} {
  const { left, right, bottom } = boundsOf(outline);
  const topAt = (x: number): number =>
    outline.reduce((most, point) => (Math.abs(point.x - x) < 1e-6 ? Math.max(most, point.y) : most), bottom);
  return {
    foot: { from: { x: left, y: bottom }, to: { x: right, y: bottom } },
    right: { from: { x: right, y: bottom }, to: { x: right, y: topAt(right) } },
    left: { from: { x: left, y: topAt(left) }, to: { x: left, y: bottom } },
  };
}
