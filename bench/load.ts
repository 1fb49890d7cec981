/**
 * The cold load of the built app on loopback: from asking for the address, in a browser that has never seen
 * it, until a nudge of a piece is accepted and its snags are shown. Median of seven. Build first (`npm start`
 * does). The ratio is against the same browser loading react-dom alone from the same server.
 */
import { existsSync, readFileSync } from "node:fs";
import { chromium, type Browser, type Page } from "@playwright/test";
import { preview } from "vite";
import type { BenchResult } from "./result.ts";

const ROOT = new URL("..", import.meta.url);
const RUNS = 7;
const BOUND = 1.5;

export async function run(): Promise<readonly BenchResult[]> {
  const built = new URL("app/dist/index.html", ROOT);
  if (!existsSync(built)) throw new Error("the app is not built: npm start builds it");
  const server = await preview({
    root: new URL("app", ROOT).pathname,
    logLevel: "silent",
    preview: { host: "127.0.0.1", port: 4321 },
  });
  const address = server.resolvedUrls?.local[0] ?? "";
  const browser = await chromium.launch({
    executablePath: browserPath(),
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
  });
  try {
    const app: number[] = [];
    const bare: number[] = [];
    for (let turn = 0; turn < RUNS; turn++) {
      app.push(await nudged(browser, address));
      bare.push(await bareReact(browser, address));
    }
    const seconds = median(app);
    return [
      {
        instance: "cold load until a nudge is judged",
        value: seconds,
        bound: BOUND,
        seconds,
        ratio: seconds / median(bare),
      },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
}

function browserPath(): string {
  const found = new URL(".cache/browser.json", ROOT);
  return existsSync(found)
    ? (JSON.parse(readFileSync(found, "utf8")) as { readonly path: string }).path
    : "/usr/bin/chromium";
}

/** Seconds until the nudge's own derivation is on the screen. */
async function nudged(browser: Browser, address: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const start = performance.now();
  await page.goto(address, { waitUntil: "commit" });
  // Asked at every frame: a locator's own waiting looks again only after up to half a second.
  await seen(page, `document.querySelector('[data-piece="Trunk 2"]')`);
  await page.evaluate(`document.querySelector('[data-piece="Trunk 2"]').focus()`);
  await page.keyboard.press("ArrowRight");
  // The nudge is in the document, and what is drawn and judged has caught up with it.
  await seen(page, `document.querySelector('[data-behind="0"][data-undo="Move Trunk 2"]')`);
  const seconds = (performance.now() - start) / 1000;
  await context.close();
  return seconds;
}

/** Waits, frame by frame, until an expression in the page holds. */
async function seen(page: Page, expression: string): Promise<void> {
  await page.waitForFunction(expression, undefined, { polling: "raf" });
}

/** Seconds for the browser to load and run react-dom alone, served as a page of its own. */
async function bareReact(browser: Browser, address: string): Promise<number> {
  const context = await browser.newContext();
  const page = await context.newPage();
  const library = readFileSync(
    new URL("node_modules/react-dom/cjs/react-dom-client.production.js", ROOT),
    "utf8",
  );
  const body = `<!doctype html><title>bare</title><script>var exports={},module={exports};function require(){return {}};try{${library.replaceAll("</script>", "")}}catch{}</script>`;
  await page.route("**/bare.html", (route) => route.fulfill({ contentType: "text/html", body }));
  const start = performance.now();
  await page.goto(`${address}bare.html`, { waitUntil: "load" });
  const seconds = (performance.now() - start) / 1000;
  await context.close();
  return seconds;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
