/**
 * The card model on the table: turned with a finger, a wall laid flat by its foot, looked into from the door. Its
 * sheets to cut are pages beside it. All of it loads when it is first looked at.
 */
import type { SpaceFace, TrueRoom, TrueWall, ViewFrom } from "@cornerwise/engine";
import { useCallback, useEffect, useRef, useState } from "react";
import { touch, useDeskState } from "../../desk.ts";
import { spaceOf, useShow } from "../../store/show.ts";
import type { Space } from "../../worker/messages.ts";
import { NothingYet } from "../NothingYet.tsx";
import { RoomChoice } from "../RoomChoice.tsx";
import { Ripple } from "../Ripple.tsx";
import { nameOf, tableOf } from "../pages/records.ts";
import css from "../StageView.module.css";
import own from "./CardView.module.css";
import { createCardScene, type CardLook, type CardScene } from "./scene.ts";

export default function CardView({ onSheets }: { readonly onSheets: () => void }) {
  const derived = useShow((show) => show.derived);
  const started = useShow((show) => show.started);
  const ready = useShow((show) => show.ready);
  const index = useDeskState((desk) => desk.roomIndex);
  const room = derived?.rooms[index] ?? derived?.rooms[0];
  if (ready && !started) return <NothingYet />;
  if (!derived || !room) {
    return derived && ready && started ? (
      <NothingYet />
    ) : (
      <p className={css["wait"]}>Standing the card up…</p>
    );
  }
  return <RoomInCard key={room.room.id} room={room} onSheets={onSheets} />;
}

function RoomInCard({ room, onSheets }: { readonly room: TrueRoom; readonly onSheets: () => void }) {
  const { space, problem } = useSpace(room.room.id);
  const [laid, setLaid] = useState<ReadonlySet<string>>(new Set());
  const [view, setView] = useState<ViewFrom | undefined>(undefined);
  const [fault, setFault] = useState<string | undefined>(undefined);
  const views = space?.views ?? [];
  const words = fault ?? (room.settled ? problem : WAITS);
  return (
    <div className={css["stage"]}>
      {words !== undefined ? (
        <NoCard words={words} onSheets={room.settled ? onSheets : undefined} />
      ) : space === undefined ? (
        <p className={css["wait"]}>Standing the card up…</p>
      ) : (
        <CardCanvas space={space} laid={laid} view={view} onFault={setFault} />
      )}
      {words === undefined && (
        <LayFlat walls={room.walls.filter((wall) => !wall.open)} laid={laid} onLaid={setLaid} />
      )}
      <footer className={css["foot"]}>
        <nav className={css["looks"]} aria-label="Look from">
          <RoomChoice />
          {words === undefined && (
            <button
              type="button"
              className="word"
              aria-pressed={view === undefined}
              onClick={() => setView(undefined)}
            >
              over the table
            </button>
          )}
          <button type="button" className="word" onClick={onSheets}>
            sheets to cut
          </button>
          {words === undefined &&
            views.map((one) => (
              <button
                key={one.name}
                type="button"
                className="word"
                aria-pressed={view?.name === one.name}
                onClick={() => setView(one)}
              >
                {one.name}
              </button>
            ))}
        </nav>
      </footer>
    </div>
  );
}

const WAITS =
  "The card model waits for a room that closes: measure its walls, and one diagonal more if it has more than four.";

/** Why there is no model to turn, and what there is instead. */
function NoCard({
  words,
  onSheets,
}: {
  readonly words: string;
  readonly onSheets: (() => void) | undefined;
}) {
  return (
    <div className={css["nothing"]} role="status">
      <p className={own["words"]}>{words}</p>
      {onSheets && (
        <button type="button" className="main" onClick={onSheets}>
          Sheets to cut
        </button>
      )}
    </div>
  );
}

