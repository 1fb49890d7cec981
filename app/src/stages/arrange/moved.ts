/** The transform that shows a piece's drawn items where it is just now, before the sheet is drawn again. */
import type { Frame, Standing } from "@cornerwise/engine";
import type { Moved } from "../../sheet/SheetItems.tsx";
import { type PaperArea, roomToPaper } from "../../sheet/view.ts";
import type { Stand } from "./commands.ts";

/** Undefined where the piece stands as it is drawn. */
export function movedItems(
  plan: { readonly frame: Frame; readonly within: PaperArea },
  standing: Standing,
  now: Stand | undefined,
): Moved | undefined {
  const { frame, within } = plan;
  const drawn = standing.stand;
  if (!now || (now.x === drawn.x && now.y === drawn.y && now.turn === drawn.turn)) return undefined;
  const from = roomToPaper(frame, drawn);
  const to = roomToPaper(frame, now);
  const turn = drawn.turn - now.turn;
  return {
    record: standing.placement.id,
    within,
    transform: `translate(${to.x} ${to.y}) rotate(${turn}) translate(${-from.x} ${-from.y})`,
  };
}
