/** A piece and the room round it: its walls and zone, its ceiling, its sprinklers, its floor coverings. */
import { listed } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { narrowest, sideBySide } from "../plane/facing.ts";
import { inRing } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, nearest, overlapDepth, reach, rounded, type Rounded } from "../plane/rounded.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE, TOUCH } from "../tolerances.ts";
import { hangs } from "./bodies.ts";
import { ceilingAt } from "./ceiling.ts";
import { opening, printAtLeast, type Judging } from "./judging.ts";
import type { LaidCovering, Standing } from "./model.ts";
import { ringOf, shapeOf, type RingPart } from "./obstacles.ts";

/** What one piece has against the room, in the order of the catalogue. */
export function roomSnags(judging: Judging, standing: Standing): readonly Snag[] {
  return [
    ...outsideSnags(judging, standing),
    ...tallSnags(judging, standing),
    ...sprinklerSnags(judging, standing),
    ...coveringSnags(judging, standing),
  ];
}

interface Faces {
  /** Walls with their base trim, and the bare walls above it. */
  readonly trimmed: readonly RingPart[];
  readonly bare: readonly RingPart[];
}

const faces = new WeakMap<TrueRoom, Faces>();

function facesOf(room: TrueRoom): Faces {
  const known = faces.get(room) ?? { trimmed: ringOf(room, room.baseDepth), bare: ringOf(room, 0) };
  faces.set(room, known);
  return known;
}

/** Top of the base trim above the floor, 0 without one. */
function trimTop({ document, arrangement }: Judging): number {
  return listed(document.trims)
    .filter(({ kind, room }) => kind === "base" && room === arrangement.room.room.id)
    .reduce((top, { up, height }) => Math.max(top, up + height), 0);
}

interface Through {
  readonly part: RingPart;
  readonly by: number;
  readonly trim: boolean;
}

function outsideSnags(judging: Judging, standing: Standing): readonly Snag[] {
  const { room } = judging.arrangement;
  if (!room.settled) return [];
  const { trimmed, bare } = facesOf(room);
  const top = trimTop(judging);
  const worst = new Map<string, Through>();
  for (const block of standing.blocks) {
    const low = block.low < top;
    for (const part of low ? trimmed : bare) {
      const by = throughBy(shapeOf(block), part);
      if (by === undefined || by <= TOUCH) continue;
      const { id } = part.obstacle;
      const known = worst.get(id);
      const trim = low && part.obstacle.entry === undefined && by <= room.baseDepth + TOUCH;
      if (!known || by > known.by) worst.set(id, { part, by, trim });
    }
  }
  if (worst.size > 0) return [...worst.values()].map((through) => throughSnag(judging, standing, through));
  const lost = standing.blocks.some((block) => !inRing(room.corners, shapeOf(block).middle));
  return lost ? [lostSnag(judging, standing)] : [];
}

/** How far a shape stands through a face of the ring; undefined where it does not reach the face at all. */
function throughBy(shape: Rounded, { obstacle, start, end, out }: RingPart): number | undefined {
  if (boundsGap(shape.bounds, obstacle.shape.bounds) > TOUCH) return undefined;
  if (nearest(shape, obstacle.shape).width > 0) return undefined;
  const face = rounded([start, end]);
  const [found, beside] = [narrowest(shape, face, out), sideBySide(shape, face, out)];
  if (!found || !beside) return undefined;
  // At a corner that comes into the room a slide along the wall may be the shorter way out.
  return Math.min(-found.width, beside[1] - beside[0]);
}

function throughSnag(judging: Judging, standing: Standing, { part, by, trim }: Through): Snag {
  const { name } = part.obstacle;
  const through = trim ? `the base trim of ${name}` : name;
  const past = part.obstacle.open ? `past ${name}, outside our zone` : `through ${through}`;
  return {
    rule: "outside-room",
    level: "stop",
    sentence: `${opening(standing.name)} stands ${judging.print(by)} ${past}.`,
    things: [standing.placement.id, part.obstacle.id],
    room: judging.arrangement.room.room.id,
    at: placeOf(standing),
    measured: by,
    doubt: 0,
    wanted: 0,
    mend: `Slide it ${printAtLeast(judging, by)} away from ${name}.`,
  };
}

function lostSnag(judging: Judging, standing: Standing): Snag {
  return {
    rule: "outside-room",
    level: "stop",
    sentence: `${opening(standing.name)} stands outside the room.`,
    things: [standing.placement.id],
    room: judging.arrangement.room.room.id,
    at: placeOf(standing),
    mend: "Slide it back inside, or put it back in the tray.",
  };
}

function placeOf({ stand }: Standing): Point {
  return { x: stand.x, y: stand.y };
}

