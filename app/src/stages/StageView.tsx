/** One room's sheet with the overlays of a stage, its slips, the tray and the scale rule. */
import {
  type Arrangement,
  type Frame,
  type Point,
  put,
  type Sheet,
  showOf,
  type Snag,
} from "@cornerwise/engine";
import { useEffect, useMemo, useRef, useState } from "react";
import { act, entering } from "../act.ts";
import { dragNow, openSheetlet, touch, useDeskState } from "../desk.ts";
import { LineField } from "../parts/LineField.tsx";
import { Sheetlet } from "../parts/Sheetlet.tsx";
import { SheetTable } from "../sheet/SheetTable.tsx";
import { fingerStep, ScaleRule } from "../sheet/ScaleRule.tsx";
import { areaOf, type Desk, type PaperArea, paperToScreen, roomToPaper, useDesk } from "../sheet/view.ts";
import { SnagList, SnagMarks } from "../snags/SnagList.tsx";
import { endPreview, preview as askPreview, useShow } from "../store/show.ts";
import { AddPiece } from "./arrange/AddPiece.tsx";
import { ArrangeOverlay } from "./arrange/ArrangeOverlay.tsx";
import { place, putBack, standAt } from "./arrange/commands.ts";
import { movedItems } from "./arrange/moved.ts";
import { Tray } from "./arrange/Tray.tsx";
import { roomPointAt } from "./arrange/dropped.ts";
import { MeasureOverlay } from "./measure/MeasureOverlay.tsx";
import { nextReading, type Wanted } from "./measure/next.ts";
import { ReadingsTable } from "./measure/ReadingsSlip.tsx";
import css from "./StageView.module.css";
import { TouchedSlip } from "./TouchedSlip.tsx";
import type { StageName } from "./words.ts";

export function StageView({ stage }: { readonly stage: StageName }) {
  const derived = useShow((show) => show.derived);
  const started = useShow((show) => show.started);
  const ready = useShow((show) => show.ready);
  const [index, setIndex] = useState(0);
  const at = derived && index < derived.arrangements.length ? index : 0;
  const arrangement = derived?.arrangements[at];
  const sheet = derived?.sheets[at];
  if (ready && !started) return <NothingYet />;
  if (!arrangement || !sheet || arrangement.room.corners.length === 0) {
    return derived && ready && started ? (
      <NothingYet />
    ) : (
      <p className={css["wait"]}>Laying out the sheet…</p>
    );
  }
  return (
    <RoomView
      stage={stage}
      arrangement={arrangement}
      sheet={sheet}
      snags={derived.snags}
      rooms={derived.rooms.map((room) => room.room.name)}
      chosen={at}
      onRoom={setIndex}
    />
  );
}

/** The first thing to do, drawn, with one button. */
function NothingYet() {
  return (
    <div className={css["nothing"]}>
      <svg viewBox="0 0 160 110" width="240" aria-hidden="true">
        <path
          d="M20 20h120v70H20z"
          fill="var(--sheet)"
          stroke="var(--ink-graphite)"
          strokeWidth="4"
          strokeDasharray="10 7"
        />
        <path
          d="M20 20l120 70M140 20L20 90"
          stroke="var(--ink-tape)"
          strokeWidth="1.5"
          strokeDasharray="5 4"
        />
      </svg>
      <p>No room here yet. Four walls are enough to begin.</p>
      <button type="button" className="main" onClick={() => openSheetlet("my-room")}>
        Begin my room
      </button>
      <button type="button" onClick={() => openSheetlet("notes")}>
        Paste notes from the tape
      </button>
    </div>
  );
}

interface RoomProps {
  readonly stage: StageName;
  readonly arrangement: Arrangement;
  readonly sheet: Sheet;
  readonly snags: readonly Snag[];
  readonly rooms: readonly string[];
  readonly chosen: number;
  readonly onRoom: (index: number) => void;
}

