/** What the verbs of the later stages share: reading, deriving as far as asked, and answering as words or JSON. */
import { createDerive, ruleOf, showOf, type Derived, type Rule, type ShowDocument } from "@cornerwise/engine";
import { Command } from "commander";
import { endWith } from "./ending.ts";
import { readInput } from "./input.ts";
import { jsonText, writeAnswer } from "./output.ts";
import { problemJson, snagsJson, snagWords } from "./snags.ts";

interface Options {
  readonly json?: true;
  readonly output?: string;
}

export interface StageVerb {
  readonly name: string;
  readonly description: string;
  /** Stages whose snags the verb tells: its own, and those it rests on. */
  readonly stages: readonly Rule["stage"][];
  /** What it answers a machine; names carry their unit. */
  readonly json: (derived: Derived, document: ShowDocument) => object;
  readonly words: (derived: Derived, document: ShowDocument) => string;
}

/** The verb, ready to be added to the program. */
export function stageVerb({ name, description, stages, json, words }: StageVerb): Command {
  return new Command(name)
    .description(description)
    .argument("<file>", "a show file or a tape sheet; - for standard input")
    .option("--json", "print JSON for machines")
    .option("-o, --output <file>", "write the answer there")
    .action((file: string, options: Options) => {
      const { document, problems } = readInput(file);
      const derived = document === undefined ? undefined : createDerive()(document);
      const snags = (derived?.snags ?? []).filter((snag) => stages.includes(ruleOf(snag.rule).stage));
      const known = derived && document ? { derived, document } : undefined;
      const text = options.json
        ? jsonText({
            show: known ? showOf(known.document).name : null,
            ...(known ? json(known.derived, known.document) : {}),
            snags: snagsJson(snags, document),
            problems: problems.map(problemJson),
          })
        : known
          ? `${words(known.derived, known.document)}\n${snagWords(snags)}`
          : "";
      writeAnswer(text, options.output);
      endWith(snags, problems);
    });
}
