/** Everything that is made, as pages in the order of the bench: strips, trim, sticks, floors with their sheets, what to buy, hours. */
import type { ShowDocument } from "../document/tables.ts";
import type { Paper } from "../sheet/papers.ts";
import { stacked } from "../sheet/stacked.ts";
import type { Leaf } from "../sheet/stamp.ts";
import { sheetCutLeaves, stickLeaves } from "./boards.ts";
import { keyPlanLeaves } from "./key-plan.ts";
import type { Making } from "./model.ts";
import {
  buyingLeaves,
  cutListLeaves,
  hoursLeaves,
  stripLeaves,
  trimLeaves,
  type MakeWish,
} from "./tables.ts";

/** All pages of the making. A show that makes nothing still has its buying list and hours, which say so. */
export function makeLeaves(making: Making, document: ShowDocument, paper: Paper): readonly Leaf[] {
  const wish: MakeWish = { making, document, paper };
  return [
    ...stacked([...stripLeaves(wish), ...trimLeaves(wish)]),
    ...stacked(
      making.cuts.flatMap((cutting) => [...stickLeaves(wish, cutting), ...cutListLeaves(wish, cutting)]),
    ),
    ...making.floors.flatMap((work) => keyPlanLeaves(wish, work)),
    ...making.sheets.flatMap((cutting) => sheetCutLeaves(wish, cutting)),
    ...stacked([...buyingLeaves(wish), ...hoursLeaves(wish)]),
  ];
}