function RoomView({ stage, arrangement, sheet, snags, rooms, chosen, onRoom }: RoomProps) {
  const document = useShow((show) => show.document);
  const which = useShow((show) => show.which);
  const preview = useShow((show) => show.preview);
  const derivedRevision = useShow((show) => show.derivedRevision);
  const revision = useShow((show) => show.revision);
  const undoLabel = useShow((show) => show.undoLabel);
  const touched = useDeskState((desk) => desk.touched);
  const drag = useDeskState((desk) => desk.drag);
  const sheetlet = useDeskState((desk) => desk.sheetlet);
  const [looking, setLooking] = useState("plan");
  const [why, setWhy] = useState(false);
  const show = showOf(document);
  const room = arrangement.room;
  const frame = sheet.frames.find(
    (candidate) => candidate.wall === undefined && candidate.room === room.room.id,
  );
  const areas = useMemo(() => lookingAreas(sheet, arrangement), [sheet, arrangement]);
  const selected = touched?.kind === "placement" ? touched.id : undefined;
  const standing = arrangement.standing.find((one) => one.placement.id === selected);
  const enter = entering(room.room.id);
  const shownSnags = drag && preview?.placement.id === drag.id ? preview.snags : snags;

  useEffect(() => {
    if (selected === undefined) endPreview();
    else if (!dragNow()) {
      const placement = useShow.getState().document.placements[selected];
      if (placement) askPreview({ id: placement.id, x: placement.x, y: placement.y, turn: placement.turn });
    }
    // A new derivation moves walls and neighbours: what is near the chosen piece is asked again.
    // oxlint-disable-next-line react/exhaustive-effect-dependencies
  }, [selected, derivedRevision]);

  if (!frame) return null;
  const within = grown(areas.get("plan") ?? wholeSheet(sheet));
  const moved =
    standing &&
    movedItems(
      { frame, within },
      standing,
      drag?.id === selected ? drag : document.placements[standing.placement.id],
    );
  const gaps = preview && preview.placement.id === selected ? preview.gaps : [];
  return (
    <div className={css["stage"]} data-behind={revision - derivedRevision} data-undo={undoLabel}>
      <SheetTable
        sheet={sheet}
        name={`${room.room.name}: plan and elevations`}
        focus={{
          area: areas.get(looking) ?? areas.get("plan") ?? wholeSheet(sheet),
          key: `${which}:${room.room.id}:${looking}`,
        }}
        moved={moved}
        onBarePaper={() => touch(undefined)}
        overlay={
          <>
            {stage === "measure" ? (
              <MeasureOverlay room={room} frame={frame} next={nextDistance(arrangement)} />
            ) : (
              <ArrangeOverlay
                arrangement={arrangement}
                document={document}
                frame={frame}
                gaps={gaps}
                onStand={(id, to) => act(standAt(useShow.getState().document, id, to))}
                onPutBack={(id) => {
                  touch(undefined);
                  act(putBack(useShow.getState().document, id));
                }}
                onPreview={askPreview}
              />
            )}
            <SnagMarks snags={shownSnags} frame={frame} room={room.room.id} />
          </>
        }
        slips={
          <>
            <SnagList snags={shownSnags} quiet={arrangement.standing.length === 0} />
            {stage === "measure" && touched === undefined && (
              <EntryLine arrangement={arrangement} frame={frame} enter={enter} onWhy={() => setWhy(true)} />
            )}
            <TouchedSlip
              arrangement={arrangement}
              document={document}
              frame={frame}
              gaps={gaps}
              snags={shownSnags}
              enter={enter}
              onOpenSide={(from, to, isOpen) =>
                act({
                  label: isOpen ? "Open a side" : "Stand a wall",
                  edits: put(document, "walls", {
                    id: `${from}~${to}`,
                    room: room.room.id,
                    from,
                    to,
                    open: isOpen,
                  }),
                })
              }
            />
            {stage === "arrange" && arrangement.standing.length === 0 && arrangement.tray.length === 0 && (
              <p className={css["hint"]}>Add a piece of your own, then push it about.</p>
            )}
          </>
        }
      />
      {stage === "arrange" && (
        <Tray
          document={document}
          rows={arrangement.tray}
          onAdd={() => openSheetlet("add-piece")}
          onPlace={(piece, client) => {
            const point =
              (client && roomPointAt(frame, client)) ?? middleOf(arrangement, fingerStep(show.units));
            const change = place(useShow.getState().document, piece, { room: room.room.id, ...point });
            act(change);
            const id = change.edits[0]?.id;
            if (id) touch({ kind: "placement", id });
          }}
        />
      )}
      <footer className={css["foot"]}>
        <ScaleRuleHere frame={frame} />
        <nav className={css["looks"]} aria-label="Look at">
          {rooms.length > 1 && (
            <select aria-label="Room" value={chosen} onChange={(event) => onRoom(Number(event.target.value))}>
              {rooms.map((name, at) => (
                <option key={at} value={at}>
                  {name}
                </option>
              ))}
            </select>
          )}
          {[...areas.keys()].map((name) => (
            <button
              key={name}
              type="button"
              className="word"
              aria-pressed={looking === name}
              onClick={() => setLooking(name)}
            >
              {name}
            </button>
          ))}
          <button type="button" className="word" onClick={() => openSheetlet("house-rules")}>
            house rules
          </button>
        </nav>
      </footer>
      {sheetlet === "add-piece" && (
        <AddPiece show={show} enter={enter} onClose={() => openSheetlet(undefined)} />
      )}
      {why && (
        <Sheetlet title="Why: what the readings say" onClose={() => setWhy(false)}>
          <ReadingsTable room={room} show={show} />
        </Sheetlet>
      )}
    </div>
  );
}

