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
import { listed, type ShowDocument, type Stock, type WallCovering } from "../document/tables.ts";
import { facingWall, type FacingWall } from "../measure/facing.ts";
import type { TrueFixture, TrueRoom } from "../measure/model.ts";
import { spans } from "../measure/spans.ts";
import { cut } from "../plane/clip.ts";
import { boundsOf, ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { figureOf } from "../snags/catalogue.ts";
import { solveLengths } from "../solve/lengths.ts";
import { TOUCH } from "../tolerances.ts";
import type { Run, Strip, WallWork } from "./model.ts";
import { scarfed } from "./scarf.ts";
import { stockOf } from "./stocks.ts";
import { tooMany } from "./trims.ts";

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
    return [workOf({ document, room, covering, stock, facing })];
  });
}

interface Hanging {
  readonly document: Pick<ShowDocument, "stocks">;
  readonly room: TrueRoom;
  readonly covering: WallCovering;
  readonly stock: Stock;
  readonly facing: FacingWall;
}

function workOf(hanging: Hanging): WallWork {
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
    battens: covering.fixing === "battens" && takesPaper(hanging) ? battensOf(hanging) : [],
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

/** Top of the covering over a place on the wall: the ceiling, or as high as was said. */
function topAt({ covering, facing }: Hanging, x: number): number {
  const part = facing.length > 0 ? Math.min(1, Math.max(0, x / facing.length)) : 0;
  const ceiling = facing.leftHeight + (facing.rightHeight - facing.leftHeight) * part;
  return Math.max(covering.low, Math.min(covering.high ?? Infinity, ceiling));
}

/** What is covered before openings: the foot from left to right, then the top back again, with a bend where it meets the ceiling. */
function outlineOf(hanging: Hanging): readonly Point[] {
  const { covering, facing } = hanging;
  const { length, leftHeight, rightHeight } = facing;
  const bend =
    covering.high === undefined || leftHeight === rightHeight
      ? -1
      : ((covering.high - leftHeight) / (rightHeight - leftHeight)) * length;
  const tops = bend > 0 && bend < length ? [length, bend, 0] : [length, 0];
  return [
    { x: 0, y: covering.low },
    { x: length, y: covering.low },
    ...tops.map((x) => ({ x, y: topAt(hanging, x) })),
  ];
}

interface Hole {
  readonly opening: string;
  readonly outline: readonly Point[];
  readonly mass: boolean;
}

/** Openings and the venue's masses that lie in the covering, as rectangles on the wall. */
function holesOf({ room, facing, covering }: Hanging, outline: readonly Point[]): readonly Hole[] {
  const high = Math.max(...outline.map(({ y }) => y));
  const wall = facing.line.wall.id;
  const openings = room.openings
    .filter((one) => one.wall === wall)
    .map(({ opening, along }) => ({
      opening: opening.id,
      mass: false,
      outline: boxOnWall(
        facing,
        [along, along + opening.width],
        [opening.sill, opening.sill + opening.height],
      ),
    }));
  const masses = massesOn(room, facing).map((one) => ({ ...one, mass: true }));
  return [...openings, ...masses].filter(({ outline: ring }) => {
    const ys = ring.map(({ y }) => y);
    return Math.min(...ys) < high - TOUCH && Math.max(...ys) > covering.low + TOUCH;
  });
}

/** The venue's masses against a wall, as rectangles on it: they stay bare. */
export function massesOn(
  room: TrueRoom,
  facing: FacingWall,
): readonly { readonly opening: string; readonly outline: readonly Point[] }[] {
  return room.fixtures
    .filter((one) => one.wall === facing.line.wall.id && isMass(one))
    .map((one) => ({
      opening: one.fixture.id,
      outline: boxOnWall(facing, [one.along, one.along + one.fixture.width], [one.low, one.high]),
    }));
}

/** A mass of the venue's against the wall: paper ends at it. */
function isMass({ fixture }: TrueFixture): boolean {
  return (
    (fixture.kind === "projection" || fixture.kind === "column") && fixture.width > 0 && fixture.out <= TOUCH
  );
}

/** An upright rectangle on a wall from a stretch along it (in room order) and two heights, from its lower left round. */
export function boxOnWall(
  facing: FacingWall,
  along: readonly [number, number],
  [low, high]: readonly [number, number],
): readonly Point[] {
  const xs = along.map((at) => facing.x(at));
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  return [
    { x: left, y: low },
    { x: right, y: low },
    { x: right, y: high },
    { x: left, y: high },
  ];
}

/** The faces of the wall between masses that stand before the covering's whole height. */
function facesOf(hanging: Hanging): readonly (readonly [number, number])[] {
  const { room, facing, covering } = hanging;
  const masses = room.fixtures.filter(
    (one) =>
      one.wall === facing.line.wall.id &&
      isMass(one) &&
      one.low <= covering.low + TOUCH &&
      one.high >= Math.min(covering.high ?? Infinity, facing.leftHeight, facing.rightHeight) - TOUCH,
  );
  return spans(
    facing.length,
    masses.map((one) => {
      const xs = [facing.x(one.along), facing.x(one.along + one.fixture.width)];
      return [Math.min(...xs), Math.max(...xs)] as const;
    }),
  ).filter(([from, to]) => to - from > TOUCH);
}

function stripsOf(hanging: Hanging): readonly Strip[] {
  const hung = facesOf(hanging).flatMap((face) => edgesOn(hanging, face));
  return hung
    .flatMap((edges) => {
      const heights = heightsOf(hanging, edges);
      return heights === undefined ? [] : [{ edges, heights }];
    })
    .map(({ edges, heights }, index) => stripOf(hanging, { edges, heights, number: index + 1 }));
}

/** Left and right edges of the strips of one face, as hung: balanced, and trimmed at the two ends. */
function edgesOn(
  { covering, stock, facing, room }: Hanging,
  [from, to]: readonly [number, number],
): readonly (readonly [number, number])[] {
  const start = from - (from === 0 ? turnAt(room, facing, covering, "left") : 0);
  const end = to + (to === facing.length ? turnAt(room, facing, covering, "right") : 0);
  const step = stock.width - covering.lap;
  const count = Math.max(1, Math.ceil((end - start - covering.lap) / step - 1e-9));
  const excess = count * step + covering.lap - (end - start);
  return Array.from({ length: count }, (_, index): readonly [number, number] => {
    const left = start - excess / 2 + index * step;
    return [index === 0 ? start : left, index === count - 1 ? end : left + stock.width];
  });
}

/** How far paper is carried round a corner: not out of the room, not onto what is no wall or takes nothing. */
function turnAt(room: TrueRoom, facing: FacingWall, covering: WallCovering, side: "left" | "right"): number {
  const { from, to, wall } = facing.line;
  const first = facing.x(0) === 0 ? "left" : "right";
  const corner = side === first ? from : to;
  const next = room.walls.find(
    (one) => one.id !== wall.id && (one.from === corner.id || one.to === corner.id),
  );
  if (corner.angle >= 180 || next === undefined || next.open || next.glass || next.refused) return 0;
  return covering.turn;
}

interface Heights {
  readonly low: number;
  readonly highLeft: number;
  readonly highRight: number;
}

/** Bottom and tops of a strip as hung: above a door or a low mass, below a beam. Undefined where these leave nothing of it. */
function heightsOf(hanging: Hanging, [left, right]: readonly [number, number]): Heights | undefined {
  const { facing, covering } = hanging;
  const [seenLeft, seenRight] = [Math.max(0, left), Math.min(facing.length, right)];
  const wider = holesOf(hanging, outlineOf(hanging))
    .map(({ mass, outline }) => ({ mass, ...boundsOf(outline) }))
    .filter((hole) => seenLeft >= hole.left - TOUCH && seenRight <= hole.right + TOUCH);
  const low = Math.max(
    covering.low,
    ...wider.filter(({ bottom }) => bottom <= covering.low + TOUCH).map(({ top }) => top),
  );
  const ceiling = Math.min(facing.leftHeight, facing.rightHeight);
  const beams = wider.filter(
    ({ mass, bottom, top }) => mass && bottom > covering.low + TOUCH && top >= ceiling - TOUCH,
  );
  const under = Math.min(Infinity, ...beams.map(({ bottom }) => bottom));
  const [highLeft, highRight] = [
    Math.min(under, topAt(hanging, seenLeft)),
    Math.min(under, topAt(hanging, seenRight)),
  ];
  return Math.max(highLeft, highRight) - low > TOUCH ? { low, highLeft, highRight } : undefined;
}

interface Hung {
  readonly edges: readonly [number, number];
  readonly heights: Heights;
  readonly number: number;
}

function stripOf(hanging: Hanging, { edges: [left, right], heights, number }: Hung): Strip {
  const { covering, stock } = hanging;
  const { low, highLeft, highRight } = heights;
  const plain = Math.max(highLeft, highRight) - low + covering.extra;
  const patternDrop = stock.match === "drop" && number % 2 === 0 ? stock.repeat / 2 : 0;
  return {
    id: `${covering.id}~${number}`,
    number,
    left,
    right,
    low,
    highLeft,
    highRight,
    length: matchedLength(plain, patternDrop, stock),
    patternDrop,
    cutRound: cutRound(hanging, { left, right, low, high: Math.max(highLeft, highRight) }),
    because: [covering.id, stock.id, covering.from, covering.to],
  };
}

/** What is cut off the roll: whole repeats where strips must match; a strip whose pattern stands lower needs so much more. */
function matchedLength(plain: number, drop: number, { repeat, match }: Stock): number {
  if (match === "free" || repeat === 0) return plain;
  return Math.ceil((plain + drop) / repeat - 1e-9) * repeat;
}

/** Further out than this a thing is not the wall's any more. Common practice, no source. mm. */
const CLOSE = 600;

/** Openings and things of the venue's that a strip is cut round. */
function cutRound(
  { room, facing }: Hanging,
  strip: { readonly left: number; readonly right: number; readonly low: number; readonly high: number },
): readonly string[] {
  const wall = facing.line.wall.id;
  const meets = (along: number, width: number, low: number, high: number): boolean => {
    const xs = [facing.x(along), facing.x(along + width)];
    return (
      Math.min(...xs) <= strip.right &&
      Math.max(...xs) >= strip.left &&
      low <= strip.high &&
      high >= strip.low
    );
  };
  return [
    ...room.openings
      .filter(({ wall: on, opening, along }) => {
        const [low, high] = [opening.sill, opening.sill + opening.height];
        return on === wall && high > strip.low + TOUCH && meets(along, opening.width, low, high);
      })
      .map(({ opening }) => opening.id),
    ...room.fixtures
      .filter(
        ({ wall: on, fixture, along, low, high }) =>
          on === wall && fixture.out < CLOSE && meets(along, fixture.width, low, high),
      )
      .map(({ fixture }) => fixture.id),
  ];
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

/** Two battens, at the bottom and the top, broken where openings or masses stand in their way. */
function battensOf(hanging: Hanging): readonly Run[] {
  const { document, covering, facing } = hanging;
  const stock = stockOf(document, covering.batten, "stick");
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
