/**
 * Strips of wall covering on their true wall, side by side from the left as seen from inside. Between two ends the
 * number of strips is ⌈(wall + turns − lap) ÷ (width − lap)⌉, and the set is shifted so that the first and the last
 * come out equally wide (common practice, no source):
 *
 *        turn │ 1        │ 2          │ 3        │ turn
 *         ┄┄┄┄┃┈┈┈┈┈┈┈┈┈┈│┈┈┈┈┈┈┈┈┈┈┈┈│┈┈┈┈┈┈┈┈┈┈┃┄┄┄┄    carried round an inside corner
 *             ┃          │░ lap       │░         ┃
 *             ┗━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━┛
 *
 * A mass of the venue's that stands before the whole height parts the wall in faces, each with a set of its own; the
 * mass itself stays bare. A strip hangs over an opening and is trimmed to its casing; one that lies wholly within a door
 * is cut only from the door's head up.
 */
import { listed, type ShowDocument, type Stock } from "../document/tables.ts";
import { facingWall } from "../measure/facing.ts";
import type { TrueRoom } from "../measure/model.ts";
import { cut } from "../plane/clip.ts";
import { ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { figureOf } from "../snags/catalogue.ts";
import { solveLengths } from "../solve/lengths.ts";
import type { Strip, WallWork } from "./model.ts";
import { stockOf } from "./stocks.ts";
import { battensOf } from "./walls-battens.ts";
import { holesOf, outlineOf, type Hanging } from "./walls-face.ts";
import { stripsOf } from "./walls-strips.ts";

/** One for each covering whose wall has a shape and whose stock comes on rolls, in listed order. */
export function wallWorks(
  document: Pick<ShowDocument, "wallCoverings" | "stocks">,
  rooms: readonly TrueRoom[],
): readonly WallWork[] {
  return listed(document.wallCoverings).flatMap((covering) => {
    const room = rooms.find((one) => one.room.id === covering.room);
    const stock = stockOf(document, covering.stock, "roll");
    const facing = room && facingWall(room, `${covering.from}~${covering.to}`);
    if (!room || !facing || !stock) return [];
    return [workOf({ room, covering, stock, facing }, stockOf(document, covering.batten, "stick"))];
  });
}

function workOf(hanging: Hanging, batten: Stock | undefined): WallWork {
  const { room, covering, stock, facing } = hanging;
  const { wall } = facing.line;
  const outline = outlineOf(hanging);
  const holes = holesOf(hanging, outline);
  const strips = takesPaper(hanging) ? stripsOf(hanging) : [];
  return {
    covering,
    stock,
    name: wall.name,
    wall: wall.id,
    room: room.room.id,
    outline,
    holes: holes
      .filter(({ mass }) => !mass)
      .map(({ opening, outline: ring }) => ({ opening, outline: ring })),
    strips,
    ends: [widthOf(strips[0]), widthOf(strips.at(-1))],
    ...rollsOf(strips, stock),
    area: areaOf(
      cut(
        [outline],
        holes.map((hole) => hole.outline),
      ),
    ),
    battens: covering.fixing === "battens" && takesPaper(hanging) ? battensOf(hanging, batten) : [],
  };
}

/** Whether strips can be told at all: a wall to hang them on, a lap less than the roll, a number that can be told. */
function takesPaper({ covering, stock, facing }: Hanging): boolean {
  const { open, glass, refused } = facing.line.wall;
  if (open || glass || refused || covering.lap >= stock.width) return false;
  return facing.length / (stock.width - covering.lap) <= figureOf("too-many-to-cut", "most", "");
}

function areaOf(rings: readonly (readonly Point[])[]): number {
  return Math.abs(rings.reduce((sum, ring) => sum + ringArea(ring), 0));
}

function widthOf(strip: Strip | undefined): number {
  return strip === undefined ? 0 : strip.right - strip.left;
}

function rollsOf(
  strips: readonly Strip[],
  stock: Stock,
): { readonly rolls: number; readonly perRoll: number } {
  const longest = Math.max(0, ...strips.map((strip) => strip.length));
  if (longest === 0 || longest > stock.length) return { rolls: 0, perRoll: 0 };
  const plan = solveLengths({ stock: stock.length, kerf: 0, parts: strips });
  return { rolls: plan.sticks.length, perRoll: Math.floor(stock.length / longest + 1e-9) };
}
