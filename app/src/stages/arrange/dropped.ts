/** Where in the room a thing from the tray was let go: the sheet's own pan and zoom say. */
import type { Frame, Point } from "@cornerwise/engine";
import { paperToRoom, screenToPaper } from "../../sheet/view.ts";

/** On the finger step, mm. Undefined where the finger was not over the sheet. */
export function roomPointAt(
  frame: Frame,
  client: { readonly clientX: number; readonly clientY: number },
  step: number,
): Point | undefined {
  const table = document.querySelector<HTMLElement>("[data-desk]");
  const box = table?.getBoundingClientRect();
  const [k, x, y] = (table?.dataset["desk"] ?? "").split(" ").map(Number);
  if (!box || k === undefined || x === undefined || y === undefined) return undefined;
  if (
    client.clientX < box.left ||
    client.clientX > box.right ||
    client.clientY < box.top ||
    client.clientY > box.bottom
  )
    return undefined;
  const screen = { x: client.clientX - box.left, y: client.clientY - box.top };
  const room = paperToRoom(frame, screenToPaper({ k, x, y }, screen));
  return { x: Math.round(room.x / step) * step, y: Math.round(room.y / step) * step };
}
