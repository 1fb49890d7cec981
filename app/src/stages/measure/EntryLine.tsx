/** The entry slip at the place being measured: it takes a line at a time and moves on by itself. */
import { type Arrangement, type Frame, type Point, printLength, showOf } from "@cornerwise/engine";
import { useEffect, useRef } from "react";
import type { Enter } from "../../act.ts";
import { LineField } from "../../parts/LineField.tsx";
import { type Desk, paperToScreen, roomToPaper, useDesk } from "../../sheet/view.ts";
import { useShow } from "../../store/show.ts";
import css from "../StageView.module.css";
import { nextReading, type Wanted } from "./next.ts";

/** The slip that takes a line at a time and moves on to the next reading by itself. */
export function EntryLine({
  arrangement,
  frame,
  enter,
  onWhy,
}: {
  readonly arrangement: Arrangement;
  readonly frame: Frame;
  readonly enter: Enter;
  readonly onWhy: () => void;
}) {
  const desk = useDesk();
  const next = nextReading(arrangement.room);
  const { left, top } = next ? besideReading(next, arrangement, frame, desk) : { left: 12, top: 12 };
  const units = useShow((state) => showOf(state.document).units);
  const expected = next && printLength(expectedLength(next, arrangement), units);
  const slip = useRef<HTMLElement>(null);
  useEffect(() => {
    // With a keyboard at hand the next figure can be typed at once; on a phone it would cover the sheet.
    if (matchMedia("(pointer: fine)").matches) slip.current?.querySelector("input")?.focus();
  }, []);
  return (
    <section
      ref={slip}
      className={css["entry"]}
      aria-label="Entry slip"
      style={{ left, top, width: ENTRY.width }}
    >
      <LineField
        label={next ? `${next.ask}:` : "Everything asked is measured. Any other line:"}
        placeholder={expected ? `such as ${expected}` : ""}
        onTake={(text) => enter(next && /^[\d.,½¼¾⅛⅜⅝⅞⅓⅔]/u.test(text.trim()) ? `${next.ask} ${text}` : text)}
      />
      <button type="button" className="word" onClick={onWhy}>
        why?
      </button>
    </section>
  );
}

/** What the room as it stands would make of a reading, mm: shows how such a figure is written. */
function expectedLength(wanted: Wanted, { room: { corners } }: Arrangement): number {
  const from = corners.find((corner) => corner.id === wanted.from);
  const to = corners.find((corner) => corner.id === wanted.to);
  if (!from) return 0;
  return to ? Math.hypot(to.x - from.x, to.y - from.y) : from.height;
}

const ENTRY = { width: 284, height: 150 };
const OFF = 26;

function clamped(value: number, most: number): number {
  return Math.max(8, Math.min(value, most - 8));
}

/** Where the slip lies: by the place being measured, on the room's side of it, so that no wall is covered. */
function besideReading(
  wanted: Wanted,
  { room }: Arrangement,
  frame: Frame,
  desk: Desk,
): { readonly left: number; readonly top: number } {
  const screen = (corner: Point) => paperToScreen(desk.view, roomToPaper(frame, corner));
  const corners = room.corners.map((corner) => ({ id: corner.id, ...screen(corner) }));
  const from = corners.find((corner) => corner.id === wanted.from) ?? { x: 0, y: 0 };
  const to = corners.find((corner) => corner.id === wanted.to) ?? from;
  const at = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const middle = {
    x: corners.reduce((sum, corner) => sum + corner.x, 0) / corners.length,
    y: corners.reduce((sum, corner) => sum + corner.y, 0) / corners.length,
  };
  const upright = Math.abs(from.x - to.x) < Math.abs(from.y - to.y);
  const across = wanted.kind === "height" || upright ? Math.sign(middle.x - at.x) : 0;
  const down = wanted.kind === "height" || !upright ? Math.sign(middle.y - at.y) || 1 : 0;
  return {
    left: clamped(at.x - ENTRY.width / 2 + across * (ENTRY.width / 2 + OFF), desk.size.width - ENTRY.width),
    top: clamped(at.y - ENTRY.height / 2 + down * (ENTRY.height / 2 + OFF), desk.size.height - ENTRY.height),
  };
}

/** The pair of corners whose tape is pulled next, for the sheet. */
export function nextDistance(arrangement: Arrangement) {
  const next = nextReading(arrangement.room);
  return next?.kind === "distance" && next.to !== undefined ? { from: next.from, to: next.to } : undefined;
}
