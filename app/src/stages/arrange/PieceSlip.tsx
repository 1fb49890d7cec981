/** The slip of a chosen piece: where it stands in typed lengths, how it is turned, what is near it. */
import {
  type Gap,
  parseLength,
  printLength,
  showOf,
  type ShowDocument,
  type Standing,
  type TrueRoom,
} from "@cornerwise/engine";
import { useState } from "react";
import { Choice } from "../../parts/Fields.tsx";
import { Problems } from "../../parts/LineField.tsx";
import type { Stand } from "./commands.ts";
import { standNow } from "./where.ts";
import css from "./PieceSlip.module.css";

interface Props {
  readonly document: ShowDocument;
  readonly room: TrueRoom;
  readonly standing: Standing;
  readonly gaps: readonly Gap[];
  /** What it could stand on. */
  readonly hosts: readonly Standing[];
  readonly onStand: (to: Stand) => void;
  /** Puts it on the middle of another, or on the floor where it is now. */
  readonly onPutOn: (host: Standing | undefined) => void;
  readonly onHang: (up: number) => void;
  readonly onDuplicate: () => void;
  readonly onPutBack: () => void;
}

export function PieceSlip(props: Props) {
  const { document, room, standing, gaps, onStand, onDuplicate, onPutBack } = props;
  const units = showOf(document).units;
  const { id } = standing.placement;
  const placement = standNow(document, standing);
  const inward = room.room.turn === "clockwise" ? -1 : 1;
  const wall = room.walls[0]?.name ?? "the first wall";
  const corner = room.corners[0]?.name ?? "the first corner";
  const wide = window.innerWidth > 640;
  const nearest = gaps.toSorted((a, b) => a.width - b.width)[0];
  const other = nearest && (nearest.a === id ? nearest.bName : nearest.aName);
  return (
    <>
      <p>
        {standing.piece.sits && <span className="ochre">Invites sitting. </span>}
        {nearest && (
          <>
            Nearest: <span className="mono">{printLength(nearest.width, units)}</span> to {other}.
          </>
        )}
      </p>
      <details className={css["exact"]} open={wide || undefined}>
        <summary>Exact place</summary>
        <div className={css["grid"]}>
          <LengthBox
            label={`From ${corner} along ${wall}`}
            value={printLength(placement.x, units)}
            read={(text) => signedLength(text, units)}
            onRead={(x) => onStand({ ...placement, x })}
          />
          <LengthBox
            label={`Into the room`}
            value={printLength(inward * placement.y, units)}
            read={(text) => signedLength(text, units)}
            onRead={(depth) => onStand({ ...placement, y: inward * depth })}
          />
          <LengthBox
            label="Turned, degrees"
            value={String(placement.turn)}
            read={readTurn}
            onRead={(turn) => onStand({ ...placement, turn })}
          />
          <HowHigh {...props} />
        </div>
      </details>
      <div className={css["turns"]}>
        <button
          type="button"
          aria-label="Turn left 15 degrees"
          onClick={() => onStand({ ...placement, turn: placement.turn + 15 })}
        >
          ↺ 15°
        </button>
        <button
          type="button"
          aria-label="Turn right 15 degrees"
          onClick={() => onStand({ ...placement, turn: placement.turn - 15 })}
        >
          ↻ 15°
        </button>
      </div>
      <div className={css["choices"]}>
        <button type="button" onClick={onDuplicate}>
          One more
        </button>
        <button type="button" onClick={onPutBack}>
          Put back
        </button>
      </div>
    </>
  );
}

/** On what it stands, or how high it hangs. */
function HowHigh({ document, standing, hosts, onPutOn, onHang }: Props) {
  const units = showOf(document).units;
  if (standing.piece.layer === "hung") {
    return (
      <LengthBox
        label="Underside above floor"
        value={printLength(standing.low, units)}
        read={(text) => signedLength(text, units)}
        onRead={(up) => onHang(Math.max(0, up))}
      />
    );
  }
  if (hosts.length === 0) return null;
  const shown = hosts.slice(0, HOSTS_SHOWN);
  const on = hosts.find((host) => host.placement.id === standing.on);
  return (
    <Choice
      label="Stands on"
      value={standing.on ?? ""}
      options={[
        ["", "the floor"],
        ...(on && !shown.includes(on) ? [on, ...shown] : shown).map(
          (host) => [host.placement.id, host.name] as const,
        ),
      ]}
      onChange={(id) => onPutOn(hosts.find((host) => host.placement.id === id))}
    />
  );
}

/** More than this nobody looks through. */
const HOSTS_SHOWN = 300;

type Read = { readonly value: number } | { readonly reason: string };

export function signedLength(text: string, units: Parameters<typeof parseLength>[1]): Read {
  const parsed = parseLength(text, units, { zero: true, signed: true });
  return parsed.ok ? { value: parsed.value } : { reason: parsed.reason };
}

function readTurn(text: string): Read {
  const value = Number(text.trim().replace("°", ""));
  return text.trim() && Number.isFinite(value)
    ? { value }
    : { reason: `"${text}" is not a number of degrees` };
}

/** A length that is shown, and can be typed anew: taken on Enter or when the keyboard goes elsewhere. */
export function LengthBox(props: {
  readonly label: string;
  readonly value: string;
  readonly read: (text: string) => Read;
  readonly onRead: (value: number) => void;
}) {
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const take = () => {
    if (typed === undefined || typed === props.value || !typed.trim()) {
      setTyped(undefined);
      setProblem(undefined);
      return;
    }
    const read = props.read(typed);
    if ("reason" in read) {
      setProblem(read.reason);
      return;
    }
    setProblem(undefined);
    setTyped(undefined);
    props.onRead(read.value);
  };
  return (
    <label>
      <span className="small">{props.label}</span>
      <input
        value={typed ?? props.value}
        autoComplete="off"
        aria-invalid={problem !== undefined}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === "Enter") take();
        }}
      />
      <Problems problems={problem ? [problem] : []} />
    </label>
  );
}
