/** What runs along the walls of the plan: openings with leaf and swing, and the front of the base trim. */
import { boxOf, line, moved, shownBy } from "../sheet/drafting.ts";
import { boxesAlong } from "../sheet/labels.ts";
import type { Item } from "../sheet/vocabulary.ts";
import type { Point } from "../plane/point.ts";
import { alongWall, onPaper, type WallLine } from "./frame.ts";
import type { TrueOpening } from "./model.ts";
import type { Drawn, PlanWish } from "./sheet.ts";
import { spans } from "./spans.ts";
import { takesTrim } from "./trim-stretches.ts";

/** An opening in its wall, and its width as a named length. Empty where the room has no such wall. */
export function drawOpening(wish: PlanWish, seen: TrueOpening, lines: readonly WallLine[]): Drawn {
  const wall = lines.find((candidate) => candidate.wall.id === seen.wall);
  if (!wall) return { items: [], known: [] };
  const { opening } = seen;
  const [start, end] = [onPaper(wish.frame, seen.start), onPaper(wish.frame, seen.end)];
  const out = { x: wall.out.x, y: -wall.out.y };
  const jambs = [start, end].map((at) =>
    line(
      [moved(at, -out.x * 0.6, -out.y * 0.6), moved(at, out.x * 1.8, out.y * 1.8)],
      "outline",
      shownBy(opening.id, "jamb"),
    ),
  );
  const sill = line([start, end], "dimension", shownBy(opening.id, "sill"));
  const inner =
    opening.kind === "window"
      ? [0.6, 1.2].map((off) =>
          line(
            [moved(start, out.x * off, out.y * off), moved(end, out.x * off, out.y * off)],
            "dimension",
            shownBy(opening.id, "glass"),
          ),
        )
      : doorLeaf(wish, seen, wall);
  for (const item of inner) wish.field.keepClear(boxOf(item), 0.3);
  for (const box of boxesAlong([start, end])) wish.field.keepClear(box, 1);
  return {
    items: [sill, ...inner, ...jambs],
    known: [
      { name: `${opening.name} width`, from: start, to: end, real: opening.width, scale: wish.frame.scale },
    ],
  };
}

/** The leaf standing open at a right angle and the arc it sweeps; nothing where nobody said how the door hangs. */
function doorLeaf(wish: PlanWish, seen: TrueOpening, wall: WallLine): readonly Item[] {
  const { opening, start, end } = seen;
  if (opening.hinge === undefined || opening.opens === undefined) return [];
  const [hinge, latch] = opening.hinge === wall.wall.from ? [start, end] : [end, start];
  const side = opening.opens === "in" ? -1 : 1;
  const open = { x: wall.out.x * side, y: wall.out.y * side };
  const tip = { x: hinge.x + open.x * opening.width, y: hinge.y + open.y * opening.width };
  const angle = (to: Point): number => (Math.atan2(to.y - hinge.y, to.x - hinge.x) * 180) / Math.PI;
  const [leaf, shut] = [angle(tip), angle(latch)];
  const sweep = (((shut - leaf) % 360) + 360) % 360;
  const [from, to] = sweep < 180 ? [leaf, leaf + sweep] : [shut, shut + (360 - sweep)];
  const centre = onPaper(wish.frame, hinge);
  return [
    line([centre, onPaper(wish.frame, tip)], "outline", shownBy(opening.id, "leaf")),
    {
      kind: "arc",
      centre,
      radius: opening.width / wish.frame.scale,
      from,
      to,
      pen: "dimension",
      ...shownBy(opening.id, "swing"),
    },
  ];
}

/** The front of the base trim, mitred where two walls with trim meet, broken at doors. */
export function baseLine(wish: PlanWish, lines: readonly WallLine[]): readonly Item[] {
  const depth = wish.room.baseDepth;
  if (!(depth > 0)) return [];
  return lines.flatMap((wall, index) => {
    if (!takesTrim(wall.wall)) return [];
    const before = lines.at(index - 1);
    const after = lines[(index + 1) % lines.length];
    const start = mitre(before, wall, depth);
    const end = wall.wall.length - mitre(wall, after, depth, true);
    const gaps = wish.room.openings
      .filter((opening) => opening.wall === wall.wall.id && opening.opening.sill < 1)
      .map(({ along, opening }): [number, number] => {
        const casing = opening.casing ?? 0;
        return [along - casing, along + opening.width + casing];
      });
    return spans(end, [[0, Math.max(0, start)], ...gaps]).map(([a, b]) =>
      line(
        [alongWall(wall, a, -depth), alongWall(wall, b, -depth)].map((point) => onPaper(wish.frame, point)),
        "dimension",
        shownBy(wall.wall.id, "base"),
      ),
    );
  });
}

/** How far from the corner the trim's front line begins: depth / tan(half the inside angle), 0 beside a side that takes no trim. */
function mitre(
  first: WallLine | undefined,
  second: WallLine | undefined,
  depth: number,
  atEnd = false,
): number {
  if (!first || !second || !takesTrim(first.wall) || !takesTrim(second.wall)) return 0;
  const corner = atEnd ? first.to : second.from;
  const half = (corner.angle * Math.PI) / 360;
  return half > 0.05 && half < Math.PI - 0.05 ? depth / Math.tan(half) : 0;
}
