import { defineConfig } from "vitest/config";

/** The long simulations and fault runs: everything named `*.prove.ts`. */
export default defineConfig({
  test: { include: ["engine/src/**/*.prove.ts", "cli/src/**/*.prove.ts"], testTimeout: 1_200_000 },
});
