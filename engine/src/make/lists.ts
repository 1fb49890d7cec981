/** The making as lists for a spreadsheet: every length in mm and as printed on the sheets. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { ListFile } from "../sheet/lists.ts";
import { printMoney } from "../units/money.ts";
import type { Making } from "./model.ts";
import { endWords, printer } from "./tables.ts";

type Cell = string | number;

/** Cut list, sheet parts, strips, trims, buying list, hours: each a file, its columns named with their unit. */
export function makeLists(making: Making, document: ShowDocument): readonly ListFile[] {
  const print = printer(document);
  const both = (mm: number): readonly [number, string] => [rounded(mm), print(mm)];
  return [
    cutList(making, both),
    sheetList(making, both),
    stripList(making, both),
    trimList(making, document, both),
    buyingList(making, document),
    hoursList(making),
  ];
}

/** A hundredth of a millimetre is finer than any saw. */
function rounded(mm: number): number {
  return Math.round(mm * 100) / 100;
}

type Both = (mm: number) => readonly [number, string];

function cutList({ cuts }: Making, both: Both): ListFile {
  return {
    name: "cut-list",
    columns: ["stock", "number", "part", "length (mm)", "length", "stick", "id", "because"],
    rows: cuts.flatMap(({ name, parts, plan }) => {
      const sticks = new Map(
        (plan?.sticks ?? []).flatMap((stick, index) => stick.parts.map((id) => [id, index + 1] as const)),
      );
      return parts.map((part, index): readonly Cell[] => [
        name,
        index + 1,
        part.name,
        ...both(part.length),
        sticks.get(part.id) ?? "",
        part.id,
        part.because.join(" "),
      ]);
    }),
  };
}

function sheetList({ sheets, floors }: Making, both: Both): ListFile {
  const on = new Map(
    sheets.flatMap(({ plan }) =>
      plan.sheets.flatMap(({ parts }, index) => parts.map(({ id }) => [id, index + 1] as const)),
    ),
  );
  return {
    name: "floor-parts",
    columns: ["stock", "part", "width (mm)", "width", "depth (mm)", "depth", "sheet", "id", "because"],
    rows: floors.flatMap((work) =>
      [...work.panels, ...work.border].map((part): readonly Cell[] => [
        work.stock?.name ?? "",
        part.name,
        ...both(part.width),
        ...both(part.depth),
        on.get(part.id) ?? "",
        part.id,
        part.because.join(" "),
      ]),
    ),
  };
}

function stripList({ walls }: Making, both: Both): ListFile {
  return {
    name: "strips",
    columns: [
      "wall",
      "strip",
      "stock",
      "left edge (mm)",
      "left edge",
      "right edge (mm)",
      "right edge",
      "bottom (mm)",
      "bottom",
      "top left (mm)",
      "top left",
      "top right (mm)",
      "top right",
      "cut length (mm)",
      "cut length",
      "pattern down (mm)",
      "pattern down",
      "id",
      "because",
    ],
    rows: walls.flatMap((work) =>
      work.strips.map((strip): readonly Cell[] => [
        work.name,
        strip.number,
        work.stock.name,
        ...both(strip.left),
        ...both(strip.right),
        ...both(strip.low),
        ...both(strip.highLeft),
        ...both(strip.highRight),
        ...both(strip.length),
        ...both(strip.patternDrop),
        strip.id,
        strip.because.join(" "),
      ]),
    ),
  };
}

function trimList({ trims }: Making, document: ShowDocument, both: Both): ListFile {
  return {
    name: "trims",
    columns: [
      "run",
      "from (mm)",
      "from",
      "to (mm)",
      "to",
      "length (mm)",
      "length",
      "left end",
      "left mitre (degrees)",
      "left bevel (degrees)",
      "right end",
      "right mitre (degrees)",
      "right bevel (degrees)",
      "lengths",
      "id",
      "because",
    ],
    rows: trims.flatMap(({ runs }) =>
      runs.map((run): readonly Cell[] => [
        run.name,
        ...both(run.from),
        ...both(run.to),
        ...both(run.length),
        ...run.ends.flatMap((end): readonly Cell[] => [
          endWords(end, document),
          rounded(end.mitre),
          rounded(end.bevel),
        ]),
        run.pieces.length,
        run.id,
        run.because.join(" "),
      ]),
    ),
  };
}

function buyingList({ buying }: Making, document: ShowDocument): ListFile {
  const { currency } = showOf(document);
  const unit = currency === "" ? "minor units" : `minor units of ${currency}`;
  return {
    name: "buying-list",
    columns: [
      "buy",
      "stock",
      "form",
      "why",
      "at least",
      `each (${unit})`,
      `together (${unit})`,
      "together",
      "id",
    ],
    rows: buying.map((line): readonly Cell[] => [
      line.count,
      line.stock.name,
      line.stock.form,
      line.why,
      line.bound,
      line.stock.price ?? "",
      line.price ?? "",
      line.price === undefined ? "" : printMoney(line.price, currency),
      line.id,
    ]),
  };
}

function hoursList({ hours }: Making): ListFile {
  return {
    name: "hours",
    columns: ["work", "name", "count", "each (min)", "together (min)", "figure", "id"],
    rows: hours.map((line): readonly Cell[] => [
      line.work,
      line.name,
      line.count,
      rounded(line.each),
      rounded(line.minutes),
      line.own ? "own" : "from memory",
      line.id,
    ]),
  };
}
