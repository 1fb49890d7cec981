// @ts-check
/**
 * One tally for every runner: each static step counts as one test, the runners' own tests one by one. A
 * runner that breaks without naming a test counts as one failure, so nothing can pass by falling over.
 */
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { CACHE, run, say } from "./words.mjs";

const RESULTS = join(CACHE, "results");

/**
 * @typedef {object} Tally
 * @property {number} passed
 * @property {string[]} failed names
 */

/** @returns {Tally} */
export const newTally = () => ({ passed: 0, failed: [] });

/**
 * The closing: names of what failed, then the one line that says it all. Sets the exit code.
 * @param {Tally} tally
 */
export function close(tally) {
  if (tally.failed.length > 0) say(`\nFailed:\n${tally.failed.map((name) => `  ✗ ${name}`).join("\n")}`);
  process.exitCode = tally.failed.length > 0 ? 1 : 0;
  console.log(`\n${tally.passed} passed, ${tally.failed.length} failed`);
}

/**
 * Runs one static step and counts it.
 * @param {Tally} tally
 * @param {string} name
 * @param {() => Promise<import("./words.mjs").Outcome>} step
 */
export async function count(tally, name, step) {
  const outcome = await step();
  const ok = outcome.code === 0;
  say(`${ok ? "✓" : "✗"} ${name}, ${outcome.seconds} s`);
  if (ok) tally.passed += 1;
  else {
    if (outcome.words !== "") say(outcome.words.trim());
    tally.failed.push(name);
  }
}

/**
 * A fresh place for a runner's JSON; a result of an earlier run can never be read as this one's.
 * @param {string} name
 */
function freshResults(name) {
  mkdirSync(RESULTS, { recursive: true });
  const file = join(RESULTS, `${name}.json`);
  rmSync(file, { force: true });
  return file;
}

/**
 * Counts what a runner's tests came to. One that wrote no results, or failed naming no test, is one failure.
 * @param {Tally} tally
 * @param {string} name
 * @param {import("./words.mjs").Outcome} outcome
 * @param {Tally} found
 */
function add(tally, name, outcome, found) {
  const unexplained = outcome.code !== 0 && found.failed.length === 0;
  const empty = outcome.code === 0 && found.passed === 0 && found.failed.length === 0;
  tally.passed += found.passed;
  tally.failed.push(...found.failed.map((test) => `${name}: ${test}`));
  if (unexplained) tally.failed.push(`${name}: the runner failed without naming a test`);
  if (empty) tally.failed.push(`${name}: no test ran`);
  const bad = found.failed.length + (unexplained || empty ? 1 : 0);
  say(`${bad === 0 ? "✓" : "✗"} ${name}: ${found.passed} passed, ${bad} failed, ${outcome.seconds} s`);
}

/**
 * @typedef {{ fullName: string, status: string }} Assertion
 * @typedef {{ name: string, status: string, assertionResults: Assertion[] }} TestFile
 */

/**
 * Reads Vitest's JSON. A file that could not even be read counts as one failed test.
 * @param {string} file
 * @returns {Tally}
 */
export function readVitest(file) {
  const tally = newTally();
  if (!existsSync(file)) return tally;
  /** @type {{ testResults: TestFile[] }} */
  const report = JSON.parse(readFileSync(file, "utf8"));
  for (const suite of report.testResults) {
    const bad = suite.assertionResults.filter((test) => test.status === "failed");
    tally.passed += suite.assertionResults.filter((test) => test.status === "passed").length;
    tally.failed.push(...bad.map((test) => test.fullName.trim()));
    if (suite.status === "failed" && bad.length === 0) tally.failed.push(`${suite.name} could not be run`);
  }
  return tally;
}

/**
 * @typedef {{ status: string, projectName: string }} BrowserTest
 * @typedef {{ title: string, tests: BrowserTest[] }} Spec
 * @typedef {{ title: string, specs?: Spec[], suites?: Suite[] }} Suite
 */

/**
 * @param {Suite} suite
 * @returns {Spec[]}
 */
const specsIn = (suite) => [...(suite.specs ?? []), ...(suite.suites ?? []).flatMap(specsIn)];

/**
 * Reads Playwright's JSON. A skipped browser task is a failure: every task must be done.
 * @param {string} file
 * @returns {Tally}
 */
export function readPlaywright(file) {
  const tally = newTally();
  if (!existsSync(file)) return tally;
  /** @type {{ suites: Suite[], errors?: { message?: string }[] }} */
  const report = JSON.parse(readFileSync(file, "utf8"));
  for (const spec of report.suites.flatMap(specsIn))
    for (const test of spec.tests) {
      const name = [test.projectName, spec.title].filter(Boolean).join(", ");
      if (test.status === "expected" || test.status === "flaky") tally.passed += 1;
      else tally.failed.push(test.status === "skipped" ? `${name} (left out)` : name);
      if (test.status === "flaky") say(`  passed only at a second try: ${name}`);
    }
  for (const error of report.errors ?? [])
    tally.failed.push((error.message ?? "an error").split("\n")[0] ?? "");
  return tally;
}

/**
 * Runs Vitest and counts its tests, showing its words as they come.
 * @param {Tally} tally
 * @param {string} name
 * @param {readonly string[]} args
 */
export async function countVitest(tally, name, args) {
  const file = freshResults("vitest");
  const outcome = await run(
    process.execPath,
    [
      "node_modules/vitest/vitest.mjs",
      "run",
      ...args,
      "--reporter=dot",
      "--reporter=json",
      `--outputFile.json=${file}`,
    ],
    { doing: name, show: true },
  );
  add(tally, name, outcome, readVitest(file));
}

/**
 * Runs Playwright and counts its tests.
 * @param {Tally} tally
 * @param {string} name
 * @param {readonly string[]} args
 * @param {Readonly<Record<string, string>>} env
 */
export async function countPlaywright(tally, name, args, env) {
  const file = freshResults("playwright");
  const outcome = await run(
    process.execPath,
    ["node_modules/@playwright/test/cli.js", "test", ...args, "--reporter=list,json"],
    { doing: name, show: true, env: { ...env, PLAYWRIGHT_JSON_OUTPUT_NAME: file } },
  );
  add(tally, name, outcome, readPlaywright(file));
}
