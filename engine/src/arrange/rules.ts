/** The arrangement judged: every rule of the stage over every room, in the order of the catalogue. */
import { listed, type ShowDocument } from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { judgingOf, opening, type Judging } from "./judging.ts";
import { keepClearSnags, viewSnags } from "./keep-clear-rules.ts";
import type { Arrangement } from "./model.ts";
import { overlapSnags } from "./overlap-rules.ts";
import { roomSnags } from "./room-rules.ts";
import { doorSnags, routeSnags } from "./route-rules.ts";

/** Everything wrong, risky or unknown about the pieces in the rooms. Never throws for data. */
export function arrangeSnags(arrangements: readonly Arrangement[], document: ShowDocument): readonly Snag[] {
  return [
    ...arrangements.flatMap((arrangement) => snagsOf(judgingOf(arrangement, document))),
    ...sizeSnags(document),
  ];
}

function snagsOf(judging: Judging): readonly Snag[] {
  const { standing } = judging.arrangement;
  return [
    ...overlapSnags(judging),
    ...standing.flatMap((one) => roomSnags(judging, one)),
    ...routeSnags(judging),
    ...doorSnags(judging),
    ...viewSnags(judging),
    ...standing.flatMap((one) => keepClearSnags(judging, one)),
  ];
}

const NO_SIZE = "Give it a width, a depth and a height.";

function sizeSnags(document: ShowDocument): readonly Snag[] {
  const sized = new Set(Object.values(document.solids).map((solid) => solid.piece));
  return listed(document.pieces)
    .filter((piece) => !sized.has(piece.id))
    .map((piece) => ({
      rule: "size-missing",
      level: "mind",
      sentence: `${opening(piece.name)} has no size yet.`,
      things: [piece.id],
      mend: NO_SIZE,
    }));
}
