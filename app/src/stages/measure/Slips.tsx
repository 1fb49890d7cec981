/** The slips of Measure: at a corner, between two corners, at a wall. Each takes lines of the tape sheet. */
import {
  type Show,
  type TrueCorner,
  type TrueRoom,
  type TrueWall,
  type WallCovering,
  listed,
  printAngle,
  printDoubt,
  printLength,
  SURE,
} from "@cornerwise/engine";
import { useState } from "react";
import type { Enter } from "../../act.ts";
import { touch } from "../../desk.ts";
import { CoverWall } from "../forms/CoverWall.tsx";
import { useShow } from "../../store/show.ts";
import { LineField } from "../../parts/LineField.tsx";
import { OnWallForm, type OnWall } from "./OnWallForm.tsx";
import css from "./Slips.module.css";

interface SlipProps {
  readonly room: TrueRoom;
  readonly show: Show;
  readonly enter: Enter;
}

export function CornerSlip({ room, show, enter, corner }: SlipProps & { readonly corner: TrueCorner }) {
  const doubt = Math.hypot(corner.sdX, corner.sdY) * SURE;
  return (
    <>
      <p>
        {room.settled ? `Inside angle ${printAngle(corner.angle)}. ` : "Nothing fixes this corner yet. "}
        {room.settled && doubt > 0 && (
          <span className="soft">This corner is {printDoubt(doubt, show.units)}.</span>
        )}
      </p>
      <p className={css["hint"]}>Touch another corner to measure between the two.</p>
      <LineField
        first
        label={
          corner.heightSaid ? `Height here, now ${printLength(corner.height, show.units)}` : "Height here"
        }
        onTake={(text) => enter(`height ${corner.name} ${text}`)}
      />
      <LineField label="Angle here, degrees" onTake={(text) => enter(`angle ${corner.name} ${text}`)} />
    </>
  );
}

export function PairSlip({
  room,
  show,
  enter,
  from,
  to,
}: SlipProps & { readonly from: TrueCorner; readonly to: TrueCorner }) {
  const taken = room.readings.find(
    ({ reading }) =>
      reading.kind === "distance" &&
      ((reading.from === from.id && reading.to === to.id) ||
        (reading.from === to.id && reading.to === from.id)),
  );
  const now = Math.hypot(to.x - from.x, to.y - from.y);
  return (
    <>
      <p>
        {taken ? `The tape said ${taken.reading.typed}. ` : ""}
        {room.settled && `The room makes it ${printLength(now, show.units)}.`}
      </p>
      <LineField
        first
        label={`${from.name} to ${to.name}`}
        onTake={(text) => enter(`${from.name} to ${to.name} ${text}`)}
      />
      <button
        type="button"
        className="word"
        onClick={() => touch({ kind: "corner", room: room.room.id, id: to.id })}
      >
        On from {to.name}
      </button>
    </>
  );
}

export function WallSlip({
  room,
  show,
  enter,
  wall,
  onOpen,
  onTakeAway,
}: SlipProps & {
  readonly wall: TrueWall;
  readonly onOpen: (open: boolean) => void;
  readonly onTakeAway: (table: "openings" | "fixtures", id: string, name: string) => void;
}) {
  const [adding, setAdding] = useState<OnWall | "strips" | undefined>(undefined);
  const covered = useShow((state) =>
    listed(state.document.wallCoverings)
      .filter((one) => onWall(one, wall))
      .map((one) => one.name)
      .join(", "),
  );
  const things = [
    ...room.openings
      .filter((opening) => opening.wall === wall.id)
      .map(({ opening: { id, name } }) => ({ table: "openings" as const, id, name })),
    ...room.fixtures
      .filter((fixture) => fixture.wall === wall.id)
      .map(({ fixture: { id, name } }) => ({ table: "fixtures" as const, id, name })),
  ];
  if (adding === "strips")
    return <CoverWall walls={[wall.name]} enter={enter} onDone={() => setAdding(undefined)} />;
  if (adding) {
    return (
      <OnWallForm what={adding} wall={wall} show={show} enter={enter} onDone={() => setAdding(undefined)} />
    );
  }
  return (
    <>
      <p>
        {room.settled &&
          `${printLength(wall.length, show.units)}, ${printDoubt(wall.sdLength * SURE, show.units)}.`}
      </p>
      {covered && <p className={css["hint"]}>Covered by {covered}.</p>}
      {wall.refused && <p className={css["hint"]}>The venue lets nothing be put on it.</p>}
      <LineField first label="The tape says" onTake={(text) => enter(`${wall.name} ${text}`)} />
      {things.map(({ table, id, name }) => (
        <p key={id} className={css["thing"]}>
          {name}
          <button
            type="button"
            className="word"
            aria-label={`Take ${name} away`}
            onClick={() => onTakeAway(table, id, name)}
          >
            Take away
          </button>
        </p>
      ))}
      <div className={css["choices"]}>
        {!wall.open && (
          <>
            <button type="button" onClick={() => setAdding("door")}>
              Door
            </button>
            <button type="button" onClick={() => setAdding("window")}>
              Window
            </button>
            <button type="button" onClick={() => setAdding("fixture")}>
              Thing to keep clear
            </button>
            {!wall.glass && (
              <button type="button" onClick={() => setAdding("strips")}>
                Cover this wall
              </button>
            )}
            <button
              type="button"
              onClick={() => void enter(`${wall.refused ? "allowed" : "refused"} ${wall.name}`)}
            >
              {wall.refused ? "The venue allows it" : "The venue refuses it"}
            </button>
          </>
        )}
        <button type="button" onClick={() => onOpen(!wall.open)}>
          {wall.open ? "A wall stands here" : "No wall here"}
        </button>
      </div>
    </>
  );
}

/** Whether strips hang on a wall, whichever way round its corners were said. */
function onWall({ from, to }: WallCovering, wall: TrueWall): boolean {
  return (from === wall.from && to === wall.to) || (from === wall.to && to === wall.from);
}
