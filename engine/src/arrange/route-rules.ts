/** The ways visitors take: wide enough from door to door and to every work, and the doors themselves. */
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE, TOUCH } from "../tolerances.ts";
import { middleBetween, opening, printSlide, type Judging } from "./judging.ts";
import type { Gap, Route } from "./model.ts";

/** What a place asks of a way, mm. */
export interface WayAsks {
  readonly clear: number;
  /** A narrower way passes where it is no longer than `run`. */
  readonly narrow: number;
  readonly run: number;
}

export function waysAsked({ place }: Pick<Judging, "place">): WayAsks {
  const figure = (name: string): number => figureOf("narrow-route", name, place);
  return { clear: figure("clear"), narrow: figure("narrow"), run: figure("run") };
}

/** Whether a way passes, fails, or cannot be told for the doubt of the room. */
export function judgeWay(
  { width, doubt, run }: Pick<Gap, "width" | "doubt" | "run">,
  asks: WayAsks,
): "passes" | "fails" | "unsure" {
  const passes = (wide: number): boolean =>
    wide >= asks.clear - TOUCH || (wide >= asks.narrow - TOUCH && run <= asks.run + TOUCH);
  if (passes(width - SURE * doubt)) return "passes";
  return passes(width + SURE * doubt) ? "unsure" : "fails";
}

/** One snag for every pinch, however many ways go through it. */
export function routeSnags(judging: Judging): readonly Snag[] {
  if (!judging.arrangement.room.room.entered) return [];
  const asks = waysAsked(judging);
  const pinches = new Map<Gap, Route[]>();
  for (const route of judging.arrangement.routes) {
    if (!route.pinch || judgeWay(route.pinch, asks) === "passes") continue;
    const sharing = pinches.get(route.pinch);
    if (sharing) sharing.push(route);
    else pinches.set(route.pinch, [route]);
  }
  return [...pinches].map(([pinch, routes]) => pinchSnag(judging, pinch, routes));
}

/** Says so where a room is too full for all of its ways to be looked at. */
export function unjudgedSnags({ arrangement }: Judging): readonly Snag[] {
  const { unjudged, room } = arrangement;
  if (unjudged === undefined || !room.room.entered) return [];
  const works = unjudged === 1 ? "the way to one work was" : `the ways to ${unjudged} works were`;
  return [
    {
      rule: "routes-not-all-judged",
      level: "know",
      sentence: `${opening(room.room.name)} holds so much that ${works} not looked at; please look at them yourself.`,
      things: [],
      room: room.room.id,
      measured: unjudged,
      wanted: 0,
      mend: "Take out what is not shown in this room, or walk the plan by eye.",
    },
  ];
}

function pinchSnag(judging: Judging, pinch: Gap, routes: readonly Route[]): Snag {
  const asks = waysAsked(judging);
  const { print } = judging;
  const wanted = pinch.width < asks.narrow - TOUCH && pinch.run <= asks.run ? asks.narrow : asks.clear;
  const unsure = judgeWay(pinch, asks) === "unsure";
  const doors = new Set(routes.flatMap(({ from, to }) => [from, to]));
  for (const id of [pinch.a, pinch.b]) doors.delete(id);
  const way = wayName(routes);
  const between = `between ${pinch.aName} and ${pinch.bName}`;
  const sentence = unsure
    ? `Cannot tell yet whether ${way} is wide enough: ${print(pinch.width)} ${between}, give or take ${print(SURE * pinch.doubt)}; ${print(wanted)} is asked.`
    : pinch.width <= TOUCH
      ? `${opening(way)} is shut ${between}; ${print(wanted)} is asked.`
      : `${opening(way)} narrows to ${print(pinch.width)} ${between}; ${print(wanted)} is asked.`;
  const slide = mendOf(judging, pinch, wanted);
  const mend = unsure
    ? ["Measure the room again there.", ...(slide ? [`Or: ${slide}`] : [])].join(" ")
    : slide;
  return {
    rule: "narrow-route",
    level: unsure ? "mind" : "stop",
    sentence,
    things: [pinch.a, pinch.b, ...doors],
    room: judging.arrangement.room.room.id,
    at: middleBetween(pinch.at),
    measured: pinch.width,
    doubt: pinch.doubt,
    wanted,
    ...(mend === undefined ? {} : { mend }),
  };
}

function wayName(routes: readonly Route[]): string {
  const [first] = routes;
  const name = `the way from ${first!.fromName} to ${first!.toName}`;
  if (routes.length === 1) return name;
  return `${name} (and ${routes.length - 1} more)`;
}

/** Slide the one of the two that can be slid, along the gap, until it passes with all the doubt of the room. */
function mendOf(judging: Judging, pinch: Gap, wanted: number): string | undefined {
  const { standing, coverings } = judging.arrangement;
  const movable = (id: string): boolean =>
    standing.some(({ placement }) => placement.id === id) ||
    coverings.some(({ covering }) => covering.id === id);
  const by = printSlide(judging, wanted + SURE * pinch.doubt - pinch.width);
  if (pinch.a === pinch.b) return undefined;
  if (movable(pinch.a)) return `Slide ${pinch.aName} ${by} away from ${pinch.bName}.`;
  if (movable(pinch.b)) return `Slide ${pinch.bName} ${by} away from ${pinch.aName}.`;
  return undefined;
}

/** Doors that do not open wide enough for visitors; none in a room that is only looked into. A door whose clear width was not said is judged by its leaf. */
export function doorSnags(judging: Judging): readonly Snag[] {
  const wanted = figureOf("door-clear-width", "clear", judging.place);
  const { room } = judging.arrangement;
  if (!room.room.entered) return [];
  return room.openings.flatMap(({ opening: door, start, end }) => {
    if (door.kind !== "door") return [];
    const clear = door.clear ?? door.width;
    if (clear >= wanted - TOUCH) return [];
    const said = door.clear === undefined ? "has a leaf of only" : "opens only";
    return [
      {
        rule: "door-clear-width" as const,
        level: "mind" as const,
        sentence: `${opening(door.name)} ${said} ${judging.print(clear)}; ${judging.print(wanted)} clear is asked of a visitors' door.`,
        things: [door.id],
        room: room.room.id,
        at: middleBetween([start, end]),
        measured: clear,
        doubt: 0,
        wanted,
        mend: "Ask the venue which door visitors are to use.",
      },
    ];
  });
}
