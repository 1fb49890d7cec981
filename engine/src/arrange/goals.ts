/** What visitors come for, and the widest way to each. */
import { covers, overlapDepth } from "../plane/rounded.ts";
import type { Point } from "../plane/point.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Place } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { ROUTE_STEPS, TOUCH } from "../tolerances.ts";
import { gapOf, type Edge } from "./gaps.ts";
import type { Gap, Route } from "./model.ts";
import type { Entry, Obstacle, Thing } from "./obstacles.ts";
import { createWays } from "./routes.ts";

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
  readonly edges: readonly Edge[];
  readonly entries: readonly Entry[];
  readonly place: Place;
}

/**
 * Every way in to every other, and the best way to every goal. In a room too full for all of that, as many
 * goals as there are steps for, in the order they are listed.
 */
export function routesOf(scene: RouteScene): readonly Route[] {
  const { entries, edges } = scene;
  if (entries.length === 0) return [];
  const ways = createWays(edges);
  const clear = figureOf("narrow-route", "clear", scene.place);
  const gaps = new Map<Edge, Gap>();
  const gap = (edge: Edge): Gap => {
    const known = gaps.get(edge) ?? gapOf(edge, { room: scene.room, edges, clear });
    gaps.set(edge, known);
    return known;
  };
  const budget = Math.floor(ROUTE_STEPS / ((edges.length + 1) * entries.length));
  const goals = goalsOf(scene).slice(0, budget);
  return [
    ...betweenEntries(entries, ways, gap),
    ...goals.flatMap((goal) => bestWay(goal, entries, ways, gap)),
  ];
}

type Ways = ReturnType<typeof createWays>;
const NOTHING: ReadonlySet<Obstacle> = new Set();

function betweenEntries(entries: readonly Entry[], ways: Ways, gap: (edge: Edge) => Gap): readonly Route[] {
  return entries.flatMap((from, index) =>
    entries.slice(index + 1).flatMap((to): Route[] => {
      const open = new Set([from.id, to.id]);
      const pinch = ways({ from: from.threshold, to: to.threshold, goal: NOTHING, open });
      if (pinch === "shut") return [];
      const ends = { from: from.id, fromName: from.name, to: to.id, toName: to.name };
      return [pinch === "wide" ? ends : { ...ends, pinch: gap(pinch) }];
    }),
  );
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
    const pinch = ways({
      from: entry.threshold,
      to: goal.inside,
      goal: goal.obstacles,
      open: new Set([entry.id]),
    });
    if (pinch === "shut") continue;
    if (pinch === "wide") return [{ from: entry.id, fromName: entry.name, to: goal.id, toName: goal.name }];
    if (!best || pinch.width > best.edge.width) best = { entry, edge: pinch };
  }
  if (!best) return [];
  const { entry, edge } = best;
  return [{ from: entry.id, fromName: entry.name, to: goal.id, toName: goal.name, pinch: gap(edge) }];
}

/** Goals in listing order: what stands in or on one another is reached together. */
function goalsOf({ things, edges }: RouteScene): readonly Goal[] {
  const works = things.filter(
    ({ kind, obstacles }) => (kind === "piece" || kind === "covering") && obstacles.length > 0,
  );
  const groupOf = new Map<string, string>(works.map((thing) => [thing.id, thing.id]));
  const leader = (id: string): string => {
    let at = id;
    while (groupOf.get(at) !== at) at = groupOf.get(at)!;
    return at;
  };
  for (const { a, b, width } of edges) {
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

/** A covering gives its name to what stands on it. */
function goalOf(group: readonly Thing[]): Goal {
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
