/**
 * The book: every sheet of a show in the order a crew reads it. Cover, then for each room the plan with its
 * snags numbered, the elevations, the readings, the corners; then the list of snags and the cautions.
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { PAPERS, sideways, type PaperName } from "../sheet/papers.ts";
import { bound } from "../sheet/stamp.ts";
import { proseSheets } from "../sheet/tables.ts";
import type { Sheet, Stamp } from "../sheet/vocabulary.ts";
import type { Snag } from "../snags/snag.ts";
import { CAUTIONS } from "./cautions.ts";
import type { Arrangement } from "../arrange/model.ts";
import { coverLeaf, elevationLeaves, planLeaf, type BookWish } from "./drawings.ts";
import { cornerLeaves, readingLeaves, snagLeaves } from "./lists.ts";

export interface BookOptions {
  readonly stamp: Stamp;
  /** Letter for inches and A4 for metric shows where it is not said. Pages lie on their long side. */
  readonly paper?: PaperName;
}

/** All sheets, bound and counted. A show without a room still has a cover, a list of snags and the cautions. */
export function book(
  arrangements: readonly Arrangement[],
  document: ShowDocument,
  snags: readonly Snag[],
  options: BookOptions,
): readonly Sheet[] {
  const { units } = showOf(document);
  const name = options.paper ?? (units === "ft-in" || units === "in" ? "letter" : "a4");
  const wish: BookWish = {
    arrangements,
    document,
    snags,
    stamp: options.stamp,
    paper: sideways(PAPERS[name]),
  };
  return bound(
    [
      coverLeaf(wish),
      ...arrangements.flatMap((arrangement) => [
        planLeaf(wish, arrangement),
        ...elevationLeaves(wish, arrangement),
        ...readingLeaves(wish, arrangement.room),
        ...cornerLeaves(wish, arrangement.room),
      ]),
      ...snagLeaves(wish),
      ...proseSheets({ id: "cautions", title: "Cautions", paper: wish.paper, paragraphs: CAUTIONS }),
    ],
    options.stamp,
  );
}
