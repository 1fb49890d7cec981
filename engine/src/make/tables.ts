/** The lists of the making as pages: strips, trim with its saw settings, what is cut, what is bought, how long it takes. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { Paper } from "../sheet/papers.ts";
import type { Leaf } from "../sheet/stamp.ts";
import { tableSheets } from "../sheet/tables.ts";
import { SURE } from "../tolerances.ts";
import { printAngle, printArea } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import { printMinutes } from "../units/minutes.ts";
import { printMoney } from "../units/money.ts";
import { number } from "./buying.ts";
import type { LengthCutting, Making, TrimEnd, TrimWork, WallWork } from "./model.ts";

/** What every page of the making is made from. */
export interface MakeWish {
  readonly making: Making;
  readonly document: ShowDocument;
  readonly paper: Paper;
}

/** A length in the show's own style. */
export function printer(document: ShowDocument): (mm: number) => string {
  const { units } = showOf(document);
  return (mm) => printLength(mm, units);
}

/** The strips of every wall in the order they hang; nothing where none hangs. */
export function stripLeaves({ making, document, paper }: MakeWish): readonly Leaf[] {
  const works = making.walls.filter((work) => work.strips.length > 0);
  if (works.length === 0) return [];
  const print = printer(document);
  const rows = works.flatMap((work) => work.strips.map((strip) => ({ work, strip })));
  return tableSheets({
    id: "make.strips",
    title: "Strips",
    lead: [
      ...works.map((work) => coveredWords(work, document)),
      "Edges and heights as hung; cut lengths have what is trimmed off at top and bottom.",
    ].join(" "),
    paper,
    columns: [
      { head: "Wall", share: 1.5, face: "sans-bold" },
      { head: "Strip", share: 0.8, face: "mono", align: "end" },
      { head: "Left edge at", share: 1.8, face: "mono", align: "end" },
      { head: "Right edge at", share: 1.8, face: "mono", align: "end" },
      { head: "Bottom", share: 1.2, face: "mono", align: "end" },
      { head: "Top left", share: 1.8, face: "mono", align: "end" },
      { head: "Top right", share: 1.8, face: "mono", align: "end" },
      { head: "Cut", share: 1.7, face: "mono", align: "end" },
      { head: "Pattern down", share: 1.8, face: "mono", align: "end" },
      { head: "Cut round", share: 3.2 },
    ],
    rows: rows.map(({ work, strip }) => [
      wallWords(work, works),
      `${strip.number}`,
      print(strip.left),
      print(strip.right),
      print(strip.low),
      print(strip.highLeft),
      print(strip.highRight),
      print(strip.length),
      work.stock.repeat > 0 ? print(strip.patternDrop) : "",
      strip.cutRound.map((id) => nameOf(document, id)).join(", "),
    ]),
    records: rows.map(({ work }) => work.covering.id),
    empty: "",
  });
}

/** The wall, and which of its coverings where it bears several. */
function wallWords(work: WallWork, works: readonly WallWork[]): string {
  const several = works.filter((one) => one.wall === work.wall).length > 1;
  return several ? `${work.name}, ${work.covering.name}` : work.name;
}

function coveredWords(
  { name, stock, covering, strips, rolls, perRoll, area }: WallWork,
  document: ShowDocument,
): string {
  const print = printer(document);
  const lap = covering.lap > 0 ? `lapped ${print(covering.lap)}` : "butted";
  return [
    `${name}: ${number(strips.length, "strip")} of ${stock.name}, ${print(stock.width)} wide, ${lap}, ${covering.fixing};`,
    `${number(rolls, "roll")}, ${perRoll} from a roll; ${printArea(area, showOf(document).units)} are covered.`,
  ].join(" ");
}

/** The name of an opening or a thing of the venue's. */
function nameOf({ openings, fixtures }: ShowDocument, id: string): string {
  return openings[id]?.name ?? fixtures[id]?.name ?? id;
}

/** All runs of all trims, with the saw settings of both ends. */
export function trimLeaves({ making, document, paper }: MakeWish): readonly Leaf[] {
  const runs = making.trims.flatMap((work) => work.runs.map((run) => ({ work, run })));
  if (runs.length === 0) return [];
  const print = printer(document);
  return tableSheets({
    id: "make.trim",
    title: "Trim",
    lead: [
      ...making.trims.filter((work) => work.runs.length > 0).map((work) => trimWords(work, print)),
      "Lengths go from long point to long point. Base and rail stand against the fence, crown lies flat on the saw; settings count from a square cut.",
      "Angles are the measured ones: try each corner with two offcuts first. Keep hands off the line of the blade, and let nobody saw alone.",
    ].join(" "),
    paper,
    columns: [
      { head: "Run", share: 2.4, face: "sans-bold" },
      { head: "From left", share: 1.5, face: "mono", align: "end" },
      { head: "To", share: 1.5, face: "mono", align: "end" },
      { head: "Length", share: 1.5, face: "mono", align: "end" },
      { head: "Left end", share: 2.9 },
      { head: "Right end", share: 2.9 },
      { head: "Cut in", share: 2.6 },
    ],
    rows: runs.map(({ run }) => [
      run.name,
      print(run.from),
      print(run.to),
      print(run.length),
      endWords(run.ends[0], document),
      endWords(run.ends[1], document),
      run.pieces.length > 1 ? run.pieces.map(({ length }) => print(length)).join(" + ") : "one length",
    ]),
    records: runs.map(({ work }) => work.trim.id),
    empty: "",
  });
}

