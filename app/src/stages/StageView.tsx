/** One room's sheet with the overlays of a stage, its slips, the tray and the scale rule. */
import { type Arrangement, type Frame, put, remove, type Sheet, showOf, type Snag } from "@cornerwise/engine";
import { useEffect, useMemo, useState } from "react";
import { act, entering } from "../act.ts";
import { dragNow, openSheetlet, takeUp, touch, useDeskState } from "../desk.ts";
import { Sheetlet } from "../parts/Sheetlet.tsx";
import { focusSheet, SheetTable } from "../sheet/SheetTable.tsx";
import { fingerStep, ScaleRule } from "../sheet/ScaleRule.tsx";
import { SnagList, SnagMarks } from "../snags/SnagList.tsx";
import { endPreview, preview as askPreview, useShow } from "../store/show.ts";
import { AddPiece } from "./arrange/AddPiece.tsx";
import { ArrangeOverlay } from "./arrange/ArrangeOverlay.tsx";
import { putBack, standAt } from "./arrange/commands.ts";
import { movedItems } from "./arrange/moved.ts";
import { setDown } from "./arrange/setDown.ts";
import { Tray } from "./arrange/Tray.tsx";
import { roomPointAt } from "./arrange/dropped.ts";
import { asSaid, standNow } from "./arrange/where.ts";
import { RecordOnTable } from "./pages/RecordSlip.tsx";
import { MeasureOverlay } from "./measure/MeasureOverlay.tsx";
import { EntryLine, nextDistance } from "./measure/EntryLine.tsx";
import { ReadingsTable } from "./measure/ReadingsSlip.tsx";
import { grown, lookingAreas, wholeSheet } from "./areas.ts";
import { NothingYet } from "./NothingYet.tsx";
import { Ripple } from "./Ripple.tsx";
import { RoomChoice } from "./RoomChoice.tsx";
import css from "./StageView.module.css";
import { TouchedSlip } from "./TouchedSlip.tsx";
import type { StageName } from "./words.ts";

export function StageView({ stage }: { readonly stage: StageName }) {
  const derived = useShow((show) => show.derived);
  const started = useShow((show) => show.started);
  const ready = useShow((show) => show.ready);
  const index = useDeskState((desk) => desk.roomIndex);
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
  return <RoomView stage={stage} arrangement={arrangement} sheet={sheet} snags={derived.snags} />;
}

interface RoomProps {
  readonly stage: StageName;
  readonly arrangement: Arrangement;
  readonly sheet: Sheet;
  readonly snags: readonly Snag[];
}

function RoomView({ stage, arrangement, sheet, snags }: RoomProps) {
  const document = useShow((show) => show.document);
  const which = useShow((show) => show.which);
  const preview = useShow((show) => show.preview);
  const derivedRevision = useShow((show) => show.derivedRevision);
  const revision = useShow((show) => show.revision);
  const undoLabel = useShow((show) => show.undoLabel);
  const touched = useDeskState((desk) => desk.touched);
  const drag = useDeskState((desk) => desk.drag);
  const sheetlet = useDeskState((desk) => desk.sheetlet);
  const [looking, setLooking] = useState({ name: "plan", times: 0 });
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
  const step = fingerStep(show.units);
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
    movedItems({ frame, within }, standing, drag?.id === selected ? drag : standNow(document, standing));
  const gaps = standing && preview && preview.placement.id === selected ? preview.gaps : [];
  return (
    <div className={css["stage"]} data-behind={revision - derivedRevision} data-undo={undoLabel}>
      <SheetTable
        sheet={sheet}
        name={`${room.room.name}: plan and elevations`}
        focus={{
          area: areas.get(looking.name) ?? areas.get("plan") ?? wholeSheet(sheet),
          key: `${which}:${room.room.id}:${room.settled}:${looking.name}:${looking.times}`,
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
                onStand={(id, to) =>
                  act(standAt(useShow.getState().document, id, asSaid(arrangement, id, to)))
                }
                onPutBack={(id) => {
                  touch(undefined);
                  focusSheet();
                  act(putBack(useShow.getState().document, id));
                }}
                onPreview={(stand) => askPreview({ ...stand, ...asSaid(arrangement, stand.id, stand) })}
              />
            )}
            <SnagMarks snags={shownSnags} frame={frame} room={room} />
          </>
        }
        slips={
          <>
            <SnagList
              snags={shownSnags}
              room={room.room.id}
              names={document.rooms}
              quiet={arrangement.standing.length === 0}
            />
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
                    glass: false,
                    refused: document.walls[`${from}~${to}`]?.refused ?? false,
                  }),
                })
              }
            />
            <RecordOnTable room={room.room.id} snags={snags} />
            <Ripple />
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
            const at = client && roomPointAt(frame, client, step);
            const now = useShow.getState().document;
            const { change, on, id } = setDown(now, arrangement, piece, { at, chosen: standing });
            act(change);
            if (id === undefined) return;
            if (on === "wall") touch({ kind: "record", table: "mounts", id });
            else takeUp(id);
          }}
        />
      )}
      <Foot
        frame={frame}
        names={[...areas.keys()]}
        looking={looking.name}
        onLook={(name) => setLooking({ name, times: looking.times + 1 })}
      />
      {sheetlet === "add-piece" && (
        <AddPiece show={show} enter={enter} onClose={() => openSheetlet(undefined)} />
      )}
      {why && (
        <Sheetlet title="Why: what the readings say" onClose={() => setWhy(false)}>
          <ReadingsTable
            room={room}
            show={show}
            onTakeAway={(id) =>
              act({ label: "Take a reading away", edits: remove(document, "readings", id) })
            }
          />
        </Sheetlet>
      )}
    </div>
  );
}

interface FootProps {
  readonly frame: Frame;
  /** What can be looked at. */
  readonly names: readonly string[];
  readonly looking: string;
  readonly onLook: (name: string) => void;
}

/** The scale rule, and what lies under the eye. */
function Foot({ frame, names, looking, onLook }: FootProps) {
  return (
    <footer className={css["foot"]}>
      <ScaleRuleHere frame={frame} />
      <nav className={css["looks"]} aria-label="Look at">
        <RoomChoice />
        {names.map((name) => (
          <button
            key={name}
            type="button"
            className="word"
            aria-pressed={looking === name}
            onClick={() => onLook(name)}
          >
            {name}
          </button>
        ))}
        <button type="button" className="word" onClick={() => openSheetlet("house-rules")}>
          house rules
        </button>
      </nav>
    </footer>
  );
}

/** The rule follows the zoom, which lives on the table; it is drawn through the table's last known view. */
function ScaleRuleHere({ frame }: { readonly frame: Frame }) {
  const show = useShow((state) => showOf(state.document));
  const zoom = useDeskState((desk) => desk.zoom);
  return <ScaleRule show={show} pxPerRoomMm={zoom / frame.scale} />;
}
