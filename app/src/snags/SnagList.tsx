/**
 * The snags as slips, worst first: three shown and the rest folded. Each level is a shape and a word besides
 * its colour. On the sheet the same slips stand at their place.
 */
import { type Frame, type Level, type Point, ruleOf, type Snag, type TrueRoom } from "@cornerwise/engine";
import { useState } from "react";
import { touch as touchThing } from "../desk.ts";
import { roomToPaper, useDesk } from "../sheet/view.ts";
import css from "./SnagList.module.css";

const WORDS: { readonly [L in Level]: string } = { stop: "Stop", mind: "Mind", know: "Know" };
const INK: { readonly [L in Level]: string } = { stop: "red", mind: "ochre", know: "soft" };
const SHOWN = 3;
const ALL = 60;

/** A stop is eight-sided, a mind a triangle, a know a ring. */
export function LevelMark({ level, size = 16 }: { readonly level: Level; readonly size?: number }) {
  const shape = {
    stop: <polygon points="5,0 11,0 16,5 16,11 11,16 5,16 0,11 0,5" fill="currentColor" />,
    mind: <polygon points="8,1 16,15 0,15" fill="currentColor" />,
    know: <circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" strokeWidth="3" />,
  }[level];
  return (
    <svg className={css[INK[level]]} width={size} height={size} viewBox="0 0 16 16" aria-hidden="true">
      {shape}
    </svg>
  );
}

export function SnagList({
  snags,
  room,
  names,
  quiet,
}: {
  readonly snags: readonly Snag[];
  /** The room on the table; a snag of another says which. */
  readonly room: string;
  readonly names: { readonly [id: string]: { readonly name: string } };
  readonly quiet: boolean;
}) {
  const [open, setOpen] = useState(false);
  const [said, setFolded] = useState<boolean | undefined>(undefined);
  const folded = said ?? (quiet || window.innerWidth < 700);
  if (snags.length === 0) return null;
  const stops = snags.filter((snag) => snag.level === "stop").length;
  const words = `${stops ? `${stops} ${stops === 1 ? "stop" : "stops"}, ` : ""}${snags.length} ${snags.length === 1 ? "snag" : "snags"}`;
  const shown = open ? snags.slice(0, ALL) : snags.slice(0, SHOWN);
  return (
    <section className={css["list"]} aria-label="Snags">
      <button
        type="button"
        className={css["fold"]}
        aria-expanded={!folded}
        onClick={() => setFolded(!folded)}
      >
        <LevelMark level={snags[0]?.level ?? "know"} /> {words}
      </button>
      {!folded && (
        <>
          <ul>
            {shown.map((snag, index) => (
              <li key={`${snag.rule}:${snag.things.join()}:${index}`}>
                <button
                  type="button"
                  className={css["slip"]}
                  onClick={() => touchThing({ kind: "snag", index })}
                >
                  <LevelMark level={snag.level} />
                  <span>
                    <b className={css[INK[snag.level]]}>{WORDS[snag.level]}.</b>{" "}
                    {snag.room !== undefined &&
                      snag.room !== room &&
                      `In ${names[snag.room]?.name ?? "another room"}: `}
                    {snag.sentence}
                  </span>
                </button>
              </li>
            ))}
          </ul>
          {snags.length > SHOWN && (
            <button type="button" className={css["fold"]} onClick={() => setOpen(!open)}>
              {open ? "Fold the rest" : `${snags.length - SHOWN} more`}
            </button>
          )}
        </>
      )}
    </section>
  );
}

/** One snag whole: what was measured and wanted, why, by whose rule, and the mend. */
export function SnagSlip({ snag, length }: { readonly snag: Snag; readonly length: (mm: number) => string }) {
  const rule = ruleOf(snag.rule);
  return (
    <div className={css["whole"]}>
      <p>
        <LevelMark level={snag.level} /> {snag.sentence}
      </p>
      {snag.mend && <p className="moss">{snag.mend}</p>}
      <p className="soft small">{rule.asks}</p>
      {snag.measured !== undefined &&
        snag.wanted !== undefined &&
        rule.unit === undefined &&
        rule.stage !== "measure" && (
          <p className="small">
            Measured <span className="mono">{length(snag.measured)}</span>, wanted{" "}
            <span className="mono">{length(snag.wanted)}</span>
            {snag.doubt ? `, good to ${length(snag.doubt * 1.96)}` : ""}.
          </p>
        )}
      <p className="soft small">
        Source: {rule.source} Read {rule.readOn}.
      </p>
    </div>
  );
}

/** A slip's size on the screen with a little air, px. */
const SLIP = { wide: 52, tall: 27 };

/** Where a slip is put off its place, px, so that it covers none put down before; towards the middle of the room. */
function besideOthers(
  placed: Point[],
  at: Point,
  pxPerMm: number,
  off: { readonly aside: number; readonly above: number },
): { readonly aside: number; readonly above: number } {
  const away = Math.sign(off.above);
  let above = off.above;
  const screen = () => ({ x: at.x * pxPerMm + off.aside, y: at.y * pxPerMm + above });
  const covers = (other: Point) =>
    Math.abs(other.x - screen().x) < SLIP.wide && Math.abs(other.y - screen().y) < SLIP.tall;
  for (let tries = 0; tries < 12 && placed.some(covers); tries++) above += away * SLIP.tall;
  placed.push(screen());
  return { aside: off.aside, above };
}

/** The slips at their place on the sheet. */
export function SnagMarks({
  snags,
  frame,
  room,
}: {
  readonly snags: readonly Snag[];
  readonly frame: Frame;
  readonly room: TrueRoom;
}) {
  const desk = useDesk();
  const centre = roomToPaper(frame, {
    x: room.corners.reduce((sum, corner) => sum + corner.x, 0) / room.corners.length,
    y: room.corners.reduce((sum, corner) => sum + corner.y, 0) / room.corners.length,
  });
  const placed: Point[] = [];
  return (
    <g>
      {snags.slice(0, ALL).map((snag, index) => {
        if (!snag.at || snag.level === "know" || (snag.room !== undefined && snag.room !== room.room.id))
          return null;
        const at = roomToPaper(frame, snag.at);
        const { aside, above } = besideOthers(placed, at, desk.view.k, {
          aside: at.x < centre.x ? 14 : -34,
          above: at.y < centre.y ? 20 : -42,
        });
        const touch = () => touchThing({ kind: "snag", index });
        return (
          <g
            key={index}
            className={css[INK[snag.level]]}
            transform={`translate(${at.x} ${at.y}) scale(${1 / desk.view.k}) translate(${aside} ${above})`}
            role="button"
            tabIndex={0}
            aria-label={`${WORDS[snag.level]}: ${snag.sentence}`}
            onClick={touch}
            onKeyDown={(event) => {
              if (event.key === "Enter" || event.key === " ") touch();
            }}
            style={{ cursor: "pointer" }}
          >
            <path d={`M10 10L${-aside} ${-above}`} stroke="currentColor" strokeWidth="1.5" />
            <rect x="-14" y="-2" width="48" height="24" rx="2" fill="var(--sheet)" stroke="currentColor" />
            <text x="10" y="15" textAnchor="middle" fontSize="13" fontWeight="600" fill="currentColor">
              {WORDS[snag.level]}
            </text>
          </g>
        );
      })}
    </g>
  );
}
