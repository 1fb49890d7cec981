/** The transform that shows a piece's drawn items where it is just now, before the sheet is drawn again. */
import type { Frame, Standing } from "@cornerwise/engine";
import { roomToPaper } from "../../sheet/view.ts";
import type { Stand } from "./commands.ts";

/** Undefined where the piece stands as it is drawn. */
export function movedItems(
  frame: Frame,
  standing: Standing,
  now: Stand | undefined,
): { readonly record: string; readonly transform: string } | undefined {
  const drawn = standing.placement;
  if (!now || (now.x === drawn.x && now.y === drawn.y && now.turn === drawn.turn)) return undefined;
  const from = roomToPaper(frame, drawn);
  const to = roomToPaper(frame, now);
  const turn = drawn.turn - now.turn;
  return {
    record: drawn.id,
    transform: `translate(${to.x} ${to.y}) rotate(${turn}) translate(${-from.x} ${-from.y})`,
  };
}
