import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { defineConfig } from "@playwright/test";

const PORT = Number(process.env["CORNERWISE_PORT"] ?? 4199);
const ADDRESS = `http://127.0.0.1:${PORT}/`;

/** The browser that set-up found, else what the person named, else where Debian puts it. */
function browserPath(): string {
  const found = resolve(import.meta.dirname, "../.cache/browser.json");
  if (existsSync(found)) return (JSON.parse(readFileSync(found, "utf8")) as { readonly path: string }).path;
  return process.env["CORNERWISE_CHROMIUM"] ?? "/usr/bin/chromium";
}

const ALONE = /(?:huge|store)\.spec\.ts$/;

/** A person's tasks in a real browser, on the built app. Build first. */
export default defineConfig({
  testDir: "tests",
  workers: 2,
  retries: 0,
  fullyParallel: true,
  forbidOnly: true,
  // What watches how long the screen is held runs by itself, when the tasks are done.
  projects: [
    { name: "tasks", testIgnore: ALONE },
    { name: "alone", testMatch: ALONE, dependencies: ["tasks"], workers: 1 },
  ],
  use: {
    baseURL: ADDRESS,
    actionTimeout: 15_000,
    launchOptions: {
      executablePath: browserPath(),
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-background-networking",
        "--no-first-run",
        "--disable-component-update",
        "--disable-sync",
      ],
    },
  },
  webServer: {
    command: `npx --no vite preview --host 127.0.0.1 --port ${PORT} --strictPort`,
    cwd: import.meta.dirname,
    url: ADDRESS,
    reuseExistingServer: false,
  },
});
