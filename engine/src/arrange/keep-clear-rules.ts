/** The venue's safety and service things: nothing stands before them or is fixed over or close beside them, and the neighbours' works stay in view. */
import type { Fixture, FixtureKind } from "../document/tables.ts";
import { alongWall, wallLines } from "../measure/frame.ts";
import type { TrueFixture, TrueRoom } from "../measure/model.ts";
import { counterclockwise, middleOf } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, nearest, overlapDepth, rounded, type Rounded } from "../plane/rounded.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Level, Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { opening, type Judging } from "./judging.ts";
import { hangs, mountedBody, placeOf, standingBody, type Body } from "./bodies.ts";
import type { Arrangement, Mounted, Standing } from "./model.ts";
import { fixtureName } from "./obstacles.ts";

/** What is owed to each kind: how grave it is, and which figure says how deep the clear space before it is. */
const OWED: {
  readonly [K in FixtureKind]?: { readonly level: Level; readonly figure: "front" | "hatch" | "service" };
} = {
  panel: { level: "stop", figure: "front" },
  // What must open: before it, as high as it is itself. Its lid or leaf needs no floor.
  hatch: { level: "stop", figure: "hatch" },
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
  /** The thing itself on its wall. */
  readonly face: {
    readonly middle: number;
    readonly half: number;
    readonly low: number;
    readonly high: number;
  };
}

const zones = new WeakMap<TrueRoom, readonly Zone[]>();

/** Pieces that stand or hang in the clear space before something and, for all but panels, hide it from the front. */
export function keepClearSnags(judging: Judging, standing: Standing): readonly Snag[] {
  const body = standingBody(standing);
  const verb = hangs(standing) ? "hangs" : "stands";
  return zonesFor(judging.arrangement).flatMap((zone) => {
    const near = nearestIn(body, zone);
    return near === undefined ? [] : [beforeSnag(judging, { body, verb, at: placeOf(standing) }, zone, near)];
  });
}

/** What is fixed over something, closer beside it on its wall than a hand's breadth, or in the clear space before it. */
export function mountedClearSnags(judging: Judging): readonly Snag[] {
  const { arrangement } = judging;
  return arrangement.mounted.flatMap((one) => {
    const body = mountedBody(one);
    const at = middleOfMount(one);
    return zonesFor(arrangement).flatMap((zone) => {
      const beside = one.wall === zone.seen.wall ? besideOnWall(one, zone) : undefined;
      if (beside !== undefined && beside < figure("hand") - TOUCH)
        return [besideSnag(judging, one, zone, beside)];
      const near = nearestIn(body, zone);
      return near === undefined ? [] : [beforeSnag(judging, { body, verb: "is", at }, zone, near)];
    });
  });
}

function zonesFor({ room }: Arrangement): readonly Zone[] {
  const known = zones.get(room) ?? zonesOf(room);
  zones.set(room, known);
  return known;
}

/** Distance from what is fixed to a wall to the thing as it is there; 0 where it covers it. */
function besideOnWall({ along, width, depth, low, high }: Mounted, { seen, face }: Zone): number {
  const aside = Math.abs(along - face.middle) - width / 2 - face.half;
  const above = Math.max(low - face.high, face.low - high);
  const before = seen.fixture.out - depth;
  return Math.hypot(Math.max(0, aside), Math.max(0, above), Math.max(0, before));
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
    const deep = fixture.out + fixture.depth;
    const tall = Math.max(0, (hand - (seen.high - seen.low)) / 2);
    const half = Math.max(fixture.width, hand) / 2;
    const face = { middle, half, low: seen.low - tall, high: seen.high + tall };
    return [
      {
        seen,
        level: owed.level,
        space: band(0, deep + wanted, wide / 2),
        body: band(0, deep + TOUCH, face.half),
        low: panel ? 0 : face.low,
        high: panel ? figure("panelHeight") : face.high,
        wanted,
        face,
      },
    ];
  });
}

/** Distance from the thing to what is in its space; undefined where the space is clear. */
function nearestIn({ parts }: Body, { space, body, low, high }: Zone): number | undefined {
  let best: number | undefined;
  for (const { shape, low: under, high: top } of parts) {
    if (Math.min(top, high) - Math.max(under, low) <= TOUCH) continue;
    if (boundsGap(shape.bounds, space.bounds) > 0 || overlapDepth(shape, space).depth <= TOUCH) continue;
    const { width } = nearest(shape, body);
    if (best === undefined || width < best) best = width;
  }
  return best;
}

/** What is in the clear space, how it is there, and where on the plan. */
interface Before {
  readonly body: Body;
  readonly verb: "stands" | "hangs" | "is";
  readonly at: Point;
}

function beforeSnag(
  judging: Judging,
  { body, verb, at }: Before,
  { seen, level, wanted }: Zone,
  near: number,
): Snag {
  const { print } = judging;
  const name = named(seen.fixture);
  return {
    rule: "keep-clear-covered",
    level,
    sentence: `${opening(body.name)} ${verb} ${print(near)} before ${name}; ${print(wanted)} is kept clear.`,
    things: [body.id, seen.fixture.id],
    room: judging.arrangement.room.room.id,
    at,
    measured: near,
    doubt: 0,
    wanted,
    mend: `Move it out of the space before ${name}.`,
  };
}

function besideSnag(judging: Judging, one: Mounted, { seen, level }: Zone, beside: number): Snag {
  const { print } = judging;
  const name = named(seen.fixture);
  const hand = figure("hand");
  return {
    rule: "keep-clear-covered",
    level,
    sentence:
      beside <= TOUCH
        ? `${opening(one.name)} covers ${name}.`
        : `${opening(one.name)} is only ${print(beside)} from ${name}; ${print(hand)} is kept clear.`,
    things: [one.mount.id, seen.fixture.id],
    room: judging.arrangement.room.room.id,
    at: middleOfMount(one),
    measured: beside,
    doubt: 0,
    wanted: hand,
    mend: `Move it along the wall, away from ${name}.`,
  };
}

/** "Panel 1", and "the panel" where its name is only its kind. */
function named(fixture: Fixture): string {
  const name = fixtureName(fixture);
  return name.toLowerCase() === fixture.kind ? `the ${name}` : name;
}

function middleOfMount({ blocks }: Mounted): Point {
  const places = blocks.flatMap(({ outline }) => outline);
  return places.length === 0 ? { x: 0, y: 0 } : middleOf(places);
}

/** Shares below this of a work's width are a sight line that grazes an edge. No unit. */
const GRAZE = 0.001;

/** Neighbours' works that are hidden in part from where they were promised. */
export function viewSnags({ arrangement }: Judging): readonly Snag[] {
  const { room, standing, mounted, neighbours, views } = arrangement;
  const nameOf = (id: string): string =>
    standing.find(({ placement }) => placement.id === id)?.name ??
    mounted.find(({ mount }) => mount.id === id)?.name ??
    id;
  return views.flatMap(({ neighbour, from, seen, hiddenBy, eye }) => {
    if (seen >= 1 - GRAZE) return [];
    const name =
      neighbours.find((one) => one.neighbour.id === neighbour)?.neighbour.name ?? "the neighbour's work";
    const door = room.openings.find((one) => one.opening.id === from)?.opening.name ?? "the door";
    const hiders = hiddenBy.map(nameOf);
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
