/**
 * Where a trim runs along a wall: the whole of it, broken where an opening with its casing or a mass of the venue's
 * stands in its way. The elevation draws these stretches and the making cuts them, so they are found in one place.
 */
import type { FixtureKind, Trim } from "../document/tables.ts";
import { TOUCH } from "../tolerances.ts";
import type { FacingWall } from "./facing.ts";
import type { TrueFixture, TrueOpening, TrueRoom, TrueWall } from "./model.ts";
import { spans } from "./spans.ts";

/** A stretch of trim along a wall, from its left end as seen from inside, mm. */
export interface TrimStretch {
  readonly from: number;
  readonly to: number;
  /** Records of the opening or the venue's thing it meets at its left and its right end; none at the wall's own end. */
  readonly meets: readonly [string | undefined, string | undefined];
}

/** Whether anything may be put on the wall at all: not where none stands, not on glass, not where the venue refuses. */
export function takesTrim({ open, glass, refused }: Pick<TrueWall, "open" | "glass" | "refused">): boolean {
  return !open && !glass && !refused;
}

/** How far the trim's face stands out from the wall, mm: as said, else what a crown's lean gives. */
export function standsOut({ depth, height, kind, spring }: Trim): number {
  if (depth > 0 || kind !== "crown" || spring === undefined) return depth;
  return height * Math.tan((spring * Math.PI) / 180);
}

/** Things of the venue's as solid as a wall: a trim ends at them instead of being cut round. */
const SOLID: ReadonlySet<FixtureKind> = new Set<FixtureKind>(["projection", "column", "radiator"]);

/** The stretches of a trim on a wall, left to right; none on a wall that takes no trim. */
export function trimStretches(room: TrueRoom, facing: FacingWall, trim: Trim): readonly TrimStretch[] {
  const { wall } = facing.line;
  if (!takesTrim(wall)) return [];
  const gaps = [
    ...room.openings.filter((one) => one.wall === wall.id).map((one) => openingGap(facing, trim, one)),
    ...room.fixtures.filter((one) => one.wall === wall.id).map((one) => fixtureGap(facing, trim, one)),
  ].filter((gap) => gap !== undefined);
  return spans(
    facing.length,
    gaps.map(({ edges }) => edges),
  )
    .filter(([from, to]) => to - from > TOUCH)
    .map(([from, to]) => ({
      from,
      to,
      meets: [
        gaps.find(({ edges }) => edges[1] === from)?.record,
        gaps.find(({ edges }) => edges[0] === to)?.record,
      ],
    }));
}

interface Gap {
  readonly record: string;
  readonly edges: readonly [number, number];
}

function openingGap(facing: FacingWall, trim: Trim, { opening, along }: TrueOpening): Gap | undefined {
  if (!inTheWay(facing, trim, opening.sill, opening.sill + opening.height)) return undefined;
  const casing = opening.casing ?? 0;
  const edges = edgesBetween(facing, along - casing, along + opening.width + casing);
  return { record: opening.id, edges };
}

function fixtureGap(facing: FacingWall, trim: Trim, seen: TrueFixture): Gap | undefined {
  const { fixture, along, low, high } = seen;
  if (!SOLID.has(fixture.kind) || fixture.width === 0) return undefined;
  // What stands further off the wall than the trim is thick lets the trim pass behind it.
  if (fixture.out > Math.max(0, standsOut(trim) - TOUCH)) return undefined;
  if (!inTheWay(facing, trim, low, high)) return undefined;
  return { record: fixture.id, edges: edgesBetween(facing, along, along + fixture.width) };
}

function inTheWay(facing: FacingWall, trim: Trim, low: number, high: number): boolean {
  const ceiling = Math.min(facing.leftHeight, facing.rightHeight);
  if (trim.kind === "crown") return high > ceiling - trim.height;
  return low < trim.up + trim.height && high > trim.up;
}

function edgesBetween(facing: FacingWall, start: number, end: number): readonly [number, number] {
  const [a, b] = [facing.x(start), facing.x(end)];
  return a < b ? [a, b] : [b, a];
}
