/**
 * Takes out of the spreadsheet, as it is bundled, what makes it slow. Of its calculation: every field of its objects is
 * defined by a call of a helper, and every text that is no number is read as a date, a time and a number anew wherever a
 * formula meets it. Of its drawing: it asks for a frame sixty times a second, also where there is nothing to draw.
 */
import { readFile } from "node:fs/promises";

const CALCULATION = /@univerjs[\\/]engine-formula[\\/]lib[\\/]es[\\/]index\.js$/;

// None of its classes has a field where one that it extends has an accessor: to set it is to define it.
const FIELD = /\b_defineProperty\(this, "([A-Za-z_$][\w$]*)", /g;

const READ = "const parseData = getNumfmtParseValueFilter(_input);";
const NO_NUMBER = "return { isNumberPattern: false };";
const MOST_TEXTS = 100_000;

const DRAWING = /@univerjs[\\/]engine-render[\\/]lib[\\/]es[\\/]index\.js$/;

// What is out of date became so through its layer, and a frame draws all of it. So the loop rests after each frame, and
// a layer starts it again; where that is while a frame is drawn, another one follows.
const FRAME = /("_renderFunction", \(timestamp\) => \{)/g;
const NEXT_FRAME =
  /if \(this\._renderFrameTasks\.length > 0\) this\._requestNewFrameHandler = \S+;\s+else this\._renderingQueueLaunched = false;/g;
const OUT_OF_DATE =
  /(makeDirty\(state = true\) \{\s+this\._dirty = state;)(?=\s+\/\*\*\s+\* parent is Scene)/g;

/** @type {import("esbuild").Plugin} */
export const leanSpreadsheet = {
  name: "lean-spreadsheet",
  setup({ onLoad }) {
    onLoad({ filter: CALCULATION }, async ({ path }) => {
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
    onLoad({ filter: DRAWING }, async ({ path }) => {
      const changes = [
        [FRAME, "$1 this._renderingQueueLaunched = false;"],
        [NEXT_FRAME, ""],
        [OUT_OF_DATE, "$1 if (state) this.scene.getEngine()?.startRenderLoop();"],
      ];
      let contents = await readFile(path, "utf8");
      for (const [from, to] of changes) {
        if (contents.match(from)?.length !== 1) throw new Error(`${path} draws in another way`);
        contents = contents.replace(from, to);
      }
      return { contents, loader: "js" };
    });
  },
};
