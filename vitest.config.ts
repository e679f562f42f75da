import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import { nodeSpreadsheet } from "./tests/helpers/node-spreadsheet.js";

/** What takes long, the longest first: left to the end it would keep one worker while the others have nothing to do. */
const LONG = [
  ...["tests/workbench/", "tests/hosts/", "tests/excel/", "tests/taskpane/"],
  ...["tests/functions/working/", "tests/budgets/"],
];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const at = LONG.findIndex((folder) => moduleId.includes(folder));
      return at < 0 ? LONG.length : at;
    };
    return (await super.sort(files)).sort((one, other) => place(one) - place(other));
  }
}

export default defineConfig({
  resolve: { alias: await nodeSpreadsheet() },
  test: {
    include: ["tests/**/*.test.ts"],
    server: { deps: { external: [/\.cache\/node-spreadsheet\//] } },
    // Two cores; the browser and spreadsheet tests are heavy, so files run a few at a time.
    maxWorkers: 2,
    // Files share the modules that they load: a test leaves nothing behind in one.
    isolate: false,
    sequence: { sequencer: LongestFirst },
    // A stop for what hangs, not a bound: a sitting in the browser takes half of it where two files share two cores.
    testTimeout: 90_000,
    hookTimeout: 120_000,
  },
});
