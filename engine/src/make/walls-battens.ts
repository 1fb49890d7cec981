/** Battens that hold a covering at its foot and its top. */
import type { Stock } from "../document/tables.ts";
import { spans } from "../measure/spans.ts";
import { TOUCH } from "../tolerances.ts";
import type { Run } from "./model.ts";
import { scarfed } from "./scarf.ts";
import { tooMany } from "./trims.ts";
import { holesOf, outlineOf, topAt, type Hanging } from "./walls-face.ts";

/** Two battens, at the bottom and the top, broken where openings or masses stand in their way, from sticks of a stock where there is one yet. */
export function battensOf(hanging: Hanging, stock: Stock | undefined): readonly Run[] {
  const { covering, facing } = hanging;
  const face = stock?.width ?? 0;
  const top = Math.min(topAt(hanging, 0), topAt(hanging, facing.length));
  return [
    { where: "bottom", up: covering.low },
    { where: "top", up: Math.max(covering.low, top - face) },
  ].flatMap(({ where, up }) =>
    // A batten of no stock yet has no width, and a door is in its way all the same.
    spans(facing.length, battenGaps(hanging, up, up + Math.max(face, TOUCH)))
      .filter(([from, to]) => to - from > TOUCH)
      .map(([from, to], index) => battenOf(hanging, { where, up, from, to, number: index + 1 }, stock)),
  );
}

function battenGaps(hanging: Hanging, low: number, high: number): readonly (readonly [number, number])[] {
  return holesOf(hanging, outlineOf(hanging)).flatMap(({ outline }) => {
    const ys = outline.map(({ y }) => y);
    const xs = outline.map(({ x }) => x);
    const inTheWay = Math.min(...ys) < high && Math.max(...ys) > low;
    return inTheWay ? [[Math.min(...xs), Math.max(...xs)] as const] : [];
  });
}

interface Batten {
  readonly where: string;
  readonly up: number;
  readonly from: number;
  readonly to: number;
  readonly number: number;
}

function battenOf({ covering, facing, room }: Hanging, batten: Batten, stock: Stock | undefined): Run {
  const { where, up, from, to, number } = batten;
  const { wall } = facing.line;
  const told = {
    id: `${covering.id}~${wall.id}~${where}${number}`,
    name: `Batten ${wall.name} ${where} ${number}`,
    length: to - from,
    because: [covering.id, ...(stock === undefined ? [] : [stock.id])],
  };
  return {
    ...told,
    wall: wall.id,
    room: room.room.id,
    from,
    to,
    up,
    pieces: tooMany(told.length, stock) ? [] : scarfed(told, stock),
  };
}
