import { resolve } from "node:path";
import { expect, test, type Page } from "@playwright/test";
import { build, preview, type PreviewServer } from "vite";

/** The store in real tabs of a real browser: reloads, two tabs, a refusing browser, a very large show. */
let server: PreviewServer;
let address: string;

test.describe.configure({ mode: "serial" });

test.beforeAll(async () => {
  test.setTimeout(60_000);
  const root = resolve(import.meta.dirname, "store-page");
  const outDir = test.info().outputPath("store-page");
  const plain = { configFile: false, root, logLevel: "error" } as const;
  await build({
    ...plain,
    base: "./",
    build: { outDir, emptyOutDir: true, target: "es2023" },
    worker: { format: "es" },
  });
  server = await preview({ ...plain, build: { outDir }, preview: { host: "127.0.0.1", port: 0 } });
  address = server.resolvedUrls?.local[0] ?? "";
});

test.afterAll(() => server.close());

async function openMine(page: Page): Promise<void> {
  await page.goto(address);
  await opened(page);
}

async function opened(page: Page): Promise<void> {
  await page.waitForFunction(() => "store" in window);
  await page.evaluate(() => window.store.open("mine"));
}

function named(page: Page): Promise<string | undefined> {
  return page.evaluate(() => window.store.useShow.getState().document.shows["show"]?.name);
}

function rename(page: Page, name: string): Promise<void> {
  return page.evaluate((to) => {
    const { document } = window.store.useShow.getState();
    const show = { ...(document.shows["show"] ?? window.engine.EMPTY_SHOW), name: to };
    return window.store.perform({
      label: `Call it ${to}`,
      edits: window.engine.put(document, "shows", show),
    });
  }, name);
}

test("what was said and the undo list are there after a reload and in a later visit", async ({
  page,
  context,
}) => {
  await openMine(page);
  for (const name of ["Ferry", "Pier", "Quay"]) await rename(page, name);
  await page.evaluate(() => window.store.undo());
  await page.evaluate(() => window.store.settled());
  await page.reload();
  await opened(page);
  expect(await named(page)).toBe("Pier");
  expect(await page.evaluate(() => window.store.keptWords(window.store.useShow.getState().kept))).toMatch(
    /^kept on this device since \d/,
  );
  await page.evaluate(() => window.store.redo());
  expect(await named(page)).toBe("Quay");
  await page.evaluate(() => window.store.settled());
  await page.close();

  const later = await context.newPage();
  await openMine(later);
  expect(await later.evaluate(() => window.store.useShow.getState().undoLabel)).toBe("Call it Quay");
  for (let i = 0; i < 3; i++) await later.evaluate(() => window.store.undo());
  expect(await named(later)).toBeUndefined();
  expect(await later.evaluate(() => window.store.useShow.getState().undoLabel)).toBeUndefined();
});

test("a change is kept although the tab goes at once after the word that it is", async ({ page }) => {
  await openMine(page);
  await rename(page, "Ferry");
  await page.waitForFunction(() => window.store.useShow.getState().kept.kind === "kept");
  await page.reload();
  await opened(page);
  expect(await named(page)).toBe("Ferry");
});

test("two tabs are one, and each undoes its own", async ({ page, context }) => {
  await openMine(page);
  await rename(page, "Ferry");
  const other = await context.newPage();
  await openMine(other);
  await expect.poll(() => named(other)).toBe("Ferry");
  // The other tab has done nothing that it could undo.
  expect(await other.evaluate(() => window.store.useShow.getState().undoLabel)).toBeUndefined();
  await rename(other, "Pier");
  await expect.poll(() => named(page)).toBe("Pier");
  const outcome = await page.evaluate(() => window.store.undo());
  expect(outcome?.done).toEqual([]);
  expect(await page.evaluate(() => window.store.useShow.getState().skipped.length)).toBeGreaterThan(0);
  expect(await named(page)).toBe("Pier");
  await other.evaluate(() => window.store.undo());
  await expect.poll(() => named(page)).toBe("Ferry");
});

test("a browser that stores nothing still works and says that nothing is kept", async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, "indexedDB", {
      value: {
        open: () => {
          throw new DOMException("storing is switched off", "SecurityError");
        },
      },
    });
  });
  await openMine(page);
  await rename(page, "Ferry");
  expect(await named(page)).toBe("Ferry");
  expect(await page.evaluate(() => window.store.keptWords(window.store.useShow.getState().kept))).toMatch(
    /^not kept/,
  );
});

test("ten thousand pieces are taken on, kept and undone without holding the screen 200 ms", async ({
  page,
  browser,
}) => {
  test.setTimeout(120_000);
  await openMine(page);
  await browser.startTracing(page, { categories: ["toplevel"] });
  const events = await page.evaluate(async () => {
    const { document } = window.store.useShow.getState();
    const still = {
      order: 0,
      shape: "box",
      x: 0,
      y: 0,
      z: 0,
      turn: 0,
      width: 100,
      depth: 100,
      height: 100,
    } as const;
    const plate = { layer: "accessory", count: 1, sits: false } as const;
    const edits: Parameters<typeof window.store.perform>[0]["edits"][number][] = [];
    for (let order = 0; order < 10_000; order++) {
      const id = `p${order}`;
      edits.push(...window.engine.put(document, "pieces", { id, name: `Plate ${order}`, order, ...plate }));
      edits.push(...window.engine.put(document, "solids", { id: `${id}.box`, piece: id, ...still }));
      if (order % 200 === 0) await new Promise((done) => setTimeout(done));
    }
    await window.store.perform({ label: "Add plates", edits });
    await window.store.settled();
    await window.store.undo();
    await window.store.settled();
    return edits.length;
  });
  const held = longestTask(await browser.stopTracing());
  test
    .info()
    .annotations.push({ type: `longest hold with ${events} edits, ms`, description: held.toFixed(0) });
  expect(held).toBeGreaterThan(0);
  expect(held).toBeLessThan(200);
  await page.reload();
  await opened(page);
  expect(await pieces(page)).toBe(0);
  await page.evaluate(() => window.store.redo());
  expect(await pieces(page)).toBe(10_000);
});

interface TraceEvent {
  readonly ph: string;
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/**
 * The longest task of any page's main thread in a trace, ms of the thread's own time, so that what else the
 * machine does just then does not decide. Format: Trace Event Format, Google, 2016.
 */
function longestTask(trace: Buffer): number {
  const { traceEvents } = JSON.parse(trace.toString()) as { readonly traceEvents: readonly TraceEvent[] };
  const thread = ({ pid, tid }: TraceEvent): string => `${pid}.${tid}`;
  const mains = traceEvents.filter(
    (event) => event.name === "thread_name" && event.args?.name === "CrRendererMain",
  );
  const main = new Set(mains.map(thread));
  const tasks = traceEvents.filter(
    (event) => event.ph === "X" && event.name.endsWith("RunTask") && main.has(thread(event)),
  );
  return tasks.reduce((most, { tdur = 0 }) => Math.max(most, tdur / 1000), 0);
}

function pieces(page: Page): Promise<number> {
  return page.evaluate(() => Object.keys(window.store.useShow.getState().document.pieces).length);
}
