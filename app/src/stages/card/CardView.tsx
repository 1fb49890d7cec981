/**
 * The card model on the table: turned with a finger, a wall laid flat by its foot, looked into from the door. Its
 * sheets to cut are pages beside it. All of it loads when it is first looked at.
 */
import { type ViewFrom } from "@cornerwise/engine";
import { useCallback, useEffect, useRef, useState } from "react";
import { openSheetlet, touch, useDeskState } from "../../desk.ts";
import { Problems } from "../../parts/LineField.tsx";
import { spaceOf, useShow } from "../../store/show.ts";
import type { Space } from "../../worker/messages.ts";
import { NothingYet } from "../NothingYet.tsx";
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
  const { space, problem } = useSpace(room?.room.id);
  const [laid, setLaid] = useState<ReadonlySet<string>>(new Set());
  const [view, setView] = useState<ViewFrom | undefined>(undefined);
  if (ready && !started) return <NothingYet />;
  if (problem) return <Problems problems={[problem]} />;
  if (!room || !space) return <p className={css["wait"]}>Standing the card up…</p>;
  if (!room.settled) return <p className={css["wait"]}>The card model waits for a room that closes.</p>;
  const walls = room.walls.filter((wall) => !wall.open);
  const toggle = (wall: string) =>
    setLaid((before) => {
      const next = new Set(before);
      if (!next.delete(wall)) next.add(wall);
      return next;
    });
  return (
    <div className={css["stage"]}>
      <CardCanvas space={space} laid={laid} view={view} />
      <fieldset className={own["walls"]}>
        <legend>Lay flat</legend>
        {walls.map((wall) => (
          <button
            key={wall.id}
            type="button"
            className="word"
            aria-pressed={laid.has(wall.id)}
            onClick={() => toggle(wall.id)}
          >
            {wall.name}
          </button>
        ))}
        <button
          type="button"
          className="word"
          onClick={() =>
            setLaid(laid.size === walls.length ? new Set() : new Set(walls.map((wall) => wall.id)))
          }
        >
          {laid.size === walls.length ? "stand all up" : "all"}
        </button>
      </fieldset>
      <footer className={css["foot"]}>
        <nav className={css["looks"]} aria-label="Look from">
          <button
            type="button"
            className="word"
            aria-pressed={view === undefined}
            onClick={() => setView(undefined)}
          >
            over the table
          </button>
          {space.views.map((one) => (
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
          <button type="button" className="word" onClick={onSheets}>
            sheets to cut
          </button>
          <button type="button" className="word" onClick={() => openSheetlet("print")}>
            print
          </button>
        </nav>
      </footer>
    </div>
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

function CardCanvas({
  space,
  laid,
  view,
}: {
  readonly space: Space;
  readonly laid: ReadonlySet<string>;
  readonly view: ViewFrom | undefined;
}) {
  const scene = useRef<CardScene | undefined>(undefined);
  const lying = useRef(new Map<string, number>());
  const [fault, setFault] = useState<string | undefined>(undefined);
  const chosen = useChosenName(scene);
  const attach = useCallback((element: HTMLCanvasElement) => {
    const made = sceneOn(element);
    if (typeof made === "string") {
      setFault(made);
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
  }, []);
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
  if (fault) return <Problems problems={[fault]} />;
  return (
    <div className={own["room"]}>
      <canvas
        ref={attach}
        className={own["canvas"]}
        role="img"
        aria-label={`The card model, ${view?.name ?? "seen over the table"}: ${space.faces.length} faces`}
        onClick={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          chosen.choose(scene.current?.under(event.clientX - box.left, event.clientY - box.top));
        }}
      />
      {chosen.name && (
        <p className={own["said"]} role="status">
          {chosen.name}
        </p>
      )}
    </div>
  );
}

/** The scene on a canvas, or why there is none. */
function sceneOn(element: HTMLCanvasElement): CardScene | string {
  try {
    return createCardScene(element, lookNow());
  } catch (reason) {
    return `This browser does not show three dimensions here (${String(reason)}). The sheets to cut are all there.`;
  }
}

/** What was touched on the model, by name. */
function useChosenName(scene: { readonly current: CardScene | undefined }) {
  const document = useShow((show) => show.document);
  const rooms = useShow((show) => show.derived?.rooms);
  const [record, setRecord] = useState<string | undefined>(undefined);
  const table = record === undefined ? undefined : tableOf(document, record);
  const wall = rooms?.flatMap((room) => room.walls).find((one) => one.id === record);
  const name =
    wall !== undefined
      ? `Wall ${wall.name}`
      : record !== undefined && table !== undefined
        ? nameOf(document, table, record)
        : undefined;
  return {
    name,
    choose: (next: string | undefined) => {
      setRecord(next);
      scene.current?.choose(next);
      touch(undefined);
    },
  };
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
