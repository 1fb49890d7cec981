/**
 * What the finger touches in Arrange: every standing piece, its taped corners and the arrow at its front,
 * and the clear gaps read beside it. Paper millimetres; nothing here is drawn on paper.
 */
import type { Arrangement, Frame, Gap, Mounted, Point, ShowDocument, Standing } from "@cornerwise/engine";
import { printLength, removal, showOf } from "@cornerwise/engine";
import { type KeyboardEvent, type PointerEvent, useEffect, useRef } from "react";
import { act } from "../../act.ts";
import { dragNow, dragTo, isTakenUp, touch, useDeskState } from "../../desk.ts";
import { fingerStep } from "../../sheet/ScaleRule.tsx";
import { paperToRoom, roomToPaper, useDesk } from "../../sheet/view.ts";
import css from "./ArrangeOverlay.module.css";
import { moveMount, type Stand } from "./commands.ts";
import { held, outlineAt } from "./snap.ts";
import { standNow } from "./where.ts";

interface Props {
  readonly arrangement: Arrangement;
  readonly document: ShowDocument;
  readonly frame: Frame;
  readonly gaps: readonly Gap[];
  readonly onStand: (id: string, to: Stand) => void;
  readonly onPutBack: (id: string) => void;
  readonly onPreview: (stand: Stand & { readonly id: string }) => void;
}

/** Keys turn by this much, degrees. */
const TURN_STEP = 15;

export function ArrangeOverlay(props: Props) {
  const touched = useDeskState((desk) => desk.touched);
  const selected = touched?.kind === "placement" ? touched.id : undefined;
  // The order is the same whatever is chosen: the keyboard walks it.
  const ordered = props.arrangement.standing.toSorted((a, b) => areaRank(b) - areaRank(a));
  return (
    <g>
      {ordered.map((standing) => (
        <PieceHandle
          key={standing.placement.id}
          {...props}
          standing={standing}
          selected={standing.placement.id === selected}
        />
      ))}
      {props.arrangement.mounted.map((one) => (
        <MountHandle key={one.mount.id} one={one} frame={props.frame} document={props.document} />
      ))}
      {selected && <Gaps {...props} />}
    </g>
  );
}

/** A thing on the wall: touched, its slip says where it is fixed, and it is moved by saying so anew. */
function MountHandle({
  one,
  frame,
  document,
}: Pick<Props, "frame" | "document"> & { readonly one: Mounted }) {
  const show = showOf(document);
  const chosen = useDeskState((desk) => desk.touched?.kind === "record" && desk.touched.id === one.mount.id);
  const take = () => touch({ kind: "record", table: "mounts", id: one.mount.id });
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter" || event.key === " ") take();
    else if (event.key === "Delete" || event.key === "Backspace") {
      touch(undefined);
      act({ label: `Put ${one.name} back`, edits: removal(document, "mounts", one.mount.id) });
    } else {
      const by = mountByKey(event.key, event.shiftKey ? show.gridSquare : fingerStep(show.units));
      const mount = document.mounts[one.mount.id];
      if (!by || !mount) return;
      act(moveMount(document, mount.id, { offset: mount.offset + by.along, up: mount.up + by.up }));
    }
    event.preventDefault();
    event.stopPropagation();
  };
  const rings = one.outline.map(
    (ring) =>
      `M${ring
        .map((point) => roomToPaper(frame, point))
        .map((point) => `${point.x} ${point.y}`)
        .join("L")}Z`,
  );
  return (
    <path
      d={rings.join("")}
      className={chosen ? css["chosen"] : css["piece"]}
      role="button"
      tabIndex={0}
      aria-label={`${one.name}, fixed to the wall, arrow keys move it along and up`}
      aria-pressed={chosen}
      onClick={take}
      onKeyDown={onKeyDown}
    />
  );
}

/** Where a key sends a thing on a wall: further from or nearer to the corner it is measured from, up or down. */
function mountByKey(key: string, by: number): { readonly along: number; readonly up: number } | undefined {
  if (key === "ArrowRight") return { along: by, up: 0 };
  if (key === "ArrowLeft") return { along: -by, up: 0 };
  if (key === "ArrowUp") return { along: 0, up: by };
  if (key === "ArrowDown") return { along: 0, up: -by };
  return undefined;
}

/** Larger pieces lie under smaller ones, so that what stands on or by something can still be touched. */
function areaRank(standing: Standing): number {
  const points = standing.outline.flat();
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  return points.length ? (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys)) : 0;
}

