// @ts-check
/**
 * Sets the project up: installs the packages the lock file names when they are not there, and with
 * `--browser` finds or fetches a Chromium for the browser tests. Plain Node with no package, because it runs
 * before there are any. A second run installs nothing. All words go to stderr, so that a command whose
 * output is for machines stays clean.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { inTurn } from "./turn.mjs";
import { ROOT, runNpm, say } from "./words.mjs";

const OLDEST_NODE = 20;
const LOCK = join(ROOT, "package-lock.json");
/** Written by npm when it has installed everything. */
const NPM_RECORD = join(ROOT, "node_modules", ".package-lock.json");
/** Inside `node_modules`, so that removing the packages removes the stamp with them. */
const STAMP = join(ROOT, "node_modules", ".cornerwise-stamp.json");

/**
 * What the installed packages depend on: the lock file, and the platform and Node major that native parts
 * were chosen for. The npm version is left out: the lock file alone decides what any npm installs.
 * @returns {string}
 */
function wantedStamp() {
  const lock = createHash("sha256").update(readFileSync(LOCK)).digest("hex");
  const node = process.versions.node.split(".")[0];
  return `${JSON.stringify({ lock, node, platform: process.platform, arch: process.arch })}\n`;
}

/** @returns {string} "" where nothing was set up yet. */
function standingStamp() {
  return existsSync(STAMP) && existsSync(NPM_RECORD) ? readFileSync(STAMP, "utf8") : "";
}

/** Ends with a word and the mend when this Node is too old to run the rest. */
function checkNode() {
  const major = Number(process.versions.node.split(".")[0]);
  if (major >= OLDEST_NODE) return;
  say(`Cornerwise needs Node ${OLDEST_NODE} or newer; this is Node ${process.versions.node}.`);
  say("Mend: install a newer Node (https://nodejs.org), open a new terminal, and try again.");
  process.exit(1);
}

/** Installs exactly what the lock file names, unless that stands already. */
async function installPackages() {
  const wanted = wantedStamp();
  if (standingStamp() !== wanted) await inTurn(() => installAs(wanted));
}

/**
 * @param {string} wanted the stamp of what is to be there
 */
async function installAs(wanted) {
  // Whoever had the turn before may have done it all.
  if (standingStamp() === wanted) return;
  const count = Object.keys(JSON.parse(readFileSync(LOCK, "utf8")).packages).length;
  say(`Setting up: installing ${count} packages, once. A minute or so.`);
  const outcome = await runNpm(["ci", "--no-audit", "--no-fund", "--loglevel=error"], "installing packages");
  if (outcome.code !== 0) {
    say(outcome.words);
    say("The packages could not be installed.");
    say("Mend: check that this machine reaches the npm registry, then run the same command again.");
    process.exit(1);
  }
  mkdirSync(join(ROOT, "node_modules"), { recursive: true });
  writeFileSync(STAMP, wanted);
  say(`Setting up: packages installed in ${outcome.seconds} s.`);
}

checkNode();
await installPackages();
if (process.argv.includes("--browser")) {
  const { findOrFetchBrowser } = await import("./browser.mjs");
  if (!(await findOrFetchBrowser())) process.exit(1);
}
