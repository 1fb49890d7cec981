// @ts-check
/** The long simulations and fault runs. Ends with `N passed, N failed` alone on the last line. */
import { close, countVitest, newTally } from "./tally.mjs";

const tally = newTally();
await countVitest(tally, "long simulations", ["--config", "vitest.prove.config.ts"]);
close(tally);
