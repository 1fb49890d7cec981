/**
 * The plan of the true room as items: walls cut heavy along their inside face, openings with leaf and swing,
 * the venue's things with sign and word, corner letters, and the length of every wall as a dimension line.
 * The thickness of walls is not known and is not drawn.
 *
 *        A ──── A-B 24' 0" ──── B        dimension lines stand outside,
 *        ┏━━━━┯╌╌╌┯━━━━━━━━━━━━━┓        cut walls are heavy,
 *        ┃     ╲ ┄             ┃        a door is its leaf and the arc it sweeps
 */
import { figureWords } from "./figure-words.ts";
import { showOf, type Fixture, type ShowDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import {
  between,
  boxOf,
  boxOfPoints,
  dimensionLine,
  letteringAlong,
  letters,
  line,
  moved,
  onPlate,
  shape,
  shownBy,
  towards,
  CAP_HEIGHT,
  type DimensionWish,
} from "../sheet/drafting.ts";
import { boxesAlong, placesAround, widened, type LabelField } from "../sheet/labels.ts";
import type { Frame, Item, KnownLength } from "../sheet/vocabulary.ts";
import { alongWall, onPaper, wallLines, type WallLine } from "./frame.ts";
import type { TrueCorner, TrueFixture, TrueRoom } from "./model.ts";
import { spans } from "./spans.ts";
import { baseLine, drawOpening } from "./walls.ts";
import { fixtureSign, isMass, OVER_A_SIGN, SIGN_RADIUS } from "./signs.ts";

/** How far outside the walls the dimension lines stand, mm on paper, and how much the whole plan needs round it. */
export const DIMENSION_OFF = 7;
export const PLAN_SURROUND = 12;

export interface PlanWish {
  readonly room: TrueRoom;
  readonly document: ShowDocument;
  readonly frame: Frame;
  /** Lettering is set clear of what the field already holds, and is added to it. */
  readonly field: LabelField;
  /** Ellipses of doubt are drawn this many times their size; none where it is not said. */
  readonly doubtTimes?: number;
  /** "none" leaves out the signs of the venue's things. */
  readonly names?: "all" | "none";
}

export interface Drawn {
  readonly items: readonly Item[];
  readonly known: readonly KnownLength[];
}

/** A plan whose signs are apart, because they lie over what stands in the room: most of them hang above it, and none may be hidden. */
export interface RoomDrawn extends Drawn {
  readonly signs: readonly Item[];
}

/** The room alone, without words for openings and fixtures (see `planWords`). Empty for a room without a shape. */
export function roomPlan(wish: PlanWish): RoomDrawn {
  const lines = wallLines(wish.room);
  const openings = wish.room.openings.map((opening) => drawOpening(wish, opening, lines));
  const walls = lines.map((wall) => drawWall(wish, wall));
  const fixtures = wish.room.fixtures.flatMap((fixture) => drawFixture(wish, fixture));
  const places = signPlaces(wish, lines);
  const signs = wish.names === "none" ? [] : signsOf(wish, places);
  return {
    items: [
      ...baseLine(wish, lines),
      ...openings.flatMap((drawn) => drawn.items),
      ...fixtures,
      ...walls.flatMap((drawn) => drawn.items),
      ...wish.room.corners.flatMap((corner) => cornerMark(wish, corner, lines)),
    ],
    signs,
    known: [...walls, ...openings].flatMap((drawn) => drawn.known),
  };
}

/** Short words for openings and the venue's things, set clear of everything already lettered. */
export function planWords(wish: PlanWish): readonly Item[] {
  const walls = wallLines(wish.room);
  const lines = new Map(walls.map((wall) => [wall.wall.id, wall]));
  const signs = signPlaces(wish, walls);
  const about = (at: Point, text: string, record: string, wall?: WallLine): readonly Item[] =>
    wish.field.place(
      placesAround({
        at,
        text,
        size: 2.1,
        off: SIGN_RADIUS + 0.8,
        ...(wall ? { prefer: { x: -wall.out.x, y: wall.out.y } } : {}),
        rest: { ...shownBy(record, "label"), ink: "graphite-soft" },
      }),
    );
  const openings = wish.room.openings.flatMap(({ opening, start, end, wall }) =>
    about(onPaper(wish.frame, between(start, end, 0.5)), opening.name, opening.id, lines.get(wall)),
  );
  const fixtures = wish.room.fixtures.flatMap(({ fixture, wall }) => {
    const at = signs.get(fixture.id)?.at;
    if (!at) return [];
    return isMass(fixture.kind)
      ? massName(wish, fixture, at)
      : about(at, fixture.name, fixture.id, lines.get(wall));
  });
  return [...openings, ...fixtures];
}

/** A mass is hatched and wears its name in its middle, on a piece of bare paper. */
function massName({ field }: PlanWish, { id, name }: Fixture, at: Point): readonly Item[] {
  const size = 2.1;
  const middle = letters(moved(at, 0, (size * CAP_HEIGHT) / 2), name, size, {
    align: "middle",
    ink: "graphite-soft",
    ...shownBy(id, "label"),
  });
  return onPlate(field.place([{ lettering: [middle], cost: 0 }]));
}

function drawWall(wish: PlanWish, wallLine: WallLine): Drawn {
  const { wall, from, to } = wallLine;
  const gaps = wish.room.openings
    .filter((opening) => opening.wall === wall.id)
    .map(({ along, opening }): [number, number] => [along, along + opening.width]);
  const pen = wall.open ? "fold" : wall.glass ? "outline" : "wall";
  const stretches = spans(wall.length, gaps);
  const solid = stretches.map((stretch) => line(faceOnPaper(wish, wallLine, stretch), pen, shownBy(wall.id)));
  const panes = wall.glass
    ? stretches.flatMap((stretch) => glassLines(wallLine, faceOnPaper(wish, wallLine, stretch)))
    : [];
  for (const box of solid.flatMap(({ points }) => boxesAlong(points))) wish.field.keepClear(box, 1);
  const off = DIMENSION_OFF * wish.frame.scale;
  const text = `${wall.name}  ${figureWords(wall.length, wall.sdLength, showOf(wish.document).units)}`;
  const dimension: DimensionWish = {
    from: onPaper(wish.frame, alongWall(wallLine, 0, off)),
    to: onPaper(wish.frame, alongWall(wallLine, wall.length, off)),
    text,
    witness: [onPaper(wish.frame, from), onPaper(wish.frame, to)],
    record: wall.id,
  };
  const label = wish.field.place(
    [0.5, 0.4, 0.6, 0.3, 0.7].flatMap((part, index) => [
      { lettering: [letteringAlong(dimension, part)], cost: index },
      { lettering: [letteringAlong(dimension, part, -1)], cost: index + 0.5 },
    ]),
  );
  return {
    items: [...solid, ...panes, ...dimensionLine(dimension), ...label],
    known: [
      {
        name: `wall ${wall.name}`,
        from: dimension.from,
        to: dimension.to,
        real: wall.length,
        scale: wish.frame.scale,
      },
    ],
  };
}

/** A stretch of a wall's inside face, mm along it, as it lies on paper. */
function faceOnPaper(
  { frame }: PlanWish,
  wallLine: WallLine,
  [start, end]: readonly [number, number],
): readonly Point[] {
  return [start, end].map((along) => onPaper(frame, alongWall(wallLine, along)));
}

/** A side of glass has its thickness drawn as a window's is. */
function glassLines({ wall, out }: WallLine, face: readonly Point[]): readonly Item[] {
  return [0.6, 1.2].map((off) =>
    line(
      face.map((point) => moved(point, out.x * off, -out.y * off)),
      "dimension",
      shownBy(wall.id, "glass"),
    ),
  );
}

function cornerMark(wish: PlanWish, corner: TrueCorner, lines: readonly WallLine[]): readonly Item[] {
  const at = onPaper(wish.frame, corner);
  const meeting = lines.filter((wall) => wall.from === corner || wall.to === corner);
  const out = meeting.reduce((sum, wall) => moved(sum, wall.out.x, wall.out.y), { x: 0, y: 0 });
  const side = towards({ x: 0, y: 0 }, out);
  const size = 3.4;
  const places = [4.4, 6.5, 9].map((off, index) => ({
    lettering: [
      letters(moved(at, side.x * off, -side.y * off + (size * CAP_HEIGHT) / 2), corner.name, size, {
        face: "sans-bold",
        align: "middle",
        ...shownBy(corner.id, "label"),
      }),
    ],
    cost: index * 0.5,
  }));
  const doubt =
    wish.doubtTimes === undefined ? [] : [ellipse(at, corner, wish.doubtTimes / wish.frame.scale)];
  return [...doubt, ...wish.field.place(places)];
}

function ellipse(at: Point, corner: TrueCorner, factor: number): Item {
  const { major, minor, turn } = corner.ellipse;
  const radians = (turn * Math.PI) / 180;
  const points = Array.from({ length: 48 }, (_, index) => {
    const angle = (index / 48) * 2 * Math.PI;
    const [x, y] = [major * factor * Math.cos(angle), minor * factor * Math.sin(angle)];
    return moved(
      at,
      x * Math.cos(radians) - y * Math.sin(radians),
      -(x * Math.sin(radians) + y * Math.cos(radians)),
    );
  });
  return shape(points, "outline", { ...shownBy(corner.id, "doubt"), ink: "tape" });
}

function drawFixture(wish: PlanWish, seen: TrueFixture): readonly Item[] {
  const { fixture } = seen;
  const mass = isMass(fixture.kind);
  const points = seen.footprint.map((point) => onPaper(wish.frame, point));
  const outline =
    points.length < 3
      ? []
      : [
          shape(points, mass ? "wall" : "outline", {
            ...shownBy(fixture.id),
            fill: mass ? { ink: "graphite-soft", hatch: { turn: 45, apart: 1.4 } } : { ink: "sheet" },
          }),
        ];
  if (points.length >= 3) wish.field.keepClear(boxOfPoints(points), 0.2);
  return outline;
}

/** All signs, and under them the leaders of those that stepped aside. */
function signsOf(wish: PlanWish, places: SignPlaces): readonly Item[] {
  const leaders: Item[] = [];
  const signs: Item[] = [];
  for (const { fixture } of wish.room.fixtures) {
    const place = places.get(fixture.id);
    if (!place) continue;
    const sign = fixtureSign(fixture.kind, place.at, fixture.id);
    for (const item of sign) wish.field.keepClear(widened(boxOf(item)), OVER_A_SIGN);
    signs.push(...sign);
    const rest = { ...shownBy(fixture.id, "leader"), ink: "graphite-soft" } as const;
    if (place.from !== place.at) leaders.push(line([place.from, place.at], "dimension", rest));
  }
  return [...leaders, ...signs];
}

/** Where each sign stands, and where its thing is. */
type SignPlaces = ReadonlyMap<string, { readonly from: Point; readonly at: Point }>;

/** The most steps a sign moves into the room; a seventh thing in one place covers another. */
const STEPS = 6;

/** Things above one another on a wall are in one place on the plan: each sign steps into the room until it stands free. */
function signPlaces(wish: PlanWish, lines: readonly WallLine[]): SignPlaces {
  const places = new Map<string, { readonly from: Point; readonly at: Point }>();
  const taken: Point[] = [];
  for (const seen of wish.room.fixtures) {
    const wall = lines.find((candidate) => candidate.wall.id === seen.wall);
    const from = signPlace(wish, seen, wall);
    const free = (at: Point): boolean =>
      taken.every(({ x, y }) => Math.hypot(x - at.x, y - at.y) > 2 * SIGN_RADIUS + 0.3);
    let at = from;
    const steps = wall && !isMass(seen.fixture.kind) ? STEPS : 0;
    const out = wall?.out ?? { x: 0, y: 0 };
    for (let step = 0; step < steps && !free(at); step += 1)
      at = moved(at, -out.x * SIGN_STEP, out.y * SIGN_STEP);
    if (!isMass(seen.fixture.kind)) taken.push(at);
    places.set(seen.fixture.id, { from, at });
  }
  return places;
}

const SIGN_STEP = 2 * SIGN_RADIUS + 0.5;

/** A sign stands just inside the face of its wall, or on a thing that stands out from it. */
function signPlace(wish: PlanWish, seen: TrueFixture, wall: WallLine | undefined): Point {
  const count = Math.max(1, seen.footprint.length);
  const middle = seen.footprint.reduce((sum, point) => moved(sum, point.x / count, point.y / count), {
    x: 0,
    y: 0,
  });
  const at = onPaper(wish.frame, middle);
  if (!wall || isMass(seen.fixture.kind)) return at;
  const inside = (wall.from.x - middle.x) * wall.out.x + (wall.from.y - middle.y) * wall.out.y;
  const short = Math.max(0, SIGN_RADIUS + 0.5 - inside / wish.frame.scale);
  return moved(at, -wall.out.x * short, wall.out.y * short);
}
