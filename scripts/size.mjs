// @ts-check
/**
 * What the built app costs before its first paint, read from the built files themselves: the scripts of the
 * page and all they import, and the engine's worker the same way. Writers of PDF and 3-D must come later.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { parseAst } from "vite";
import { DIST } from "./build.mjs";

/** Bytes over the wire, gzipped. 1 kB is 1000 bytes. */
const SHELL_LIMIT = 230_000;
const WORKER_LIMIT = 250_000;
/** Words that only such a library holds, and that no minifier changes. */
const LATE = { PDF: "%PDF-", "3-D": "WebGLRenderer" };

/**
 * @typedef {{ ok: boolean, said: string }} Finding
 */

/**
 * @param {string} file a built script
 * @returns {string[]} the scripts it cannot start without
 */
function importsOf(file) {
  const program = parseAst(readFileSync(file, "utf8"));
  return program.body.flatMap((node) =>
    "source" in node &&
    node.source &&
    typeof node.source.value === "string" &&
    node.source.value.startsWith(".")
      ? [resolve(dirname(file), node.source.value)]
      : [],
  );
}

/**
 * @param {readonly string[]} entries
 * @returns {string[]} the entries and everything they import statically
 */
function loadedBy(entries) {
  const seen = new Set(entries);
  for (const file of seen) for (const next of importsOf(file)) seen.add(next);
  return [...seen];
}

/** @param {readonly string[]} files */
const gzipped = (files) => files.reduce((sum, file) => sum + gzipSync(readFileSync(file)).length, 0);

/**
 * @param {readonly string[]} files
 * @param {string} word
 */
const holds = (files, word) => files.some((file) => readFileSync(file, "utf8").includes(word));

/** @returns {string[]} the scripts the page names: to run, or to fetch ahead */
function shellEntries() {
  const page = readFileSync(join(DIST, "index.html"), "utf8");
  const tags = page.match(/<(?:script|link)\b[^>]*>/g) ?? [];
  return tags.flatMap((tag) => {
    if (tag.startsWith("<link") && !tag.includes("modulepreload")) return [];
    const place = /\b(?:src|href)="([^"]+\.js)"/.exec(tag)?.[1];
    return place && !/^\w+:/.test(place) ? [join(DIST, place)] : [];
  });
}

/** @param {number} bytes */
const kB = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;

/**
 * @param {string} name
 * @param {readonly string[]} files
 * @param {number} limit
 * @returns {Finding}
 */
function weighed(name, files, limit) {
  const bytes = gzipped(files);
  const said = `${name}: ${kB(bytes)} gzipped in ${files.length} files, at most ${kB(limit)}`;
  return { ok: files.length > 0 && bytes <= limit, said };
}

/**
 * Weighs the built app. A build without a page, a shell or a worker is found wanting, never passed.
 * @returns {Finding[]}
 */
export function weigh() {
  if (!existsSync(join(DIST, "index.html"))) return [{ ok: false, said: "app/dist holds no page" }];
  const shell = loadedBy(shellEntries());
  const assets = join(DIST, "assets");
  const scripts = existsSync(assets)
    ? readdirSync(assets)
        .filter((file) => file.endsWith(".js"))
        .map((file) => join(assets, file))
    : [];
  const workers = scripts.filter((file) => /worker/i.test(basename(file))).map((file) => loadedBy([file]));
  const heaviest = workers.toSorted((a, b) => gzipped(b) - gzipped(a))[0] ?? [];
  const early = [...shell, ...workers.flat()];
  // What is nowhere at all is not late but lost; 3-D may be absent, the PDF writer may not.
  const pdfLate = !holds(early, LATE.PDF) && holds(scripts, LATE.PDF);
  const modelLate = !holds(early, LATE["3-D"]);
  return [
    weighed("shell", shell, SHELL_LIMIT),
    weighed("engine worker", heaviest, WORKER_LIMIT),
    { ok: pdfLate, said: "the PDF writer loads only when it is asked for" },
    { ok: modelLate, said: "nothing of 3-D loads before it is asked for" },
  ];
}
