/** The command line: seven verbs, one file each. Reads the words, runs the verb, says how it ended. */
import { Command, CommanderError } from "commander";
import { arrangeVerb } from "./arrange.ts";
import { bookVerb } from "./book.ts";
import { checkVerb } from "./check.ts";
import { EXIT, fenced } from "./ending.ts";
import { installVerb } from "./install.ts";
import { makeVerb } from "./make.ts";
import { measureVerb } from "./measure.ts";
import { modelVerb } from "./model.ts";

const program = new Command("cornerwise")
  .description("One measured room, one list of pieces and one calendar, through the whole job.")
  .version("0.1.0")
  .showHelpAfterError("(cornerwise --help lists the verbs)")
  .addHelpText(
    "after",
    `
FILE is a show file or a tape sheet; - reads standard input.

Ends with 0 when all is well, 1 when there are stops, 2 when some input could not be read,
3 for a fault in Cornerwise itself, 4 when it has not been set up.`,
  )
  .exitOverride();

const VERBS = [measureVerb, arrangeVerb, modelVerb, makeVerb, installVerb, bookVerb, checkVerb];

for (const verb of VERBS) program.addCommand(verb().copyInheritedSettings(program));

// A reader that stops listening (`| head`) is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

await fenced(async () => {
  try {
    await program.parseAsync();
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    // Help and version end well; everything else commander says is about words it could not read.
    process.exitCode = error.exitCode === 0 ? EXIT.well : EXIT.unreadable;
  }
});
