/**
 * What stands out at the height of hand and head where visitors walk. A cane swept along the floor finds what
 * begins low; what begins higher, and below head height, is met by the body. So of every part that begins in
 * between, what is left when everything low beneath it is taken away may reach no further than a hand's breadth
 * beyond the low parts that carry it, or beyond the wall. What hangs free has nothing that carries it, and all of
 * it counts. Source: 2010 ADA Standards 307.2. Things mounted on posts (307.3) are not judged by a figure of
 * their own, nor are the venue's own fixtures judged at all.
 *
 *     wall ▒┌─────┐ tube: 6 in from the wall, nothing low beneath      table ───┬───────┬─── top
 *          ▒└─────┘                                                             │ foot  │
 *     floor ─────────────────                                                 reach    reach
 */
import { alongWall, wallLines, type WallLine } from "../measure/frame.ts";
import { cut, grown, shared, type Rings } from "../plane/clip.ts";
import { boundsOf, counterclockwise, middleOf, ringArea, type Bounds } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap, distanceTo, rounded, type Rounded } from "../plane/rounded.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import {
  fixtureBodies,
  mountedBody,
  neighbourBodies,
  standingBody,
  type Body,
  type BodyPart,
} from "./bodies.ts";
import { opening, type Judging } from "./judging.ts";
import type { Arrangement, Standing } from "./model.ts";

/** One snag for each mount or piece that stands out too far at its worst part; none in a room that is only looked into. */
export function protrusionSnags(judging: Judging): readonly Snag[] {
  const { arrangement, place } = judging;
  if (!arrangement.room.room.entered || !arrangement.room.settled) return [];
  const figure = (name: string): number => figureOf("protrusion", name, place);
  const [out, low, high] = [figure("out"), figure("low"), figure("high")];
  const between = (part: BodyPart): boolean => part.low > low + TOUCH && part.low < high - TOUCH;
  const suspects = suspectsOf(arrangement, between);
  if (suspects.length === 0) return [];
  const all = [...ourBodies(arrangement), ...neighbourBodies(arrangement), ...fixtureBodies(arrangement)];
  const beneath = all.flatMap(({ parts }) => parts.filter((part) => part.low <= low + TOUCH));
  return suspects.flatMap((suspect) => {
    const worst = worstOf(suspect, { out, between, beneath, low });
    if (!worst || !visitorsPass(arrangement, worst.part, beneath)) return [];
    return [protrusionSnag(judging, suspect, worst)];
  });
}

function ourBodies({ standing, mounted }: Arrangement): readonly Body[] {
  return [...standing.map(standingBody), ...mounted.map(mountedBody)];
}

/** Something that may stand out: what carries it low down, and the faces of walls it may stand before. */
interface Suspect {
  readonly body: Body;
  readonly wall?: WallLine;
  readonly carriers: readonly Body[];
  readonly faces: readonly (readonly Point[])[];
}

function suspectsOf(arrangement: Arrangement, between: (part: BodyPart) => boolean): readonly Suspect[] {
  const lines = wallLines(arrangement.room).filter(({ wall }) => !wall.open);
  const hosts = new Map(arrangement.standing.map((one) => [one.placement.id, one]));
  const faces = lines.map((line) => faceOf(line, 0));
  const standing = arrangement.standing.map((one) => ({
    body: standingBody(one),
    carriers: carriersOf(one, hosts).map(standingBody),
    faces,
  }));
  const mounted = arrangement.mounted.flatMap((one) => {
    const wall = lines.find((line) => line.wall.id === one.wall);
    const body = mountedBody(one);
    // Past its wall's end a mount still stands out from the wall and from nothing else.
    return wall ? [{ body, wall, carriers: [body], faces: [faceOf(wall, FAR)] }] : [];
  });
  return [...standing, ...mounted].filter(({ body }) => body.parts.some(between));
}

/** Far past the ends of any wall, mm. */
const FAR = 1e5;
/** A wall's face as a ring as thin as can be clipped, mm. */
const THIN = 1;

function faceOf(line: WallLine, past: number): readonly Point[] {
  const [start, end] = [-past, line.wall.length + past];
  return counterclockwise([
    alongWall(line, start),
    alongWall(line, end),
    alongWall(line, end, THIN),
    alongWall(line, start, THIN),
  ]);
}

/** The piece, what it stands on, what that stands on. */
function carriersOf(one: Standing, hosts: ReadonlyMap<string, Standing>): readonly Standing[] {
  const chain = new Set<Standing>();
  for (let next: Standing | undefined = one; next && !chain.has(next); next = hosts.get(next.on ?? ""))
    chain.add(next);
  return [...chain];
}

