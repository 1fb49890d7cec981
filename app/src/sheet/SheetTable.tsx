/**
 * The sheet on the studio table: drawn, panned and zoomed. Overlays (what the finger touches) are SVG
 * children in paper millimetres; slips are HTML children in screen pixels. One finger on bare paper pans,
 * two pinch, the wheel zooms; plus and minus buttons and keys do the same.
 */
import type { Point, Sheet } from "@cornerwise/engine";
import { useGesture } from "@use-gesture/react";
import { type ReactNode, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { HatchPatterns, type Moved, SheetItems } from "./SheetItems.tsx";
import { zoomTo } from "../desk.ts";
import css from "./SheetTable.module.css";
import { DeskContext, fitting, type PaperArea, screenToPaper, type View, zoomed } from "./view.ts";

interface Props {
  readonly sheet: Sheet;
  readonly name: string;
  /** What to bring under the eye, and a key that says when to do it again. */
  readonly focus: { readonly area: PaperArea; readonly key: string };
  readonly moved?: Moved | undefined;
  /** SVG in paper mm, over the drawing. */
  readonly overlay: ReactNode;
  /** HTML in screen px, over everything. */
  readonly slips: ReactNode;
  /** A press on bare paper that did not become a pan, in paper mm. */
  readonly onBarePaper: () => void;
  /** A press anywhere on the paper that did not become a pan, in paper mm; instead of `onBarePaper` where it is given. */
  readonly onPaper?: (paper: Point) => void;
}

type Under = "movable" | "touchable" | "paper";

/** What lies under the finger: a piece or its arrow, something else that answers a touch, or bare paper. */
function thingUnder(event: Event): Under {
  if (!(event.target instanceof Element)) return "paper";
  if (event.target.closest("[data-piece], [data-turn]")) return "movable";
  return event.target.closest("[role=button]") ? "touchable" : "paper";
}

const FIRST_VIEW: View = { k: 3, x: 0, y: 0 };
const KEY_STEP = 60;

export function SheetTable({ sheet, name, focus, moved, overlay, slips, onBarePaper, onPaper }: Props) {
  const ref = useRef<SVGSVGElement>(null);
  const size = useSize(ref);
  const [view, setView] = useState<View>(FIRST_VIEW);
  useEffect(() => {
    if (size.width > 0) setView(fitting(focus.area, size, size.width < 600 ? 18 : 56));
    // The area moves with every change of the room; only a new key asks for a new look.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [focus.key, size.width, size.height]);

  const paperAt = useCallback(
    (client: { readonly clientX: number; readonly clientY: number }) => {
      const box = ref.current?.getBoundingClientRect();
      return screenToPaper(view, {
        x: client.clientX - (box?.left ?? 0),
        y: client.clientY - (box?.top ?? 0),
      });
    },
    [view],
  );

  useGesture(
    {
      onDrag: ({ delta: [dx, dy], xy: [clientX, clientY], pinching, tap, event, first, memo }) => {
        // A finger that came down on a thing moves that thing, or touches it; it does not move the sheet.
        const held = first || memo === undefined ? thingUnder(event) : (memo as Under);
        if (pinching || held === "movable") return held;
        if (tap) {
          if (held !== "paper") return held;
          if (onPaper) onPaper(paperAt({ clientX, clientY }));
          else onBarePaper();
        } else setView((old) => ({ ...old, x: old.x + dx, y: old.y + dy }));
        return held;
      },
      onPinch: ({ origin: [ox, oy], movement: [scale], memo, first }) => {
        const start = first || !memo ? view : (memo as View);
        const box = ref.current?.getBoundingClientRect();
        setView(zoomed(start, scale, { x: ox - (box?.left ?? 0), y: oy - (box?.top ?? 0) }));
        return start;
      },
      onWheel: ({ event, delta: [, dy] }) => {
        if (event.ctrlKey) return;
        const box = ref.current?.getBoundingClientRect();
        const about = { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
        setView((old) => zoomed(old, Math.exp(-dy / 500), about));
      },
    },
    {
      target: ref,
      drag: { filterTaps: true, pointer: { capture: false } },
      eventOptions: { passive: false },
    },
  );

  useEffect(() => zoomTo(view.k), [view.k]);

  const desk = useMemo(() => ({ view, size, paperAt }), [view, size, paperAt]);
  const middle = { x: size.width / 2, y: size.height / 2 };

  return (
    <DeskContext.Provider value={desk}>
      <div className={css["table"]} data-desk={`${view.k} ${view.x} ${view.y}`}>
        <svg
          ref={ref}
          className={css["drawing"]}
          role="group"
          aria-label={name}
          tabIndex={0}
          onKeyDown={(event) => {
            if (event.target !== ref.current) return;
            const next = viewByKey(view, event.key, middle);
            if (!next) return;
            event.preventDefault();
            setView(next);
          }}
        >
          <HatchPatterns items={sheet.items} />
          <g transform={`translate(${view.x} ${view.y}) scale(${view.k})`}>
            <rect className={css["paper"]} width={sheet.width} height={sheet.height} />
            <SheetItems items={sheet.items} moved={moved} />
            {overlay}
          </g>
        </svg>
        <div className={css["zoom"]}>
          <button type="button" aria-label="Closer" onClick={() => setView(zoomed(view, 1.3, middle))}>
            +
          </button>
          <button
            type="button"
            aria-label="Further away"
            onClick={() => setView(zoomed(view, 1 / 1.3, middle))}
          >
            −
          </button>
        </div>
        {slips}
      </div>
    </DeskContext.Provider>
  );
}

/** Gives the keyboard to the sheet itself, where what had it is gone. */
export function focusSheet(): void {
  document.querySelector<SVGElement>("[data-desk] > svg")?.focus({ preventScroll: true });
}

function viewByKey(
  view: View,
  key: string,
  middle: { readonly x: number; readonly y: number },
): View | undefined {
  if (key === "+" || key === "=") return zoomed(view, 1.2, middle);
  if (key === "-") return zoomed(view, 1 / 1.2, middle);
  if (key === "ArrowLeft") return { ...view, x: view.x + KEY_STEP };
  if (key === "ArrowRight") return { ...view, x: view.x - KEY_STEP };
  if (key === "ArrowUp") return { ...view, y: view.y + KEY_STEP };
  if (key === "ArrowDown") return { ...view, y: view.y - KEY_STEP };
  return undefined;
}

/** The drawing area's size in px, kept as the window changes. */
function useSize(ref: { readonly current: SVGSVGElement | null }) {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const read = () => setSize({ width: element.clientWidth, height: element.clientHeight });
    read();
    const observer = new ResizeObserver(read);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
