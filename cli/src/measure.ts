/** `cornerwise measure FILE`: the true room, with its doubt. */
import {
  createDerive,
  printAngle,
  printArea,
  printDoubt,
  printLength,
  ruleOf,
  showOf,
  SURE,
  type ReadingResult,
  type Show,
  type Snag,
  type TrueRoom,
} from "@cornerwise/engine";
import { Command } from "commander";
import { endWith } from "./ending.ts";
import { readInput, type Input } from "./input.ts";
import { digits, jsonText, table, writeAnswer } from "./output.ts";
import { problemJson, snagsJson, snagWords } from "./snags.ts";

interface Options {
  readonly json?: true;
  readonly output?: string;
}

/** The verb, ready to be added to the program. */
export function measureVerb(): Command {
  return new Command("measure")
    .description("adjust all readings together: corners, angles, heights, and how good each is")
    .argument("<file>", "a show file or a tape sheet; - for standard input")
    .option("--json", "print JSON for machines")
    .option("-o, --output <file>", "write the answer there")
    .action((file: string, options: Options) => {
      const input = readInput(file);
      const { rooms, snags } = measured(input);
      const text = options.json
        ? jsonText(measureJson(input, rooms, snags))
        : measureWords(input, rooms, snags);
      writeAnswer(text, options.output);
      endWith(snags, input.problems);
    });
}

function measured({ document }: Input): { rooms: readonly TrueRoom[]; snags: readonly Snag[] } {
  if (document === undefined) return { rooms: [], snags: [] };
  const { rooms, snags } = createDerive()(document);
  return { rooms, snags: snags.filter((snag) => ["document", "measure"].includes(ruleOf(snag.rule).stage)) };
}

function measureJson(input: Input, rooms: readonly TrueRoom[], snags: readonly Snag[]): object {
  return {
    rooms: rooms.map(roomJson),
    snags: snagsJson(snags, input.document),
    problems: input.problems.map(problemJson),
  };
}

/** A true room for machines. Coordinates and deviations are relative to the first corner and the first wall. */
export function roomJson(room: TrueRoom): object {
  const { test } = room;
  return {
    id: room.room.id,
    name: room.room.name,
    settled: room.settled,
    floating: room.floating,
    corners: room.corners.map((corner) => ({
      id: corner.id,
      name: corner.name,
      x_mm: digits(corner.x),
      y_mm: digits(corner.y),
      sd_x_mm: digits(corner.sdX),
      sd_y_mm: digits(corner.sdY),
      angle_deg: digits(corner.angle),
      sd_angle_deg: digits(corner.sdAngle),
      height_mm: digits(corner.height),
      sd_height_mm: digits(corner.sdHeight),
      height_said: corner.heightSaid,
      ellipse: {
        major_mm: digits(corner.ellipse.major),
        minor_mm: digits(corner.ellipse.minor),
        turn_deg: digits(corner.ellipse.turn),
      },
    })),
    walls: room.walls.map((wall) => ({
      id: wall.id,
      name: wall.name,
      open: wall.open,
      length_mm: digits(wall.length),
      sd_length_mm: digits(wall.sdLength),
    })),
    readings: room.readings.map(readingJson),
    openings: room.openings.map(({ opening, wall, along }) => ({
      id: opening.id,
      kind: opening.kind,
      name: opening.name,
      wall,
      along_mm: digits(along),
      width_mm: digits(opening.width),
      height_mm: digits(opening.height),
      sill_mm: digits(opening.sill),
    })),
    fixtures: room.fixtures.map(({ fixture, wall, along, low, high }) => ({
      id: fixture.id,
      kind: fixture.kind,
      name: fixture.name,
      wall,
      along_mm: digits(along),
      low_mm: digits(low),
      high_mm: digits(high),
    })),
    area_m2: digits(room.area / 1e6),
    sd_area_m2: digits(room.sdArea / 1e6),
    assumptions: room.assumptions,
    closure_mm: test.closure === undefined ? null : digits(test.closure),
    test: {
      freedom: test.freedom,
      sum: digits(test.sum),
      critical: digits(test.critical),
      passes: test.passes,
    },
  };
}

function readingJson(result: ReadingResult): object {
  const unit = result.reading.kind === "angle" ? "deg" : "mm";
  return {
    id: result.reading.id,
    text: result.text,
    kind: result.reading.kind,
    [`measured_${unit}`]: digits(result.reading.value),
    [`adjusted_${unit}`]: digits(result.adjusted),
    [`residual_${unit}`]: digits(result.residual),
    [`sd_${unit}`]: digits(result.sigma),
    redundancy: digits(result.redundancy),
    standardised: digits(result.standardised),
    suspect: result.suspect,
  };
}

function measureWords(input: Input, rooms: readonly TrueRoom[], snags: readonly Snag[]): string {
  if (input.document === undefined) return "";
  const show = showOf(input.document);
  if (rooms.length === 0) return "No room has been described yet.\n";
  return [...rooms.map((room) => roomWords(room, show)), snagWords(snags)].join("\n");
}

function roomWords(room: TrueRoom, show: Show): string {
  const { units } = show;
  const worst = Math.max(0, ...room.corners.flatMap((corner) => [corner.sdX, corner.sdY])) * SURE;
  const head = room.settled
    ? `${room.room.name}, ${printArea(room.area, units)}, corners ${printDoubt(worst, units)}\n`
    : `${room.room.name}, not settled yet\n`;
  const corners = room.corners.map((corner) => [
    corner.name,
    printLength(corner.x, units),
    printLength(corner.y, units),
    printAngle(corner.angle),
    printLength(corner.height, units) + (corner.heightSaid ? "" : " (assumed)"),
  ]);
  const readings = room.readings.map((result) => [
    result.text,
    leftOver(result, show),
    rounded(result.standardised, 1),
    result.suspect ? "look again" : "",
  ]);
  const assumed = room.assumptions.map(({ sentence }) => `  ${sentence}\n`);
  const closure =
    room.test.closure === undefined
      ? []
      : [`  The walls close to ${printLength(room.test.closure, units)}.\n`];
  return [
    head,
    table(["corner", "across", "up", "angle", "height"], corners),
    ...(readings.length > 0 ? ["\n", table(["reading", "moved by", "in deviations", ""], readings)] : []),
    ...(assumed.length + closure.length > 0 ? ["\n", ...closure, ...assumed] : []),
  ].join("");
}

function leftOver(result: ReadingResult, show: Show): string {
  return result.reading.kind === "angle"
    ? `${rounded(result.residual, 2)}°`
    : printLength(result.residual, show.units);
}

/** To so many digits, and never "-0.0". */
function rounded(value: number, digitsAfter: number): string {
  return (Number(value.toFixed(digitsAfter)) + 0).toFixed(digitsAfter);
}
