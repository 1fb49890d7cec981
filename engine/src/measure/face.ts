/** What is on a wall's face: the edges of its trim, openings with casing and the way they hang, the venue's things. */
import { listed, type Trim } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { boxOf, line, moved, ring, shape, shownBy } from "../sheet/drafting.ts";
import { widened } from "../sheet/labels.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { ceilingAt, corners, edgesOf, type Rectangle, type Scene } from "./facing.ts";
import type { TrueFixture, TrueOpening } from "./model.ts";
import type { Drawn } from "./sheet.ts";
import { fixtureSign, isMass, OVER_A_SIGN } from "./signs.ts";
import { trimStretches } from "./trim-stretches.ts";

/** The edges of base, rail and crown, broken where something stands in their way. */
export function trimLines(scene: Scene): readonly Item[] {
  const { wish, facing, at } = scene;
  const trims = listed(wish.document.trims).filter((trim) => trim.room === wish.room.room.id);
  return trims.flatMap((trim) =>
    trimStretches(wish.room, facing, trim).flatMap(({ from, to }) =>
      trimEdges(trim).map((edge) =>
        line([at(from, edge(ceilingAt(scene, from))), at(to, edge(ceilingAt(scene, to)))], "outline", {
          ...shownBy(trim.id, trim.kind),
          ink: "graphite-soft",
        }),
      ),
    ),
  );
}

/** Heights of a trim's edges under a ceiling of some height. */
function trimEdges(trim: Trim): readonly ((ceiling: number) => number)[] {
  if (trim.kind === "crown") return [(ceiling) => ceiling - trim.height];
  if (trim.kind === "base") return [() => trim.up + trim.height];
  return [() => trim.up, () => trim.up + trim.height];
}

/** An opening with its casing, and its width and height as named lengths. */
export function openingFace(scene: Scene, seen: TrueOpening): Drawn {
  const { facing, wish } = scene;
  const { opening } = seen;
  const [left, right] = edgesOf(facing, seen);
  const face = {
    left,
    right,
    low: opening.sill,
    high: opening.sill + opening.height,
  };
  const casing = opening.casing ?? 0;
  const grown = {
    left: face.left - casing,
    right: face.right + casing,
    low: face.low > 0 ? face.low - casing : 0,
    high: face.high + casing,
  };
  const edge = shape(corners(scene, face), "outline", { ...shownBy(opening.id), fill: { ink: "sheet" } });
  const trim =
    casing > 0
      ? [
          shape(corners(scene, grown), "dimension", {
            ...shownBy(opening.id, "casing"),
            fill: { ink: "sheet" },
          }),
        ]
      : [];
  const [lowLeft, highLeft, highRight, lowRight] = corners(scene, face);
  const known =
    lowLeft && highLeft && lowRight && highRight
      ? [
          {
            name: `${opening.name} width, elevation`,
            from: highLeft,
            to: highRight,
            real: opening.width,
            scale: wish.frame.scale,
          },
          {
            name: `${opening.name} height, elevation`,
            from: lowLeft,
            to: highLeft,
            real: opening.height,
            scale: wish.frame.scale,
          },
        ]
      : [];
  return { items: [...trim, edge, ...hanging(scene, seen, face)], known };
}

/** A door shows on which side it hangs by two broken lines that meet at the hinges, and its handle; a window two strokes of glass. */
function hanging(scene: Scene, { opening }: TrueOpening, face: Rectangle): readonly Item[] {
  const { at, facing } = scene;
  const middle = (face.low + face.high) / 2;
  if (opening.kind === "window") return glassStrokes(at(face.left, face.high), opening.id);
  if (opening.hinge === undefined) return [];
  const hingeLeft = (opening.hinge === facing.line.wall.from) === (facing.x(0) === 0);
  const [hinge, latch] = hingeLeft ? [face.left, face.right] : [face.right, face.left];
  const inward = hingeLeft ? -1 : 1;
  return [
    line([at(latch, face.high), at(hinge, middle), at(latch, face.low)], "fold", {
      ...shownBy(opening.id, "hinge"),
      ink: "graphite-soft",
    }),
    ring(
      moved(at(latch, Math.min(1000, middle)), inward * 1.2, 0),
      0.5,
      "outline",
      shownBy(opening.id, "handle"),
    ),
  ];
}

/** Two slanting strokes in an upper left corner on paper, which say: glass. */
export function glassStrokes(corner: Point, record: string): readonly Item[] {
  return [4, 6.5].map((reach) =>
    line([moved(corner, 1, reach), moved(corner, reach, 1)], "dimension", shownBy(record, "glass")),
  );
}

/** Where a fixture is on the face, if it has a face, and its sign. */
export function fixturePlace(
  scene: Scene,
  seen: TrueFixture,
): { readonly face?: Rectangle; readonly sign: Point } {
  const { fixture, along, low, high } = seen;
  const { facing, at } = scene;
  if (fixture.width > 0 && high > low) {
    const ends = [facing.x(along), facing.x(along + fixture.width)];
    const face = {
      left: Math.min(...ends),
      right: Math.max(...ends),
      low,
      // Under a sloping ceiling it ends where the ceiling is lower.
      high: Math.min(high, ...ends.map((x) => ceilingAt(scene, x))),
    };
    return { face, sign: at((face.left + face.right) / 2, (face.low + face.high) / 2) };
  }
  return { sign: at(facing.x(along + fixture.width / 2), low) };
}

/** The fixture with its sign. */
export function fixtureFace(scene: Scene, seen: TrueFixture): readonly Item[] {
  const { face, sign } = fixturePlace(scene, seen);
  const mass = isMass(seen.fixture.kind);
  const body = face
    ? [
        shape(corners(scene, face), mass ? "outline" : "dimension", {
          ...shownBy(seen.fixture.id),
          fill: mass ? { ink: "graphite-soft", hatch: { turn: 45, apart: 2.4 } } : { ink: "sheet" },
        }),
      ]
    : [];
  const marks = fixtureSign(seen.fixture.kind, sign, seen.fixture.id);
  for (const item of marks) scene.wish.field.keepClear(widened(boxOf(item)), OVER_A_SIGN);
  return [...body, ...marks];
}
