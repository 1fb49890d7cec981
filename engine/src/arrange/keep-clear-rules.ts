/** The venue's safety and service things: nothing stands before them, and the neighbours' works stay in view. */
import type { FixtureKind } from "../document/tables.ts";
import { alongWall, wallLines } from "../measure/frame.ts";
import type { TrueFixture, TrueRoom } from "../measure/model.ts";
import { counterclockwise } from "../plane/outline.ts";
import { boundsGap, nearest, overlapDepth, rounded, type Rounded } from "../plane/rounded.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Level, Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { opening, type Judging } from "./judging.ts";
import type { Standing } from "./model.ts";
import { fixtureName, shapeOf } from "./obstacles.ts";

/** What is owed to each kind: how grave it is, and which figure says how deep the clear space before it is. */
const OWED: {
  readonly [K in FixtureKind]?: { readonly level: Level; readonly figure: "front" | "service" };
} = {
  panel: { level: "stop", figure: "front" },
  extinguisher: { level: "stop", figure: "front" },
  alarm: { level: "stop", figure: "front" },
  "exit sign": { level: "stop", figure: "front" },
  thermostat: { level: "mind", figure: "service" },
  vent: { level: "mind", figure: "service" },
  outlet: { level: "mind", figure: "service" },
  switch: { level: "mind", figure: "service" },
  radiator: { level: "mind", figure: "service" },
};

interface Zone {
  readonly seen: TrueFixture;
  readonly level: Level;
  readonly space: Rounded;
  readonly body: Rounded;
  readonly low: number;
  readonly high: number;
  readonly wanted: number;
}

const zones = new WeakMap<TrueRoom, readonly Zone[]>();

/** Pieces that stand in the clear space before something and, for all but panels, hide it from the front. */
export function keepClearSnags(judging: Judging, standing: Standing): readonly Snag[] {
  const { room } = judging.arrangement;
  const known = zones.get(room) ?? zonesOf(room);
  zones.set(room, known);
  return known.flatMap((zone) => {
    const near = nearestIn(standing, zone);
    return near === undefined ? [] : [keepClearSnag(judging, standing, zone, near)];
  });
}

function figure(name: string): number {
  return figureOf("keep-clear-covered", name, "");
}

function zonesOf(room: TrueRoom): readonly Zone[] {
  const lines = new Map(wallLines(room).map((line) => [line.wall.id, line]));
  return room.fixtures.flatMap((seen) => {
    const { fixture } = seen;
    const owed = OWED[fixture.kind];
    const line = lines.get(seen.wall);
    if (!owed || !line) return [];
    const panel = fixture.kind === "panel";
    // A thing said only by its middle is taken as a hand's breadth wide and high.
    const hand = figure("hand");
    const wide = Math.max(fixture.width, panel ? figure("panelWidth") : hand);
    const middle = seen.along + fixture.width / 2;
    const wanted = figure(owed.figure);
    const band = (from: number, to: number, half: number): Rounded =>
      rounded(
        counterclockwise([
          alongWall(line, middle - half, -from),
          alongWall(line, middle + half, -from),
          alongWall(line, middle + half, -to),
          alongWall(line, middle - half, -to),
        ]),
      );
    const face = fixture.out + fixture.depth;
    const tall = Math.max(0, (hand - (seen.high - seen.low)) / 2);
    return [
      {
        seen,
        level: owed.level,
        space: band(0, face + wanted, wide / 2),
        body: band(0, face + TOUCH, Math.max(fixture.width, hand) / 2),
        low: panel ? 0 : seen.low - tall,
        high: panel ? figure("panelHeight") : seen.high + tall,
        wanted,
      },
    ];
  });
}

/** Distance from the thing to what stands in its space; undefined where the space is clear. */
function nearestIn({ blocks }: Standing, { space, body, low, high }: Zone): number | undefined {
  let best: number | undefined;
  for (const block of blocks) {
    if (Math.min(block.high, high) - Math.max(block.low, low) <= TOUCH) continue;
    const shape = shapeOf(block);
    if (boundsGap(shape.bounds, space.bounds) > 0 || overlapDepth(shape, space).depth <= TOUCH) continue;
    const { width } = nearest(shape, body);
    if (best === undefined || width < best) best = width;
  }
  return best;
}

function keepClearSnag(
  judging: Judging,
  standing: Standing,
  { seen, level, wanted }: Zone,
  near: number,
): Snag {
  const { print } = judging;
  const name = fixtureName(seen.fixture);
  return {
    rule: "keep-clear-covered",
    level,
    sentence: `${opening(standing.name)} stands ${print(near)} before the ${name}; ${print(wanted)} is kept clear.`,
    things: [standing.placement.id, seen.fixture.id],
    room: judging.arrangement.room.room.id,
    at: { x: standing.placement.x, y: standing.placement.y },
    measured: near,
    doubt: 0,
    wanted,
    mend: `Move it out of the space before the ${name}.`,
  };
}

/** Shares below this of a work's width are a sight line that grazes an edge. No unit. */
const GRAZE = 0.001;

/** Neighbours' works that are hidden in part from where they were promised. */
export function viewSnags({ arrangement }: Judging): readonly Snag[] {
  const { room, standing, neighbours, views } = arrangement;
  return views.flatMap(({ neighbour, from, seen, hiddenBy, eye }) => {
    if (seen >= 1 - GRAZE) return [];
    const name =
      neighbours.find((one) => one.neighbour.id === neighbour)?.neighbour.name ?? "the neighbour's work";
    const door = room.openings.find((one) => one.opening.id === from)?.opening.name ?? "the door";
    const hiders = hiddenBy.map((id) => standing.find(({ placement }) => placement.id === id)?.name ?? id);
    const part = Math.max(1, Math.round((1 - seen) * 100));
    return [
      {
        rule: "neighbour-hidden" as const,
        level: "mind" as const,
        sentence: `${part} % of ${name} is hidden from ${door} by ${listOf(hiders)}.`,
        things: [neighbour, ...hiddenBy, from],
        room: room.room.id,
        at: eye,
        measured: seen,
        wanted: 1,
        mend: `Slide ${listOf(hiders)} out of the line of sight, or agree it with the neighbour.`,
      },
    ];
  });
}

function listOf(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  if (names.length > 3) return `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`;
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)!}`;
}
