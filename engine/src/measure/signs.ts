/** Plain signs and short words for the venue's things: a small ring or square with a letter, one at a place on paper. */
import type { FixtureKind } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { boxShape, CAP_HEIGHT, letters, line, moved, ring, shownBy } from "../sheet/drafting.ts";
import type { Item } from "../sheet/vocabulary.ts";

/** Half the size of a sign, mm on paper. */
export const SIGN_RADIUS = 1.5;

/** A letter in a ring (something to switch or set) or in a square (something that warns or saves). */
const SIGNS: {
  readonly [K in FixtureKind]: { readonly form: "ring" | "square" | "bare"; readonly letter: string };
} = {
  outlet: { form: "ring", letter: "=" },
  switch: { form: "ring", letter: "S" },
  thermostat: { form: "ring", letter: "T" },
  sprinkler: { form: "ring", letter: "+" },
  "exit sign": { form: "square", letter: "X" },
  alarm: { form: "square", letter: "A" },
  extinguisher: { form: "square", letter: "E" },
  vent: { form: "square", letter: "V" },
  panel: { form: "square", letter: "P" },
  hatch: { form: "square", letter: "H" },
  radiator: { form: "bare", letter: "" },
  projection: { form: "bare", letter: "" },
  column: { form: "bare", letter: "" },
};

/** The sign of a kind of thing at a place; nothing for the masses, which are drawn as they are. */
export function fixtureSign(kind: FixtureKind, at: Point, record: string): readonly Item[] {
  const { form, letter } = SIGNS[kind];
  if (form === "bare") return [];
  const shown = { ...shownBy(record, "sign"), fill: { ink: "sheet" } } as const;
  const { x, y } = at;
  const r = SIGN_RADIUS;
  const edge =
    form === "ring"
      ? ring(at, r, "outline", shown)
      : boxShape({ left: x - r, top: y - r, right: x + r, bottom: y + r }, "outline", shown);
  return [edge, ...signLetter(letter, at, record)];
}

function signLetter(letter: string, at: Point, record: string): readonly Item[] {
  const shown = shownBy(record, "sign");
  if (letter === "=")
    return [-0.5, 0.5].map((x) => line([moved(at, x, -0.8), moved(at, x, 0.8)], "outline", shown));
  if (letter === "+")
    return [
      line([moved(at, -SIGN_RADIUS, 0), moved(at, SIGN_RADIUS, 0)], "dimension", shown),
      line([moved(at, 0, -SIGN_RADIUS), moved(at, 0, SIGN_RADIUS)], "dimension", shown),
    ];
  const size = 2.1;
  return [
    letters(moved(at, 0, (size * CAP_HEIGHT) / 2), letter, size, {
      face: "sans-bold",
      align: "middle",
      ...shown,
    }),
  ];
}

/** How much lettering dislikes covering a sign, against a heavy line (1). */
export const OVER_A_SIGN = 3;

/** A thing as solid as a wall is hatched and wears its name on it. */
export function isMass(kind: FixtureKind): boolean {
  return kind === "projection" || kind === "column";
}
