import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // Two cores; the browser and spreadsheet tests are heavy, so files run a few at a time.
    maxWorkers: 2,
    // A stop for what hangs, not a bound: a sitting in the browser takes half of it where two files share two cores.
    testTimeout: 90_000,
    hookTimeout: 120_000,
  },
});
