/** What is fixed to the walls: there is wall behind all of it, and the venue lets it be there. */
import { wallLines, type WallLine } from "../measure/frame.ts";
import type { TrueOpening } from "../measure/model.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE, TOUCH } from "../tolerances.ts";
import { middleOf } from "../plane/outline.ts";
import { opening, printAtLeast, type Judging } from "./judging.ts";
import type { Mounted } from "./model.ts";

/** What each mount has against its wall, in the order of the catalogue. */
export function mountSnags(judging: Judging): readonly Snag[] {
  const { room, mounted } = judging.arrangement;
  const lines = new Map(wallLines(room).map((line) => [line.wall.id, line]));
  const placed = mounted.flatMap((one) => {
    const line = lines.get(one.wall);
    return line ? [{ one, line }] : [];
  });
  return [
    ...placed.flatMap((fixed) => offWallSnags(judging, fixed)),
    ...placed.flatMap((fixed) => refusedSnags(judging, fixed)),
  ];
}

interface Fixed {
  readonly one: Mounted;
  readonly line: WallLine;
}

type Said = Pick<Snag, "sentence" | "mend" | "measured" | "doubt" | "wanted" | "level">;

function mountSnag(
  judging: Judging,
  one: Mounted,
  rule: "mount-off-wall" | "mount-refused",
  said: Said & { readonly other: string },
): Snag {
  const { other, ...rest } = said;
  const footing = one.outline[0];
  return {
    rule,
    things: [one.mount.id, other],
    room: judging.arrangement.room.room.id,
    ...(footing ? { at: middleOf(footing) } : {}),
    ...rest,
  };
}

function offWallSnags(judging: Judging, fixed: Fixed): readonly Snag[] {
  const { one, line } = fixed;
  const { wall } = line;
  if (wall.open || wall.glass) {
    const what = wall.glass ? "glass" : "no wall";
    const snag = mountSnag(judging, one, "mount-off-wall", {
      level: "stop",
      sentence: `${opening(one.name)} is to be fixed to ${wall.name}, and there is ${what}.`,
      other: wall.id,
      mend: "Fix it to a wall, or let it stand.",
    });
    return [snag];
  }
  const { openings } = judging.arrangement.room;
  return [
    ...pastEnd(judging, fixed),
    ...aboveCeiling(judging, fixed),
    ...openings.filter((seen) => seen.wall === wall.id).flatMap((seen) => overOpening(judging, one, seen)),
  ];
}

function pastEnd(judging: Judging, { one, line: { wall } }: Fixed): readonly Snag[] {
  const before = one.width / 2 - one.along;
  const after = one.along + one.width / 2 - wall.length;
  const past = Math.max(before, after);
  if (past <= TOUCH) return [];
  // The length of the wall is in doubt; an end it is measured from is not.
  const fromOther = (before > after ? wall.from : wall.to) !== one.mount.datum;
  const doubt = fromOther ? wall.sdLength : 0;
  const sure = past > SURE * doubt;
  const { print } = judging;
  const snag = mountSnag(judging, one, "mount-off-wall", {
    level: sure ? "stop" : "mind",
    sentence: sure
      ? `${opening(one.name)} reaches ${print(past)} past the end of wall ${wall.name}.`
      : `Cannot tell yet whether ${one.name} fits on wall ${wall.name}: it reaches ${print(past)} past its end, give or take ${print(SURE * doubt)}.`,
    other: wall.id,
    measured: past,
    doubt,
    wanted: 0,
    mend: `Move it ${printAtLeast(judging, past)} along the wall.`,
  });
  return [snag];
}

/** The ceiling along a wall runs straight from corner to corner: it is lowest over one of the two upper corners. */
function aboveCeiling(judging: Judging, { one, line }: Fixed): readonly Snag[] {
  const { from, to, wall } = line;
  const ceilings = [one.along - one.width / 2, one.along + one.width / 2].map((at) => {
    const share = Math.min(1, Math.max(0, at / (wall.length || 1)));
    const height = from.height + share * (to.height - from.height);
    return { height, sd: Math.hypot((1 - share) * from.sdHeight, share * to.sdHeight) };
  });
  const [{ height, sd }] = ceilings.toSorted((a, b) => a.height - b.height) as [
    { height: number; sd: number },
  ];
  const over = one.high - height;
  if (over <= TOUCH) return [];
  const sure = over > SURE * sd;
  const { print } = judging;
  const snag = mountSnag(judging, one, "mount-off-wall", {
    level: sure ? "stop" : "mind",
    sentence: sure
      ? `${opening(one.name)} reaches ${print(over)} above the ceiling, which is at ${print(height)} there.`
      : `Cannot tell yet whether ${one.name} fits under the ceiling: it is at ${print(height)} there, give or take ${print(SURE * sd)}.`,
    other: wall.id,
    measured: one.high,
    doubt: sd,
    wanted: height,
    mend: `Fix it ${printAtLeast(judging, over)} lower.`,
  });
  return [snag];
}

function overOpening(judging: Judging, one: Mounted, { opening: hole, along }: TrueOpening): readonly Snag[] {
  const casing = hole.casing ?? 0;
  const [left, right] = [along - casing, along + hole.width + casing];
  const low = hole.sill > 0 ? hole.sill - casing : 0;
  const high = hole.sill + hole.height + casing;
  const [start, end] = [one.along - one.width / 2, one.along + one.width / 2];
  const aside = Math.min(right - start, end - left);
  const deep = Math.min(aside, high - one.low, one.high - low);
  if (Math.min(right, end) - Math.max(left, start) <= TOUCH) return [];
  if (Math.min(high, one.high) - Math.max(low, one.low) <= TOUCH) return [];
  const rim = casing > 0 ? " and its casing" : "";
  const snag = mountSnag(judging, one, "mount-off-wall", {
    level: "stop",
    sentence: `${opening(one.name)} reaches ${judging.print(deep)} over ${hole.name}${rim}, where there is no wall.`,
    other: hole.id,
    measured: deep,
    doubt: 0,
    wanted: 0,
    mend: `Move it ${printAtLeast(judging, aside)} along the wall.`,
  });
  return [snag];
}

function refusedSnags(judging: Judging, { one, line: { wall } }: Fixed): readonly Snag[] {
  if (!wall.refused) return [];
  const snag = mountSnag(judging, one, "mount-refused", {
    level: "stop",
    sentence: `The venue lets nothing be put on wall ${wall.name}, and ${one.name} is to be fixed there.`,
    other: wall.id,
    mend: "Fix it to another wall, or ask the venue again and write its answer down.",
  });
  return [snag];
}
