// @ts-check
/** What the plain-Node scripts share: where the project is, how they speak, and how they run a program. */
import { spawn } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's folder. */
export const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));

/** Where the scripts keep what can be made again. */
export const CACHE = join(ROOT, ".cache");

/** How often a quiet program is said to be still at work, ms. */
const STILL = 15_000;

/** Colour is for a person at a screen; a log is read as it is. Some tools take a word for colour over one against. */
const PLAIN = process.stdout.isTTY ? {} : { NO_COLOR: "1", FORCE_COLOR: undefined };

/**
 * One line to the person, on stderr.
 * @param {string} line
 */
export function say(line) {
  process.stderr.write(`${line}\n`);
}

/**
 * A tool's words without the addresses it fetched from: they differ by machine and help nobody.
 * @param {string} words
 */
function withoutAddresses(words) {
  return words.replaceAll(/https?:\/\/[^\s"')]+/g, "(the package registry)").trim();
}

/**
 * @typedef {object} Outcome
 * @property {number} code exit code; 127 where the program is not there
 * @property {string} words everything it printed
 * @property {string} seconds how long it took
 */

/**
 * Runs a program to its end and keeps its words. Says every quarter minute that it is still at work.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ doing: string, env?: Readonly<Record<string, string>>, show?: boolean, shell?: boolean, cwd?: string }} options
 *   `show` passes its words on while it runs; `cwd` is the project where it is not said.
 * @returns {Promise<Outcome>}
 */
export function run(program, args, { doing, env = {}, show = false, shell = false, cwd = ROOT }) {
  const start = performance.now();
  const seconds = () => ((performance.now() - start) / 1000).toFixed(1);
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd,
      env: { ...process.env, ...PLAIN, ...env },
      stdio: ["ignore", "pipe", "pipe"],
      shell,
    });
    let words = "";
    const still = setInterval(() => {
      if (!show) say(`  … still ${doing}, ${Math.round(Number(seconds()))} s`);
    }, STILL);
    for (const stream of [child.stdout, child.stderr])
      stream.setEncoding("utf8").on("data", (/** @type {string} */ piece) => {
        words += piece;
        if (show) process.stdout.write(piece);
      });
    child.on("error", (error) => {
      clearInterval(still);
      resolve({ code: 127, words: error.message, seconds: seconds() });
    });
    child.on("close", (code) => {
      clearInterval(still);
      resolve({ code: code ?? 1, words, seconds: seconds() });
    });
  });
}

/**
 * Runs a package's own program with this Node, without a shell in between.
 * @param {string} file from the project's `node_modules`: "vite/bin/vite.js"
 * @param {readonly string[]} args
 * @param {Parameters<typeof run>[2]} options
 * @returns {Promise<Outcome>}
 */
export function runTool(file, args, options) {
  return run(process.execPath, [join(ROOT, "node_modules", file), ...args], options);
}

/**
 * Runs npm: the one that started this script, else the one on the path.
 * @param {readonly string[]} args
 * @param {string} doing what to say while it works
 * @returns {Promise<Outcome>} with the registry's addresses taken out of the words
 */
export async function runNpm(args, doing) {
  const npm = process.env["npm_execpath"];
  const outcome = npm?.endsWith(".js")
    ? await run(process.execPath, [npm, ...args], { doing })
    : await run("npm", args, { doing, shell: process.platform === "win32" });
  return { ...outcome, words: withoutAddresses(outcome.words) };
}
