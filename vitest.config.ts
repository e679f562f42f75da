import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // Two cores; the browser and spreadsheet tests are heavy, so files run a few at a time.
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 120_000,
  },
});