interface Asked {
  readonly out: number;
  readonly low: number;
  readonly between: (part: BodyPart) => boolean;
  /** Everything that begins low, whoever put it there. */
  readonly beneath: readonly BodyPart[];
}

interface Worst {
  readonly part: BodyPart;
  /** How far it reaches beyond what carries it. */
  readonly reach: number;
  readonly free: boolean;
  readonly wanted: number;
  readonly at: Point;
}

/** Scraps of plan smaller than this are what rounding leaves of two edges that lie on each other, mm². */
const SCRAP = 0.5;

function worstOf({ body, carriers, faces }: Suspect, asked: Asked): Worst | undefined {
  const feet = carriers.flatMap(({ parts }) => parts.filter((part) => part.low <= asked.low + TOUCH));
  const bases = [...feet.map(({ outline }) => outline), ...faces];
  const shapes: readonly Rounded[] = [
    ...feet.map(({ shape }) => shape),
    ...faces.map((face) => rounded(face)),
  ];
  let worst: Worst | undefined;
  for (const part of body.parts.filter(asked.between)) {
    const left = beyond(part, bases, asked);
    if (left.length === 0) continue;
    const places = left.flat();
    const reach = Math.max(...places.map((at) => Math.min(...shapes.map((shape) => distanceTo(shape, at)))));
    if (worst && worst.reach >= reach) continue;
    worst = { part, reach, free: feet.length === 0, wanted: asked.out, at: middleOf(left[0]!) };
  }
  return worst;
}

/** What of a part no cane finds: outside of everything low beneath it and further than allowed from what carries it. */
function beyond(part: BodyPart, bases: Rings, { out, beneath }: Asked): Rings {
  const around = boundsOf(part.outline, out + TOUCH);
  const near = (ring: readonly Point[]): boolean => boundsGap(boundsOf(ring), around) === 0;
  const nearBases = bases.filter(near);
  const allowed = nearBases.length === 0 ? [] : grown(nearBases, out + TOUCH);
  const low = beneath.filter((one) => meets(one.shape.bounds, around)).map(({ outline }) => outline);
  return cut([part.outline], [...allowed, ...low]).filter((ring) => Math.abs(ringArea(ring)) > SCRAP);
}

function meets(a: Bounds, b: Bounds): boolean {
  return boundsGap(a, b) === 0;
}

/**
 * Whether somebody as wide as a standing person can come so near that the part is met: places for the middle of a
 * disc that touches the part, clear of walls, of coverings nobody walks on and of everything a cane finds.
 */
function visitorsPass(
  { room, coverings }: Arrangement,
  part: BodyPart,
  beneath: readonly BodyPart[],
): boolean {
  const half = figureOf("narrow-route", "stand", "") / 2;
  const shut = coverings.filter(({ covering }) => !covering.walkable).map(({ outline }) => outline);
  const around = boundsOf(part.outline, 2 * half);
  const near = [...beneath.map(({ outline }) => outline), ...shut].filter((ring) =>
    meets(boundsOf(ring), around),
  );
  const floor = grown([room.corners], -half - room.baseDepth);
  const places = shared(grown([part.outline], half), floor);
  const free = near.length === 0 ? places : cut(places, grown(near, half));
  return free.some((ring) => Math.abs(ringArea(ring)) > SCRAP);
}

function protrusionSnag(judging: Judging, { body, wall, carriers }: Suspect, worst: Worst): Snag {
  const { print } = judging;
  const { part, reach, free, wanted, at } = worst;
  const figure = (name: string): string => print(figureOf("protrusion", name, judging.place));
  const higher = `with its underside at ${figure("high")} or higher`;
  const name = opening(body.name);
  const up = `${print(part.low)} above the floor`;
  const most = `${print(wanted)} is the most where visitors walk`;
  const host = carriers.find(({ id }) => id !== body.id);
  const sentence = wall
    ? `${name} stands ${print(reach)} out from wall ${wall.wall.name}, ${up}; ${most}.`
    : free
      ? `${name} hangs ${up} where visitors walk, with nothing beneath it that a cane finds.`
      : `${name} reaches ${print(reach)} beyond ${host ? `${host.name} below it` : "its foot"}, ${up}; ${most}.`;
  return {
    rule: "protrusion",
    level: "stop",
    sentence,
    things: [body.id, ...(wall ? [wall.wall.id] : host ? [host.id] : [])],
    room: judging.arrangement.room.room.id,
    at,
    measured: reach,
    doubt: 0,
    wanted,
    mend: wall
      ? `Fix it ${higher}, or stand something beneath it that begins no higher than ${figure("low")}.`
      : free
        ? `Hang it ${higher}, or stand something beneath all of it that begins no higher than ${figure("low")}.`
        : `Stand something beneath it that begins no higher than ${figure("low")}, or slide it back over what carries it.`,
  };
}
