/** The arrangement judged: every rule of the stage over every room, in the order of the catalogue. */
import { listed, type ShowDocument } from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { capacitySnags } from "./capacity.ts";
import { doorSwingSnags } from "./door-swing-rules.ts";
import { hungSnags } from "./hung-rules.ts";
import { judgingOf, opening, type Judging } from "./judging.ts";
import { keepClearSnags, mountedClearSnags, viewSnags } from "./keep-clear-rules.ts";
import type { Arrangement, Standing } from "./model.ts";
import { mountSnags } from "./mount-rules.ts";
import { overlapSnags } from "./overlap-rules.ts";
import { protrusionSnags } from "./protrusion-rules.ts";
import { restingSnags } from "./resting-rules.ts";
import { roomSnags } from "./room-rules.ts";
import { doorSnags, routeSnags, unjudgedSnags } from "./route-rules.ts";
import { unseenSnags } from "./unseen.ts";

/** Everything wrong, risky or unknown about the pieces in the rooms. Never throws for data. */
export function arrangeSnags(arrangements: readonly Arrangement[], document: ShowDocument): readonly Snag[] {
  return [
    ...arrangements.flatMap((arrangement) => snagsOf(judgingOf(arrangement, document))),
    ...hungSnags(arrangements, document),
    ...sizeSnags(document),
  ];
}

function snagsOf(judging: Judging): readonly Snag[] {
  const { standing } = judging.arrangement;
  const judged = standing.map((one) => judgedAlone(judging, one));
  return [
    ...overlapSnags(judging),
    ...judged.flatMap(({ room }) => room),
    ...routeSnags(judging),
    ...unjudgedSnags(judging),
    ...doorSnags(judging),
    ...viewSnags(judging),
    ...judged.flatMap(({ keepClear }) => keepClear),
    ...mountedClearSnags(judging),
    ...doorSwingSnags(judging),
    ...protrusionSnags(judging),
    ...restingSnags(judging),
    ...mountSnags(judging),
    ...capacitySnags(judging),
    ...unseenSnags(judging),
  ];
}

/** What a piece has against the room alone, and all that it rests on. */
interface JudgedAlone {
  readonly rests: readonly unknown[];
  readonly room: readonly Snag[];
  readonly keepClear: readonly Snag[];
}

const alone = new WeakMap<Standing, JudgedAlone>();

/** A piece that has not moved, in a room that has not changed, is judged once. */
function judgedAlone(judging: Judging, standing: Standing): JudgedAlone {
  const { room, coverings } = judging.arrangement;
  const rests = [room, judging.document.trims, judging.document.shows, ...coverings];
  const known = alone.get(standing);
  if (
    known &&
    known.rests.length === rests.length &&
    rests.every((part, index) => part === known.rests[index])
  ) {
    return known;
  }
  const judged = { rests, room: roomSnags(judging, standing), keepClear: keepClearSnags(judging, standing) };
  alone.set(standing, judged);
  return judged;
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
