// @ts-check
/** Builds the app where its sources changed, and serves it to this machine only. */
import { preview } from "vite";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { build, isBuilt } from "./build.mjs";
import { ROOT, say } from "./words.mjs";

const { values } = parseArgs({ options: { port: { type: "string", default: "4173" } } });
const port = Number(values.port);
if (!Number.isInteger(port) || port < 1 || port > 65_535) {
  say(`"${values.port}" is not a port: a whole number from 1 to 65535 is.`);
  process.exit(2);
}

if (isBuilt()) say("The app is built already.");
else {
  say("Building the app …");
  const outcome = await build();
  if (outcome.code !== 0) {
    say(outcome.words);
    say("The app could not be built.");
    process.exit(1);
  }
  say(`Built in ${outcome.seconds} s.`);
}

const server = await preview({
  root: join(ROOT, "app"),
  logLevel: "error",
  // Where the port is taken the next free one is used.
  preview: { host: "127.0.0.1", port, strictPort: false },
});
say("");
say(`Cornerwise is at ${server.resolvedUrls?.local[0]}`);
say("Open that address in a browser. Stop with Ctrl-C.");