function PieceHandle({
  arrangement,
  document,
  frame,
  standing,
  selected,
  onStand,
  onPutBack,
  onPreview,
}: Props & { readonly standing: Standing; readonly selected: boolean }) {
  const desk = useDesk();
  const drag = useDeskState((state) => (state.drag?.id === standing.placement.id ? state.drag : undefined));
  const handle = useRef<SVGPathElement>(null);
  useEffect(() => {
    if (isTakenUp(standing.placement.id)) handle.current?.focus({ preventScroll: true });
  }, [standing.placement.id]);
  const grip = useRef<{ readonly offset: Point; moved: boolean } | undefined>(undefined);
  const id = standing.placement.id;
  const placed = standNow(document, standing);
  const now: Stand = drag ?? placed;
  const show = showOf(document);
  const step = fingerStep(show.units);
  const outline = outlineAt(standing, now).map((point) => roomToPaper(frame, point));
  const rings = ringsOf(standing, outline);

  const follow = (event: PointerEvent, turning: boolean) => {
    const room = paperToRoom(frame, desk.paperAt(event));
    if (!grip.current) return;
    grip.current.moved = true;
    const stand = turning
      ? { ...now, turn: turnTowards(now, room, event.shiftKey) }
      : held(
          arrangement,
          standing,
          { x: room.x - grip.current.offset.x, y: room.y - grip.current.offset.y, turn: now.turn },
          step,
        );
    dragTo({ id, ...stand });
    onPreview({ id, ...stand });
  };
  const grab = (event: PointerEvent) => {
    event.preventDefault();
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    if (event.currentTarget instanceof SVGElement) event.currentTarget.focus({ preventScroll: true });
    const room = paperToRoom(frame, desk.paperAt(event));
    grip.current = { offset: { x: room.x - now.x, y: room.y - now.y }, moved: false };
    touch({ kind: "placement", id });
  };
  const letGo = () => {
    const done = grip.current;
    grip.current = undefined;
    const last = dragNow();
    if (done?.moved && last?.id === id) onStand(id, last);
    dragTo(undefined);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Escape" && grip.current) {
      grip.current = undefined;
      dragTo(undefined);
      return;
    }
    if (event.key === "Enter" || event.key === " ") touch({ kind: "placement", id });
    else if (event.key === "Delete" || event.key === "Backspace") onPutBack(id);
    else {
      const to = standByKey(event, placed, step, show.gridSquare);
      if (!to) return;
      touch({ kind: "placement", id });
      onStand(id, to);
    }
    event.preventDefault();
    event.stopPropagation();
  };
  const arrow = arrowAt(frame, standing, now, desk.view.k);
  const touchRadius = Math.max(24 / desk.view.k, 1);

  return (
    <g>
      <path
        ref={handle}
        d={rings}
        className={selected ? css["chosen"] : css["piece"]}
        role="button"
        tabIndex={0}
        aria-label={`${standing.name}, ${selected ? "chosen, " : ""}arrow keys push it`}
        aria-pressed={selected}
        data-piece={standing.name}
        strokeWidth={2.4 / desk.view.k}
        onPointerDown={grab}
        onPointerMove={(event) => grip.current && follow(event, false)}
        onPointerUp={letGo}
        onPointerCancel={letGo}
        onKeyDown={onKeyDown}
        onFocus={() => touch({ kind: "placement", id })}
      />
      {drag?.holds && <Holds words={`held by ${drag.holds}`} outline={outline} />}
      {selected && <Tapes outline={outline} size={9 / desk.view.k} />}
      {selected && (
        <g className={css["arrow"]}>
          <polygon points={arrow.points} />
          <circle
            className={css["grip"]}
            cx={arrow.middle.x}
            cy={arrow.middle.y}
            r={touchRadius}
            data-turn={standing.name}
            onPointerDown={grab}
            onPointerMove={(event) => grip.current && follow(event, true)}
            onPointerUp={letGo}
            onPointerCancel={letGo}
          />
        </g>
      )}
    </g>
  );
}

function ringsOf(standing: Standing, outline: readonly Point[]): string {
  let start = 0;
  return standing.outline
    .map((ring) => {
      const points = outline.slice(start, start + ring.length);
      start += ring.length;
      return `M${points.map((point) => `${point.x} ${point.y}`).join("L")}Z`;
    })
    .join("");
}

