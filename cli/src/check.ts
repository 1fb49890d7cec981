/** `cornerwise check FILE`: everything that is wrong, risky or unknown; and the document written back. */
import { createDerive, writeShow, writeTape, type ShowDocument, type Snag } from "@cornerwise/engine";
import { Command } from "commander";
import { endWith, Refusal } from "./ending.ts";
import { readInput } from "./input.ts";
import { jsonText, writeBytes } from "./output.ts";
import { problemJson, snagCount, snagsJson, snagWords } from "./snags.ts";

interface Options {
  readonly json?: true;
  readonly output?: string;
}

/** The verb, ready to be added to the program. */
export function checkVerb(): Command {
  return new Command("check")
    .description("list every snag; write the show back as a show file or a tape sheet")
    .argument("<file>", "a show file or a tape sheet; - for standard input")
    .option("--json", "print JSON for machines")
    .option("-o, --output <file>", "write the show there: as a show file (.json) or a tape sheet (.txt)")
    .action((file: string, options: Options) => {
      const write = writerFor(options.output);
      const { document, problems } = readInput(file);
      const snags: readonly Snag[] = document === undefined ? [] : createDerive()(document).snags;
      if (document !== undefined) write(document);
      const words = document === undefined ? "" : `${snagWords(snags)}\n${snagCount(snags)}\n`;
      process.stdout.write(
        options.json
          ? jsonText({ snags: snagsJson(snags, document), problems: problems.map(problemJson) })
          : words,
      );
      endWith(snags, problems);
    });
}

function writerFor(file: string | undefined): (document: ShowDocument) => void {
  if (file === undefined) return () => {};
  const lower = file.toLowerCase();
  if (lower.endsWith(".json")) return (document) => writeBytes(file, writeShow(document));
  if (lower.endsWith(".txt")) return (document) => writeBytes(file, writeTape(document));
  throw new Refusal(`check -o writes a show file (.json) or a tape sheet (.txt), not ${file}.`);
}
