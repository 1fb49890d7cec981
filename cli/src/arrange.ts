/** `cornerwise arrange FILE`: the pieces in the true room, the ways between them, and what is in the way. */
import {
  createDerive,
  printLength,
  ruleOf,
  showOf,
  type Arrangement,
  type Gap,
  type Snag,
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
export function arrangeVerb(): Command {
  return new Command("arrange")
    .description("judge the pieces where they stand: overlaps, ways, views, things to keep clear")
    .argument("<file>", "a show file or a tape sheet; - for standard input")
    .option("--json", "print JSON for machines")
    .option("-o, --output <file>", "write the answer there")
    .action((file: string, options: Options) => {
      const input = readInput(file);
      const { arrangements, snags } = arranged(input);
      const text = options.json
        ? jsonText(arrangeJson(input, arrangements, snags))
        : arrangeWords(input, arrangements, snags);
      writeAnswer(text, options.output);
      endWith(snags, input.problems);
    });
}

/** An arrangement rests on the room, so what is wrong with the room is told with it. */
function arranged({ document }: Input): { arrangements: readonly Arrangement[]; snags: readonly Snag[] } {
  if (document === undefined) return { arrangements: [], snags: [] };
  const { arrangements, snags } = createDerive()(document);
  return { arrangements, snags: snags.filter((snag) => ruleOf(snag.rule).stage !== "sheet") };
}

function arrangeJson(input: Input, arrangements: readonly Arrangement[], snags: readonly Snag[]): object {
  return {
    rooms: arrangements.map(arrangementJson),
    snags: snagsJson(snags, input.document),
    problems: input.problems.map(problemJson),
  };
}

function arrangementJson(arrangement: Arrangement): object {
  return {
    id: arrangement.room.room.id,
    name: arrangement.room.room.name,
    pieces: arrangement.standing.map(({ placement, piece, name, height, low, stand }) => ({
      id: placement.id,
      piece: piece.id,
      name,
      x_mm: digits(stand.x),
      y_mm: digits(stand.y),
      turn_deg: digits(stand.turn),
      low_mm: digits(low),
      height_mm: digits(height),
      on: placement.on ?? null,
    })),
    fittings: arrangement.mounted.map(({ mount, piece, name, wall, along, low, high, depth }) => ({
      id: mount.id,
      piece: piece.id,
      name,
      wall,
      along_mm: digits(along),
      low_mm: digits(low),
      high_mm: digits(high),
      out_mm: digits(depth),
    })),
    waiting: arrangement.tray.map(({ piece, count }) => ({ piece: piece.id, name: piece.name, count })),
    routes: arrangement.routes.map(({ fromName, toName, from, to, pinch }) => ({
      from: fromName,
      from_id: from,
      to: toName,
      to_id: to,
      ...(pinch === undefined
        ? { bottleneck_mm: null, doubt_mm: null, at: null, pinched_by: [] }
        : pinchJson(pinch)),
    })),
    views: arrangement.views.map((view) => ({
      neighbour: view.neighbour,
      from: view.from,
      eye: { x_mm: digits(view.eye.x), y_mm: digits(view.eye.y) },
      seen: digits(view.seen),
      hidden_by: view.hiddenBy,
    })),
  };
}

function pinchJson(pinch: Gap): object {
  const [a, b] = pinch.at;
  return {
    bottleneck_mm: digits(pinch.width),
    doubt_mm: digits(pinch.doubt),
    at: { x_mm: digits((a.x + b.x) / 2), y_mm: digits((a.y + b.y) / 2) },
    pinched_by: [pinch.a, pinch.b],
  };
}

function arrangeWords(input: Input, arrangements: readonly Arrangement[], snags: readonly Snag[]): string {
  if (input.document === undefined) return "";
  const { units } = showOf(input.document);
  const rooms = arrangements.map((arrangement) => {
    const routes = arrangement.routes.map(({ fromName, toName, pinch }) => [
      `${fromName} to ${toName}`,
      pinch === undefined ? "wide" : printLength(pinch.width, units),
      pinch === undefined ? "" : `between ${pinch.aName} and ${pinch.bName}`,
    ]);
    const waiting = arrangement.tray.reduce((sum, row) => sum + row.count, 0);
    const standing = arrangement.standing.length;
    const head = `${arrangement.room.room.name}: ${standing} standing, ${waiting} waiting\n`;
    return head + table(["way", "narrowest", ""], routes);
  });
  return [...rooms, snagWords(snags)].join("\n");
}
