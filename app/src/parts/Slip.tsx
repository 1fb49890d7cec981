/**
 * A slip of paper beside the thing it speaks of. On a phone it lies along the bottom, in reach of the thumb.
 * Escape or the close word puts it away.
 */
import { type ReactNode, useEffect, useRef } from "react";
import type { Point } from "@cornerwise/engine";
import { focusFirst } from "./focus.ts";
import css from "./Slip.module.css";

interface Props {
  readonly title: string;
  /** Screen px in the drawing area; the slip stands beside it, inside the area. */
  readonly at: Point;
  readonly size: { readonly width: number; readonly height: number };
  /** Half the size of the thing on the screen, px: the slip keeps off it. */
  readonly reach: number;
  /** The room's left and right on the screen, px: beside it the slip covers nothing. */
  readonly room: { readonly left: number; readonly right: number };
  /** Whether the keyboard goes to its first field when it appears. */
  readonly takesFocus: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

const WIDTH = 304;
const AWAY = 26;

export function Slip({ title, at, size, reach, room, takesFocus, onClose, children }: Props) {
  const ref = useRef<HTMLElement>(null);
  useEffect(() => {
    if (!takesFocus) return undefined;
    const before = document.activeElement;
    focusFirst(ref.current);
    return () => {
      if ((before instanceof HTMLElement || before instanceof SVGElement) && before.isConnected)
        before.focus({ preventScroll: true });
    };
    // The slip is made anew for each thing touched; only then may it take the keyboard.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, []);
  const x = leftOf({ at, reach, size, room });
  const top = Math.max(8, Math.min(at.y - 40, size.height - 430));
  return (
    <section
      ref={ref}
      className={`${css["slip"]} ${at.y > size.height * 0.45 ? css["above"] : css["below"]}`}
      aria-label={title}
      style={{ left: x, top, maxHeight: size.height - top - 8 }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        onClose();
      }}
    >
      <header className={css["head"]}>
        <h2>{title}</h2>
        <button type="button" className="word" onClick={onClose}>
          Close
        </button>
      </header>
      {children}
    </section>
  );
}

/** The slip's left, px: beside the room on the thing's side, else on the outer side of the thing. */
function leftOf({ at, reach, size, room }: Pick<Props, "at" | "reach" | "size" | "room">): number {
  const rightward = at.x > (room.left + room.right) / 2;
  const besideRight = room.right + AWAY + WIDTH < size.width;
  const besideLeft = room.left - AWAY - WIDTH > 0;
  if (besideLeft && (!rightward || !besideRight)) return room.left - AWAY - WIDTH;
  if (besideRight) return room.right + AWAY;
  const right = at.x + reach + AWAY;
  const left = at.x - reach - AWAY - WIDTH;
  const onRight = rightward ? right + WIDTH < size.width : left < 8;
  return onRight ? Math.min(right, size.width - WIDTH - 8) : Math.max(8, left);
}
