// @ts-check
/** Builds the app into `app/dist`, a static folder that any web host can serve whole. */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { CACHE, ROOT, runTool } from "./words.mjs";

/** The built app. */
export const DIST = join(ROOT, "app", "dist");
const STAMP = join(CACHE, "build.txt");
/** What the built app is made from. */
const SOURCES = ["engine", "app", "cases", "package-lock.json", "tsconfig.base.json", "scripts/schema.ts"];
const LEFT_OUT = new Set(["node_modules", "dist", "tests", "test-results"]);

/**
 * @param {string} path
 * @returns {string[]} the files at or under it, in one order on every machine
 */
function filesUnder(path) {
  if (!existsSync(path)) return [];
  const entries = readdirSync(path, { withFileTypes: true }).toSorted((a, b) => (a.name < b.name ? -1 : 1));
  return entries.flatMap((entry) => {
    if (LEFT_OUT.has(entry.name)) return [];
    const inner = join(path, entry.name);
    return entry.isDirectory() ? filesUnder(inner) : [inner];
  });
}

/** @returns {string} one hash of every source's place and bytes */
function sourcesHash() {
  const hash = createHash("sha256");
  for (const source of SOURCES) {
    const path = join(ROOT, source);
    const files = /\.\w+$/.test(source) ? [path] : filesUnder(path);
    for (const file of files)
      hash
        .update(`${relative(ROOT, file)}\0`)
        .update(readFileSync(file))
        .update("\0");
  }
  return hash.digest("hex");
}

/** @returns {boolean} whether `app/dist` was built from the sources as they stand */
export function isBuilt() {
  return (
    existsSync(join(DIST, "index.html")) && existsSync(STAMP) && readFileSync(STAMP, "utf8") === sourcesHash()
  );
}

/**
 * Builds, and publishes the show file's JSON Schema with the app.
 * @returns {Promise<import("./words.mjs").Outcome>} of the step that failed, else of the build
 */
export async function build() {
  const hash = sourcesHash();
  rmSync(STAMP, { force: true });
  const app = join(ROOT, "app");
  const built = await runTool("vite/bin/vite.js", ["build"], { doing: "building the app", cwd: app });
  if (built.code !== 0) return built;
  const schema = await runTool("tsx/dist/cli.mjs", ["scripts/schema.ts", join(DIST, "show.schema.json")], {
    doing: "writing the show file's schema",
  });
  if (schema.code !== 0) return schema;
  mkdirSync(CACHE, { recursive: true });
  writeFileSync(STAMP, hash);
  return built;
}
