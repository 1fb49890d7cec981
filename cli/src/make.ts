/** `cornerwise make FILE`: strips, trim, floors, what is cut from what, what to buy, how long it takes. */
import {
  printLength,
  printMoney,
  showOf,
  type BuyingLine,
  type Derived,
  type FloorWork,
  type HoursLine,
  type LengthCutting,
  type ShowDocument,
  type SheetCutting,
  type TrimWork,
  type WallWork,
} from "@cornerwise/engine";
import type { Command } from "commander";
import { digits, table } from "./output.ts";
import { stageVerb } from "./stage.ts";

/** The verb, ready to be added to the program. */
export function makeVerb(): Command {
  return stageVerb({
    name: "make",
    description: "work out what to make, cut and buy: strips, trim, floor panels, lengths, sheets, hours",
    stages: ["measure", "make"],
    json: makeJson,
    words: makeWords,
  });
}

function makeJson({ making }: Derived, document: ShowDocument): object {
  return {
    walls: making.walls.map(wallJson),
    shares: making.shares.map(({ wall, name, share, wallArea, covered, pasted, flame }) => ({
      wall,
      name,
      share: digits(share),
      wall_m2: digits(wallArea / 1e6),
      covered_m2: digits(covered / 1e6),
      pasted,
      flame,
    })),
    trims: making.trims.map(trimJson),
    floors: making.floors.map(floorJson),
    lengths: making.cuts.map(lengthsJson),
    sheets: making.sheets.map(sheetsJson),
    buying: making.buying.map(buyingJson),
    hours: making.hours.map(hoursJson),
    making_min: digits(making.minutes),
    price_minor: making.price,
    currency: showOf(document).currency,
    unpriced: making.unpriced,
  };
}

function wallJson(work: WallWork): object {
  return {
    id: work.covering.id,
    wall: work.wall,
    name: work.name,
    stock: work.stock.id,
    ends_mm: work.ends.map(digits),
    rolls: work.rolls,
    per_roll: work.perRoll,
    area_m2: digits(work.area / 1e6),
    strips: work.strips.map((strip) => ({
      id: strip.id,
      number: strip.number,
      left_mm: digits(strip.left),
      right_mm: digits(strip.right),
      low_mm: digits(strip.low),
      high_left_mm: digits(strip.highLeft),
      high_right_mm: digits(strip.highRight),
      length_mm: digits(strip.length),
      pattern_drop_mm: digits(strip.patternDrop),
      cut_round: strip.cutRound,
    })),
  };
}

function trimJson({ trim, name, stock, length, runs }: TrimWork): object {
  return {
    id: trim.id,
    name,
    stock: stock?.id ?? null,
    length_mm: digits(length),
    runs: runs.map((run) => ({
      id: run.id,
      name: run.name,
      wall: run.wall,
      from_mm: digits(run.from),
      to_mm: digits(run.to),
      up_mm: digits(run.up),
      length_mm: digits(run.length),
      pieces_mm: run.pieces.map((piece) => digits(piece.length)),
      ends: run.ends.map((end) => ({
        kind: end.kind,
        angle_deg: digits(end.angle),
        mitre_deg: digits(end.mitre),
        bevel_deg: digits(end.bevel),
      })),
    })),
  };
}

function floorJson(work: FloorWork): object {
  return {
    id: work.covering.id,
    name: work.name,
    field: { width_mm: digits(work.field.width), depth_mm: digits(work.field.depth) },
    columns: work.columns,
    rows: work.rows,
    diagonal_mm: digits(work.diagonal),
    seams_mm: digits(work.seams),
    panels: [...work.panels, ...work.border].map((panel) => ({
      id: panel.id,
      name: panel.name,
      width_mm: digits(panel.width),
      depth_mm: digits(panel.depth),
    })),
  };
}

function lengthsJson({ stock, name, parts, plan }: LengthCutting): object {
  return {
    stock: stock?.id ?? null,
    name,
    parts: parts.map((part) => ({ id: part.id, name: part.name, length_mm: digits(part.length) })),
    sticks: (plan?.sticks ?? []).map((stick) => ({ parts: stick.parts, left_mm: digits(stick.left) })),
    bound: plan?.bound ?? null,
    unplaced: plan?.unplaced ?? [],
  };
}

function sheetsJson({ stock, parts, plan }: SheetCutting): object {
  return {
    stock: stock.id,
    name: stock.name,
    parts: parts.length,
    sheets: plan.sheets.map((sheet) =>
      sheet.parts.map((part) => ({
        id: part.id,
        x_mm: digits(part.x),
        y_mm: digits(part.y),
        width_mm: digits(part.width),
        depth_mm: digits(part.depth),
      })),
    ),
    bound: plan.bound,
    unplaced: plan.unplaced,
  };
}

function buyingJson({ stock, count, bound, proven, why, price }: BuyingLine): object {
  return { stock: stock.id, name: stock.name, count, bound, proven, why, price_minor: price ?? null };
}

function hoursJson({ work, name, count, each, minutes, own }: HoursLine): object {
  return { work, name, count, each_min: digits(each), all_min: digits(minutes), own };
}

function makeWords({ making }: Derived, document: ShowDocument): string {
  const { units, currency } = showOf(document);
  const length = (mm: number): string => printLength(mm, units);
  const walls = making.walls.map((work) => [
    work.name,
    work.covering.name,
    `${work.strips.length}`,
    length(work.ends[0]),
    length(Math.max(0, ...work.strips.map((strip) => strip.length))),
  ]);
  const trims = making.trims.map((work) => [work.name, `${work.runs.length}`, length(work.length)]);
  const floors = making.floors.map((work) => [
    work.name,
    `${work.columns} x ${work.rows}`,
    `${work.panels.length} panels, ${work.border.length} border lengths`,
    length(work.diagonal),
  ]);
  const buying = making.buying.map((line) => [
    line.stock.name,
    `${line.count}`,
    line.proven ? "fewer cannot do" : `${line.bound} at the least`,
    line.price === undefined ? "no price yet" : printMoney(line.price, currency),
    line.why,
  ]);
  const hours = making.hours.map((line) => [
    line.name,
    `${line.count}`,
    `${(line.minutes / 60).toFixed(1)} h`,
    line.own ? "own rate" : "our rate, from memory",
  ]);
  return [
    table(["wall", "covering", "strips", "first strip", "cut length"], walls),
    table(["trim", "runs", "in all"], trims),
    table(["floor", "panels", "", "diagonal"], floors),
    table(["to buy", "count", "", "price", "why"], buying),
    table(["making", "count", "hours", "by"], hours),
    `  ${(making.minutes / 60).toFixed(1)} h of making; ${printMoney(making.price, currency)} of material${making.unpriced > 0 ? `, ${making.unpriced} without a price` : ""}\n`,
  ]
    .filter((part) => part !== "")
    .join("\n");
}
