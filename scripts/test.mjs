// @ts-check
/**
 * The whole truth: types, lint, format, unit tests, the built app, its size, the browser tasks. Goes on after
 * a failing step, names what failed, and ends with `N passed, N failed` alone on the last line.
 */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { recordedBrowser } from "./browser.mjs";
import { build, isBuilt } from "./build.mjs";
import { weigh } from "./size.mjs";
import { close, count, countPlaywright, countVitest, newTally } from "./tally.mjs";
import { ROOT, runTool, say } from "./words.mjs";

const TYPES = ["engine/tsconfig.pure.json", "engine", "tsconfig.json", "cli", "app", "scripts"];
const BROWSER_TASKS = "app/playwright.config.ts";

const tally = newTally();

for (const project of TYPES)
  await count(tally, `types of ${project}`, () =>
    runTool("typescript/bin/tsc", ["-p", project], { doing: "checking types" }),
  );
await count(tally, "lint", () => runTool("oxlint/bin/oxlint", ["--type-aware"], { doing: "linting" }));
await count(tally, "format", () =>
  runTool("oxfmt/bin/oxfmt", ["--check", "."], { doing: "checking format" }),
);
say("… unit tests");
await countVitest(tally, "unit tests", []);
await count(tally, "build of the app", build);
for (const { ok, said } of isBuilt() ? weigh() : [{ ok: false, said: "sizes: the app is not built" }])
  await count(tally, said, async () => ({ code: ok ? 0 : 1, words: "", seconds: "0.0" }));
await browserTasks();
close(tally);

/** The tasks a person does, in a real browser. Without a browser or without tasks that is a failure. */
async function browserTasks() {
  const browser = recordedBrowser();
  if (!browser) tally.failed.push("browser tasks: no browser; run node scripts/setup.mjs --browser");
  else if (!existsSync(join(ROOT, BROWSER_TASKS))) tally.failed.push(`browser tasks: no ${BROWSER_TASKS}`);
  else {
    say("… browser tasks");
    await countPlaywright(tally, "browser tasks", ["-c", BROWSER_TASKS], {
      ...browser.env,
      CORNERWISE_CHROMIUM: browser.path,
    });
  }
}
