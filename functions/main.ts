/**
 * The functions script: the engine, the catalogue and the runner as one classic script that runs before anything else on
 * the page. It registers the cell functions where a spreadsheet waits for them and publishes its module to the pane.
 */
import * as downfeed from "./downfeed.js";
import { evaluateInExcel, registerInExcel } from "./registrations/excel.js";

const evaluate = registerInExcel() ? evaluateInExcel : downfeed.evaluate;

Object.defineProperty(globalThis, "Downfeed", {
  // The pane explains what the cells show, so it reads blank cells as they do.
  value: Object.freeze({ ...downfeed, evaluate }),
  enumerable: true,
});
