/**
 * What the finger touches in Measure: every corner and every wall. Touching one corner and then another
 * begins a reading between them; the readings already taken lie as thin tapes, a suspect in red pencil.
 */
import type { Frame, Point, TrueRoom } from "@cornerwise/engine";
import { touch, touchedNow, useDeskState } from "../../desk.ts";
import { roomToPaper, useDesk } from "../../sheet/view.ts";
import css from "./MeasureOverlay.module.css";

interface Props {
  readonly room: TrueRoom;
  readonly frame: Frame;
  /** The reading that is asked for next, drawn as a tape waiting to be pulled. */
  readonly next: { readonly from: string; readonly to: string } | undefined;
}

export function MeasureOverlay({ room, frame, next }: Props) {
  const touched = useDeskState((desk) => desk.touched);
  const at = (id: string | undefined): Point | undefined => {
    const corner = room.corners.find((candidate) => candidate.id === id);
    return corner && roomToPaper(frame, corner);
  };
  return (
    <g>
      <Readings room={room} at={at} />
      {next && <Tape from={at(next.from)} to={at(next.to)} className={css["next"] ?? ""} />}
      {touched?.kind === "pair" && (
        <Tape from={at(touched.from)} to={at(touched.to)} className={css["measuring"] ?? ""} />
      )}
      {room.walls.map((wall) => (
        <WallHandle key={wall.id} room={room} wall={wall} from={at(wall.from)} to={at(wall.to)} />
      ))}
      {room.corners.map((corner) => (
        <CornerHandle key={corner.id} room={room} id={corner.id} name={corner.name} at={at(corner.id)} />
      ))}
    </g>
  );
}

function Readings({ room, at }: { readonly room: TrueRoom; readonly at: (id: string) => Point | undefined }) {
  const walls = new Set(room.walls.flatMap((wall) => [`${wall.from} ${wall.to}`, `${wall.to} ${wall.from}`]));
  return room.readings
    .filter(
      ({ reading, suspect }) =>
        reading.kind === "distance" && (suspect || !walls.has(`${reading.from} ${reading.to}`)),
    )
    .map(({ reading, suspect }) => (
      <Tape
        key={reading.id}
        from={at(reading.from)}
        to={at(reading.to ?? reading.from)}
        className={(suspect ? css["suspect"] : css["taken"]) ?? ""}
      />
    ));
}

function Tape({
  from,
  to,
  className,
}: {
  readonly from: Point | undefined;
  readonly to: Point | undefined;
  readonly className: string;
}) {
  const desk = useDesk();
  if (!from || !to) return null;
  return (
    <line
      className={className}
      x1={from.x}
      y1={from.y}
      x2={to.x}
      y2={to.y}
      strokeWidth={1.6 / desk.view.k}
      strokeDasharray={`${8 / desk.view.k} ${6 / desk.view.k}`}
    />
  );
}

function WallHandle({
  room,
  wall,
  from,
  to,
}: {
  readonly room: TrueRoom;
  readonly wall: TrueRoom["walls"][number];
  readonly from: Point | undefined;
  readonly to: Point | undefined;
}) {
  const desk = useDesk();
  const chosen = useDeskState((state) => state.touched?.kind === "wall" && state.touched.id === wall.id);
  if (!from || !to) return null;
  const choose = () => touch({ kind: "wall", room: room.room.id, id: wall.id });
  return (
    <polygon
      className={chosen ? css["wall-chosen"] : css["wall"]}
      points={bandAround(from, to, 15 / desk.view.k)}
      role="button"
      tabIndex={0}
      aria-label={`${wall.open ? "Open side" : "Wall"} ${wall.name}`}
      data-wall={wall.name}
      onClick={choose}
      onKeyDown={(event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        choose();
      }}
    />
  );
}

/** A band of a half-width round a line, as SVG points: a touch target with a size of its own. */
function bandAround(from: Point, to: Point, half: number): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const x = (-(to.y - from.y) / length) * half;
  const y = ((to.x - from.x) / length) * half;
  return `${from.x + x},${from.y + y} ${to.x + x},${to.y + y} ${to.x - x},${to.y - y} ${from.x - x},${from.y - y}`;
}

function CornerHandle({
  room,
  id,
  name,
  at,
}: {
  readonly room: TrueRoom;
  readonly id: string;
  readonly name: string;
  readonly at: Point | undefined;
}) {
  const desk = useDesk();
  const chosen = useDeskState((state) => state.touched?.kind === "corner" && state.touched.id === id);
  if (!at) return null;
  const choose = () => {
    const touched = touchedNow();
    const roomId = room.room.id;
    if (touched?.kind === "corner" && touched.id !== id)
      touch({ kind: "pair", room: roomId, from: touched.id, to: id });
    else touch({ kind: "corner", room: roomId, id });
  };
  return (
    <g className={css["corner"]}>
      <circle
        cx={at.x}
        cy={at.y}
        r={(chosen ? 9 : 5) / desk.view.k}
        className={chosen ? css["dot-chosen"] : css["dot"]}
      />
      <circle
        className={css["grip"]}
        cx={at.x}
        cy={at.y}
        r={24 / desk.view.k}
        role="button"
        tabIndex={0}
        aria-label={`Corner ${name}`}
        aria-pressed={chosen}
        data-corner={name}
        onClick={choose}
        onKeyDown={(event) => {
          if (event.key !== "Enter" && event.key !== " ") return;
          event.preventDefault();
          choose();
        }}
      />
    </g>
  );
}