function tallSnags(judging: Judging, standing: Standing): readonly Snag[] {
  const { room } = judging.arrangement;
  if (room.corners.length < 3) return [];
  let worst:
    | { readonly over: number; readonly sd: number; readonly at: Point; readonly ceiling: number }
    | undefined;
  for (const block of standing.blocks) {
    // A ceiling that slopes is lowest over a corner of the block.
    for (const at of block.outline) {
      const { height, sd } = ceilingAt(room, at);
      const over = block.high - height;
      if (over > TOUCH && (!worst || over > worst.over)) worst = { over, sd, at, ceiling: height };
    }
  }
  if (!worst) return [];
  const { over, sd, at, ceiling } = worst;
  const sure = over > SURE * sd;
  const { print } = judging;
  const hung = hangs(standing);
  const reaches = hung
    ? `reaches ${print(over)} into the ceiling, which is at ${print(ceiling)} over it`
    : `is ${print(over)} too tall: the ceiling over it is at ${print(ceiling)}`;
  const sentence = sure
    ? `${opening(standing.name)} ${reaches}.`
    : `Cannot tell yet whether ${standing.name} ${hung ? "clears the ceiling" : "stands up"}: the ceiling over it is at ${print(ceiling)}, give or take ${print(SURE * sd)}.`;
  const lower = hung ? { mend: `Hang it ${printAtLeast(judging, over)} lower.` } : {};
  return [
    {
      rule: "too-tall",
      level: sure ? "stop" : "mind",
      sentence,
      things: [standing.placement.id],
      room: room.room.id,
      at,
      measured: ceiling + over,
      doubt: sd,
      wanted: ceiling,
      ...(sure ? lower : { mend: "Measure the height in the corners near it." }),
    },
  ];
}

function sprinklerSnags(judging: Judging, standing: Standing): readonly Snag[] {
  const { room } = judging.arrangement;
  const wanted = figureOf("sprinkler-clearance", "clear", judging.place);
  const heads = room.fixtures.filter(
    ({ fixture, footprint }) => fixture.kind === "sprinkler" && footprint.length > 0,
  );
  const { x, y } = standing.stand;
  const nearestHead = heads.toSorted((a, b) => away(a.footprint[0]!, x, y) - away(b.footprint[0]!, x, y))[0];
  if (!nearestHead || standing.blocks.length === 0) return [];
  const clear = nearestHead.low - standing.height;
  if (clear >= wanted - TOUCH) return [];
  const { print } = judging;
  return [
    {
      rule: "sprinkler-clearance",
      level: "stop",
      sentence: `${opening(standing.name)} leaves ${print(Math.max(0, clear))} under the sprinkler deflector; ${print(wanted)} is asked.`,
      things: [standing.placement.id, nearestHead.fixture.id],
      room: room.room.id,
      at: placeOf(standing),
      measured: clear,
      doubt: 0,
      wanted,
      mend: `${hangs(standing) ? "Hang" : "Make"} it ${printAtLeast(judging, wanted - clear)} lower, or ask the fire officer.`,
    },
  ];
}

function away(point: Point, x: number, y: number): number {
  return Math.hypot(point.x - x, point.y - y);
}

function coveringSnags(judging: Judging, standing: Standing): readonly Snag[] {
  const floor = standing.blocks.filter(({ low }) => low <= TOUCH).map(shapeOf);
  return judging.arrangement.coverings.flatMap((laid) => {
    const [on, off] = [onto(floor, laid), beyond(floor, laid)];
    if (on <= TOUCH || off <= TOUCH) return [];
    const name = laid.covering.name;
    const slide = `Slide it ${printAtLeast(judging, Math.min(on, off))} ${on <= off ? "off" : "onto"} ${name}.`;
    return [
      {
        rule: "crosses-covering-edge" as const,
        level: "mind" as const,
        sentence: `${opening(standing.name)} stands ${judging.print(on)} over the edge of ${name}.`,
        things: [standing.placement.id, laid.covering.id],
        room: judging.arrangement.room.room.id,
        at: placeOf(standing),
        measured: on,
        doubt: 0,
        wanted: 0,
        mend: slide,
      },
    ];
  });
}

/** How deep any of the shapes stands on the covering. */
function onto(shapes: readonly Rounded[], { outline }: LaidCovering): number {
  const cloth = rounded(outline);
  return shapes.reduce((most, shape) => {
    if (boundsGap(shape.bounds, cloth.bounds) > 0) return most;
    return Math.max(most, overlapDepth(shape, cloth).depth);
  }, 0);
}

/** How far any of the shapes reaches beyond an edge of the covering. */
function beyond(shapes: readonly Rounded[], { outline }: LaidCovering): number {
  let most = 0;
  outline.forEach((p, index) => {
    const q = outline[(index + 1) % outline.length]!;
    const length = Math.hypot(q.x - p.x, q.y - p.y);
    const out = { x: (q.y - p.y) / length, y: (p.x - q.x) / length };
    const edge = p.x * out.x + p.y * out.y;
    for (const shape of shapes) most = Math.max(most, reach(shape, out)[1] - edge);
  });
  return most;
}
