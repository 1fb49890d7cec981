/** The lists of the book: readings, corners, snags. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { ReadingResult, TrueRoom } from "../measure/model.ts";
import { type Leaf } from "../sheet/stamp.ts";
import { tableSheets } from "../sheet/tables.ts";
import { figureOf, ruleOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { PRINT_STEP_INCH, PRINT_STEP_METRIC, SURE, TOUCH } from "../tolerances.ts";
import { printAngle, printDoubt } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import { printMinutes } from "../units/minutes.ts";
import type { BookWish } from "./drawings.ts";

/** Every reading, what the others make of it, and whether they agree. */
export function readingLeaves(wish: BookWish, room: TrueRoom): readonly Leaf[] {
  const { freedom, passes, closure } = room.test;
  const { units } = showOf(wish.document);
  const closed =
    closure === undefined || closure < TOUCH
      ? ""
      : ` Laid end to end the walls miss their start by ${printLength(closure, units)}.`;
  const together =
    freedom <= 0 && passes
      ? "There are just enough readings: nothing checks them."
      : passes
        ? `The readings agree as well as their tapes promise (${freedom} to spare).`
        : `The readings disagree by more than their tapes promise (${freedom} to spare).`;
  return tableSheets({
    id: `readings.${room.room.id}`,
    title: `${room.room.name}: readings`,
    lead: `${together}${closed} Difference is adjusted less measured.`,
    paper: wish.paper,
    columns: [
      { head: "As measured", share: 5, face: "mono" },
      { head: "Adjusted", share: 3, face: "mono", align: "end" },
      { head: "Difference", share: 2.4, face: "mono", align: "end" },
      { head: "Checked by others", share: 2.6, face: "mono", align: "end" },
      { head: "In deviations", share: 2.2, face: "mono", align: "end" },
      { head: "In words", share: 4.4 },
    ],
    rows: room.readings.map((result) => readingRow(result, units)),
    empty: "Nothing is measured yet.",
  });
}

/** A length that may be far below what is printed: in the show's own style, and "under" its smallest step. */
function smallLength(size: number, units: Parameters<typeof printLength>[1]): string {
  const inch = units === "ft-in" || units === "in";
  const step = inch ? PRINT_STEP_INCH : PRINT_STEP_METRIC;
  return size > 0 && size < step ? `under ${printLength(step, units)}` : printLength(size, units);
}

function readingRow(result: ReadingResult, units: Parameters<typeof printLength>[1]): readonly string[] {
  const { reading, text, adjusted, residual, redundancy, standardised } = result;
  const angle = reading.kind === "angle";
  const sign = residual < 0 ? "−" : "+";
  const size = Math.abs(residual);
  const difference = angle ? `${size.toFixed(2)}°` : smallLength(size, units);
  return [
    text,
    angle ? printAngle(adjusted) : printLength(adjusted, units),
    difference.startsWith("under") || size === 0 ? difference : `${sign}${difference}`,
    redundancy < 0.001 ? "–" : `${Math.round(redundancy * 100)} %`,
    redundancy < 0.001 ? "–" : standardised.toFixed(2).replace("-", "−"),
    readingWords(result),
  ];
}

function readingWords({ suspect, redundancy, standardised }: ReadingResult): string {
  if (suspect) return "suspect: measure this one again";
  if (redundancy < 0.001) return "nothing checks it";
  const half = figureOf("reading-suspect", "critical", "") / 2;
  return Math.abs(standardised) > half ? "agrees, though not well" : "agrees";
}

/** Where every corner is and how well that is known. */
export function cornerLeaves(wish: BookWish, room: TrueRoom): readonly Leaf[] {
  const { units } = showOf(wish.document);
  const good = (sd: number): string => printDoubt(sd * SURE, units);
  const assumed = room.assumptions.map(({ sentence }) => sentence);
  return tableSheets({
    id: `corners.${room.room.id}`,
    title: `${room.room.name}: corners`,
    lead: [
      `Places count from corner ${room.corners[0]?.name ?? "one"}: along the first wall, then square to it into the room.`,
      ...assumed,
    ].join(" "),
    paper: wish.paper,
    columns: [
      { head: "Corner", share: 1.4, face: "sans-bold" },
      { head: "Along", share: 2.4, face: "mono", align: "end" },
      { head: "Into the room", share: 2.6, face: "mono", align: "end" },
      { head: "Place", share: 3.2 },
      { head: "Angle inside", share: 2.2, face: "mono", align: "end" },
      { head: "Height", share: 2.2, face: "mono", align: "end" },
      { head: "Height is", share: 3.4 },
    ],
    rows: room.corners.map((corner) => [
      corner.name,
      printLength(corner.x, units),
      printLength(room.room.turn === "clockwise" ? -corner.y : corner.y, units),
      good(Math.max(corner.sdX, corner.sdY)),
      printAngle(corner.angle),
      printLength(corner.height, units),
      corner.heightSaid ? good(corner.sdHeight) : "taken, not measured",
    ]),
    empty: "No corner has a place yet.",
  });
}

const LEVEL_WORDS: { readonly [L in Snag["level"]]: string } = { stop: "STOP", mind: "mind", know: "know" };

/** All snags with figures and sources, numbered as on the plan. */
export function snagLeaves(wish: BookWish): readonly Leaf[] {
  return tableSheets({
    id: "snags",
    title: "Snags",
    lead: "STOP cannot be built or is unsafe; mind asks for a decision; know is worth knowing. Numbers are those on the plan. Codes are quoted as commonly published; the local authority decides.",
    paper: wish.paper,
    columns: [
      { head: "No.", share: 0.7, face: "mono", align: "end" },
      { head: "", share: 0.9, face: "sans-bold" },
      { head: "What", share: 7.2 },
      { head: "Measured", share: 1.7, face: "mono", align: "end" },
      { head: "Wanted", share: 1.5, face: "mono", align: "end" },
      { head: "Doubt", share: 1.6 },
      { head: "Source", share: 6.6 },
    ],
    rows: wish.snags.map((snag, index) => snagRow(wish.document, snag, index + 1)),
    empty: "There are none.",
  });
}

/** Rules whose figures are no lengths. */
const NO_LENGTHS: ReadonlySet<string> = new Set([
  "reading-suspect",
  "readings-disagree",
  "neighbour-hidden",
  "square-assumed",
]);

/** Rules whose figures are per cent. */
const PERCENT: ReadonlySet<string> = new Set(["wall-cover-share"]);

function snagRow(document: ShowDocument, snag: Snag, number: number): readonly string[] {
  const { units } = showOf(document);
  const { unit } = ruleOf(snag.rule);
  const bare = unit !== undefined || NO_LENGTHS.has(snag.rule);
  const figure = (value: number | undefined): string => {
    if (value === undefined) return "";
    if (unit === "minutes") return printMinutes(value);
    if (unit === "degrees") return printAngle(value);
    if (PERCENT.has(snag.rule)) return `${Math.round(value)} %`;
    return bare ? `${Number(value.toFixed(2))}` : printLength(value, units);
  };
  const doubt =
    snag.doubt === undefined || bare || snag.doubt === 0 ? "" : printDoubt(snag.doubt * SURE, units);
  const mend = snag.mend === undefined ? "" : ` ${snag.mend}`;
  return [
    `${number}`,
    LEVEL_WORDS[snag.level],
    `${snag.sentence}${mend}`,
    figure(snag.measured),
    figure(snag.wanted),
    doubt,
    ruleOf(snag.rule).source,
  ];
}