function trimWords({ name, length, stock, trim }: TrimWork, print: (mm: number) => string): string {
  const from = stock === undefined ? "no sticks said yet" : `from ${stock.name}`;
  const spring = trim.spring === undefined ? "" : `, spring ${printAngle(trim.spring)}`;
  return `${name}, ${print(trim.height)} high${spring}: ${print(length)}, ${from}.`;
}

/** "inside corner A, 89.6° (good to 0.5°): mitre 45.2°"; "square". */
export function endWords(end: TrimEnd, document: Pick<ShowDocument, "corners">): string {
  if (end.kind === "square") return "square";
  const corner = document.corners[end.corner ?? ""]?.name ?? "";
  const doubt = (Math.ceil(end.sdAngle * SURE * 10 - 1e-6) / 10).toFixed(1);
  const bevel = end.bevel === 0 ? "" : `, bevel ${printAngle(end.bevel)}`;
  return `${end.kind} corner ${corner}, ${printAngle(end.angle)} (good to ${doubt}°): mitre ${printAngle(end.mitre)}${bevel}`;
}

/** Every length of one stock by number, with the stick it comes from. */
export function cutListLeaves({ document, paper }: MakeWish, cutting: LengthCutting): readonly Leaf[] {
  const print = printer(document);
  const { stock, plan, parts, name } = cutting;
  const sticks = new Map(
    (plan?.sticks ?? []).flatMap((stick, index) => stick.parts.map((id) => [id, index + 1] as const)),
  );
  return tableSheets({
    id: `make.cuts.${stock?.id ?? "unsaid"}`,
    title: `${name}: cut list`,
    lead:
      stock === undefined
        ? "Nobody has said yet what these are cut from."
        : `Sticks of ${print(stock.length)}. Numbers are those on the drawn sticks.`,
    paper,
    columns: [
      { head: "No.", share: 0.8, face: "mono", align: "end" },
      { head: "From stick", share: 1.6, face: "mono", align: "end" },
      { head: "Length", share: 2, face: "mono", align: "end" },
      { head: "What", share: 5 },
    ],
    rows: parts.map((part, index) => [
      `${index + 1}`,
      plan === undefined ? "" : `${sticks.get(part.id) ?? "too long"}`,
      print(part.length),
      part.name,
    ]),
    abreast: 2,
    records: parts.map(({ because }) => because[0]),
    empty: "Nothing is cut.",
  });
}

/** What to buy, with the arithmetic, prices and the sum. */
export function buyingLeaves({ making, document, paper }: MakeWish): readonly Leaf[] {
  const { currency } = showOf(document);
  const { buying, price, unpriced } = making;
  const open = unpriced === 0 ? "" : `, and ${number(unpriced, "line")} without a price yet`;
  return tableSheets({
    id: "make.buying",
    title: "Buying list",
    lead: `${printMoney(price, currency)} in all${open}. One batch of each roll: two batches never quite match.`,
    paper,
    columns: [
      { head: "Buy", share: 0.8, face: "mono", align: "end" },
      { head: "What", share: 3.4, face: "sans-bold" },
      { head: "Why so many", share: 6 },
      { head: "Fewer?", share: 2.6 },
      { head: "Each", share: 2, face: "mono", align: "end" },
      { head: "Together", share: 2, face: "mono", align: "end" },
    ],
    rows: [
      ...buying.map((line) => [
        `${line.count}`,
        line.stock.name,
        line.why,
        boundWords(line.count, line.bound, line.proven),
        line.stock.price === undefined ? "not said" : printMoney(line.stock.price, currency),
        line.price === undefined ? "" : printMoney(line.price, currency),
      ]),
      ...(buying.length > 1 ? [["", "Together", "", "", "", printMoney(price, currency)]] : []),
    ],
    records: buying.map(({ id }) => id),
    empty: "Nothing has to be bought.",
  });
}

/** "fewer cannot do"; "at least 11 are needed". */
export function boundWords(count: number, bound: number, proven = count === bound): string {
  return proven ? "fewer cannot do" : `at least ${bound} are needed`;
}

/** How long the making takes, line by line. */
export function hoursLeaves({ making, document, paper }: MakeWish): readonly Leaf[] {
  const { wage, currency } = showOf(document);
  const cost =
    wage > 0
      ? ` At ${printMoney(wage, currency)} an hour that is ${printMoney(Math.round((making.minutes / 60) * wage), currency)}.`
      : "";
  return tableSheets({
    id: "make.hours",
    title: "Hours of making",
    lead: `${printMinutes(making.minutes)} of one person's work.${cost} Drying is not in it. Figures from memory are ours; your own log is better.`,
    paper,
    columns: [
      { head: "Work", share: 4, face: "sans-bold" },
      { head: "How many", share: 1.7, face: "mono", align: "end" },
      { head: "Each", share: 2, face: "mono", align: "end" },
      { head: "Together", share: 2.1, face: "mono", align: "end" },
      { head: "Figure", share: 2.2 },
    ],
    rows: making.hours.map((line) => [
      line.work === "make piece" ? `Make ${line.name}` : line.name,
      `${line.count}`,
      printMinutes(line.each),
      printMinutes(line.minutes),
      line.own ? "your own" : "from memory",
    ]),
    abreast: 2,
    records: making.hours.map(({ work, because }) => (work === "make piece" ? because[0] : undefined)),
    empty: "Nothing has to be made.",
  });
}
