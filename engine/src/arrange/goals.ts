/** What visitors come for, and the widest way to each. */
import { overlapDepth } from "../plane/rounded.ts";
import { inRing } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Place } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { ROUTE_STEPS, TOUCH } from "../tolerances.ts";
import { gapOf, type Edge, type Gaps } from "./gaps.ts";
import type { Gap, Route } from "./model.ts";
import type { Entry, Obstacle, Thing } from "./obstacles.ts";
import { freePlaces, placesRound } from "./places.ts";
import { createWays, type WayAsked } from "./routes.ts";

/** Things reached together: a covering with all that stands on it, a table with what lies on it. */
interface Goal {
  readonly id: string;
  readonly name: string;
  readonly obstacles: ReadonlySet<Obstacle>;
}

export interface RouteScene {
  readonly room: TrueRoom;
  readonly things: readonly Thing[];
  readonly gaps: Gaps;
  readonly entries: readonly Entry[];
  readonly place: Place;
}

/** The ways found, and how many goals were left out of a room too full for all of them. */
export interface Routes {
  readonly routes: readonly Route[];
  readonly left: number;
}

/**
 * Every way in to every other, and the best way to every goal. In a room too full for all of that, as many
 * goals as there are steps for, in the order they are listed.
 */
export function routesOf(scene: RouteScene): Routes {
  const { entries, gaps } = scene;
  if (entries.length === 0) return { routes: [], left: 0 };
  const ways = createWays(gaps);
  const clear = figureOf("narrow-route", "clear", scene.place);
  const known = new Map<Edge, Gap>();
  const gap = (edge: Edge): Gap => {
    const found = known.get(edge) ?? gapOf(edge, { room: scene.room, gaps, clear });
    known.set(edge, found);
    return found;
  };
  const budget = Math.floor(ROUTE_STEPS / ((gaps.all.length + 1) * entries.length));
  const goals = goalsOf(scene);
  const judged = goals.slice(0, budget);
  const around = tightRound(judged, gaps.all);
  const routes = [
    ...betweenEntries(entries, ways, gap),
    ...judged.flatMap((goal) =>
      bestWay(goal, around.get(goal)!, { room: scene.room, entries, ways, gap, clear }),
    ),
  ];
  return { routes, left: goals.length - judged.length };
}

/** What waits to be reached: for a room whose gaps are too many to look at. */
export function worksAmong(things: readonly Thing[]): readonly Thing[] {
  return things.filter(
    ({ kind, obstacles }) => (kind === "piece" || kind === "covering") && obstacles.length > 0,
  );
}

type Ways = ReturnType<typeof createWays>;

/** The same questions every time, so that what is known of them holds on. */
const entryQuestions = new WeakMap<readonly Entry[], readonly EntryQuestion[]>();
const placeQuestions = new WeakMap<Point, WeakMap<Entry, WayAsked>>();

interface EntryQuestion {
  readonly from: Entry;
  readonly to: Entry;
  readonly asked: WayAsked;
}

function questionsBetween(entries: readonly Entry[]): readonly EntryQuestion[] {
  const known = entryQuestions.get(entries);
  if (known) return known;
  const questions = entries.flatMap((from, index) =>
    entries.slice(index + 1).map((to) => {
      const open = new Set([from.id, to.id]);
      return { from, to, asked: { from: from.threshold, to: to.threshold, open } };
    }),
  );
  entryQuestions.set(entries, questions);
  return questions;
}

function questionTo(place: Point, entry: Entry): WayAsked {
  const asked = placeQuestions.get(place) ?? new WeakMap<Entry, WayAsked>();
  placeQuestions.set(place, asked);
  const known = asked.get(entry);
  if (known) return known;
  const question = { from: entry.threshold, to: place, open: new Set([entry.id]) };
  asked.set(entry, question);
  return question;
}

function betweenEntries(entries: readonly Entry[], ways: Ways, gap: (edge: Edge) => Gap): readonly Route[] {
  return questionsBetween(entries).flatMap(({ from, to, asked }): Route[] => {
    const pinch = ways(asked);
    if (pinch === "shut") return [];
    const ends = { from: from.id, fromName: from.name, to: to.id, toName: to.name };
    return [pinch === "wide" ? ends : { ...ends, pinch: gap(pinch) }];
  });
}

interface Approach {
  readonly room: TrueRoom;
  readonly entries: readonly Entry[];
  readonly ways: Ways;
  readonly gap: (edge: Edge) => Gap;
  /** The width the place asks of a way, mm. */
  readonly clear: number;
}

/**
 * A goal is reached if any way in leads to any place before it: only the best counts, and one wide enough ends
 * the search. Where nobody has room to stand before it, the widest of the gaps round it says how nearly.
 */
