/** How a command ends: the exit codes, and the one fence around bugs. */
import type { Problem, Snag } from "@cornerwise/engine";

/** Exit codes, steady. 4 (not set up) is said by `bin/cornerwise.mjs`, before any of this can be read. */
export const EXIT = { well: 0, stops: 1, unreadable: 2, bug: 3 } as const;

/** Something the person must mend before the command can run: a file that is not there, a folder that is closed. */
export class Refusal extends Error {}

/** Says how it went by the exit code: unreadable input outweighs stops. */
export function endWith(snags: readonly Snag[], problems: readonly Problem[]): void {
  const stops = snags.some((snag) => snag.level === "stop");
  process.exitCode = problems.length > 0 ? EXIT.unreadable : stops ? EXIT.stops : EXIT.well;
}

/** Runs a command inside the fence: a bug costs this answer and says so, with what it stumbled on. */
export async function fenced(command: () => Promise<void>): Promise<void> {
  try {
    await command();
  } catch (error) {
    if (error instanceof Refusal) {
      process.stderr.write(`${error.message}\n`);
      process.exitCode = EXIT.unreadable;
      return;
    }
    const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(`This is a fault in Cornerwise, not in your file; nothing was changed.\n${words}\n`);
    process.exitCode = EXIT.bug;
  }
}
