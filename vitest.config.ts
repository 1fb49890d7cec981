import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: [
      "engine/src/**/*.test.ts",
      "cli/src/**/*.test.ts",
      "app/src/**/*.test.ts",
      "scripts/**/*.test.ts",
      "cases/**/*.test.ts",
      "bench/**/*.test.ts",
    ],
    testTimeout: 30_000,
  },
});
