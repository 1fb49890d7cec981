/** A first room as lines of the tape sheet, so that a room begun here reads like any other. */
import type { Place, Point, Units } from "@cornerwise/engine";

export type Extent = "whole" | "corner" | "wall";

export interface Beginning {
  readonly place: Place;
  readonly units: Units;
  readonly name: string;
}

const PLACE_WORDS: { readonly [P in Place]: string } = { "": "", US: "US", GB: "GB", DE: "DE" };
const UNIT_WORDS: { readonly [U in Units]: string } = {
  "ft-in": "feet and inches",
  in: "inches",
  mm: "mm",
  cm: "cm",
  m: "m",
};

function opening(begin: Beginning): string[] {
  const metric = begin.units !== "ft-in" && begin.units !== "in";
  return [
    `show ${begin.name}`,
    `units ${UNIT_WORDS[begin.units]}`,
    ...(begin.place ? [`place ${PLACE_WORDS[begin.place]}`] : []),
    metric ? "grid 5 mm is 250 mm" : 'grid 1/4" is 12"',
    `room ${begin.name}`,
  ];
}

/** Sides typed for a room, by what of it is ours. */
export const SIDES: { readonly [E in Extent]: readonly { readonly name: string; readonly ask: string }[] } = {
  whole: [
    { name: "A-B", ask: "Wall A-B" },
    { name: "B-C", ask: "Wall B-C" },
    { name: "C-D", ask: "Wall C-D" },
    { name: "D-A", ask: "Wall D-A" },
  ],
  corner: [
    { name: "A-B", ask: "Wall A-B, up to the corner" },
    { name: "B-C", ask: "Wall B-C, on from the corner" },
  ],
  wall: [
    { name: "A-B", ask: "The wall A-B" },
    { name: "B-C", ask: "How far out from it is yours" },
  ],
};

const OPEN: { readonly [E in Extent]: readonly string[] } = {
  whole: [],
  corner: ["C-D", "D-A"],
  wall: ["B-C", "C-D", "D-A"],
};

/** Lines for a four-cornered room of typed sides; a side left empty is simply not said. */
export function typedRoom(
  begin: Beginning,
  extent: Extent,
  sides: { readonly [name: string]: string },
): string {
  return [
    ...opening(begin),
    "corners A B C D",
    ...OPEN[extent].map((side) => `open ${side}`),
    ...SIDES[extent]
      .filter(({ name }) => sides[name]?.trim())
      .map(({ name }) => `${name} ${sides[name]?.trim()}`),
  ].join("\n");
}

/** Corner names in order: A to Z, then A2, B2 and so on. */
export function cornerName(index: number): string {
  const letter = String.fromCodePoint(65 + (index % 26));
  return index < 26 ? letter : `${letter}${Math.floor(index / 26) + 1}`;
}

/**
 * Lines for a room sketched corner by corner (mm, y up). Its sides and one set of diagonals stand as
 * guesses until the tape says better; the sketch is turned clockwise if it was drawn the other way.
 */
export function sketchedRoom(
  begin: Beginning,
  sketch: readonly Point[],
): { readonly lines: string; readonly corners: readonly Point[] } {
  const corners = turnedClockwise(sketch);
  const names = corners.map((_, index) => cornerName(index));
  const pairs = corners.flatMap((_, index) => {
    const next = (index + 1) % corners.length;
    const diagonal = index >= 2 && index <= corners.length - 2 ? [[0, index] as const] : [];
    return [[index, next] as const, ...diagonal];
  });
  return {
    corners,
    lines: [
      ...opening(begin),
      `corners ${names.join(" ")}`,
      ...pairs.map(([from, to]) => `${names[from]} to ${names[to]} ${between(corners, from, to)} mm a guess`),
    ].join("\n"),
  };
}

function between(corners: readonly Point[], from: number, to: number): number {
  const a = corners[from];
  const b = corners[to];
  return a && b ? Math.round(Math.hypot(b.x - a.x, b.y - a.y)) : 0;
}

function turnedClockwise(corners: readonly Point[]): readonly Point[] {
  const twice = corners.reduce((sum, a, index) => {
    const b = corners[(index + 1) % corners.length] ?? a;
    return sum + a.x * b.y - b.x * a.y;
  }, 0);
  return twice > 0 ? corners.toReversed() : corners;
}
