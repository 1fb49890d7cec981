/** What visitors come for, and the widest way to each. */
import { covers, overlapDepth } from "../plane/rounded.ts";
import type { Point } from "../plane/point.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Place } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { ROUTE_STEPS, TOUCH } from "../tolerances.ts";
import { gapOf, type Edge, type Gaps } from "./gaps.ts";
import type { Gap, Route } from "./model.ts";
import type { Entry, Obstacle, Thing } from "./obstacles.ts";
import { createWays, type WayAsked } from "./routes.ts";

/** Things reached together: a covering with all that stands on it, a table with what lies on it. */
interface Goal {
  readonly id: string;
  readonly name: string;
  readonly obstacles: ReadonlySet<Obstacle>;
  readonly inside: Point;
}

/** Off the middle by amounts no drawing has, mm, so that no path runs along the line to a goal. */
const OFF = { x: 0.013_71, y: 0.007_93 };

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
    const found = known.get(edge) ?? gapOf(edge, { room: scene.room, edges: gaps.all, clear });
    known.set(edge, found);
    return found;
  };
  const budget = Math.floor(ROUTE_STEPS / ((gaps.all.length + 1) * entries.length));
  const goals = goalsOf(scene);
  const judged = goals.slice(0, budget);
  const routes = [
    ...betweenEntries(entries, ways, gap),
    ...judged.flatMap((goal) => bestWay(goal, entries, ways, gap)),
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
const NOTHING: ReadonlySet<Obstacle> = new Set();

/** The same questions every time, so that what is known of them holds on. */
const entryQuestions = new WeakMap<readonly Entry[], readonly EntryQuestion[]>();
const goalQuestions = new WeakMap<Goal, WeakMap<Entry, WayAsked>>();

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
      return { from, to, asked: { from: from.threshold, to: to.threshold, goal: NOTHING, open } };
    }),
  );
  entryQuestions.set(entries, questions);
  return questions;
}

function questionTo(goal: Goal, entry: Entry): WayAsked {
  const asked = goalQuestions.get(goal) ?? new WeakMap<Entry, WayAsked>();
  goalQuestions.set(goal, asked);
  const known = asked.get(entry);
  if (known) return known;
  const open = new Set([entry.id]);
  const question = { from: entry.threshold, to: goal.inside, goal: goal.obstacles, open };
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

/** A goal is reached if any way in leads to it: only the best counts, and a wide one ends the search. */
function bestWay(
  goal: Goal,
  entries: readonly Entry[],
  ways: Ways,
  gap: (edge: Edge) => Gap,
): readonly Route[] {
  let best: { readonly entry: Entry; readonly edge: Edge } | undefined;
  for (const entry of entries) {
    const pinch = ways(questionTo(goal, entry));
    if (pinch === "shut") continue;
    if (pinch === "wide") return [{ from: entry.id, fromName: entry.name, to: goal.id, toName: goal.name }];
    if (!best || pinch.width > best.edge.width) best = { entry, edge: pinch };
  }
  if (!best) return [];
  const { entry, edge } = best;
  return [{ from: entry.id, fromName: entry.name, to: goal.id, toName: goal.name, pinch: gap(edge) }];
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
  const { heart, shape } = head.obstacles[0]!;
  const off = { x: heart.x + OFF.x, y: heart.y + OFF.y };
  return {
    id: head.id,
    name: head.name,
    obstacles: new Set(group.flatMap((thing) => thing.obstacles)),
    inside: covers(shape, off) ? off : heart,
  };
}
