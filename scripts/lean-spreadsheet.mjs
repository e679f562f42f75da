/**
 * Takes out of the spreadsheet's calculation, as it is bundled, what makes it slow: every field of its objects is
 * defined by a call of a helper, and every text that is no number is read as a date, a time and a number anew wherever a
 * formula meets it.
 */
import { readFile } from "node:fs/promises";

const FILE = /@univerjs[\\/]engine-formula[\\/]lib[\\/]es[\\/]index\.js$/;

// None of its classes has a field where one that it extends has an accessor: to set it is to define it.
const FIELD = /\b_defineProperty\(this, "([A-Za-z_$][\w$]*)", /g;

const READ = "const parseData = getNumfmtParseValueFilter(_input);";
const NO_NUMBER = "return { isNumberPattern: false };";
const MOST_TEXTS = 100_000;

/** @type {import("esbuild").Plugin} */
export const leanSpreadsheet = {
  name: "lean-spreadsheet",
  setup({ onLoad }) {
    onLoad({ filter: FILE }, async ({ path }) => {
      const text = (await readFile(path, "utf8")).replace(FIELD, "(this.$1 = ");
      const [before, after, ...more] = text.split(READ);
      if (more.length > 0 || !after?.includes(NO_NUMBER))
        throw new Error(`${path} reads texts in another way`);
      const kept = `if (texts.size >= ${MOST_TEXTS}) texts.clear(); texts.add(_input); ${NO_NUMBER}`;
      return {
        contents: `const texts = new Set();\n${before}if (texts.has(_input)) ${NO_NUMBER}\n${READ}${after.replace(NO_NUMBER, kept)}`,
        loader: "js",
      };
    });
  },
};
