/**
 * A rough sketch on grid paper: each touch sets a corner on the nearest crossing. With the keyboard the
 * arrows walk a crossing and Enter sets the corner. One square is 12 in or 25 cm... a guess until the tape speaks.
 */
import { type Point, printLength, type Units } from "@cornerwise/engine";
import { type KeyboardEvent, type PointerEvent, useState } from "react";
import { inchUnits } from "../../sheet/ScaleRule.tsx";
import css from "./MyRoom.module.css";

const COLUMNS = 32;
const ROWS = 20;
const CELL = 18;

export function Sketch({
  units,
  onDone,
}: {
  readonly units: Units;
  readonly onDone: (corners: readonly Point[]) => void;
}) {
  const [corners, setCorners] = useState<readonly Point[]>([]);
  const [pen, setPen] = useState<Point>({ x: 4, y: 4 });
  const square = inchUnits(units) ? 304.8 : 250;
  const add = (point: Point) => {
    if (corners.some((corner) => corner.x === point.x && corner.y === point.y)) return;
    setCorners([...corners, point]);
  };
  const crossing = (event: PointerEvent<SVGSVGElement>): Point => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = Math.round(((event.clientX - box.left) / box.width) * COLUMNS);
    const y = Math.round(((event.clientY - box.top) / box.height) * ROWS);
    return { x: Math.min(COLUMNS, Math.max(0, x)), y: Math.min(ROWS, Math.max(0, y)) };
  };
  const walk = (event: KeyboardEvent) => {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    if (by)
      setPen({
        x: Math.min(COLUMNS, Math.max(0, pen.x + (by[0] ?? 0))),
        y: Math.min(ROWS, Math.max(0, pen.y + (by[1] ?? 0))),
      });
    else if (event.key === "Enter" || event.key === " ") add(pen);
    else if (event.key === "Backspace") setCorners(corners.slice(0, -1));
    else return;
    event.preventDefault();
  };
  const points = corners.map((corner) => `${corner.x * CELL},${corner.y * CELL}`).join(" ");
  return (
    <div>
      <p className="soft">
        Touch the corners one after another. One square is {printLength(square, units)}; the tape will put it
        right.
      </p>
      <svg
        className={css["sketch"]}
        viewBox={`-9 -9 ${COLUMNS * CELL + 18} ${ROWS * CELL + 18}`}
        role="application"
        aria-label={`Sketch, ${corners.length} corners. Arrow keys walk, Enter sets a corner`}
        tabIndex={0}
        onKeyDown={walk}
        onPointerDown={(event) => {
          const point = crossing(event);
          setPen(point);
          add(point);
        }}
      >
        {Array.from({ length: COLUMNS + 1 }, (_, x) => (
          <line key={`c${x}`} x1={x * CELL} x2={x * CELL} y1="0" y2={ROWS * CELL} stroke="var(--ink-grid)" />
        ))}
        {Array.from({ length: ROWS + 1 }, (_, y) => (
          <line
            key={`r${y}`}
            y1={y * CELL}
            y2={y * CELL}
            x1="0"
            x2={COLUMNS * CELL}
            stroke="var(--ink-grid)"
          />
        ))}
        <polygon className={css["line"]} points={points} />
        {corners.map((corner, index) => (
          <circle key={index} className={css["dot"]} cx={corner.x * CELL} cy={corner.y * CELL} r="6" />
        ))}
        <circle cx={pen.x * CELL} cy={pen.y * CELL} r="3" fill="var(--ink-tape)" />
      </svg>
      <div className={css["acts"]}>
        <button
          type="button"
          className="main"
          disabled={corners.length < 3}
          onClick={() => onDone(corners.map((corner) => ({ x: corner.x * square, y: -corner.y * square })))}
        >
          That is its shape
        </button>
        <button
          type="button"
          disabled={corners.length === 0}
          onClick={() => setCorners(corners.slice(0, -1))}
        >
          Take the last corner away
        </button>
      </div>
    </div>
  );
}