/** The slip that takes a line at a time and moves on to the next reading by itself. */
function EntryLine({
  arrangement,
  frame,
  enter,
  onWhy,
}: {
  readonly arrangement: Arrangement;
  readonly frame: Frame;
  readonly enter: ReturnType<typeof entering>;
  readonly onWhy: () => void;
}) {
  const desk = useDesk();
  const next = nextReading(arrangement.room);
  const { left, top } = next ? besideReading(next, arrangement, frame, desk) : { left: 12, top: 12 };
  const units = useShow((state) => showOf(state.document).units);
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
        placeholder={!next ? "" : units === "ft-in" ? `24' 0 1/2"` : "7.32 m"}
        onTake={(text) => enter(next && /^[\d.,½¼¾⅛⅜⅝⅞⅓⅔]/u.test(text.trim()) ? `${next.ask} ${text}` : text)}
      />
      <button type="button" className="word" onClick={onWhy}>
        why?
      </button>
    </section>
  );
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

function nextDistance(arrangement: Arrangement) {
  const next = nextReading(arrangement.room);
  return next?.kind === "distance" && next.to !== undefined ? { from: next.from, to: next.to } : undefined;
}

/** The rule follows the zoom, which lives on the table; it is drawn through the table's last known view. */
function ScaleRuleHere({ frame }: { readonly frame: Frame }) {
  const show = useShow((state) => showOf(state.document));
  const zoom = useDeskState((desk) => desk.zoom);
  return <ScaleRule show={show} pxPerRoomMm={zoom / frame.scale} />;
}

const MARGIN = 14;

/** What can be looked at, by name: the plan, each elevation, the whole sheet. */
function lookingAreas(sheet: Sheet, arrangement: Arrangement): ReadonlyMap<string, PaperArea> {
  const room = arrangement.room;
  const areas = new Map<string, PaperArea>();
  for (const frame of sheet.frames) {
    const wall = room.walls.find((candidate) => candidate.id === frame.wall);
    if (frame.wall === undefined) {
      const area = areaOf(room.corners.map((corner) => roomToPaper(frame, corner)));
      areas.set("plan", grown(area));
    } else if (wall) {
      const height = Math.max(...room.corners.map((corner) => corner.height));
      const points = [
        { x: 0, y: 0 },
        { x: wall.length, y: height },
      ];
      areas.set(wall.name, grown(areaOf(points.map((point) => roomToPaper(frame, point)))));
    }
  }
  areas.set("all", wholeSheet(sheet));
  return areas;
}

function grown(area: PaperArea): PaperArea {
  return {
    left: area.left - MARGIN,
    right: area.right + MARGIN,
    top: area.top - MARGIN,
    bottom: area.bottom + MARGIN,
  };
}

function wholeSheet(sheet: Sheet): PaperArea {
  return { left: 0, top: 0, right: sheet.width, bottom: sheet.height };
}

/** Where a piece is put that was only pressed: by the mean of the corners, on a round step, to be pushed on from. */
function middleOf(arrangement: Arrangement, step: number): { readonly x: number; readonly y: number } {
  const corners = arrangement.room.corners;
  const mean = (pick: (corner: { readonly x: number; readonly y: number }) => number) =>
    corners.reduce((sum, corner) => sum + pick(corner), 0) / Math.max(1, corners.length);
  return {
    x: Math.round(mean((corner) => corner.x) / step) * step,
    y: Math.round(mean((corner) => corner.y) / step) * step,
  };
}
