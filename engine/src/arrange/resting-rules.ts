/** What stands on another piece: its middle is over it, and most of its foot. */
import { cut } from "../plane/clip.ts";
import { ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { distanceTo } from "../plane/rounded.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { placeOf } from "./bodies.ts";
import { opening, printAtLeast, type Judging } from "./judging.ts";
import type { Standing } from "./model.ts";
import { shapeOf } from "./obstacles.ts";
import { middleOfArea } from "./standing.ts";

/** One snag at most for each thing on another: it rests on nothing, or it reaches too far beyond. */
export function restingSnags(judging: Judging): readonly Snag[] {
  const { standing } = judging.arrangement;
  if (standing.every(({ on }) => on === undefined)) return [];
  const hosts = new Map(standing.map((one) => [one.placement.id, one]));
  return standing.flatMap((one) => {
    const host = one.on === undefined ? undefined : hosts.get(one.on);
    if (!host || one.outline.length === 0 || host.blocks.length === 0) return [];
    const middle = middleOfArea(one.outline);
    const off = Math.min(...host.blocks.map((block) => distanceTo(shapeOf(block), middle)));
    return off > TOUCH ? [nothingSnag(judging, { one, host }, off)] : overhangSnags(judging, { one, host });
  });
}

interface Carried {
  readonly one: Standing;
  readonly host: Standing;
}

function nothingSnag(judging: Judging, { one, host }: Carried, off: number): Snag {
  return {
    rule: "rests-on-nothing",
    level: "stop",
    sentence: `${opening(one.name)} is said to stand on ${host.name}, and its middle is ${judging.print(off)} beside it.`,
    things: [one.placement.id, host.placement.id],
    room: judging.arrangement.room.room.id,
    at: placeOf(one),
    measured: off,
    doubt: 0,
    wanted: 0,
    mend: `Slide it at least ${printAtLeast(judging, off)} onto ${host.name}.`,
  };
}

function overhangSnags(judging: Judging, { one, host }: Carried): readonly Snag[] {
  const most = figureOf("overhangs", "share", judging.place);
  const foot = one.blocks.filter(({ low }) => low <= one.low + TOUCH).map(({ outline }) => outline);
  const tops = host.blocks
    .filter(({ high }) => Math.abs(high - one.low) <= TOUCH)
    .map(({ outline }) => outline);
  const whole = areaOf(cut(foot, []));
  if (whole === 0) return [];
  const beyond = areaOf(cut(foot, tops)) / whole;
  if (beyond <= most) return [];
  return [
    {
      rule: "overhangs",
      level: "mind",
      sentence: `${Math.round(beyond * 100)} % of the foot of ${one.name} reaches beyond ${host.name}; no more than a third should.`,
      things: [one.placement.id, host.placement.id],
      room: judging.arrangement.room.room.id,
      at: placeOf(one),
      measured: beyond,
      wanted: most,
      mend: `Slide it further onto ${host.name}, or fix it there.`,
    },
  ];
}

/** Area of rings of which holes run the other way, mm². */
function areaOf(rings: readonly (readonly Point[])[]): number {
  return rings.reduce((sum, ring) => sum + ringArea(ring), 0);
}