function LayFlat({
  walls,
  laid,
  onLaid,
}: {
  readonly walls: readonly TrueWall[];
  readonly laid: ReadonlySet<string>;
  readonly onLaid: (laid: ReadonlySet<string>) => void;
}) {
  const allLie = walls.every((wall) => laid.has(wall.id));
  return (
    <fieldset className={own["walls"]}>
      <legend>Lay flat</legend>
      {walls.map((wall) => (
        <button
          key={wall.id}
          type="button"
          className="word"
          aria-label={`Lay ${wall.name} flat`}
          aria-pressed={laid.has(wall.id)}
          onClick={() =>
            onLaid(
              new Set(
                laid.has(wall.id) ? [...laid].filter((other) => other !== wall.id) : [...laid, wall.id],
              ),
            )
          }
        >
          {wall.name}
        </button>
      ))}
      <button
        type="button"
        className="word"
        onClick={() => onLaid(new Set(allLie ? [] : walls.map((wall) => wall.id)))}
      >
        {allLie ? "stand all up" : "all"}
      </button>
    </fieldset>
  );
}

function useSpace(room: string | undefined) {
  const revision = useShow((show) => show.derivedRevision);
  const [found, setFound] = useState<{ readonly space: Space; readonly revision: number } | undefined>(
    undefined,
  );
  const [problem, setProblem] = useState<string | undefined>(undefined);
  useEffect(() => {
    if (room === undefined) return undefined;
    let wanted = true;
    spaceOf(room).then(
      (space) => {
        if (wanted) setFound({ space, revision });
      },
      (reason: unknown) => {
        if (wanted) setProblem(reason instanceof Error ? reason.message : String(reason));
      },
    );
    return () => {
      wanted = false;
    };
  }, [room, revision]);
  return { space: found?.space, problem };
}

/** How long a wall takes to fall or rise, ms; nothing moves for who asked for no movement. */
const FALL = 380;

/** The degrees a key turns the model by. */
const KEY_TURN = 10;

