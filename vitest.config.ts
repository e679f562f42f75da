import { defineConfig } from "vitest/config";
import { nodeSpreadsheet } from "./tests/helpers/node-spreadsheet.js";

export default defineConfig({
  resolve: { alias: await nodeSpreadsheet() },
  test: {
    include: ["tests/**/*.test.ts"],
    server: { deps: { external: [/\.cache\/node-spreadsheet\//] } },
    // Two cores; the browser and spreadsheet tests are heavy, so files run a few at a time.
    maxWorkers: 2,
    // Files share the modules that they load: a test leaves nothing behind in one.
    isolate: false,
    // A stop for what hangs, not a bound: a sitting in the browser takes half of it where two files share two cores.
    testTimeout: 90_000,
    hookTimeout: 120_000,
  },
});
