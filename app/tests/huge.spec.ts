import { type CDPSession, expect, test } from "@playwright/test";
import { settled } from "./hands.ts";

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** The thread's own time, microseconds: what the work took, however busy the machine was. */
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/** Records the browser's own account of what its threads did, until asked. */
async function watch(wire: CDPSession): Promise<() => Promise<readonly TraceEvent[]>> {
  const events: TraceEvent[] = [];
  wire.on("Tracing.dataCollected", ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  await wire.send("Tracing.start", {
    transferMode: "ReportEvents",
    traceConfig: {
      includedCategories: ["devtools.timeline", "disabled-by-default-devtools.timeline", "toplevel"],
    },
  });
  return async () => {
    const complete = new Promise((resolve) => wire.once("Tracing.tracingComplete", resolve));
    await wire.send("Tracing.end");
    await complete;
    return events;
  };
}

/** The longest task of the page's main thread, ms. */
function longestHold(events: readonly TraceEvent[]): number {
  const main = new Set(
    events
      .filter((event) => event.name === "thread_name" && event.args.name === "CrRendererMain")
      .map((event) => `${event.pid} ${event.tid}`),
  );
  const held = events.filter(
    (event) => event.ph === "X" && main.has(`${event.pid} ${event.tid}`) && event.tdur !== undefined,
  );
  expect(held.length, "the main thread was watched").toBeGreaterThan(100);
  return Math.max(...held.map((event) => event.tdur ?? 0)) / 1000;
}

/**
 * Ten thousand pieces, each a line of its own, opened as a file: answered, and meanwhile the main thread is
 * never held so long that a finger would notice.
 */
test("ten thousand pieces are read within ten seconds and the screen stays awake", async ({ page }) => {
  test.setTimeout(120_000);
  await page.goto("./#/mine/arrange");
  await page.getByRole("button", { name: "Begin my room" }).click();
  for (const [wall, length] of Object.entries({ "A-B": "40'", "B-C": "30'", "C-D": "40'", "D-A": "30'" })) {
    await page.getByRole("textbox", { name: `Wall ${wall}` }).fill(length);
  }
  await page.getByRole("button", { name: "Draw it" }).click();
  await settled(page, /4 walls/);
  await page.goto("./#/mine/arrange");
  const unwatch = await watch(await page.context().newCDPSession(page));
  const lines = Array.from(
    { length: 10_000 },
    (_, index) => `piece Crate ${index + 1}, 12" x 12" x 12"`,
  ).join("\n");
  const start = Date.now();
  await page
    .getByLabel("Open a file")
    .setInputFiles({ name: "crates.txt", mimeType: "text/plain", buffer: Buffer.from(lines) });
  await expect(page.getByText(/and 9960 more kinds/)).toBeVisible({ timeout: 60_000 });
  const seconds = (Date.now() - start) / 1000;
  const longest = longestHold(await unwatch());
  console.log(
    `ten thousand pieces: ${seconds.toFixed(1)} s, main thread held at most ${Math.round(longest)} ms`,
  );
  expect(seconds).toBeLessThan(10);
  expect(longest).toBeLessThan(200);
});
