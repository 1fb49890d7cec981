/** The figures and words of an elevation: its dimensions, and the names of what is on it and before it. */
import { figureWords } from "./figure-words.ts";
import { showOf } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import {
  boxOf,
  dimensionLine,
  letteringAlong,
  letters,
  moved,
  onPlate,
  shownBy,
  type DimensionWish,
} from "../sheet/drafting.ts";
import { placesAround, type LabelPlace } from "../sheet/labels.ts";
import { textWidth } from "../sheet/type.ts";
import type { Item, Lettering } from "../sheet/vocabulary.ts";
import { printLength } from "../units/length.ts";
import { fixturePlace } from "./face.ts";
import { edgesOf, type FacingWall, type Scene, type SeenBefore } from "./facing.ts";
import type { TrueFixture, TrueOpening } from "./model.ts";
import type { Drawn } from "./sheet.ts";
import { isMass, SIGN_RADIUS } from "./signs.ts";

/** How much names dislike lying over what the side is. */
const OVER_WORDS = 1;
/** How far under the floor line the wall's name stands, mm on paper. */
const TITLE_DROP = 14.7;

/** Length below, heights at both ends, and the stretches between openings. */
export function elevationDimensions(scene: Scene, openings: readonly TrueOpening[]): Drawn {
  const { facing, at, wish } = scene;
  const { units } = showOf(wish.document);
  const { wall } = facing.line;
  const { scale } = wish.frame;
  const dimension = (a: Point, b: Point, text: string, off: Point): DimensionWish => ({
    from: moved(a, off.x, off.y),
    to: moved(b, off.x, off.y),
    text,
    witness: [a, b],
    record: wall.id,
  });
  const down = openings.length > 0 ? 9.8 : 5;
  const length = dimension(at(0, 0), at(facing.length, 0), figureWords(wall.length, wall.sdLength, units), {
    x: 0,
    y: down,
  });
  const left = dimension(
    at(0, 0),
    at(0, facing.leftHeight),
    figureWords(facing.leftHeight, facing.leftSd, units),
    { x: -5.5, y: 0 },
  );
  const right = dimension(
    at(facing.length, 0),
    at(facing.length, facing.rightHeight),
    figureWords(facing.rightHeight, facing.rightSd, units),
    {
      x: 5.5,
      y: 0,
    },
  );
  const chain = stretches(facing, openings).map(([a, b]) =>
    dimension(at(a, 0), at(b, 0), printLength(b - a, units), { x: 0, y: 5 }),
  );
  const known = (name: string, { from, to }: DimensionWish, real: number) => ({
    name: `${wall.name} ${name}`,
    from,
    to,
    real,
    scale,
  });
  return {
    items: [length, left, right, ...chain].flatMap((wanted) => [
      ...dimensionLine(wanted),
      ...wish.field.place(alongPlaces(wanted)),
    ]),
    known: [
      known("elevation length", length, wall.length),
      known(`height at ${facing.leftName}`, left, facing.leftHeight),
      known(`height at ${facing.rightName}`, right, facing.rightHeight),
    ],
  };
}

/** Stretches of the wall between its ends and the edges of its openings, from the left; none where nothing opens. */
function stretches(
  facing: FacingWall,
  openings: readonly TrueOpening[],
): readonly (readonly [number, number])[] {
  if (openings.length === 0) return [];
  const edges = openings.flatMap((opening) => edgesOf(facing, opening));
  const stops = [0, ...edges, facing.length].toSorted((a, b) => a - b);
  return stops.slice(1).flatMap((stop, index): [number, number][] => {
    const start = stops[index] ?? 0;
    return stop - start > 1 ? [[start, stop]] : [];
  });
}

/** Above the line where it has room, else below it. */
function alongPlaces(wanted: DimensionWish): readonly LabelPlace[] {
  const small = { ...wanted, size: 2.3 };
  const room = Math.hypot(wanted.to.x - wanted.from.x, wanted.to.y - wanted.from.y);
  const fits = textWidth(wanted.text, "mono", 2.3) < room;
  return [0.8, -0.9].map((lift, index) => ({
    lettering: [letteringAlong(small, 0.5, lift)],
    cost: fits ? index : 0,
  }));
}

/** The wall's name, and the names of everything on it, set clear of each other. */
export function elevationWords(
  scene: Scene,
  openings: readonly TrueOpening[],
  fixtures: readonly TrueFixture[],
): readonly Item[] {
  return [
    ...wallName(scene),
    ...openings.flatMap((opening) => openingWords(scene, opening)),
    ...fixtures.flatMap((fixture) => fixtureName(scene, fixture)),
    ...(scene.wish.before ?? []).filter(({ name }) => name !== "").flatMap((seen) => seenName(scene, seen)),
  ];
}

