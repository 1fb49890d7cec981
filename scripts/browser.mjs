// @ts-check
/**
 * A Chromium for the browser tests: one that is here, else Debian's package where this account may install
 * it, else a build from npm. What was found stands in `.cache/browser.json`, so that looking happens once.
 */
import { accessSync, constants, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";
import { CACHE, run, runNpm, say } from "./words.mjs";

const FOUND = join(CACHE, "browser.json");
const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const PLACES = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/snap/bin/chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];
const NPM_BUILD = { name: "@sparticuz/chromium", version: "147.0.0" };

/**
 * @typedef {object} Browser
 * @property {string} path the program
 * @property {string} version what it answered to `--version`
 * @property {Readonly<Record<string, string>>} env what must stand in its environment
 */

/**
 * The browser on record, if it is still there.
 * @returns {Browser | undefined}
 */
export function recordedBrowser() {
  if (!existsSync(FOUND)) return undefined;
  const browser = JSON.parse(readFileSync(FOUND, "utf8"));
  const wish = process.env["CORNERWISE_CHROMIUM"];
  if (wish && wish !== browser.path) return undefined;
  return typeof browser.path === "string" && existsSync(browser.path) ? browser : undefined;
}

/**
 * Whether it runs, asked of the program itself.
 * @param {string} path
 * @param {Readonly<Record<string, string>>} [env]
 * @returns {Promise<Browser | undefined>}
 */
async function answering(path, env = {}) {
  const outcome = await run(path, ["--version"], { doing: `asking ${path} its version`, env });
  const version = outcome.words.split("\n").find((line) => /\d+\.\d+\.\d+/.test(line));
  return outcome.code === 0 && version ? { path, version: version.trim(), env } : undefined;
}

/** @returns {string[]} every place where a Chromium stands on this machine, the person's own wish first */
function candidates() {
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter(Boolean);
  const onPath = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...PLACES].filter((path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

/** @returns {Promise<Browser | undefined>} */
async function here() {
  for (const path of candidates()) {
    const browser = await answering(path);
    if (browser) return browser;
  }
  return undefined;
}

/**
 * Debian's own package, where this account is root and apt-get is there.
 * @returns {Promise<Browser | undefined>}
 */
async function fromDebian() {
  if (process.getuid?.() !== 0 || !existsSync("/usr/bin/apt-get")) return undefined;
  say("Setting up: no Chromium here; installing Debian's package.");
  const env = { DEBIAN_FRONTEND: "noninteractive" };
  await run("apt-get", ["update"], { doing: "reading Debian's package lists", env });
  const args = ["install", "-y", "--no-install-recommends", "chromium"];
  const outcome = await run("apt-get", args, { doing: "installing chromium", env });
  if (outcome.code === 0) return here();
  say("Setting up: Debian's package could not be installed; trying the npm build.");
  return undefined;
}

/**
 * A build from npm, in the cache and never among the project's packages. It brings the libraries a bare
 * system lacks, and unpacks them when it is told that it runs where they are missing.
 * @returns {Promise<Browser | undefined>}
 */
async function fromNpm() {
  if (process.platform !== "linux") return undefined;
  say("Setting up: fetching a Chromium build from npm (66 MB), once.");
  const home = join(CACHE, "chromium");
  const unpacked = join(home, "unpacked");
  mkdirSync(unpacked, { recursive: true });
  const wanted = `${NPM_BUILD.name}@${NPM_BUILD.version}`;
  const args = [
    "install",
    "--prefix",
    home,
    "--no-save",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
    wanted,
  ];
  const outcome = await runNpm(args, "fetching Chromium");
  if (outcome.code !== 0) {
    say(outcome.words);
    return undefined;
  }
  process.env["AWS_EXECUTION_ENV"] = "AWS_Lambda_nodejs20.x";
  process.env["TMPDIR"] = unpacked;
  const folder = join(home, "node_modules", ...NPM_BUILD.name.split("/"));
  const entry = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")).exports["."];
  const main = typeof entry === "string" ? entry : (entry.import?.default ?? entry.import ?? entry.default);
  const { default: chromium } = await import(pathToFileURL(join(folder, main)).href);
  const path = await chromium.executablePath();
  const libraries = process.env["LD_LIBRARY_PATH"];
  return answering(path, libraries ? { LD_LIBRARY_PATH: libraries } : {});
}

/**
 * Finds or fetches a browser and records it. Not finding one is a failure, said with the mend.
 * @returns {Promise<boolean>} whether one stands ready
 */
export async function findOrFetchBrowser() {
  if (recordedBrowser()) return true;
  const wish = process.env["CORNERWISE_CHROMIUM"];
  const browser = wish
    ? await answering(wish)
    : ((await here()) ?? (await fromDebian()) ?? (await fromNpm()));
  if (!browser) {
    say(
      wish
        ? `CORNERWISE_CHROMIUM names ${wish}, which does not run.`
        : "No Chromium was found or could be fetched.",
    );
    say("Mend: install Chromium or Chrome, or set CORNERWISE_CHROMIUM to where it is, and try again.");
    return false;
  }
  mkdirSync(CACHE, { recursive: true });
  writeFileSync(FOUND, `${JSON.stringify(browser, null, 2)}\n`);
  say(`Setting up: browser ready (${browser.version}).`);
  return true;
}
