/**
 * From the true rooms and what was said to everything that has to be made, cut and bought. Pure; with a memory for
 * what it reads, so that a piece that is moved about makes nothing again, and for cutting plans, so that a wall that
 * grew does not cut the floor again.
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { buyingOf } from "./buying.ts";
import { lengthCuttings, sheetCuttings } from "./cutting.ts";
import { floorWorks } from "./floors.ts";
import { hoursOf } from "./hours.ts";
import type { Making } from "./model.ts";
import { createPlans, type Plans, type Progress } from "./plans.ts";
import { coverShares } from "./shares.ts";
import { trimWorks } from "./trims.ts";
import { wallWorks } from "./walls.ts";

/** A making with a memory of the last document: keep one for each live document. */
export function createMake(
  progress?: Progress,
): (document: ShowDocument, rooms: readonly TrueRoom[]) => Making {
  const plans = createPlans(progress);
  let last: { readonly parts: readonly unknown[]; readonly making: Making } | undefined;
  return (document, rooms) => {
    const parts = [rooms, showOf(document).units, ...READ.map((table) => document[table])];
    if (!last || parts.some((part, index) => part !== last?.parts[index]))
      last = { parts, making: made(document, rooms, plans) };
    return last.making;
  };
}

/** Every table the making reads, besides what the rooms hold already. */
const READ = ["wallCoverings", "coverings", "trims", "parts", "pieces", "stocks", "rates"] as const;

/** All of it from one document, with no memory kept. */
export function makeOf(document: ShowDocument, rooms: readonly TrueRoom[]): Making {
  return made(document, rooms, createPlans());
}

function made(document: ShowDocument, rooms: readonly TrueRoom[], plans: Plans): Making {
  const walls = wallWorks(document, rooms);
  const trims = trimWorks(document, rooms);
  const floors = floorWorks(document);
  const cuts = lengthCuttings({ document, walls, trims, floors }, plans);
  const sheets = sheetCuttings({ document, floors }, plans);
  const hours = hoursOf(document, { walls, floors, cuts });
  return {
    walls,
    shares: coverShares(walls, rooms, document),
    trims,
    floors,
    cuts,
    sheets,
    ...buyingOf(document, { walls, cuts, sheets }, plans),
    hours,
    minutes: hours.reduce((sum, line) => sum + line.minutes, 0),
  };
}