function bestWay(goal: Goal, around: readonly Edge[], approach: Approach): readonly Route[] {
  const { entries, ways, gap, clear } = approach;
  const ends = (entry: Entry) => ({ from: entry.id, fromName: entry.name, to: goal.id, toName: goal.name });
  const { all, free: places } = standingPlaces(goal, around, approach.room);
  const tight = around.at(-1);
  // What stands outside the room altogether has no way to it; the room's own rule says so.
  if (all.length === 0) return [];
  if (places.length === 0) return tight ? [{ ...ends(entries[0]!), pinch: gap(tight) }] : [];
  let best: { readonly entry: Entry; readonly edge: Edge } | undefined;
  for (const place of places) {
    for (const entry of entries) {
      const pinch = ways(questionTo(place, entry));
      if (pinch === "shut") continue;
      if (pinch === "wide") return [ends(entry)];
      if (pinch.width >= clear) return [{ ...ends(entry), pinch: gap(pinch) }];
      if (!best || pinch.width > best.edge.width) best = { entry, edge: pinch };
    }
  }
  return best ? [{ ...ends(best.entry), pinch: gap(best.edge) }] : [];
}

/** Someone who touches the edge of a work is this far from it, mm. */
const HALF = figureOf("narrow-route", "stand", "") / 2;

interface Standing {
  readonly room: TrueRoom;
  /** Places in the room. */
  readonly all: ReturnType<typeof placesRound>;
  readonly beside: readonly Obstacle[];
  readonly free: readonly Point[];
}

const standing = new WeakMap<Goal, Standing>();

/** Places before a goal: tried again only where what stands round it has changed. */
function standingPlaces(goal: Goal, around: readonly Edge[], room: TrueRoom): Standing {
  const beside = besideIn(goal, around);
  const last = standing.get(goal);
  const known = last?.room === room ? last : undefined;
  if (known && known.beside.length === beside.length && known.beside.every((one) => beside.includes(one)))
    return known;
  const all =
    known?.all ?? placesRound([...goal.obstacles], HALF).filter(({ at }) => inRing(room.corners, at));
  const found = { room, all, beside, free: freePlaces(all, beside, HALF) };
  standing.set(goal, found);
  return found;
}

function besideIn(goal: Goal, around: readonly Edge[]): readonly Obstacle[] {
  const beside = new Set<Obstacle>();
  for (const { a, b } of around) beside.add(goal.obstacles.has(a) ? b : a);
  return [...beside];
}

/** For every goal the gaps round it that nobody can stand in, narrowest first. */
function tightRound(goals: readonly Goal[], edges: readonly Edge[]): ReadonlyMap<Goal, readonly Edge[]> {
  const owner = new Map(goals.flatMap((goal) => [...goal.obstacles].map((one) => [one, goal] as const)));
  const found = new Map<Goal, Edge[]>(goals.map((goal) => [goal, []]));
  for (const edge of edges) {
    if (edge.width >= 2 * HALF) break;
    const [a, b] = [owner.get(edge.a), owner.get(edge.b)];
    if (a === b) continue;
    if (a) found.get(a)!.push(edge);
    if (b) found.get(b)!.push(edge);
  }
  return found;
}

/** Goals in listing order: what stands in or on one another is reached together. */
function goalsOf({ things, gaps }: RouteScene): readonly Goal[] {
  const works = worksAmong(things);
  const groupOf = new Map<string, string>(works.map((thing) => [thing.id, thing.id]));
  const leader = (id: string): string => {
    let at = id;
    while (groupOf.get(at) !== at) at = groupOf.get(at)!;
    return at;
  };
  for (const { a, b, width } of gaps.all) {
    if (width > 0) break;
    if (a.id === b.id || !groupOf.has(a.id) || !groupOf.has(b.id)) continue;
    const [first, second] = [leader(a.id), leader(b.id)];
    if (first !== second && overlapDepth(a.shape, b.shape).depth > TOUCH) groupOf.set(second, first);
  }
  const groups = new Map<string, Thing[]>();
  for (const thing of works) {
    const group = groups.get(leader(thing.id));
    if (group) group.push(thing);
    else groups.set(leader(thing.id), [thing]);
  }
  return [...groups.values()].map(goalOf);
}

const goals = new WeakMap<Thing, { readonly group: readonly Thing[]; readonly goal: Goal }>();

/** The very same goal for as long as the same things are reached together. */
function goalOf(group: readonly Thing[]): Goal {
  const known = goals.get(group[0]!);
  if (known && known.group.length === group.length && known.group.every((one, i) => one === group[i]))
    return known.goal;
  const goal = goalFrom(group);
  goals.set(group[0]!, { group, goal });
  return goal;
}

/** A covering gives its name to what stands on it. */
function goalFrom(group: readonly Thing[]): Goal {
  const head = group.find((thing) => thing.kind === "covering") ?? group[0]!;
  return {
    id: head.id,
    name: head.name,
    obstacles: new Set(group.flatMap((thing) => thing.obstacles)),
  };
}
