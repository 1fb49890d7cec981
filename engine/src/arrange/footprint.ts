/** The outline of a piece in its own frame, from the solids it is made of: what a cut-out is cut to. */
import { listed, type Piece, type ShowDocument, type Solid } from "../document/tables.ts";
import { united } from "../plane/clip.ts";
import type { Point } from "../plane/point.ts";

/** A round footprint is cut as a polygon of this many sides: at 1:12 a barrel of 1 m is then true to 0.06 mm. */
const ROUND_SIDES = 72;

/** Rings of the footprint (mm, piece frame: front along -y), outer ones counterclockwise. None where it has no size. */
export function footprintOf(piece: Piece, document: ShowDocument): readonly (readonly Point[])[] {
  return footprints(document).get(piece.id) ?? [];
}

/** The footprints of all pieces of a document by piece id. */
export function footprints(document: ShowDocument): ReadonlyMap<string, readonly (readonly Point[])[]> {
  const byPiece = new Map<string, Solid[]>();
  for (const solid of listed(document.solids)) {
    const held = byPiece.get(solid.piece);
    if (held) held.push(solid);
    else byPiece.set(solid.piece, [solid]);
  }
  return new Map([...byPiece].map(([piece, solids]) => [piece, ringsOf(solids)]));
}

function ringsOf(solids: readonly Solid[]): readonly (readonly Point[])[] {
  const outlines = solids.map(solidOutline).filter((outline) => outline.length >= 3);
  return outlines.length <= 1 ? outlines : united(outlines);
}

function solidOutline(solid: Solid): readonly Point[] {
  const radians = (solid.turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  const placed = ownOutline(solid).map(([x, y]) => ({
    x: solid.x + x * cos - y * sin,
    y: solid.y + x * sin + y * cos,
  }));
  return signedArea(placed) < 0 ? placed.toReversed() : placed;
}

function ownOutline({ shape, width, depth, outline }: Solid): readonly (readonly [number, number])[] {
  if (shape === "outline") return outline ?? [];
  const [x, y] = [width / 2, depth / 2];
  if (shape === "box")
    return [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ] as const;
  return Array.from({ length: ROUND_SIDES }, (_, index): [number, number] => {
    const angle = (index / ROUND_SIDES) * 2 * Math.PI;
    return [x * Math.cos(angle), x * Math.sin(angle)];
  });
}

function signedArea(outline: readonly Point[]): number {
  return outline.reduce((sum, a, index) => {
    const b = outline[(index + 1) % outline.length] ?? a;
    return sum + a.x * b.y - b.x * a.y;
  }, 0);
}
