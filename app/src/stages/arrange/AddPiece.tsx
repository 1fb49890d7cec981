/** A piece of the artist's own: named, sized as people say sizes, or drawn as a rectangle on grid squares. */
import { printLength, type Show } from "@cornerwise/engine";
import { type FormEvent, type PointerEvent, useState } from "react";
import type { Enter } from "../../act.ts";
import { Problems } from "../../parts/LineField.tsx";
import { Sheetlet } from "../../parts/Sheetlet.tsx";
import { inchUnits } from "../../sheet/ScaleRule.tsx";
import css from "./AddPiece.module.css";

interface Props {
  readonly show: Show;
  readonly enter: Enter;
  readonly onClose: () => void;
}

const CELLS = { across: 24, down: 12, px: 20 };

export function AddPiece({ show, enter, onClose }: Props) {
  const [name, setName] = useState("");
  const [count, setCount] = useState("1");
  const [round, setRound] = useState(false);
  const [size, setSize] = useState({ width: "", depth: "", height: "" });
  const [sits, setSits] = useState(false);
  const [layer, setLayer] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const many = Number(count) > 1 ? ` x${count}` : "";
    const body = round
      ? `${size.width} across x ${size.height}`
      : `${size.width} x ${size.depth} x ${size.height}`;
    void enter(`piece ${quoted(name)}${many}, ${body}${sits ? ", sits" : ""}${layer && `, ${layer}`}`).then(
      (found) => (found.length ? setProblems(found) : onClose()),
    );
  };
  const field = (key: keyof typeof size, label: string) => (
    <label>
      {label}
      <input
        value={size[key]}
        required
        autoComplete="off"
        placeholder={show.units === "ft-in" ? `2' 6"` : inchUnits(show.units) ? '30"' : "75 cm"}
        onChange={(event) => setSize({ ...size, [key]: event.target.value })}
      />
    </label>
  );
  return (
    <Sheetlet title="Add a piece" onClose={onClose}>
      <form onSubmit={submit} className={css["form"]}>
        <label className={css["wide"]}>
          Name
          <input
            value={name}
            required
            maxLength={200}
            autoComplete="off"
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        <label>
          How many
          <input
            value={count}
            inputMode="numeric"
            pattern="[0-9]*"
            onChange={(event) => setCount(event.target.value)}
          />
        </label>
        <label className={css["wide"]}>
          Where it goes
          <select value={layer} onChange={(event) => setLayer(event.target.value)}>
            <option value="">stands on the floor</option>
            <option value="accessory">stands on another piece</option>
            <option value="fitting">is fixed to a wall</option>
            <option value="hung">hangs from above</option>
          </select>
        </label>
        {field("width", round ? "Across" : "Width")}
        {!round && field("depth", "Depth")}
        {field("height", "Height")}
        <div className={css["checks"]}>
          <label>
            <input type="checkbox" checked={round} onChange={(event) => setRound(event.target.checked)} /> It
            is round
          </label>
          <label>
            <input type="checkbox" checked={sits} onChange={(event) => setSits(event.target.checked)} /> It
            invites sitting
          </label>
        </div>
        {!round && (
          <DrawnSize
            show={show}
            onDrawn={(width, depth) =>
              setSize({
                ...size,
                width: printLength(width, show.units),
                depth: printLength(depth, show.units),
              })
            }
          />
        )}
        <div className={css["wide"]}>
          <Problems problems={problems} />
          <button type="submit" className="main">
            Put it in the tray
          </button>
        </div>
      </form>
    </Sheetlet>
  );
}

/** A name as the tape sheet takes it whole, whatever stands in it. */
function quoted(name: string): string {
  return `"${name.trim().replaceAll('"', "″")}"`;
}

/** Drag a rectangle over squares: its width and depth. Typing them above does the same by keyboard. */
function DrawnSize({
  show,
  onDrawn,
}: {
  readonly show: Show;
  readonly onDrawn: (width: number, depth: number) => void;
}) {
  const [box, setBox] = useState<{ x: number; y: number; toX: number; toY: number } | undefined>(undefined);
  const square = inchUnits(show.units) ? 6 * 25.4 : 150;
  const crossing = (event: PointerEvent<SVGSVGElement>) => {
    const area = event.currentTarget.getBoundingClientRect();
    return {
      x: Math.round(((event.clientX - area.left) / area.width) * CELLS.across),
      y: Math.round(((event.clientY - area.top) / area.height) * CELLS.down),
    };
  };
  const shown = box && {
    x: Math.min(box.x, box.toX),
    y: Math.min(box.y, box.toY),
    width: Math.abs(box.toX - box.x),
    depth: Math.abs(box.toY - box.y),
  };
  return (
    <div className={css["wide"]}>
      <p className="soft">Or draw its footprint. One square is {printLength(square, show.units)}.</p>
      <svg
        className={css["draw"]}
        viewBox={`0 0 ${CELLS.across * CELLS.px} ${CELLS.down * CELLS.px}`}
        role="img"
        aria-label="Grid paper to draw the footprint on"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          const { x, y } = crossing(event);
          setBox({ x, y, toX: x, toY: y });
        }}
        onPointerMove={(event) => {
          if (!box || event.buttons === 0) return;
          const { x, y } = crossing(event);
          setBox({ ...box, toX: x, toY: y });
        }}
        onPointerUp={() => {
          if (shown && shown.width > 0 && shown.depth > 0)
            onDrawn(shown.width * square, shown.depth * square);
        }}
      >
        {Array.from({ length: CELLS.across + 1 }, (_, x) => (
          <line
            key={`c${x}`}
            x1={x * CELLS.px}
            x2={x * CELLS.px}
            y1="0"
            y2={CELLS.down * CELLS.px}
            stroke="var(--ink-grid)"
          />
        ))}
        {Array.from({ length: CELLS.down + 1 }, (_, y) => (
          <line
            key={`r${y}`}
            y1={y * CELLS.px}
            y2={y * CELLS.px}
            x1="0"
            x2={CELLS.across * CELLS.px}
            stroke="var(--ink-grid)"
          />
        ))}
        {shown && (
          <rect
            x={shown.x * CELLS.px}
            y={shown.y * CELLS.px}
            width={shown.width * CELLS.px}
            height={shown.depth * CELLS.px}
            fill="color-mix(in srgb, var(--ink-card) 70%, transparent)"
            stroke="var(--ink-card-edge)"
          />
        )}
      </svg>
    </div>
  );
}