function CardCanvas({
  space,
  laid,
  view,
  onFault,
}: {
  readonly space: Space;
  readonly laid: ReadonlySet<string>;
  readonly view: ViewFrom | undefined;
  readonly onFault: (words: string) => void;
}) {
  const scene = useRef<CardScene | undefined>(undefined);
  const lying = useRef(new Map<string, number>());
  const pressed = useRef({ x: 0, y: 0 });
  const chosen = useChosenName(scene);
  const attach = useCallback(
    (element: HTMLCanvasElement) => {
      const made = sceneOn(element);
      if (typeof made === "string") {
        onFault(made);
        return undefined;
      }
      scene.current = made;
      const resized = new ResizeObserver(() => made.resize());
      resized.observe(element);
      const dressed = new MutationObserver(() => made.dress(lookNow()));
      dressed.observe(document.documentElement, { attributes: true, attributeFilter: ["data-look"] });
      return () => {
        resized.disconnect();
        dressed.disconnect();
        made.close();
        scene.current = undefined;
      };
    },
    [onFault],
  );
  useEffect(() => scene.current?.show(space.faces), [space]);
  useEffect(() => scene.current?.lookFrom(view), [view]);
  useEffect(() => {
    const walls = new Set([...laid, ...lying.current.keys()]);
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    const began = performance.now();
    const from = new Map(lying.current);
    let frame = 0;
    const step = (now: number) => {
      const part = still ? 1 : Math.min(1, (now - began) / FALL);
      const eased = part * part * (3 - 2 * part);
      for (const wall of walls) {
        const start = from.get(wall) ?? 0;
        const flat = start + ((laid.has(wall) ? 1 : 0) - start) * eased;
        lying.current.set(wall, flat);
        scene.current?.lay(wall, flat);
      }
      if (part < 1) frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [laid]);
  const things = nameThings(space.faces);
  return (
    <div className={own["room"]}>
      <canvas
        ref={attach}
        className={own["canvas"]}
        role="img"
        tabIndex={0}
        aria-label={`The card model, ${view?.name ?? "seen over the table"}: ${space.faces.length} faces. Arrow keys turn it, plus and minus bring it nearer and further.`}
        onPointerDown={(event) => {
          pressed.current = { x: event.clientX, y: event.clientY };
        }}
        onClick={(event) => {
          // A finger that has turned the model did not mean what lay under it in the end.
          if (Math.hypot(event.clientX - pressed.current.x, event.clientY - pressed.current.y) > 6) return;
          const box = event.currentTarget.getBoundingClientRect();
          chosen.choose(scene.current?.under(event.clientX - box.left, event.clientY - box.top));
        }}
        onKeyDown={(event) => {
          if (event.ctrlKey || event.metaKey || event.altKey) return;
          if (!turnedByKey(scene.current, event.key)) return;
          event.preventDefault();
        }}
      />
      <label className={own["said"]}>
        <span className="seen-by-readers">Show on the model</span>
        <select
          value={chosen.record ?? ""}
          onChange={(event) => chosen.choose(event.target.value || undefined)}
        >
          <option value="">Touch a thing, or find it here</option>
          {things.map(([record, name]) => (
            <option key={record} value={record}>
              {name}
            </option>
          ))}
          {chosen.record !== undefined && !things.some(([record]) => record === chosen.record) && (
            <option value={chosen.record}>{chosen.name}</option>
          )}
        </select>
      </label>
      <div className={own["zoom"]}>
        <button type="button" aria-label="Closer" onClick={() => scene.current?.near(1.25)}>
          +
        </button>
        <button type="button" aria-label="Further away" onClick={() => scene.current?.near(1 / 1.25)}>
          −
        </button>
      </div>
      <Ripple />
    </div>
  );
}

/** Turns or brings nearer as a key says; whether the key says anything. */
function turnedByKey(scene: CardScene | undefined, key: string): boolean {
  const turns: { readonly [key: string]: readonly [left: number, up: number] } = {
    ArrowLeft: [KEY_TURN, 0],
    ArrowRight: [-KEY_TURN, 0],
    ArrowUp: [0, -KEY_TURN],
    ArrowDown: [0, KEY_TURN],
  };
  const turn = turns[key];
  if (turn) scene?.turn(...turn);
  else if (key === "+" || key === "=") scene?.near(1.2);
  else if (key === "-") scene?.near(1 / 1.2);
  else return false;
  return true;
}

/** The scene on a canvas, or why there is none. */
function sceneOn(element: HTMLCanvasElement): CardScene | string {
  try {
    return createCardScene(element, lookNow());
  } catch (reason) {
    console.warn(reason);
    return "This browser cannot show the model in three dimensions. Nothing is lost: its sheets to cut are all here, and the plan and the walls stand in the other stages.";
  }
}

/** What was touched on the model, and its name. */
function useChosenName(scene: { readonly current: CardScene | undefined }) {
  const [record, setRecord] = useState<string | undefined>(undefined);
  return {
    record,
    name: record === undefined ? undefined : nameOfFace(record),
    choose: (next: string | undefined) => {
      setRecord(next);
      scene.current?.choose(next);
      touch(undefined);
    },
  };
}

/** Every record the model shows, by name, in the order of the alphabet. */
function nameThings(faces: readonly SpaceFace[]): readonly (readonly [record: string, name: string])[] {
  return [...new Set(faces.map((face) => face.record))]
    .flatMap((record) => {
      const name = nameOfFace(record);
      return name === undefined ? [] : [[record, name] as const];
    })
    .toSorted(([, a], [, b]) => a.localeCompare(b, undefined, { numeric: true }));
}

function nameOfFace(record: string): string | undefined {
  const { document, derived } = useShow.getState();
  const wall = derived?.rooms.flatMap((room) => room.walls).find((one) => one.id === record);
  if (wall) return `Wall ${wall.name}`;
  const table = tableOf(document, record);
  return table === undefined ? undefined : nameOf(document, table, record);
}

function lookNow(): CardLook {
  const style = getComputedStyle(document.documentElement);
  const ink = (name: string) => style.getPropertyValue(name).trim();
  return {
    table: ink("--table"),
    sheet: ink("--sheet"),
    card: ink("--ink-card"),
    cardEdge: ink("--ink-card-edge"),
    graphite: ink("--ink-graphite"),
    tape: ink("--ink-tape"),
  };
}