function wallName({ wish, facing, at }: Scene): readonly Item[] {
  const { wall } = facing.line;
  const title = letters(moved(at(0, 0), 0, TITLE_DROP), `Wall ${wall.name}`, 3.2, {
    face: "sans-bold",
    ...shownBy(wall.id, "label"),
  });
  if (!wall.open && !wall.glass) return [title];
  const middle = at(facing.length / 2, (facing.leftHeight + facing.rightHeight) / 4);
  const [text, part] = wall.open ? (["open side", "open"] as const) : (["side of glass", "glass"] as const);
  const word = letters(middle, text, 2.6, { align: "middle", ...shownBy(wall.id, part) });
  wish.field.keepClear(boxOf(word), OVER_WORDS);
  return [title, word];
}

function openingWords({ wish, facing, at }: Scene, { opening, along }: TrueOpening): readonly Item[] {
  const { units } = showOf(wish.document);
  const middle = at(facing.x(along + opening.width / 2), opening.sill + opening.height / 2);
  const [width, height] = [printLength(opening.width, units), printLength(opening.height, units)];
  const rows = [
    opening.name,
    ...sizeRows(width, height, opening.width / wish.frame.scale),
    ...(opening.sill > 0 ? [`sill ${printLength(opening.sill, units)}`] : []),
  ];
  const places = [-3, 2, 8, -9].map((rise, index) => ({
    lettering: stacked(moved(middle, 0, rise), rows, opening.id),
    cost: index,
  }));
  return onPlate(wish.field.place(places));
}

/** A name stands off the thing's own face, so that its bare paper hides no edge; a mass wears its name on it. */
function fixtureName(scene: Scene, seen: TrueFixture): readonly Item[] {
  const { face, sign } = fixturePlace(scene, seen);
  const { scale } = scene.wish.frame;
  const beside = face !== undefined && !isMass(seen.fixture.kind);
  const half = beside
    ? { x: (face.right - face.left) / 2 / scale, y: (face.high - face.low) / 2 / scale }
    : { x: 0, y: 0 };
  const places = placesAround({
    at: sign,
    text: seen.fixture.name,
    size: 2.1,
    off: SIGN_RADIUS + 0.8,
    half: { x: Math.max(0, half.x - SIGN_RADIUS), y: Math.max(0, half.y - SIGN_RADIUS) },
    rest: { ...shownBy(seen.fixture.id, "label") },
  });
  return onPlate(scene.wish.field.place(places));
}

/** Inside the face of what is seen where the name has room there, else beside it, led to it from further off. */
function seenName({ wish, at }: Scene, seen: SeenBefore): readonly Item[] {
  return onPlate(wish.field.place(seenPlaces(wish.frame.scale, seen, at)));
}

function* seenPlaces(scale: number, seen: SeenBefore, at: Scene["at"]): Iterable<LabelPlace> {
  const rest = { ink: "graphite-soft", ...shownBy(seen.record, "label") } as const;
  const half = { x: (seen.right - seen.left) / 2 / scale, y: (seen.high - seen.low) / 2 / scale };
  const middle = (seen.left + seen.right) / 2;
  const fits = textWidth(seen.name, "sans", SEEN_SIZE) + 1 <= 2 * half.x && SEEN_SIZE + 0.6 <= 2 * half.y;
  if (fits)
    for (const [index, part] of [0.5, 0.25, 0.75, 0.12, 0.9].entries()) {
      const place = at(middle, seen.low + (seen.high - seen.low) * part);
      yield {
        lettering: [letters(place, seen.name, SEEN_SIZE, { align: "middle", ...rest })],
        cost: index,
      };
    }
  const around = { at: at(middle, (seen.low + seen.high) / 2), text: seen.name, size: SEEN_SIZE };
  for (const place of placesAround({ ...around, off: 0.8, half, rest }))
    yield { ...place, cost: place.cost + (fits ? BESIDE : 0) };
}

const SEEN_SIZE = 2.1;
/** How much worse a name stands beside what has room for it. */
const BESIDE = 3;

/** "3' 0\" × 6' 8\"" in one row, or in two where the opening is narrow (mm on paper). */
function sizeRows(width: string, height: string, room: number): readonly string[] {
  const whole = `${width} × ${height}`;
  return textWidth(whole, "mono", 2.1) + 3 < room ? [whole] : [`${width} ×`, height];
}

function stacked(at: Point, rows: readonly string[], record: string): readonly Lettering[] {
  return rows.map((row, index) =>
    letters(moved(at, 0, index * 3), row, 2.1, {
      align: "middle",
      face: index === 0 ? "sans" : "mono",
      ...shownBy(record, "label"),
    }),
  );
}
