/** What a dragged piece's place would mean, without touching the document. */
import { apply, nearestGaps, put, type Arranged, type ShowDocument } from "@cornerwise/engine";
import type { DraggedPlacement, Preview } from "./messages.ts";

/**
 * Derives the show as if the piece stood there and picks out what a drag shows. Undefined where there is no
 * such placement (taken away in another tab meanwhile).
 */
export function previewOf(
  document: ShowDocument,
  derive: (document: ShowDocument) => Arranged,
  dragged: DraggedPlacement,
): Preview | undefined {
  const stands = document.placements[dragged.id];
  if (stands === undefined) return undefined;
  const edits = put(document, "placements", { ...stands, x: dragged.x, y: dragged.y, turn: dragged.turn });
  const { arrangements, snags } = derive(apply(document, { label: "drag", edits }));
  const arrangement = arrangements.find(({ room }) => room.room.id === stands.room);
  const standing = arrangement?.standing.find(({ placement }) => placement.id === dragged.id);
  if (arrangement === undefined || standing === undefined) return undefined;
  return {
    placement: dragged,
    gaps: nearestGaps(arrangement, dragged.id),
    snags: snags.filter((snag) => snag.room === undefined || snag.room === stands.room),
    outline: standing.outline,
  };
}
