/** The tray: cut-outs of what stands nowhere yet, on the table before the sheet. Drag one in, or press it. */
import {
  type Piece,
  type ShowDocument,
  type TrayRow,
  printLength,
  showOf,
  type Units,
} from "@cornerwise/engine";
import { type PointerEvent, useMemo, useRef, useState } from "react";
import { type Footprint, footprints } from "./commands.ts";
import css from "./Tray.module.css";

interface Props {
  readonly document: ShowDocument;
  readonly rows: readonly TrayRow[];
  /** Stands one copy in the room: at the finger's client position, or in the middle where it was only pressed. */
  readonly onPlace: (
    piece: Piece,
    at: { readonly clientX: number; readonly clientY: number } | undefined,
  ) => void;
  readonly onAdd: () => void;
}

const SHOWN = 40;

export function Tray({ document, rows, onPlace, onAdd }: Props) {
  const shown = rows.slice(0, SHOWN);
  const solids = document.solids;
  const sizes = useMemo(
    () => footprints(solids, new Set(rows.slice(0, SHOWN).map((row) => row.piece.id))),
    [solids, rows],
  );
  const units = showOf(document).units;
  return (
    <div className={css["tray"]} role="group" aria-label="Tray: pieces that stand nowhere yet">
      <button type="button" className={css["add"]} onClick={onAdd}>
        Add a piece
      </button>
      {shown.map((row) => (
        <CutOut
          key={row.piece.id}
          row={row}
          footprint={sizes.get(row.piece.id) ?? NO_SIZE}
          units={units}
          onPlace={onPlace}
        />
      ))}
      {rows.length === 0 && Object.keys(document.placements).length > 0 && (
        <span className={`${css["more"]} soft`}>All of it is placed.</span>
      )}
      {rows.length > SHOWN && <span className={css["more"]}>and {rows.length - SHOWN} more kinds</span>}
    </div>
  );
}

const NO_SIZE: Footprint = { width: 0, depth: 0, round: false };

function CutOut({
  row,
  footprint: { width, depth, round },
  units,
  onPlace,
}: Pick<Props, "onPlace"> & { readonly row: TrayRow; readonly footprint: Footprint; readonly units: Units }) {
  const start = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);
  const [ghost, setGhost] = useState<{ readonly x: number; readonly y: number } | undefined>(undefined);
  const largest = Math.max(width, depth, 1);
  const letGo = (event: PointerEvent) => {
    const from = start.current;
    start.current = undefined;
    setGhost(undefined);
    if (!from || Math.hypot(event.clientX - from.x, event.clientY - from.y) < 12) return;
    onPlace(row.piece, event);
  };
  return (
    <button
      type="button"
      className={css["cutout"]}
      aria-label={`Place ${row.piece.name}, ${row.count} waiting`}
      onPointerDown={(event) => {
        start.current = { x: event.clientX, y: event.clientY };
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        const from = start.current;
        if (from && Math.hypot(event.clientX - from.x, event.clientY - from.y) >= 12)
          setGhost({ x: event.clientX, y: event.clientY });
      }}
      onPointerUp={letGo}
      onPointerCancel={() => {
        start.current = undefined;
        setGhost(undefined);
      }}
      onClick={(event) => {
        const box = event.currentTarget.getBoundingClientRect();
        const inside =
          event.clientX <= box.right &&
          event.clientX >= box.left &&
          event.clientY >= box.top &&
          event.clientY <= box.bottom;
        if (event.detail === 0 || inside) onPlace(row.piece, undefined);
      }}
    >
      <svg viewBox="-26 -18 52 36" width="52" height="36" aria-hidden="true">
        <rect
          x={(-width / largest) * 16}
          y={(-depth / largest) * 16}
          width={(width / largest) * 32}
          height={(depth / largest) * 32}
          rx={round ? 16 : 0}
        />
      </svg>
      {ghost && (
        <span
          className={css["ghost"]}
          style={{ left: ghost.x, top: ghost.y, borderRadius: round ? 24 : 0 }}
        />
      )}
      <span className={css["name"]}>
        {row.piece.name}
        {row.count > 1 && ` × ${row.count}`}
      </span>
      <span className={css["size"]}>
        {printLength(width, units)} × {printLength(depth, units)}
      </span>
    </button>
  );
}
