/** What a cut-out is cut to: the outline of a piece in its own frame. */
import { listed, type ShowDocument, type Solid } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import { formOf } from "./standing.ts";

/** Rings (mm, piece frame: front along -y, outer ones counterclockwise) by piece id; a piece without a size has none. */
export function footprints(document: ShowDocument): ReadonlyMap<string, readonly (readonly Point[])[]> {
  const byPiece = new Map<string, Solid[]>();
  for (const solid of listed(document.solids)) {
    const held = byPiece.get(solid.piece);
    if (held) held.push(solid);
    else byPiece.set(solid.piece, [solid]);
  }
  return new Map([...byPiece].map(([piece, solids]) => [piece, formOf(solids).outline]));
}
