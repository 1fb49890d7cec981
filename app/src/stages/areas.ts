/** What of a room's sheet can be looked at, by name, and where new pieces are put. */
import type { Arrangement, Sheet, TrueRoom } from "@cornerwise/engine";
import { areaOf, type PaperArea, roomToPaper } from "../sheet/view.ts";

const MARGIN = 14;

/** What can be looked at, by name: the plan, each elevation, the whole sheet. */
export function lookingAreas(sheet: Sheet, arrangement: Arrangement): ReadonlyMap<string, PaperArea> {
  const room = arrangement.room;
  const areas = new Map<string, PaperArea>();
  for (const frame of sheet.frames) {
    const wall = room.walls.find((candidate) => candidate.id === frame.wall);
    if (frame.wall === undefined) {
      const area = areaOf(room.corners.map((corner) => roomToPaper(frame, corner)));
      areas.set("plan", grown(area));
    } else if (wall) {
      const height = Math.max(...room.corners.map((corner) => corner.height));
      const points = [
        { x: 0, y: 0 },
        { x: wall.length, y: height },
      ];
      areas.set(wall.name, grown(areaOf(points.map((point) => roomToPaper(frame, point)))));
    }
  }
  areas.set("all", wholeSheet(sheet));
  return areas;
}

/** An area with room for letters round it. */
export function grown(area: PaperArea): PaperArea {
  return {
    left: area.left - MARGIN,
    right: area.right + MARGIN,
    top: area.top - MARGIN,
    bottom: area.bottom + MARGIN,
  };
}

/** The paper from edge to edge. */
export function wholeSheet(sheet: Sheet): PaperArea {
  return { left: 0, top: 0, right: sheet.width, bottom: sheet.height };
}

/** Where a piece is put that was only pressed: by the mean of the corners, on a round step, to be pushed on from. */
export function middleOf({ corners }: TrueRoom, step: number): { readonly x: number; readonly y: number } {
  const mean = (pick: (corner: { readonly x: number; readonly y: number }) => number) =>
    corners.reduce((sum, corner) => sum + pick(corner), 0) / Math.max(1, corners.length);
  return {
    x: Math.round(mean((corner) => corner.x) / step) * step,
    y: Math.round(mean((corner) => corner.y) / step) * step,
  };
}
