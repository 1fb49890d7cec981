/**
 * The book: every sheet of a show in the order a crew reads it. Cover and the job in a page; for each room the plan
 * with its snags numbered, the elevations with strips and things to keep clear, the room unfolded, the readings and
 * corners; then what to cut, buy and do, when and where; and last what is open, wrong or dangerous.
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { Arrangement } from "../arrange/model.ts";
import { callLeaves, scheduleLeaves, setOutLeaves } from "../install/sheet.ts";
import type { Installing } from "../install/model.ts";
import type { Making } from "../make/model.ts";
import { makeLeaves } from "../make/sheet.ts";
import { unfoldedLeaf } from "../make/unfolded.ts";
import type { CardModel } from "../model/model.ts";
import { modelLeaves } from "../model/sheets.ts";
import { PAPERS, sideways, type PaperName } from "../sheet/papers.ts";
import { stacked } from "../sheet/stacked.ts";
import { bound, type Leaf } from "../sheet/stamp.ts";
import { proseSheets } from "../sheet/tables.ts";
import type { Sheet, Stamp } from "../sheet/vocabulary.ts";
import type { Snag } from "../snags/snag.ts";
import { CAUTIONS } from "./cautions.ts";
import { coverLeaf, elevationLeaves, planLeaf, type BookWish } from "./drawings.ts";
import { jobLeaves, questionLeaves } from "./job.ts";
import { cornerLeaves, readingLeaves, snagLeaves } from "./lists.ts";
import { officerLeaf } from "./officer.ts";

/** What a book is made from: everything derived from one document. */
export interface BookOf {
  readonly arrangements: readonly Arrangement[];
  readonly making: Making;
  readonly models: readonly CardModel[];
  readonly installing: Installing;
  readonly snags: readonly Snag[];
}

export interface BookOptions {
  readonly stamp: Stamp;
  /** Letter for inches and A4 for metric shows where it is not said. Pages lie on their long side. */
  readonly paper?: PaperName;
}

/** All sheets, bound and counted. A show without a room still has a cover, its lists and the cautions. */
export function book(derived: BookOf, document: ShowDocument, options: BookOptions): readonly Sheet[] {
  const wish = wishOf(derived, document, options);
  return bound(
    [
      coverLeaf(wish),
      ...jobLeaves(wish),
      ...wish.arrangements.flatMap((arrangement) => [
        planLeaf(wish, arrangement),
        ...elevationLeaves(wish, arrangement),
        ...unfolded(wish, arrangement),
        ...stacked([...readingLeaves(wish, arrangement.room), ...cornerLeaves(wish, arrangement.room)]),
      ]),
      ...wish.models.flatMap((model) => modelLeaves(model, document, wish.paper)),
      ...makeLeaves(wish.making, document, wish.paper),
      ...scheduleLeaves(wish),
      ...setOutLeaves(wish),
      ...callLeaves(wish),
      ...questionLeaves(wish),
      ...wish.arrangements.map((arrangement) => officerLeaf(wish, arrangement)),
      ...snagLeaves(wish),
      ...proseSheets({ id: "cautions", title: "Cautions", paper: wish.paper, paragraphs: CAUTIONS }),
    ],
    options.stamp,
  );
}

/** The page for the fire officer alone, one for each room. */
export function officerSheets(
  derived: BookOf,
  document: ShowDocument,
  options: BookOptions,
): readonly Sheet[] {
  const wish = wishOf(derived, document, options);
  return bound(
    wish.arrangements.map((arrangement) => officerLeaf(wish, arrangement)),
    options.stamp,
  );
}

/** A later stage's pages for one room, as the book prints them. */
export function stageSheets(
  stage: "make" | "model" | "install",
  derived: BookOf,
  about: { readonly document: ShowDocument; readonly room: string; readonly options: BookOptions },
): readonly Sheet[] {
  const wish = wishOf(derived, about.document, about.options);
  // A screen has room for what a home printer has not: the unfolded room is drawn twice as large.
  const large = { ...wish, paper: sideways(PAPERS[feetAndInches(about.document) ? "tabloid" : "a3"]) };
  const arrangement = wish.arrangements.find(({ room }) => room.room.id === about.room);
  if (arrangement === undefined) return [];
  const { document, paper } = wish;
  const leaves: { readonly [S in typeof stage]: () => readonly Leaf[] } = {
    make: () => [
      ...unfolded(large, arrangement),
      ...elevationLeaves(wish, arrangement),
      ...makeLeaves(wish.making, document, paper),
    ],
    model: () =>
      wish.models
        .filter((model) => model.room === about.room)
        .flatMap((model) => modelLeaves(model, document, paper)),
    install: () => [...scheduleLeaves(wish), ...setOutLeaves(wish), ...callLeaves(wish)],
  };
  return bound(leaves[stage](), about.options.stamp);
}

function unfolded(wish: BookWish, arrangement: Arrangement): readonly Leaf[] {
  if (arrangement.room.walls.length === 0) return [];
  const { document, making, paper } = wish;
  return [unfoldedLeaf({ document, arrangement, making, paper })];
}

function feetAndInches(document: ShowDocument): boolean {
  const { units } = showOf(document);
  return units === "ft-in" || units === "in";
}

function wishOf(derived: BookOf, document: ShowDocument, options: BookOptions): BookWish {
  const name = options.paper ?? (feetAndInches(document) ? "letter" : "a4");
  const { arrangements, making, models, installing, snags } = derived;
  const paper = sideways(PAPERS[name]);
  return { arrangements, making, models, installing, document, snags, stamp: options.stamp, paper };
}