/** The arrow at the front of a piece, were it to stand there: a triangle on paper, its size steady on the screen. */
function arrowAt(frame: Frame, standing: Standing, now: Stand, pxPerMm: number) {
  const turn = (now.turn * Math.PI) / 180;
  const front = { x: Math.sin(turn), y: -Math.cos(turn) };
  const reach = Math.max(
    ...outlineAt(standing, now).map((point) => (point.x - now.x) * front.x + (point.y - now.y) * front.y),
  );
  const px = frame.scale / pxPerMm;
  const at = (ahead: number, aside: number): Point =>
    roomToPaper(frame, {
      x: now.x + front.x * (reach + ahead * px) - front.y * aside * px,
      y: now.y + front.y * (reach + ahead * px) + front.x * aside * px,
    });
  const points = [at(6, -11), at(6, 11), at(26, 0)].map((point) => `${point.x},${point.y}`).join(" ");
  return { points, middle: at(16, 0) };
}

function turnTowards(now: Stand, finger: Point, free: boolean): number {
  const degrees = (Math.atan2(finger.x - now.x, -(finger.y - now.y)) * 180) / Math.PI;
  const step = free ? 0.5 : 5;
  return Math.round(degrees / step) * step;
}

/** Where a key sends a piece: arrows push by the finger step, with Shift by a square; Alt turns. */
function standByKey(event: KeyboardEvent, now: Stand, step: number, square: number): Stand | undefined {
  const by = event.shiftKey ? square : step;
  if (event.altKey && event.key === "ArrowLeft") return { ...now, turn: now.turn + TURN_STEP };
  if (event.altKey && event.key === "ArrowRight") return { ...now, turn: now.turn - TURN_STEP };
  if (event.key === "ArrowLeft") return { ...now, x: now.x - by };
  if (event.key === "ArrowRight") return { ...now, x: now.x + by };
  if (event.key === "ArrowUp") return { ...now, y: now.y + by };
  if (event.key === "ArrowDown") return { ...now, y: now.y - by };
  return undefined;
}

/** What holds the piece that is being pushed, in words under it. */
function Holds({ words, outline }: { readonly words: string; readonly outline: readonly Point[] }) {
  const desk = useDesk();
  const size = 14 / desk.view.k;
  const x = outline.reduce((sum, point) => sum + point.x, 0) / Math.max(1, outline.length);
  const y = Math.max(...outline.map((point) => point.y)) + size * 3;
  return (
    <text className={css["holds"]} x={x} y={y} fontSize={size} textAnchor="middle">
      {words}
    </text>
  );
}

/** Short strips of tape over the corners of what is chosen. */
function Tapes({ outline, size }: { readonly outline: readonly Point[]; readonly size: number }) {
  const corners =
    outline.length > 8 ? outline.filter((_, index) => index % Math.ceil(outline.length / 4) === 0) : outline;
  return (
    <g className={css["tapes"]} aria-hidden="true">
      {corners.map((corner, index) => (
        <rect
          key={index}
          x={corner.x - size}
          y={corner.y - size / 3}
          width={size * 2}
          height={size / 1.5}
          transform={`rotate(${index % 2 ? 45 : -45} ${corner.x} ${corner.y})`}
        />
      ))}
    </g>
  );
}

/** The narrowest gap of each pair of things: one figure a pair. */
function onePerPair(gaps: readonly Gap[]): readonly Gap[] {
  const pairs = new Map<string, Gap>();
  for (const gap of gaps) {
    const pair = [gap.a, gap.b].toSorted().join(" ");
    const before = pairs.get(pair);
    if (!before || gap.width < before.width) pairs.set(pair, gap);
  }
  return [...pairs.values()];
}

function Gaps({ gaps, frame, document }: Props) {
  const desk = useDesk();
  const units = showOf(document).units;
  return (
    <g className={css["gaps"]} aria-hidden="true">
      {onePerPair(gaps).map((gap, index) => {
        const from = roomToPaper(frame, gap.at[0]);
        const to = roomToPaper(frame, gap.at[1]);
        const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
        const text = printLength(gap.width, units);
        const size = 13 / desk.view.k;
        return (
          <g key={index} data-gap>
            <line x1={from.x} y1={from.y} x2={to.x} y2={to.y} strokeWidth={1.6 / desk.view.k} />
            <rect
              x={middle.x - text.length * size * 0.33}
              y={middle.y - size * 0.75}
              width={text.length * size * 0.66}
              height={size * 1.4}
              rx={size * 0.2}
            />
            <text x={middle.x} y={middle.y + size * 0.33} fontSize={size} textAnchor="middle">
              {text}
            </text>
          </g>
        );
      })}
    </g>
  );
}
